"""Holidays and events as coaches type them."""

from datetime import date

import pytest

from core.checkin.season_words import EntryRead, event_read, holiday_read

TODAY = date(2026, 4, 15)


def read(name: str, first: str, last: str | None = None) -> EntryRead:
    return EntryRead(name=name, first=date.fromisoformat(first), last=date.fromisoformat(last or first))


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("20-31 July", read("", "2026-07-20", "2026-07-31")),
        ("3-10 May", read("", "2026-05-03", "2026-05-10")),
        ("Crete 3-10 May", read("Crete", "2026-05-03", "2026-05-10")),
        ("Easter rest 6 April 2027", read("Easter rest", "2027-04-06")),
        ("1 May", read("", "2026-05-01")),
        ("sometime", None),
        ("", None),
    ],
)
def test_a_holiday_is_days_with_or_without_a_name(text: str, found: EntryRead | None) -> None:
    assert holiday_read(text, TODAY) == found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("10k row 14 June", read("10k row", "2026-06-14")),
        ("10k row on 14 June", read("10k row", "2026-06-14")),
        ("10k row, 14 June 2027", read("10k row", "2027-06-14")),
        ("10k row on Sunday 14 June 2026", read("10k row", "2026-06-14")),
        ("Club day 2026-09-01", read("Club day", "2026-09-01")),
        ("14 June", read("", "2026-06-14")),
        ("on 14 June", read("", "2026-06-14")),
        ("10k row", None),
        ("10k row 14 June 2020", None),
    ],
)
def test_an_event_is_a_name_and_its_day(text: str, found: EntryRead | None) -> None:
    assert event_read(text, TODAY) == found
