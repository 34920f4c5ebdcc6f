import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.programme.count_cells import Count, count_in
from core.programme.effort_cells import Effort
from core.programme.prescription import Rpe, Span
from core.programme.sheets import Cell, CellKind, UnreadError


def count(text: str) -> Count:
    return count_in(Cell(2, 6, CellKind.TEXT, text))


def reps(low: int, high: int | None = None, **more: object) -> Count:
    return Count(Span(low=low, high=high or low), **more)


RPE_8 = Effort(2, None, Rpe(low=8, high=8))
COUNTS = [
    ("8 or more", reps(8, or_more=True)),
    ("8+", reps(8, or_more=True)),
    ("8 reps or more", reps(8, or_more=True)),
    ("8 or more a side", reps(8, or_more=True, each_side=True)),
    ("10 a side in 5s", reps(10, each_side=True, portion=5)),
    ("8-12 each side, in 4 s", reps(8, 12, each_side=True, portion=4)),
    ("2+2+2", reps(6, parts=(2, 2, 2))),
    ("(3 + 2)", reps(5, parts=(3, 2))),
    ("2+2+2 a side", reps(6, parts=(2, 2, 2), each_side=True)),
    ("to 2 left", Count(None, effort=Effort(2))),
    ("Until 1-2 left", Count(None, effort=Effort(1, 2))),
    ("to RPE 8", Count(None, effort=RPE_8)),
    ("to 2 in reserve a side", Count(None, each_side=True, effort=Effort(2))),
    ("40 m", reps(40, metres=True)),
    ("20-40 metres", reps(20, 40, metres=True)),
    ("3 meters", reps(3, metres=True)),
    ("20 m a side", reps(20, metres=True, each_side=True)),
    ("1 minute", reps(60, timed=True)),
]


@each_row(("text", "expected"), COUNTS)
def test_how_much_a_set_is_is_read(text: str, expected: Count) -> None:
    assert count(text) == expected


PROBLEMS = [
    ("8-10 or more", "reps_unreadable", {"written": "8-10 or more"}),
    ("30 s or more", "reps_unreadable", {"written": "30 s or more"}),
    ("40 m or more", "reps_unreadable", {"written": "40 m or more"}),
    ("to failure", "reps_unreadable", {"written": "to failure"}),
    ("to 2", "reps_unreadable", {"written": "to 2"}),
    ("to 2-1 left", "reps_unreadable", {"written": "to 2-1 left"}),
    ("to 6 left", "reps_unreadable", {"written": "to 6 left"}),
    ("to RPE 5", "rpe_too_low", {"written": "to RPE 5"}),
    ("2+0+2", "reps_unreadable", {"written": "2+0+2"}),
    ("+".join(["99"] * 11), "reps_unreadable", {"written": "+".join(["99"] * 11)}),
    ("2 m", "metres_or_minutes", {"written": "2 m", "number": "2"}),
    ("10 in 5s", "portion_unreadable", {"written": "10 in 5s"}),
    ("30 s a side in 5s", "portion_unreadable", {"written": "30 s a side in 5s"}),
    ("40 m a side in 5s", "portion_unreadable", {"written": "40 m a side in 5s"}),
    ("10 a side in 0s", "portion_unreadable", {"written": "10 a side in 0s"}),
    ("10 a side in 4s", "portion_uneven", {"written": "10 a side in 4s", "portion": 4}),
    ("10 a side in 10s", "portion_uneven", {"written": "10 a side in 10s", "portion": 10}),
    ("8-10 a side in 4s", "portion_uneven", {"written": "8-10 a side in 4s", "portion": 4}),
    (
        "12-10 a side in 2s",
        "range_backwards",
        {"written": "12-10 a side in 2s", "type": "10-12 a side in 2s"},
    ),
]


@each_row(("text", "code", "facts"), PROBLEMS)
def test_what_cannot_be_read_or_could_mean_two_things_is_a_problem(
    text: str, code: str, facts: dict[str, object]
) -> None:
    with pytest.raises(UnreadError) as caught:
        count(text)

    assert (caught.value.code, caught.value.facts) == (code, facts)


SCRAPS = st.sampled_from(
    [
        "8",
        "12",
        "2",
        "-",
        "+",
        " ",
        "to",
        "left",
        "RPE",
        "a side",
        "in",
        "5s",
        "s",
        "m",
        "or more",
        "(",
        ")",
        "x",
    ]
)


@given(st.lists(SCRAPS, max_size=8).map("".join) | st.lists(SCRAPS, max_size=8).map(" ".join) | st.text())
def test_any_text_is_a_count_or_a_problem(text: str) -> None:
    try:
        found = count(text)
    except UnreadError:
        return

    assert (found.span is None) == (found.effort is not None)
