"""What spreadsheets make of a text: dates, times, errors, formulas; and how to keep them from it.

A csv has only texts: `8-10` that became a date stands in it as `10-Aug` or `08.10.2026`, as the machine writes dates.
"""

import re
from datetime import date

from core.programme.date_cells import month_named
from core.programme.sheets import CellKind

_NO_YEAR = 2000
_ISO = re.compile(r"(\d{4})-(\d{2})-(\d{2})(?:[ T]00:00(?::00)?)?")
_NUMBERS = re.compile(r"(\d{1,2})([./-])(\d{1,2})\2(\d{4}|\d{2})")
_DAY_MONTH = re.compile(r"(\d{1,2})(?:-|\. ?)([^\W\d_]{3,9})\.?(?:[- ]\d{2,4})?")
_MONTH_YEAR = re.compile(r"([^\W\d_]{3,4})\.?-(\d{2})")
_TIME = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}))?( ?[AP]M)?", re.IGNORECASE)
_ERROR = re.compile(r"#(?:N/A|REF!|VALUE!|NAME\?|NUM!|DIV/0!|NULL!)", re.IGNORECASE)

_CHANGED = re.compile(
    r"[=+\-@'].*"  # would be run, or taken for a mark of text
    r"|\d[\d ]*(?:[-/:.][\d ]+)+"  # would become a date, a time or a number
    r"|0\d+|\d{12,}"  # would lose digits
    r"|\d{1,2}[-./]+ ?[^\W\d_]{3,9}\.?|[^\W\d_]{3,9}[-./]+ ?\d{1,4}"  # a date with the month in letters
)


def guarded(text: str) -> str:
    """Return `text` with an apostrophe in front where a spreadsheet would run it or make something else of it."""
    return f"'{text}" if _is_changed(text) else text


def unguarded(text: str) -> str:
    """Return `text` without the apostrophe that `guarded` gave it; any other stays."""
    return text[1:] if text.startswith("'") and _is_changed(text[1:]) else text


def _is_changed(text: str) -> bool:
    return _CHANGED.fullmatch(text) is not None or kind_and_text(text)[0] is not CellKind.TEXT


def kind_and_text(text: str) -> tuple[CellKind, str]:
    """Return what a cell of a csv is, with its text as `core.programme.sheets` has it."""
    if text.startswith("="):
        return CellKind.FORMULA, text
    if _ERROR.fullmatch(text):
        return CellKind.ERROR, text
    day = _date_in(text)
    if day is not None:
        return CellKind.DATE, day.isoformat()
    clock = _TIME.fullmatch(text)
    if clock is not None and (clock[3] or clock[4]):
        return CellKind.TIME, f"{int(clock[1])}:{clock[2]}:{clock[3] or '00'}"
    return CellKind.TEXT, text


def _date_in(text: str) -> date | None:
    if match := _ISO.fullmatch(text):
        return _date(int(match[1]), int(match[2]), int(match[3]))
    if match := _NUMBERS.fullmatch(text):
        one, other, year = int(match[1]), int(match[3]), int(match[4])
        year += 0 if year >= 100 else 2000
        # Which of the two is the month does not matter: a range runs from fewer to more.
        return _date(year, other, one) or _date(year, one, other)
    if match := _DAY_MONTH.fullmatch(text):
        month = month_named(match[2])
        return _date(_NO_YEAR, month, int(match[1])) if month else None
    if match := _MONTH_YEAR.fullmatch(text):
        month = month_named(match[1])
        return _date(1900 + int(match[2]), month, 1) if month else None
    return None


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
