"""Bytes as text, and the text of a cell on one line."""

import codecs
import re

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_UNSEEN = re.compile("[\0-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffe\uffff]")
"""What no spreadsheet can hold."""
_WITHOUT_WIDTH = re.compile("[\u00ad\u200b\u2060\ufeff]")
"""Marks that come with texts that were copied, and that nobody sees."""


def text_of(content: bytes) -> str | None:
    """Return a file as text; None when it is none.

    By its mark at the start, else as UTF-8, else as cp1252, in which every other older file of a western machine can
    at least be read.
    """
    encoding = next((name for mark, name in _MARKS if content.startswith(mark)), None)
    for attempt in (encoding,) if encoding else ("utf-8", "cp1252"):
        try:
            text = content.decode(attempt)
        except UnicodeDecodeError:
            continue
        return None if "\0" in text else _UNSEEN.sub(" ", text)
    return None


def one_line(text: str) -> str:
    """Return the text of a cell with single spaces, without what cannot be seen."""
    return " ".join(_UNSEEN.sub(" ", _WITHOUT_WIDTH.sub("", text)).split())
