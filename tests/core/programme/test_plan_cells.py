import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.programme.block import Block, Day, Line, Phase, Target
from core.programme.block_sheet import Head, head_of
from core.programme.catalogue import CATALOGUE
from core.programme.plan_cells import Plan, phases_text, plan_of, plan_warnings, target_text
from core.programme.prescription import Dose, Load, Prescription, Span
from core.programme.problems import Problem
from core.programme.sheets import Cell, CellKind, Sheet, rows_of
from core.units import Mass

HEAD = {"Name": "Slipway", "Weeks": "8", "First day of the week": "Monday", "Session days": "Push"}


def head(**plan: str) -> Head:
    labels = {"phases": "Phases", "deloads": "Deload weeks", "tests": "Testing weeks", "targets": "Targets"}
    rows = [*HEAD.items(), *((labels[label], text) for label, text in plan.items())]
    cells = [
        Cell(row, column, CellKind.TEXT, text)
        for row, pair in enumerate(rows, 1)
        for column, text in enumerate(pair, 1)
    ]
    return head_of(Sheet("Block", rows_of(cells)))


def read(**plan: str) -> Plan:
    problems: list[Problem] = []
    found = plan_of(head(**plan), CATALOGUE, problems)
    assert problems == []
    return found


def wrong(**plan: str) -> list[tuple[str, dict[str, str]]]:
    problems: list[Problem] = []
    plan_of(head(**plan), CATALOGUE, problems)
    assert all(one.place.cell in ("B5", "B6") for one in problems)
    return [(one.code, one.facts) for one in problems]


def weeks(*numbers: int) -> frozenset[int]:
    return frozenset(numbers)


PHASES = [
    (
        "Base: 1-3; Build: 4-6, 8",
        (Phase(name="Base", weeks=weeks(1, 2, 3)), Phase(name="Build", weeks=weeks(4, 5, 6, 8))),
    ),
    (
        "Base 1–3; Build weeks 4-6",
        (Phase(name="Base", weeks=weeks(1, 2, 3)), Phase(name="Build", weeks=weeks(4, 5, 6))),
    ),
    ("Week of tests: week 8;", (Phase(name="Week of tests", weeks=weeks(8)),)),
    ("Base 2: 1", (Phase(name="Base 2", weeks=weeks(1)),)),
    ("A: B: 2", (Phase(name="A: B", weeks=weeks(2)),)),
]


@pytest.mark.parametrize(("text", "phases"), PHASES)
def test_phases_are_read(text: str, phases: tuple[Phase, ...]) -> None:
    assert read(phases=text).phases == phases


def test_weeks_for_rest_and_for_tests_are_read() -> None:
    plan = read(deloads="4, 8", tests="7")

    assert (plan.lighter_weeks, plan.testing_weeks) == (weeks(4, 8), weeks(7))


TARGETS = [
    ("Hip thrust 120 kg x 5 by week 8", Target(exercise="hip-thrust", load=Load.of(120), reps=5, week=8)),
    (
        "hip thrusts 265 lb × 3 reps, by the end of week 6",
        Target(exercise="hip-thrust", load=Load.of(265, "lb"), reps=3, week=6),
    ),
    (
        "Pull-up bw+10 kg x 5 by week 8",
        Target(exercise="pull-up", load=Load.bodyweight(Mass.of(10)), reps=5, week=8),
    ),
    ("Pull-up bw x 10 by week 4", Target(exercise="pull-up", load=Load.bodyweight(), reps=10, week=4)),
    (
        "Dumbbell bench press 30 kg a hand x 8 by week 8",
        Target(exercise="dumbbell-bench-press", load=Load.of(30), reps=8, week=8),
    ),
]


@pytest.mark.parametrize(("text", "target"), TARGETS)
def test_targets_are_read_and_written(text: str, target: Target) -> None:
    assert read(targets=text).targets == (target,)
    assert read(targets=target_text(target, CATALOGUE[target.exercise])).targets == (target,)


