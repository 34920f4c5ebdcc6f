"""Dates and spans of days as people type them: `3-10 May`, `until sunday`, `for two weeks`. English.

A date without a year is the next one. What could be two dates, such as `3/5`, is none.
"""

import re
from collections.abc import Sequence
from datetime import date, timedelta
from typing import NamedTuple

ONE_DAY, WEEK = timedelta(days=1), timedelta(days=7)
MOST_WORDS = 40
"""Words of a text that are looked at. Our proposal: who types more writes to somebody."""

_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)
_COUNTS = {
    **{name: number for number, name in enumerate(("one", "two", "three", "four", "five", "six"), 1)},
    "a": 1,
    "an": 1,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
}
_UNITS = {"day": 1, "days": 1, "night": 1, "nights": 1, "week": 7, "weeks": 7, "fortnight": 14}
_TO = ("-", "to", "until", "till", "til", "through")
_UNTIL = _TO[2:]
_ORDINAL = re.compile(r"(\d{1,2})(?:st|nd|rd|th)")
_ISO = re.compile(r"(\d{4})-(\d{2})-(\d{2})")
_DOTTED = re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4})?")
_PARTS = re.compile(
    r"\d{4}-\d{2}-\d{2}|\d{1,2}\.\d{1,2}\.(?:\d{4})?|\d+(?:st|nd|rd|th)?(?![\w.])|[^\W\d]+(?:'\w+)?|[-–—]|\S+"
)
_YEAR = re.compile(r"\d{4}")


class Span(NamedTuple):
    """Days in a row.

    Attributes:
        first: First day.
        last: Last day, the first or later.
        rest: Words that are not about the days.
    """

    first: date
    last: date
    rest: str = ""


class _Day(NamedTuple):
    """A day as it was named: a date, a day of the week, or a day of a month."""

    on: date | None = None
    weekday: int | None = None
    day: int | None = None
    month: int | None = None
    year: int | None = None
    is_bare: bool = False


def day_said(text: str, today: date, *, past: bool = False) -> date | None:
    """Return the day that a text names and nothing else; with `past` the last one before or today, else the next."""
    words = _words(text)
    found = _day_at(words, 0, today)
    if found is None or found[1] != len(words) or found[0].is_bare:
        return None
    return _before(found[0], today) if past else _after(found[0], today)


def days_said(text: str, today: date) -> Span | None:
    """Return the first span of days in a text, from today on, with the words beside it; None where there is none."""
    words = _words(text)
    for start in range(len(words)):
        found = _span_at(words, start, today)
        if found is not None:
            first, last, end = found
            return Span(first, last, " ".join((*words[:start], *words[end:])))
        named = _day_at(words, start + (words[start] in ("from", *_UNTIL)), today)
        if named is not None and not named[0].is_bare:
            return None  # a day that begins no span, or one that is over: what follows is no other span
    return None


def _words(text: str) -> list[str]:
    said = text.casefold().replace("’", "'")
    parts = (part if _DOTTED.fullmatch(part) else part.strip(" ,.;!?()") for part in _PARTS.findall(said))
    return ["-" if part in ("–", "—") else part for part in parts if part][:MOST_WORDS]


def _span_at(words: Sequence[str], start: int, today: date) -> tuple[date, date, int] | None:
    word = words[start]
    if word in _UNTIL:
        return _until(words, start + 1, today, today)
    if word == "for":
        return _lasting(words, start + 1, today)
    week = _week_at(words, start, today)
    if week is not None:
        return week
    begins = start + (word == "from")
    found = _day_at(words, begins, today)
    if found is None:
        return None
    named, end = found
    more = words[end] if end < len(words) else ""
    if more in _TO:
        return _range(named, words, end + 1, today)
    first = None if named.is_bare else _after(named, today)
    if first is None:
        return None
    if more == "for":
        return _lasting(words, end + 1, first)
    return None if begins > start else (first, first, end)


def _range(named: _Day, words: Sequence[str], start: int, today: date) -> tuple[date, date, int] | None:
    found = _day_at(words, start, today)
    if found is None:
        return None
    other, end = found
    if named.is_bare and other.month is not None and named.day is not None and other.day is not None:
        month = other.month if named.day <= other.day else (other.month - 2) % 12 + 1
        named = named._replace(month=month, year=other.year, is_bare=False)
    elif other.is_bare and named.month is not None:
        other = other._replace(is_bare=False)
    if named.is_bare or other.is_bare:
        return None
    first = _after(named, today)
    last = None if first is None else _after(other, first)
    return None if first is None or last is None else (first, last, end)


def _until(words: Sequence[str], start: int, first: date, today: date) -> tuple[date, date, int] | None:
    found = _day_at(words, start, today)
    last = None if found is None or found[0].is_bare else _after(found[0], first)
    return None if found is None or last is None else (first, last, found[1])


def _lasting(words: Sequence[str], start: int, first: date) -> tuple[date, date, int] | None:
    """Return `for a week`, `for 10 days` from a day on."""
    if len(words) < start + 2:
        return None
    count = (
        int(words[start]) if words[start].isdecimal() and len(words[start]) < 4 else _COUNTS.get(words[start])
    )
    unit = _UNITS.get(words[start + 1])
    if not count or unit is None:
        return None
    return first, first + ONE_DAY * (count * unit - 1), start + 2


