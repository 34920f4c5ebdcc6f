from datetime import date

from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.checkin.day_spans import day_said, days_said

TODAY = date(2026, 4, 29)
"""A Wednesday."""


@each_row(
    ("typed", "expected"),
    [
        ("3-10 May", "2026-05-03 2026-05-10"),
        ("3–10 May 2027", "2027-05-03 2027-05-10"),
        ("3 May to 10 May dumbbells", "2026-05-03 2026-05-10 dumbbells"),
        ("3 may - 10", "2026-05-03 2026-05-10"),
        ("May 3 to May 10", "2026-05-03 2026-05-10"),
        ("from the 3rd of May until the 10th", "2026-05-03 2026-05-10"),
        ("from monday to friday", "2026-05-04 2026-05-08"),
        ("Sat, 2 May to Mon 4 May, hotel gym", "2026-05-02 2026-05-04 hotel gym"),
        ("28 dec - 4 jan", "2026-12-28 2027-01-04"),
        ("28-3 June", "2026-05-28 2026-06-03"),
        ("28-3 January", "2026-12-28 2027-01-03"),
        ("2026-05-03 to 2026-05-10", "2026-05-03 2026-05-10"),
        ("3.5.-10.5.", "2026-05-03 2026-05-10"),
        ("3.5.2026 until 10.5.2026 no training", "2026-05-03 2026-05-10 no training"),
        ("until sunday", "2026-04-29 2026-05-03"),
        ("till the 10th", "2026-04-29 2026-05-10"),
        ("until tomorrow", "2026-04-29 2026-04-30"),
        ("until next wednesday", "2026-04-29 2026-05-06"),
        ("in Tokyo until 10 May", "2026-04-29 2026-05-10 in tokyo"),
        ("tomorrow until sunday", "2026-04-30 2026-05-03"),
        ("from 3 May for a week", "2026-05-03 2026-05-09"),
        ("for two weeks", "2026-04-29 2026-05-12"),
        ("for 10 days with dumbbells", "2026-04-29 2026-05-08 with dumbbells"),
        ("I'm on holiday next week", "2026-05-04 2026-05-10 i'm on holiday"),
        ("away this week", "2026-04-29 2026-05-03 away"),
        ("away this weekend", "2026-05-02 2026-05-03 away"),
        ("Sunday the 3rd to Monday the 4th", "2026-05-03 2026-05-04"),
        ("away from home until sunday", "2026-04-29 2026-05-03 away from home"),
        ("the weekend", "2026-05-02 2026-05-03"),
        ("tomorrow", "2026-04-30 2026-04-30"),
        ("friday", "2026-05-01 2026-05-01"),
        ("wednesday", "2026-04-29 2026-04-29"),
        ("the 31st", "2026-05-31 2026-05-31"),
        ("29 February", "2028-02-29 2028-02-29"),
        ("away today and tomorrow", "2026-04-29 2026-04-29 away and tomorrow"),
    ],
)
def test_a_span_of_days_is_read_as_people_type_it(typed: str, expected: str) -> None:
    first, last, *rest = expected.split(" ", 2)

    assert days_said(typed, TODAY) == (date.fromisoformat(first), date.fromisoformat(last), *(rest or [""]))


@each_row(
    "typed",
    [
        "",
        "soon",
        "3/5 to 10/5",
        "3-10",
        "3 to 10",
        "until 10",
        "until",
        "until soon",
        "for",
        "for a",
        "for ages now",
        "for 0 days",
        "for 1000 days",
        "from",
        "from 3 to soon",
        "from monday to",
        "from monday",
        "31 February",
        "2026-02-30",
        "32 May",
        "99th",
        "May",
        "May the force",
        "the",
        "on the",
        "next",
        "next month",
        "this one",
        "the bar",
        "mo",
        "10 May 2025",
        "2025-05-10",
        "until 2026-04-01",
        "from 10 May 2026 to 3 May 2026",
        "10 reps at 60",
        "yesterday",
    ],
)
def test_what_names_no_days_or_could_be_others_is_none(typed: str) -> None:
    assert days_said(typed, TODAY) is None


@each_row(
    ("typed", "past", "expected"),
    [
        ("today", True, "2026-04-29"),
        ("yesterday", True, "2026-04-28"),
        ("monday", True, "2026-04-27"),
        ("wednesday", True, "2026-04-29"),
        ("the 28th", True, "2026-04-28"),
        ("30 April", True, "2025-04-30"),
        ("on Sunday 26 April", True, "2026-04-26"),
        ("tomorrow", True, None),
        ("1 May 2026", True, None),
        ("28", True, None),
        ("monday morning", True, None),
        ("", True, None),
        ("sunday", False, "2026-05-03"),
        ("Sun", False, "2026-05-03"),
        ("10 May", False, "2026-05-10"),
        ("yesterday", False, None),
    ],
)
def test_one_day_is_read_looking_back_or_ahead(typed: str, past: bool, expected: str | None) -> None:
    assert day_said(typed, TODAY, past=past) == (date.fromisoformat(expected) if expected else None)


@given(st.text(max_size=60), st.dates(date(2020, 1, 1), date(2040, 1, 1)))
def test_any_text_is_a_span_or_none_and_never_an_error(typed: str, today: date) -> None:
    found = days_said(typed, today)

    assert found is None or today <= found.first <= found.last


@given(st.dates(date(2026, 4, 29), date(2027, 4, 28)), st.integers(0, 300))
def test_every_pair_of_dates_is_read_back(first: date, days: int) -> None:
    last = date.fromordinal(first.toordinal() + days)

    assert days_said(f"{first:%-d %B %Y} to {last:%-d %B %Y}", TODAY) == (first, last, "")
    assert days_said(f"{first.isoformat()} - {last.isoformat()}", TODAY) == (first, last, "")
