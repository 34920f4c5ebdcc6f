from datetime import date

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from bot.files.spreadsheet_values import guarded, kind_and_text, unguarded
from core.programme.grammar import typed_before_date
from core.programme.sheets import CellKind

DATES = [
    ("10-Aug", "2000-08-10"),
    ("8-oct.", "2000-10-08"),
    ("08. Okt", "2000-10-08"),
    ("10-Aug-26", "2000-08-10"),
    ("Aug-32", "1932-08-01"),
    ("2026-10-08", "2026-10-08"),
    ("2026-10-08 00:00:00", "2026-10-08"),
    ("08.10.2026", "2026-10-08"),
    ("10/8/26", "2026-08-10"),
    ("12/15/2026", "2026-12-15"),
]


@pytest.mark.parametrize(("text", "iso"), DATES)
def test_a_date_that_a_spreadsheet_wrote_is_known_for_one(text: str, iso: str) -> None:
    assert kind_and_text(text) == (CellKind.DATE, iso)


@pytest.mark.parametrize("text", ["10-Aug", "08.10.2026", "10/8/26", "8-oct."])
def test_the_range_that_was_typed_is_known_from_the_date(text: str) -> None:
    assert typed_before_date(kind_and_text(text)[1]) == "8-10"


OTHERS = [
    ("2:30:00", CellKind.TIME, "2:30:00"),
    ("02:30 AM", CellKind.TIME, "2:30:00"),
    ("=5*12", CellKind.FORMULA, "=5*12"),
    ("#N/A", CellKind.ERROR, "#N/A"),
    ("#DIV/0!", CellKind.ERROR, "#DIV/0!"),
]


@pytest.mark.parametrize(("text", "kind", "value"), OTHERS)
def test_what_else_a_spreadsheet_wrote_is_known(text: str, kind: CellKind, value: str) -> None:
    assert kind_and_text(text) == (kind, value)


@pytest.mark.parametrize(
    "text",
    ["8-10", "2:30", "1, 3", "62,5 kg", "3 set", "45-Aug", "10-Pull", "32.13.2026", "Day-1", "30X1", "8"],
)
def test_what_a_coach_types_stays_text(text: str) -> None:
    assert kind_and_text(text) == (CellKind.TEXT, text)


GUARDED = [
    "=1+1",
    "+5 kg",
    "-20",
    "@home",
    "'so",
    "8-10",
    "1/2",
    "2:30",
    "10-Aug",
    "62.5",
    "0110",
    "#N/A",
    "8-oct.",
    "5 - 3",
]
UNTOUCHED = [
    "8",
    "3110",
    "30X1",
    "Push-up",
    "1-leg hinge",
    "bw-20 kg",
    "90 s",
    "#1",
    "8-10 a side",
    "10. Ribs down",
]


@pytest.mark.parametrize("text", GUARDED)
def test_what_a_spreadsheet_would_change_gets_an_apostrophe(text: str) -> None:
    assert guarded(text) == f"'{text}"


@pytest.mark.parametrize("text", UNTOUCHED)
def test_what_a_spreadsheet_leaves_alone_stays(text: str) -> None:
    assert guarded(text) == text


def test_an_apostrophe_of_the_coach_stays() -> None:
    assert unguarded("'Chest up' is the cue") == "'Chest up' is the cue"


@given(st.text(max_size=12) | st.from_regex(r"'{0,2}[=0-9:./ -]{1,8}", fullmatch=True))
@example("''8-10")
@example("10-Aug")
def test_guarding_loses_nothing(text: str) -> None:
    assert unguarded(guarded(text)) == text


@given(
    st.dates(date(2000, 1, 1), date(2099, 12, 31)),
    st.sampled_from(["%Y-%m-%d", "%d.%m.%Y", "%m/%d/%Y", "%d-%b"]),
)
def test_every_date_is_guarded(day: date, form: str) -> None:
    assert guarded(day.strftime(form)).startswith("'")
