"""A goal as it is typed: a line, and maybe a date: `deadlift 100 by 1 June`."""

import re
from datetime import date

from core.programme.date_cells import month_named
from core.value import Value

LONGEST = 200
"""Longest goal. [characters] Our proposal."""

_BY = re.compile(r"(.+?),?\s+(?:by|until|before)\s+(?:the\s+)?(\S.*)", re.IGNORECASE)
_DAY_FIRST = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?(?: of)?[ .]+([^\W\d_]{3,9})\.?(?:,? (\d{4}))?")
_MONTH_FIRST = re.compile(r"([^\W\d_]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?(?:,? (\d{4}))?")
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_POINTS = re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4})?")


class GoalRead(Value):
    """A goal as read.

    Attributes:
        text: What it is.
        by_on: Until when; None where no date was said.
        unread: What stands where a date should, and is none that can be read; then it must be asked.
    """

    text: str
    by_on: date | None = None
    unread: str | None = None


def goal_read(text: str, today: date) -> GoalRead:
    """Return the goal of a line. A date without a year is the next one; one whose day nobody can tell is not read."""
    words = " ".join(text.split())[:LONGEST]
    found = _BY.fullmatch(words)
    if found is None:
        return GoalRead(text=words)
    on = date_read(found[2], today)
    if on is not None:
        return GoalRead(text=found[1], by_on=on)
    dated = found[2][0].isdigit() or month_named(found[2].split()[0]) is not None
    return GoalRead(text=found[1], unread=found[2]) if dated else GoalRead(text=words)


def date_read(text: str, today: date) -> date | None:
    """Return a typed date to come: `1 June`, `June 1`, `1 June 2027`, `2027-06-01`, `1.6.2027`; None for others."""
    words = text.strip(" .!").casefold()
    if found := _ISO.fullmatch(words):
        return _dated(found[1], int(found[2]), found[3], today)
    if found := _DAY_FIRST.fullmatch(words):
        return _dated(found[3], month_named(found[2]), found[1], today)
    if found := _MONTH_FIRST.fullmatch(words):
        return _dated(found[3], month_named(found[1]), found[2], today)
    if found := _POINTS.fullmatch(text.strip()):
        return _dated(found[3], int(found[2]), found[1], today)
    return None


def _dated(year: str | None, month: int | None, day: str, today: date) -> date | None:
    for each in (int(year),) if year else range(today.year, today.year + 5):
        try:
            on = date(each, month or 0, int(day))
        except ValueError:
            continue
        if on >= today:
            return on
    return None
