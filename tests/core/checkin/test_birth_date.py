from datetime import date

import pytest

from core.checkin.birth_date import birth_date

TODAY = date(2026, 4, 6)

# Rows of our own.
READ = [
    ("2026-01-20", date(2026, 1, 20)),
    ("20 january 2026", date(2026, 1, 20)),
    ("20th of jan", date(2026, 1, 20)),
    ("on 20. jan.", date(2026, 1, 20)),
    ("3 dec", date(2025, 12, 3)),
    ("6 apr", TODAY),
    ("7 apr", date(2025, 4, 7)),
]
ASKED = [
    "20/01/2026",
    "3/4",
    "20",
    "yes",
    "20 foo",
    "31 feb",
    "2026-02-31",
    "2026-04-07",
    "2025-04-06",
    "20 january 2024",
    "7 apr 2026",
]


@pytest.mark.parametrize(("text", "expected"), READ)
def test_a_date_of_the_last_12_months_is_read(text: str, expected: date) -> None:
    assert birth_date(text, TODAY) == expected


@pytest.mark.parametrize("text", ASKED)
def test_what_could_be_two_dates_or_is_none_of_them_is_asked(text: str) -> None:
    assert birth_date(text, TODAY) is None
