"""Cells of a row that are good by themselves and do not fit each other."""

import pytest
from rows import each_row

from core.programme.problems import Problem
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.session_sheet import COLUMNS
from core.programme.sheets import Cell, CellKind, Sheet, rows_of

BLOCK = [("Name", "Slipway"), ("Weeks", "4"), ("First day of the week", "Monday"), ("Session days", "Push")]


def sheet(name: str, rows: list[tuple[str, ...]]) -> Sheet:
    cells = [
        Cell(row, column, CellKind.TEXT, text)
        for row, texts in enumerate(rows, 1)
        for column, text in enumerate(texts, 1)
        if text
    ]
    return Sheet(name, rows_of(cells))


def found(exercise: str, **cells: str) -> list[Problem]:
    names = {"left": "Reps left", "way": "Way up"}
    texts = {"Day": "Push", "Order": "A", "Exercise": exercise, "Sets": "3", "Reps": "8"}
    texts |= {names.get(name, name.capitalize()): text for name, text in cells.items()}
    row = tuple(texts.get(heading, "") for heading in COLUMNS)
    result = block_from_sheets([sheet("Block", BLOCK), sheet("Sessions", [COLUMNS, row])])
    everything = result.warnings if isinstance(result, BlockFile) else result
    return [one for one in everything if one.place.cell is not None]


MISFITS = [
    ("Plank", {"reps": "30"}, "timed_given_reps", "F2", {"exercise": "Plank", "written": "30"}),
    ("Plank", {"reps": "to 2 left"}, "timed_given_reps", "F2", {"exercise": "Plank", "written": "to 2 left"}),
    ("Dip", {"reps": "30 s"}, "counted_given_time", "F2", {"exercise": "Dip", "written": "30 s"}),
    ("Dip", {"reps": "40 m"}, "metres_not_for", "F2", {"exercise": "Dip", "written": "40 m"}),
    ("Plank", {"reps": "40 m"}, "metres_not_for", "F2", {"exercise": "Plank", "written": "40 m"}),
    (
        "Farmer carry",
        {"reps": "40 m", "load": "75 % of max"},
        "percent_needs_reps",
        "G2",
        {"exercise": "Farmer carry", "written": "75 % of max"},
    ),
    (
        "Bench press",
        {"sets": "4 x (2+2+2)", "reps": "6"},
        "parts_twice",
        "F2",
        {"written": "6", "first": "4 x (2+2+2)"},
    ),
    ("Bench press", {"sets": "4 cluster", "reps": "6"}, "cluster_without_parts", "F2", {"written": "6"}),
    ("Bench press", {"reps": "2+2+2"}, "parts_without_cluster", "F2", {"written": "2+2+2"}),
    (
        "Plank",
        {"sets": "1 rest-pause", "reps": "30 s"},
        "style_needs_reps",
        "F2",
        {"written": "30 s", "style": "Rest-pause"},
    ),
    (
        "Farmer carry",
        {"sets": "1 + 2 descending", "reps": "40 m"},
        "style_needs_reps",
        "F2",
        {"written": "40 m", "style": "Descending"},
    ),
    (
        "Curl",
        {"sets": "1 + 2 descending", "reps": "8 or more"},
        "style_with_open_set",
        "F2",
        {"written": "8 or more", "style": "Descending"},
    ),
    ("Dip", {"reps": "to 2 left", "left": "3"}, "left_twice", "H2", {"written": "3", "first": "to 2 left"}),
    ("Dip", {"way": "add reps, then load"}, "way_needs_range", "N2", {"written": "add reps, then load"}),
    (
        "Bench press",
        {"load": "75 % of max", "way": "load each week"},
        "way_against_load",
        "N2",
        {"written": "load each week", "load": "75 % of max"},
    ),
    (
        "Dip",
        {"way": "easier to harder: Push-up > Bench press"},
        "way_path_elsewhere",
        "N2",
        {"written": "easier to harder: Push-up > Bench press", "exercise": "Dip"},
    ),
    ("Dip", {"way": "by magic"}, "way_unreadable", "N2", None),
    (
        "Dip",
        {"sets": "4", "reps": "6", "way": "APRE 6"},
        "way_needs_load",
        "N2",
        {"written": "APRE 6", "exercise": "Dip"},
    ),
    ("Bench press", {"way": "DAPRE"}, "way_needs_four_sets", "N2", {"written": "DAPRE"}),
    (
        "Bench press",
        {"sets": "4", "reps": "6", "way": "APRE 10"},
        "way_needs_its_reps",
        "N2",
        {"written": "APRE 10", "reps": "10"},
    ),
    (
        "Bench press",
        {"sets": "4", "reps": "6", "left": "1", "way": "APRE 6"},
        "way_to_the_limit",
        "N2",
        {"written": "APRE 6"},
    ),
    (
        "Bench press",
        {"sets": "four", "reps": "", "way": "APRE 6"},
        "sets_unreadable",
        "E2",
        {"written": "four"},
    ),
    (
        "Bench press",
        {"sets": "", "reps": "six", "way": "APRE 6"},
        "reps_unreadable",
        "F2",
        {"written": "six"},
    ),
    (
        "Goblet squat",
        {"sets": "1 + 2 descending"},
        "descending_on_compound",
        "E2",
        {"exercise": "Goblet squat"},
    ),
]


@each_row(("exercise", "cells", "code", "cell", "facts"), MISFITS)
def test_cells_that_do_not_fit_each_other_are_a_problem(
    exercise: str, cells: dict[str, str], code: str, cell: str, facts: dict[str, str] | None
) -> None:
    problems = found(exercise, **cells)

    assert [(one.code, one.place.cell) for one in problems] == [(code, cell)]
    assert facts is None or problems[0].facts == facts


FITS = [
    ("Curl", {"sets": "1 + 2 descending", "reps": "8 to 12"}),
    ("Leg extension", {"sets": "1 + 2 descending", "reps": "to 1 left"}),
    ("Dip", {"reps": "to 2 left", "left": "2"}),
    ("Plank", {"sets": "3 ascending", "reps": "30 s"}),
    ("Bench press", {"sets": "4 x (2+2+2), 15 s", "reps": "", "load": "75 % of estimate"}),
    ("Farmer carry", {"reps": "20-40 m", "way": "add reps, then load"}),
    ("Bench press", {"sets": "", "reps": "", "way": "APRE 3", "load": "80 kg"}),
    ("Bench press", {"sets": "4", "reps": "", "way": "DAPRE, later bands"}),
    ("One-arm row", {"sets": "", "reps": "10 a side", "way": "APRE 10"}),
    ("Bench press", {"reps": "8-12", "way": "add reps in all, then load"}),
    ("Split squat", {"reps": "10 a side in 5s"}),
]


@pytest.mark.parametrize(("exercise", "cells"), FITS)
def test_cells_that_fit_are_no_problem(exercise: str, cells: dict[str, str]) -> None:
    assert found(exercise, **cells) == []
