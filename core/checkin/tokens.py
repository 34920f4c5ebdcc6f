"""A reply cut into numbers, known words and signs. Linear in the length of the text."""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from core.checkin.labels import without_labels
from core.checkin.phrases import rewritten
from core.checkin.sites import SITE_WORDS, SiteWord
from core.checkin.words import LONGEST_PHRASE, MARKS, NUMBERS, Mark

_SIGNS = {
    "/": Mark.SLASH,
    "@": Mark.AT,
    "+": Mark.PLUS,
    "-": Mark.MINUS,
    ",": Mark.SPLIT,
    "&": Mark.SPLIT,
    "|": Mark.SPLIT,
    ":": Mark.FILLER,
    "=": Mark.FILLER,
    "~": Mark.FILLER,
    "?": Mark.QUESTION,
    "#": Mark.LB,
    **dict.fromkeys(".;!()[]\n", Mark.STOP),
}
_CHANGED = str.maketrans(
    {
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212", "-"),
        **dict.fromkeys("×✕✖✗*\u2a2f\u0445", "x"),
        **dict.fromkeys("'’\u2018`\u00b4", ""),
        **dict.fromkeys('“”„"', " "),
        **dict.fromkeys("\u2044\u2215÷", "/"),
        "\u060c": ",",
        "\u3001": ",",
        "\u066b": ".",
        **dict.fromkeys("•‣◦▪●∙", "\n"),
    }
)
_FRACTIONS = {"½": "5", "¼": "25", "¾": "75"}
_FRACTION = re.compile(r"(?<=\d) ?([½¼¾])")
_KEYCAPS = re.compile("(?:[0-9]\ufe0f?\u20e3)+")
_MINUTES = re.compile("(?<=\\d)['’\u2018\u2032\u00b4](?=[0-5]\\d(?!\\d))")
_GLUED = re.compile(r"(?<=\d)(kgs?|lbs?|s|sec)x(?=\d)|(bw)x(?=\d)")
_PIECE = re.compile(r"\d{1,3}:\d{2}(?!\d)|\d+(?:[.,]\d+)*|[^\W\d_]+|\n|\S")
_QUARTERS = ("5", "25", "75")
_MOST_DIGITS = 6
"""Longer numbers are words: an account, a telephone number."""

