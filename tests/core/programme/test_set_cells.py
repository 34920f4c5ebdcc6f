from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.programme.prescription import Dose, Span
from core.programme.set_cells import Sets, sets_in, sets_text
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.sheets import Cell, CellKind, UnreadError

UP, DOWN, PAUSED, CLUSTER = StyleKind.ASCENDING, StyleKind.DESCENDING, StyleKind.REST_PAUSE, StyleKind.CLUSTER


def sets(text: str, kind: CellKind = CellKind.TEXT) -> Sets:
    return sets_in(Cell(2, 5, kind, text))


SETS = [
    ("3", Sets(3), "3"),
    ("3.0", Sets(3), "3"),
    ("3 sets", Sets(3), "3"),
    ("3 straight sets", Sets(3), "3"),
    ("3 ascending", Sets(3, UP), "3 ascending"),
    ("4 Ascending sets", Sets(4, UP), "4 ascending"),
    ("1 + 2 descending", Sets(1, DOWN, 2), "1 + 2 descending"),
    ("2+1 descending, 20 %", Sets(2, DOWN, 1, Decimal(20)), "2 + 1 descending, 20 %"),
    ("1 + 3 descending 12,5%", Sets(1, DOWN, 3, Decimal("12.5")), "1 + 3 descending, 12.5 %"),
    ("1 rest-pause", Sets(1, PAUSED), "1 rest-pause"),
    ("2 rest pause sets, 20 s", Sets(2, PAUSED, pause_s=20), "2 rest-pause, 20 s"),
    ("4 cluster", Sets(4, CLUSTER), "4 cluster"),
    ("4 clusters, 15 sec", Sets(4, CLUSTER, pause_s=15), "4 cluster, 15 s"),
    ("4 x (2+2+2), 15 s", Sets(4, CLUSTER, pause_s=15, parts=(2, 2, 2)), "4 cluster, 15 s"),
    ("4×(3 + 2)", Sets(4, CLUSTER, parts=(3, 2)), "4 cluster"),
]


@each_row(("text", "expected", "written"), SETS)
def test_sets_are_read_and_written(text: str, expected: Sets, written: str) -> None:
    parts = expected.parts or ((1, 2) if expected.kind is CLUSTER else ())
    dose = Dose(sets=expected.working, reps=Span(low=8, high=8), style=expected.style(parts))

    assert sets(text) == expected
    assert sets_text(dose) == written
    assert sets(written)._replace(parts=expected.parts) == expected


PROBLEMS = [
    ("some", "sets_unreadable"),
    ("0", "sets_unreadable"),
    ("21", "sets_unreadable"),
    ("3.5", "sets_unreadable"),
    ("0 ascending", "sets_unreadable"),
    ("3 descending", "descending_steps"),
    ("1 + 0 descending", "sets_unreadable"),
    ("1 + 6 descending", "sets_unreadable"),
    ("0 + 2 descending", "sets_unreadable"),
    ("1 + 2 descending, 4 %", "drop_outside"),
    ("1 + 2 descending, 51 %", "drop_outside"),
    ("1 rest-pause, 4 s", "pause_outside"),
    ("4 cluster, 61 s", "pause_outside"),
    ("4 x (2+0)", "sets_unreadable"),
    ("4 x (6)", "sets_unreadable"),
    ("1 drop set", "sets_unreadable"),
]


@each_row(("text", "code"), PROBLEMS)
def test_what_is_no_sets_is_a_problem(text: str, code: str) -> None:
    with pytest.raises(UnreadError) as caught:
        sets(text)

    assert (caught.value.code, caught.value.facts) == (code, {"written": text})


def test_what_is_usual_stands_in_where_nothing_is_written() -> None:
    down = SetStyle(kind=DOWN, steps=2)
    paused = SetStyle(kind=PAUSED)

    assert (down.drop_text, paused.pause) == ("20-25", 15)
    assert SetStyle(kind=DOWN, steps=2, drop=Decimal("12.50")).drop_text == "12.5"
    assert SetStyle(kind=PAUSED, pause_s=20).pause == 20


@pytest.mark.parametrize(
    "fields",
    [
        {"kind": DOWN},
        {"kind": UP, "steps": 1},
        {"kind": UP, "drop": 20},
        {"kind": DOWN, "steps": 1, "pause_s": 10},
        {"kind": CLUSTER},
        {"kind": CLUSTER, "parts": (6,)},
        {"kind": CLUSTER, "parts": (2, 0)},
        {"kind": PAUSED, "parts": (2, 2)},
        {"kind": DOWN, "steps": 6},
    ],
)
def test_what_does_not_belong_to_a_kind_of_sets_is_refused(fields: dict[str, object]) -> None:
    with pytest.raises(ValueError, match=r"belong|less than or equal"):
        SetStyle.model_validate(fields)


@pytest.mark.parametrize(("kind", "feeds"), [(UP, True), (PAUSED, False)])
def test_only_sets_that_rest_between_say_something_about_the_most(kind: StyleKind, feeds: bool) -> None:
    assert SetStyle(kind=kind).feeds_estimate is feeds


@given(st.text())
def test_any_text_is_sets_or_a_problem(text: str) -> None:
    try:
        found = sets(text)
    except UnreadError:
        return

    assert 1 <= found.working <= 20
