"""How hard a message of ours is to read: Flesch-Kincaid grade, by textstat, of the sentences in it.

The measure is made for running text. Left out, since it is no sentence, or none of ours: markup and links; what is
fixed width (`code`, `pre`: what to type, tables); what somebody else wrote (between quotation marks); lines that are
mostly numbers (sets, loads, dates) or that have fewer than three words. A list item is a sentence of its own. Under
`FEWEST` words one long word decides the grade, so short messages are measured together.
"""

import re
from html import unescape

import textstat

FEWEST = 12
"""Fewest words that are measured alone."""
_FIXED = re.compile(r"<(pre|code)>.*?</\1>", re.DOTALL)
_TAG = re.compile(r"<[^>]+>")
_QUOTED = re.compile(r"“[^”]*”|\"[^\"\n]*\"")
_LINK = re.compile(r"https?://\S+|@\w+|/start \S+|/[a-z]+\b")
_WORD = re.compile(r"[^\W\d_]{2,}|\b[aI]\b")
_TOKEN = re.compile(r"\S+")


def sentences(html: str) -> list[str]:
    """The sentences of a message, one string for each line that is one."""
    text = _TAG.sub("", _FIXED.sub("it", html))
    text = _LINK.sub("it", _QUOTED.sub("it", unescape(text)))
    return [line for each in text.split("\n") if (line := _sentence(each))]


def _sentence(line: str) -> str:
    words, tokens = _WORD.findall(line), _TOKEN.findall(line)
    if len(words) < 3 or len(words) < 0.7 * len(tokens):
        return ""
    line = line.strip().lstrip("•·- ")
    return line if line[-1] in ".!?" else line.rstrip(":;,") + "."


def word_count(html: str) -> int:
    """How many words of a message are in sentences."""
    return sum(len(_WORD.findall(line)) for line in sentences(html))


def grade(*htmls: str) -> float:
    """The Flesch-Kincaid grade of one message, or of several together."""
    return float(textstat.flesch_kincaid_grade(" ".join(line for html in htmls for line in sentences(html))))


def fixed_lines(html: str) -> list[str]:
    """The lines of what is fixed width in a message."""
    return [unescape(line) for found in _FIXED.finditer(html) for line in _TAG.sub("", found[0]).split("\n")]