_MOST_PARTS = 30
"""More numbers joined by commas are no line of sets."""


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of a reply.

    Attributes:
        mark: What it stands for.
        text: As typed, folded.
        value: Of a number written out; None otherwise.
        place: Of a word for a site.
        apart: Of a number said in words, the two that may be meant instead: eighty, eight.
        spaced: True when a space comes before it.
    """

    mark: Mark
    text: str
    value: Decimal | None = None
    place: SiteWord | None = None
    spaced: bool = True
    apart: tuple[Decimal, Decimal] | None = None


def folded(text: str) -> str:
    """Return `text` in lower case without accents, with plain digits, dashes and signs, symbols left out."""
    text = _MINUTES.sub(":", _KEYCAPS.sub(_keycaps, text).replace("\U0001f51f", " 10 "))
    text = _FRACTION.sub(lambda found: f".{_FRACTIONS[found[1]]}", text)
    for sign, digits in _FRACTIONS.items():
        text = text.replace(sign, f"0.{digits}")
    plain = unicodedata.normalize("NFKD", text.translate(_CHANGED).casefold())
    return "".join(_plain_character(mark) for mark in plain).translate(_CHANGED)


def _plain_character(mark: str) -> str:
    if mark.isascii():
        return mark
    kind = unicodedata.category(mark)
    if kind == "Nd":
        return str(unicodedata.decimal(mark))
    if kind in ("Mn", "Me", "Cf"):
        return ""
    return " " if kind[0] in "SZC" and mark not in "×÷" else mark


def _keycaps(run: re.Match[str]) -> str:
    """Return a run of key caps: one number, or a number each where a row of three and more holds no nought."""
    digits = [sign for sign in run[0] if sign.isdigit()]
    return f"{' '.join(digits) if len(digits) > 2 and '0' not in digits else ''.join(digits)} "


def tokens_of(text: str, *, timed: bool = False) -> tuple[Token, ...]:
    """Return the tokens of a text, in order; phrases of several words are one token.

    Args:
        text: As typed.
        timed: True where sets are counted in seconds.
    """
    plain = rewritten(without_labels(folded(text)), timed=timed)
    line = _GLUED.sub(lambda glued: f"{glued[1] or glued[2]} x ", plain)
    pieces = [
        (match[0], match.start() == 0 or line[match.start() - 1].isspace()) for match in _PIECE.finditer(line)
    ]
    tokens: list[Token] = []
    at = 0
    while at < len(pieces):
        token, used = _next_token(pieces, at)
        tokens.append(token)
        at += used
    return tuple(tokens)


def _next_token(pieces: Sequence[tuple[str, bool]], at: int) -> tuple[Token, int]:
    piece, spaced = pieces[at]
    if piece[0].isdigit():
        return _number(piece, spaced), 1
    if piece in _SIGNS:
        return Token(_SIGNS[piece], piece, spaced=spaced), 1
    if not piece[0].isalpha():
        return Token(Mark.WORD, piece, spaced=spaced), 1
    for length in range(min(LONGEST_PHRASE, len(pieces) - at), 0, -1):
        phrase = " ".join(text for text, _ in pieces[at : at + length])
        token = known(phrase, spaced)
        if token is not None:
            return token, length
    return Token(Mark.WORD, piece, spaced=spaced), 1


def known(phrase: str, spaced: bool = True) -> Token | None:
    """Return the token of a known word or phrase; None when it is none of ours."""
    if phrase in SITE_WORDS:
        return Token(Mark.SITE, phrase, place=SITE_WORDS[phrase], spaced=spaced)
    if phrase in NUMBERS:
        value = Decimal(NUMBERS[phrase])
        apart = (value - value % 10, value % 10) if " " in phrase else None
        return Token(Mark.NUMBER, phrase, value=value, spaced=spaced, apart=apart)
    if phrase in MARKS:
        return Token(MARKS[phrase], phrase, spaced=spaced)
    return None


def _number(piece: str, spaced: bool) -> Token:
    if ":" in piece:
        minutes, seconds = piece.split(":")
        return Token(Mark.CLOCK, piece, value=Decimal(int(minutes) * 60 + int(seconds)), spaced=spaced)
    parts = re.split("[.,]", piece)
    if len(piece) > 2 and piece.isdigit() and piece.startswith("0"):
        return Token(Mark.WORD, piece, spaced=spaced)
    if len(parts) > _MOST_PARTS or max(len(part) for part in parts) > _MOST_DIGITS:
        return Token(Mark.WORD, piece, spaced=spaced)
    return Token(Mark.NUMBER, piece, spaced=spaced)


def first_number(token: Token) -> Decimal:
    """Return a number token as one number; the rest of a row is left out."""
    if token.value is not None:
        return token.value
    parts = re.split("[.,]", token.text)
    return Decimal(".".join(parts[:2]))


def split_number(token: Token, *, flipped: bool) -> tuple[Decimal, ...]:
    """Return what a number token says: `92,5` is one number, `8,7` and `8,8,8` are several.

    Args:
        token: A number, perhaps with marks inside.
        flipped: True for the other way to read its commas, where there is one: `92,5` as two numbers, `8,7` as one,
            `77,5,8,8` with a decimal first. A single point is always a decimal mark. Of a number said in words too:
            `eighty eight` as two.
    """
    if token.apart is not None and flipped:
        return token.apart
    if token.value is not None:
        return (token.value,)
    parts = re.split("[.,]", token.text)
    if len(parts) == 2 and ("." in token.text or _is_fraction(*parts) is not flipped):
        return (Decimal(".".join(parts)),)
    if len(parts) > 2 and flipped and starts_decimal(token):
        return (Decimal(".".join(parts[:2])), *(Decimal(part) for part in parts[2:]))
    return tuple(Decimal(part) for part in parts)


def starts_decimal(token: Token) -> bool:
    """Return whether a row of numbers may begin with a decimal: `77,5,8,8,8`."""
    parts = token.text.split(",")
    return len(parts) > 2 and parts[1] in _QUARTERS


def _is_fraction(whole: str, digits: str) -> bool:
    """Return whether digits after a comma are rather a fraction: halves to eighths, or nought as in `80,0`."""
    written = digits.rstrip("0")
    return written in (*_QUARTERS, "125", "375", "625", "875") or (not written and len(whole) > 1)