WRONG = [
    ({"phases": "Base"}, [("phases_unreadable", {"written": "Base"})]),
    ({"phases": "Base: some"}, [("phases_unreadable", {"written": "Base: some"})]),
    ({"phases": ": 1-3"}, [("phases_unreadable", {"written": ": 1-3"})]),
    ({"phases": "Base: 3-1"}, [("range_backwards", {"written": "3-1", "type": "1-3"})]),
    ({"phases": "Base: 7-9"}, [("weeks_outside", {"weeks": "9", "length": "8"})]),
    ({"phases": "x" * 41 + ": 1"}, [("text_too_long", {"length": "41", "limit": "40"})]),
    (
        {"phases": "Base: 1-4; Build: 4-6"},
        [("phases_overlap", {"first": "Base", "second": "Build", "weeks": "4"})],
    ),
    ({"deloads": "some"}, [("weeks_unreadable", {"written": "some"})]),
    ({"deloads": "9"}, [("weeks_outside", {"weeks": "9", "length": "8"})]),
    ({"deloads": "4", "tests": "4, 8"}, [("light_and_tested", {"weeks": "4"})]),
    ({"targets": "Hip thrust heavy"}, [("target_unreadable", {"written": "Hip thrust heavy"})]),
    (
        {"targets": "Hip thrust x 5 by week 8"},
        [("target_unreadable", {"written": "Hip thrust x 5 by week 8"})],
    ),
    (
        {"targets": "Hip thrust 120 kg x 0 by week 8"},
        [("target_unreadable", {"written": "Hip thrust 120 kg x 0 by week 8"})],
    ),
    (
        {"targets": "Hip thrust find x 5 by week 8"},
        [("target_unreadable", {"written": "Hip thrust find x 5 by week 8"})],
    ),
    ({"targets": "Hip thrust 120 kg x 5 by week 9"}, [("weeks_outside", {"weeks": "9", "length": "8"})]),
    ({"targets": "Hip thrust 120 kg x 5 by week 0"}, [("weeks_outside", {"weeks": "0", "length": "8"})]),
    (
        {"targets": "Hip thrust 120 x 5 by week 8"},
        [("load_without_unit", {"written": "Hip thrust 120 x 5 by week 8"})],
    ),
    (
        {"targets": "Hip thurst 120 kg x 5 by week 8"},
        [("exercise_unknown", {"written": "hip thurst", "suggestions": "Hip thrust"})],
    ),
]


@each_row(("plan", "expected"), WRONG)
def test_what_is_wrong_with_the_plan_is_named(
    plan: dict[str, str], expected: list[tuple[str, dict[str, str]]]
) -> None:
    assert wrong(**plan) == expected


def test_a_cell_that_became_a_date_is_named() -> None:
    date = Cell(5, 2, CellKind.DATE, "2026-08-04")
    sheet = Sheet("Block", rows_of([Cell(5, 1, CellKind.TEXT, "Deload weeks"), date]))
    problems: list[Problem] = []
    plan_of(head_of(sheet), CATALOGUE, problems)

    assert [one.code for one in problems] == ["became_date"]


def test_the_plan_is_read_where_the_length_is_not_known() -> None:
    rows = [("Deload weeks", "4"), ("Targets", "Hip thrust 120 kg x 5 by week 8")]
    cells = [
        Cell(row, column, CellKind.TEXT, text)
        for row, pair in enumerate(rows, 1)
        for column, text in enumerate(pair, 1)
    ]
    problems: list[Problem] = []
    plan = plan_of(head_of(Sheet("Block", rows_of(cells))), CATALOGUE, problems)

    assert (problems, plan.lighter_weeks, len(plan.targets)) == ([], weeks(4), 1)


def line(exercise: str, *numbers: int) -> Line:
    dose = Dose(sets=3, reps=Span(low=8, high=8))
    return Line(weeks=weeks(*numbers), prescription=Prescription(order="A", exercise=exercise, dose=dose))


def test_tests_and_targets_that_no_row_is_written_for_are_warned_of() -> None:
    day = Day(key="push", name="Push", lines=(line("dip", 1, 2, 3), line("bench-press", 4)))
    late = Target(exercise="bench-press", load=Load.of(80), reps=5, week=3)
    block = Block(
        name="Slipway",
        weeks=4,
        days=(day,),
        testing_weeks=weeks(3, 4),
        targets=(late, Target(exercise="dip", load=Load.bodyweight(), reps=12, week=2)),
    )

    assert [(one.code, one.facts) for one in plan_warnings(block, CATALOGUE)] == [
        ("tested_without_rows", {"weeks": "3"}),
        ("target_without_rows", {"exercise": "Bench press", "week": "3"}),
    ]


def test_phases_are_written_as_they_are_read() -> None:
    phases = (Phase(name="Base", weeks=weeks(1, 2, 4)), Phase(name="Peak", weeks=weeks(3)))

    assert phases_text(Block(name="Slipway", weeks=4, days=(), phases=phases)) == "Base: 1-2, 4; Peak: 3"


SCRAPS = st.sampled_from(["Base", ":", ";", "1-3", " ", "Dip", "bw", "x", "5", "by week", "kg", "-", "week"])


@given(st.lists(SCRAPS, max_size=9).map(" ".join) | st.text(min_size=1))
def test_any_text_gives_a_plan_or_problems(text: str) -> None:
    for label in ("phases", "deloads", "tests", "targets"):
        problems: list[Problem] = []
        plan_of(head(**{label: text}), CATALOGUE, problems)

        assert all(one.place.cell in ("B5", None) for one in problems)
