"""The date of a birth in the last 12 months, as people type it."""

import re
from datetime import date, timedelta

YEAR = timedelta(days=365)
"""How far back a date is believed. Our proposal: 12 months."""

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_NAMED = re.compile(r"(?:on )?(\d{1,2})(?:st|nd|rd|th)?\.? (?:of )?([a-z]{3,9})\.?,?(?: (\d{4}))?")


def birth_date(text: str, today: date) -> date | None:
    """Return the date in `2026-01-20`, `20 January 2026` or `20 Jan`, of the last 12 months.

    Without a year it is the newest such date that is over. None when it is no date, not over yet, or longer ago:
    numbers alone, such as `3/4`, could be two dates and are not read.

    Args:
        text: As typed, in lower case.
        today: The client's date.
    """
    found = _ISO.fullmatch(text)
    if found is not None:
        return _of_the_year(_date(int(found[1]), int(found[2]), int(found[3])), today)
    found = _NAMED.fullmatch(text)
    month = _MONTHS.index(found[2][:3]) + 1 if found is not None and found[2][:3] in _MONTHS else 0
    if found is None or not month:
        return None
    years = [int(found[3])] if found[3] else [today.year, today.year - 1]
    dates = [_of_the_year(_date(year, month, int(found[1])), today) for year in years]
    return next((each for each in dates if each is not None), None)


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _of_the_year(on: date | None, today: date) -> date | None:
    return on if on is not None and today - YEAR < on <= today else None
