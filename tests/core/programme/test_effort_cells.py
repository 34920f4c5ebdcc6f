from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.loads.effort import reps_left
from core.programme.effort_cells import Effort, effort_in, left_text, left_words
from core.programme.prescription import Dose, Rpe, Span
from core.programme.sheets import Cell, CellKind, UnreadError

EIGHT = Span(low=8, high=8)


def effort(text: str, kind: CellKind = CellKind.TEXT) -> Effort:
    return effort_in(Cell(2, 8, kind, text))


def rpe(low: str, high: str | None = None) -> Rpe:
    return Rpe(low=Decimal(low), high=Decimal(high or low))


EFFORTS = [
    ("2", Effort(2), "2", "2 left"),
    ("0", Effort(0), "0", "0 left"),
    ("2 left", Effort(2), "2", "2 left"),
    ("2 reps left", Effort(2), "2", "2 left"),
    ("3 RIR", Effort(3), "3", "3 left"),
    ("1-2", Effort(1, 2), "1-2", "1-2 left"),
    ("1 to 2 in reserve", Effort(1, 2), "1-2", "1-2 left"),
    ("2-2", Effort(2), "2", "2 left"),
    ("RPE 8", Effort(2, None, rpe("8")), "RPE 8", "RPE 8"),
    ("rpe8,5", Effort(1, None, rpe("8.5")), "RPE 8.5", "RPE 8.5"),
    ("RPE 7-8", Effort(2, 3, rpe("7", "8")), "RPE 7-8", "RPE 7-8"),
    ("8 RPE", Effort(2, None, rpe("8")), "RPE 8", "RPE 8"),
    ("RPE 6", Effort(4, None, rpe("6")), "RPE 6", "RPE 6"),
    ("RPE 9.5", Effort(0, None, rpe("9.5")), "RPE 9.5", "RPE 9.5"),
    ("RPE 9.5-10", Effort(0, None, rpe("9.5", "10")), "RPE 9.5-10", "RPE 9.5-10"),
]


@each_row(("text", "expected", "cell", "words"), EFFORTS)
def test_effort_is_read_and_comes_back_as_the_coach_wrote_it(
    text: str, expected: Effort, cell: str, words: str
) -> None:
    dose = Dose(sets=3, reps=EIGHT, left=expected.left, left_high=expected.left_high, rpe=expected.rpe)

    assert effort(text) == expected
    assert (left_text(dose), left_words(dose)) == (cell, words)
    assert effort(left_text(dose)) == expected


def test_no_effort_is_no_text() -> None:
    dose = Dose(sets=3, reps=EIGHT)

    assert (left_text(dose), left_words(dose)) == ("", "")


PROBLEMS = [
    ("6", "left_unreadable", {"written": "6"}),
    ("2-6", "left_unreadable", {"written": "2-6"}),
    ("some", "left_unreadable", {"written": "some"}),
    ("-1", "left_unreadable", {"written": "-1"}),
    ("RPE 11", "left_unreadable", {"written": "RPE 11"}),
    ("RPE 8.3", "left_unreadable", {"written": "RPE 8.3"}),
    ("RPE 8-8.3", "left_unreadable", {"written": "RPE 8-8.3"}),
    ("RPE 5.5", "rpe_too_low", {"written": "RPE 5.5"}),
    ("RPE 3-8", "rpe_too_low", {"written": "RPE 3-8"}),
    ("3-1", "range_backwards", {"written": "3-1", "type": "1-3"}),
    ("RPE 9-8", "range_backwards", {"written": "RPE 9-8", "type": "RPE 8-9"}),
]


@pytest.mark.parametrize(("text", "code", "facts"), PROBLEMS)
def test_what_says_no_effort_is_a_problem(text: str, code: str, facts: dict[str, object]) -> None:
    with pytest.raises(UnreadError) as caught:
        effort(text)

    assert (caught.value.code, caught.value.facts) == (code, facts)


def test_a_range_that_a_spreadsheet_made_a_date_of_is_named() -> None:
    with pytest.raises(UnreadError) as caught:
        effort("2026-02-01", CellKind.DATE)

    assert (caught.value.code, caught.value.facts["type"]) == ("became_date", "1-2")


@pytest.mark.parametrize("halves", range(12, 21))
def test_an_rpe_stands_for_the_reps_left_that_the_rules_reckon_with(halves: int) -> None:
    value = Decimal(halves) / 2
    known = reps_left(value)

    assert known is not None
    assert Rpe(low=value, high=value).left == (int(known.left), int(known.left))


@pytest.mark.parametrize(
    ("low", "high"), [("9", "8"), ("8.3", "9"), ("8", "8.7"), ("5.5", "8"), ("8", "10.5")]
)
def test_an_rpe_that_is_none_is_refused(low: str, high: str) -> None:
    with pytest.raises(ValueError, match=r"halves|greater than or equal|less than or equal"):
        rpe(low, high)


@given(st.text())
def test_any_text_is_an_effort_or_a_problem(text: str) -> None:
    try:
        found = effort(text)
    except UnreadError:
        return

    assert found.left is not None
    assert 0 <= found.left <= 5
