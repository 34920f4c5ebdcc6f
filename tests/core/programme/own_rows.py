"""Rows of `My exercises` as a coach may write them; a helper of tests."""

from collections.abc import Mapping, Sequence

from core.programme import exercise_sheet as heading
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.own_exercises import OwnExercisesFile, own_exercises_in, with_own
from core.programme.problems import Problem
from core.programme.sheets import Cell, CellKind, Merge, Sheet, rows_of

SQUAT = {
    heading.NAME: "Heel-raised goblet squat",
    heading.ALSO: "Wedge squat",
    heading.PATTERN: "squat",
    heading.COUNTED: "total",
    heading.IMPLEMENT: "dumbbell",
}
PRESS = {
    heading.NAME: "Tall-kneeling press",
    heading.PATTERN: "vertical press",
    heading.COUNTED: "per hand",
    heading.IMPLEMENT: "kettlebell",
}


def sheet(
    *rows: Mapping[str, str],
    name: str = heading.SHEET,
    columns: Sequence[str] = heading.COLUMNS,
    merges: tuple[Merge, ...] = (),
    hidden: tuple[int, ...] = (),
) -> Sheet:
    """A sheet with these rows under its headings."""
    written = [tuple(columns), *(tuple(row.get(column, "") for column in columns) for row in rows)]
    cells = (
        Cell(number, column, CellKind.TEXT, text)
        for number, row in enumerate(written, 1)
        for column, text in enumerate(row, 1)
        if text
    )
    return Sheet(name, rows_of(cells), merges, hidden)


def read(
    *rows: Mapping[str, str], catalogue: Mapping[str, Exercise] = CATALOGUE
) -> OwnExercisesFile | list[Problem] | None:
    return own_exercises_in([sheet(*rows)], catalogue)


def kept(*rows: Mapping[str, str], catalogue: Mapping[str, Exercise] = CATALOGUE) -> tuple[Exercise, ...]:
    """The exercises of rows that are right."""
    found = read(*rows, catalogue=catalogue)
    assert isinstance(found, OwnExercisesFile), found
    return found.exercises


def beside_ours(*rows: Mapping[str, str]) -> Mapping[str, Exercise]:
    """Our catalogue with the exercises of rows that are right."""
    return with_own(kept(*rows), CATALOGUE)


def wrong(*rows: Mapping[str, str], catalogue: Mapping[str, Exercise] = CATALOGUE) -> list[tuple[str, str]]:
    """Code and place of each problem: `("own_basis", "D2")`."""
    found = read(*rows, catalogue=catalogue)
    assert isinstance(found, list)
    return [(one.code, one.place.cell or "") for one in found]
