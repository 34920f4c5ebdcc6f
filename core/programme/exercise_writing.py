"""A coach's own exercises as the sheet that they can be read from again."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from enum import StrEnum

from core.programme import exercise_sheet as heading
from core.programme.exercises import Exercise
from core.programme.sheets import Cell, CellKind, Sheet, rows_of
from core.units import Mass, Unit


def exercise_sheet(
    exercises: Iterable[Exercise], catalogue: Mapping[str, Exercise], example: Mapping[str, str] | None = None
) -> Sheet:
    """Return the sheet: headings, an example where one is given, a row for each exercise.

    Args:
        exercises: In order.
        catalogue: Every exercise that may be named.
        example: What stands in a row that is not read, by heading.
    """
    rows: list[Sequence[str]] = [heading.COLUMNS]
    if example is not None:
        rows.append([example.get(column, "") for column in heading.COLUMNS])
    rows += [list(_texts(one, catalogue)) for one in exercises]
    cells = (
        Cell(
            number, column, CellKind.TEXT, text, text if heading.COLUMNS[column - 1] == heading.CLIP else None
        )
        for number, row in enumerate(rows, 1)
        for column, text in enumerate(row, 1)
        if text
    )
    return Sheet(heading.SHEET, rows_of(cells))


def _texts(one: Exercise, catalogue: Mapping[str, Exercise]) -> Iterator[str]:
    """Return the cells of a row, in the order of the headings."""
    yield one.name
    yield "; ".join(one.aliases)
    yield one.pattern.value
    yield one.basis.value
    yield one.implement.value
    yield _yes(said=one.each_side)
    yield _yes(said=one.timed)
    yield _yes(said=one.main_lift)
    yield _listed(one.direct)
    yield _listed(one.indirect)
    yield _listed(one.loads_sites)
    yield _yes(said=one.needs_safeties)
    yield _listed(one.needs)
    yield "; ".join(catalogue[key].name for key in one.equals if not catalogue[key].retired)
    yield _step(one.step_kg) if one.step_kg is not None else ""
    yield one.cue
    yield one.link or ""


def _step(step_kg: Decimal) -> str:
    """Write a step in kilograms; in pounds where only they come out short."""
    short = step_kg == round(step_kg, 3)
    mass = Mass(step_kg, Unit.KG)
    return str(mass if short else mass.to(Unit.LB))


def _yes(*, said: bool) -> str:
    return "yes" if said else "no"


def _listed(words: Iterable[StrEnum]) -> str:
    return ", ".join(sorted(words))
