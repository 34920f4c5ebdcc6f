"""What may stand in each cell of a session's row, read one cell at a time.

Every function takes a cell that holds something and returns a value, or raises `UnreadError` with a code and
facts. Ambiguity is a problem, never a guess.
"""

import re
from datetime import date
from decimal import Decimal

from core.programme.problems import Code
from core.programme.sheets import Cell, CellKind, UnreadError

LONGEST_REST_S = 1200
"""Longest rest between sets. [s] Our proposal."""
LONGEST_ADDRESS = 500
"""Longest address of a clip. [characters] Our proposal."""

_DASHES = str.maketrans(dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"))
_WEEKS = re.compile(r"(\d{1,2})(?: ?- ?(\d{1,2}))?")
_ORDER = re.compile(r"([A-Z])(\d{0,2})")
_TEMPO = re.compile(r"[0-9X]{3,4}")
_REST = re.compile(
    r"(?:(?P<min>\d{1,3}(?:[.,]\d{1,2})?) ?(?:m|mins?|minutes?))? ?(?:(?P<s>\d{1,4}) ?(?:s|secs?|seconds?))?"
)
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})")
_ADDRESS = re.compile(r"https?://[\w-]+(?:\.[\w-]+)+(?::\d{1,5})?(?:[/?#]\S*)?", re.IGNORECASE)
_SHEET_TIME = re.compile(r"(\d+):(\d{2}):(\d{2})")


def squeezed(text: str) -> str:
    """Return `text` in lower case with plain dashes and single spaces."""
    return " ".join(text.casefold().translate(_DASHES).split())


def typed(cell: Cell) -> str:
    """Return the text or number of a cell.

    Raises:
        UnreadError: It is a formula or an error, or the spreadsheet made a date or a time of it.
    """
    match cell.kind:
        case CellKind.FORMULA:
            raise UnreadError(Code.FORMULA, written=cell.text)
        case CellKind.ERROR:
            raise UnreadError(Code.CELL_ERROR, written=cell.text)
        case CellKind.DATE:
            raise UnreadError(Code.BECAME_DATE, written=cell.text, type=typed_before_date(cell.text))
        case CellKind.TIME:
            raise UnreadError(Code.BECAME_TIME, written=cell.text)
        case _:
            return cell.text


def typed_before_date(text: str) -> str:
    """Return the range that a spreadsheet most likely made the date `text` of.

    A range runs from fewer to more, so 8 October and 10 August both were `8-10`. A month with two digits over
    31, such as `8-32`, becomes the first of that month in the last century.
    """
    day = date.fromisoformat(text)
    if day.year < 2000:
        return f"{day.month}-{day.year % 100}"
    low, high = sorted((day.month, day.day))
    return f"{low}-{high}"


def text_in(cell: Cell, limit: int) -> str:
    """Return free text of at most `limit` characters."""
    text = typed(cell)
    if len(text) > limit:
        raise UnreadError(Code.TEXT_TOO_LONG, length=len(text), limit=limit)
    return text


def order_in(cell: Cell) -> str:
    """Return a place in the session: `A`, `B1`."""
    text = typed(cell).replace(" ", "").upper()
    if not _ORDER.fullmatch(text):
        raise UnreadError(Code.ORDER_UNREADABLE, written=cell.text)
    return text


def weeks_in(cell: Cell) -> frozenset[int]:
    """Return week numbers: `1-3`, `1, 3, 5`, `4`."""
    text = squeezed(typed(cell))
    if cell.kind is CellKind.NUMBER and not text.isdecimal():
        raise UnreadError(Code.WEEKS_BECAME_NUMBER, written=cell.text)
    weeks: set[int] = set()
    for part in re.split(r" ?[,;] ?", text):
        match = _WEEKS.fullmatch(part)
        if match is None:
            raise UnreadError(Code.WEEKS_UNREADABLE, written=cell.text)
        first, last = int(match[1]), int(match[2] or match[1])
        if last < first:
            raise UnreadError(Code.RANGE_BACKWARDS, written=part, type=f"{last}-{first}")
        weeks.update(range(first, last + 1))
    return frozenset(weeks)


def whole_in(cell: Cell, low: int, high: int, code: Code) -> int:
    """Return a whole number from `low` to `high`; `code` is the problem when it is none."""
    text = typed(cell)
    if not re.fullmatch(r"\d{1,4}(?:[.,]0+)?", text) or not low <= int(re.split("[.,]", text)[0]) <= high:
        raise UnreadError(code, written=text)
    return int(re.split("[.,]", text)[0])


def rest_in(cell: Cell) -> int:
    """Return a rest: `2 min`, `90 s`, `2:30`. [s]

    A spreadsheet makes 2 h 30 min of a typed `2:30`; no rest lasts hours, so that is read as 2 min 30 s.
    """
    if cell.kind is CellKind.TIME:
        return _rest_of_time(cell)
    text = squeezed(typed(cell))
    if re.fullmatch(r"\d{1,4}(?:[.,]\d{1,2})?", text):
        raise UnreadError(Code.REST_WITHOUT_UNIT, written=cell.text)
    clock, words = _CLOCK.fullmatch(text), _REST.fullmatch(text)
    if clock and int(clock[2]) < 60:
        seconds = Decimal(int(clock[1]) * 60 + int(clock[2]))
    elif words and text:
        seconds = Decimal((words["min"] or "0").replace(",", ".")) * 60 + Decimal(words["s"] or 0)
    else:
        raise UnreadError(Code.REST_UNREADABLE, written=cell.text)
    return _whole_rest(seconds, cell)


def _rest_of_time(cell: Cell) -> int:
    match = _SHEET_TIME.fullmatch(cell.text)
    if match is None:
        raise UnreadError(Code.BECAME_TIME, written=cell.text)
    hours, minutes, seconds = (int(part) for part in match.groups())
    if hours and not seconds:
        return _whole_rest(Decimal(hours * 60 + minutes), cell)
    if seconds and not hours:
        return _whole_rest(Decimal(minutes * 60 + seconds), cell)
    # Either `0:02` for two seconds or `0:02:00` for two minutes: two sensible readings.
    raise UnreadError(Code.BECAME_TIME, written=cell.text)


def _whole_rest(seconds: Decimal, cell: Cell) -> int:
    if seconds > LONGEST_REST_S or seconds != int(seconds):
        raise UnreadError(Code.REST_UNREADABLE, written=cell.text)
    return int(seconds)


def tempo_in(cell: Cell) -> str:
    """Return a tempo in trade notation, slow lowering first: `3110`, `30X1`, `301`."""
    if cell.kind is CellKind.DATE:
        raise UnreadError(Code.TEMPO_UNREADABLE, written=cell.text)
    text = squeezed(typed(cell)).upper().replace("-", "").replace(" ", "")
    if not _TEMPO.fullmatch(text):
        raise UnreadError(Code.TEMPO_UNREADABLE, written=cell.text)
    return text


def link_in(cell: Cell) -> str:
    """Return the address of a clip: the one behind the text, or the text itself."""
    address = cell.link or typed(cell)
    if not is_address(address):
        raise UnreadError(Code.LINK_UNREADABLE, written=address[:80])
    return address


def is_address(text: str) -> bool:
    """True for the address of a page, with its `https://`."""
    return len(text) <= LONGEST_ADDRESS and _ADDRESS.fullmatch(text) is not None
