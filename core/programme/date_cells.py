"""What may stand in a Date cell: `2026-04-14`, `14 April 2026`, `14.4.2026`, or a spreadsheet's own date.

A date of which nobody can say which number is the day is a problem with both readings, never a guess.
"""

import re
import unicodedata
from datetime import date

from core.programme.grammar import typed
from core.programme.problems import Code
from core.programme.sheets import Cell, CellKind, UnreadError

_MONTHS = (
    ("jan", "ene", "gen"),
    ("feb", "fev"),
    ("mar", "mrz"),
    ("apr", "avr", "abr"),
    ("may", "mai", "mag", "maj", "mei"),
    ("jun", "giu"),
    ("jul", "lug"),
    ("aug", "ago", "aou"),
    ("sep", "set"),
    ("oct", "okt", "ott", "out"),
    ("nov",),
    ("dec", "dez", "des", "dic"),
)
"""Beginnings of the months' names in languages of western Europe."""

_CENTURY = 2000
_YEAR_FIRST = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?:[ T]00:00(?::00)?)?")
_YEAR_LAST = re.compile(r"(\d{1,2})([-/.]) ?(\d{1,2})\2 ?(\d{4}|\d{2})")
_DAY_MONTH = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?(?:[-/ ]|\. ?)([^\W\d_]{3,9})\.?,?[-/ ](\d{4}|\d{2})")
_MONTH_DAY = re.compile(r"([^\W\d_]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})")


def month_named(word: str) -> int | None:
    """Return the number of a month by how its name begins, in the languages that are known; None for other words."""
    apart = unicodedata.normalize("NFKD", word.casefold())
    start = "".join(mark for mark in apart if not unicodedata.combining(mark))[:3]
    return next((number for number, names in enumerate(_MONTHS, 1) if start in names), None)


def date_in(cell: Cell) -> date:
    """Return the date of a cell.

    A text file says more than the date that was made of it: there the text is read. With points between them the day
    comes first, from memory: every country that writes points does so. With strokes it may be either.

    Raises:
        UnreadError: It is no date with its year, or may be two.
    """
    if cell.kind is CellKind.DATE and cell.written is None:
        return date.fromisoformat(cell.text)
    text = cell.written or (cell.text if cell.kind is CellKind.TIME else typed(cell))
    readings = list(dict.fromkeys(_readings(text.strip())))
    if not readings:
        raise UnreadError(Code.DATE_UNREADABLE, written=text)
    if len(readings) > 1:
        first, second = (each.isoformat() for each in readings)
        raise UnreadError(Code.DATE_AMBIGUOUS, written=text, first=first, second=second)
    return readings[0]


def _readings(text: str) -> list[date]:
    """Return each date that a text may be: at most two."""
    if match := _YEAR_FIRST.fullmatch(text):
        return _dates((match[1], match[3], match[4]))
    if match := _YEAR_LAST.fullmatch(text):
        day_first, month_first = (match[4], match[3], match[1]), (match[4], match[1], match[3])
        return _dates(day_first) if match[2] == "." else _dates(day_first, month_first)
    if match := _DAY_MONTH.fullmatch(text):
        return _dates((match[3], str(month_named(match[2]) or 0), match[1]))
    if match := _MONTH_DAY.fullmatch(text):
        return _dates((match[3], str(month_named(match[1]) or 0), match[2]))
    return []


def _dates(*parts: tuple[str, str, str]) -> list[date]:
    """Return the dates that years, months and days make; none for what no calendar has."""
    found = []
    for each in parts:
        year, month, day = (int(part) for part in each)
        try:
            found.append(date(year + (_CENTURY if len(each[0]) == 2 else 0), month, day))
        except ValueError:
            continue
    return found