def _week_at(words: Sequence[str], start: int, today: date) -> tuple[date, date, int] | None:
    """Return `this week`, `next week`, `this weekend`, `next weekend`."""
    if len(words) < start + 2 or words[start] not in ("this", "next", "the"):
        return None
    monday = today - ONE_DAY * today.weekday() + (WEEK if words[start] == "next" else timedelta())
    if words[start + 1] == "week" and words[start] != "the":
        return max(today, monday), monday + ONE_DAY * 6, start + 2
    if words[start + 1] == "weekend":
        return max(today, monday + ONE_DAY * 5), monday + ONE_DAY * 6, start + 2
    return None


def _day_at(words: Sequence[str], start: int, today: date) -> tuple[_Day, int] | None:
    """Return the day that is named from a word on, and the place of the word after it."""
    while start < len(words) and words[start] in ("the", "on"):
        start += 1
    if start >= len(words):
        return None
    word = words[start]
    near = {"today": 0, "tonight": 0, "tomorrow": 1, "yesterday": -1}.get(word)
    if near is not None:
        return _Day(on=today + ONE_DAY * near), start + 1
    whole = _ISO.fullmatch(word)
    if whole is not None:
        on = _date(int(whole[1]), int(whole[2]), int(whole[3]))
        return None if on is None else (_Day(on=on), start + 1)
    dotted = _DOTTED.fullmatch(word)
    if dotted is not None:
        year = int(dotted[3]) if dotted[3] else None
        return _checked(_Day(day=int(dotted[1]), month=int(dotted[2]), year=year), start + 1)
    if word == "next" and start + 1 < len(words):
        weekday = _one_of(words[start + 1], _DAYS)
        return None if weekday is None else (_Day(on=_coming(weekday, today + ONE_DAY)), start + 2)
    weekday = _one_of(word, _DAYS)
    if weekday is not None:
        dated = _of_month_at(words, start + 1)
        return dated if dated is not None and not dated[0].is_bare else (_Day(weekday=weekday), start + 1)
    return _of_month_at(words, start)


def _of_month_at(words: Sequence[str], start: int) -> tuple[_Day, int] | None:
    """Return `3 May`, `3rd of May 2027`, `May 3`, `the 3rd`, or a bare number that another day explains."""
    while start < len(words) and words[start] == "the":
        start += 1
    if start >= len(words):
        return None
    month = _one_of(words[start], _MONTHS)
    if month is not None:
        day = _number(words[start + 1]) if start + 1 < len(words) else None
        if day is None:
            return None
        return _with_year(_Day(day=day, month=month + 1), words, start + 2)
    day = _number(words[start])
    if day is None:
        return None
    end = start + 1 + (words[start + 1 : start + 2] == ["of"])
    month = _one_of(words[end], _MONTHS) if end < len(words) else None
    if month is not None:
        return _with_year(_Day(day=day, month=month + 1), words, end + 1)
    return _checked(_Day(day=day, is_bare=words[start].isdecimal()), start + 1)


def _with_year(named: _Day, words: Sequence[str], end: int) -> tuple[_Day, int] | None:
    if end < len(words) and _YEAR.fullmatch(words[end]):
        return _checked(named._replace(year=int(words[end])), end + 1)
    return _checked(named, end)


def _checked(named: _Day, end: int) -> tuple[_Day, int] | None:
    """Return a day of a month that there is, in a leap year at least."""
    there = named.day is not None and _date(named.year or 2024, named.month or 1, named.day) is not None
    return (named, end) if there else None


def _number(word: str) -> int | None:
    ordinal = _ORDINAL.fullmatch(word)
    if ordinal is not None:
        return int(ordinal[1])
    return int(word) if word.isdecimal() and len(word) < 3 else None


def _one_of(word: str, names: Sequence[str]) -> int | None:
    """Return the place of a name, written whole or by three letters and more."""
    bare = word.rstrip(".")
    if len(bare) < 3:
        return None
    return next((place for place, name in enumerate(names) if name.startswith(bare)), None)


def _after(named: _Day, first: date) -> date | None:
    """Return the first day so named on or after a date; None where what was named in full lies before it."""
    if named.on is not None:
        return named.on if named.on >= first else None
    if named.weekday is not None:
        return _coming(named.weekday, first)
    return min((on for on in _candidates(named, first) if on >= first), default=None)


def _before(named: _Day, last: date) -> date | None:
    """Return the last day so named on or before a date."""
    if named.on is not None:
        return named.on if named.on <= last else None
    if named.weekday is not None:
        return last - ONE_DAY * ((last.weekday() - named.weekday) % 7)
    return max((on for on in _candidates(named, last) if on <= last), default=None)


def _candidates(named: _Day, near: date) -> list[date]:
    years = (named.year,) if named.year is not None else range(near.year - 1, near.year + 5)
    months = (named.month,) if named.month is not None else range(1, 13)
    found = (_date(year, month, named.day or 0) for year in years for month in months)
    return [on for on in found if on is not None]


def _coming(weekday: int, first: date) -> date:
    return first + ONE_DAY * ((weekday - first.weekday()) % 7)


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
