"""A block written back as the sheets that a coach could have typed: the other way of reading.

`block_from_sheets(sheets_of(block))` is the same block for every block that was read. No file format is known here.
"""

from collections.abc import Iterable, Iterator, Mapping

from core.programme import block_sheet, session_sheet
from core.programme.block import Block, Line, weeks_text
from core.programme.catalogue import CATALOGUE
from core.programme.count_cells import reps_text
from core.programme.effort_cells import left_text
from core.programme.exercises import Exercise
from core.programme.load_cells import load_text
from core.programme.plan_cells import phases_text, target_text
from core.programme.prep_cells import preps_text
from core.programme.prescription import Dose, Prescription
from core.programme.set_cells import sets_text
from core.programme.sheets import Cell, CellKind, Sheet, rows_of
from core.programme.way_cells import way_text

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def sheets_of(block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE) -> tuple[Sheet, ...]:
    """Return a block as its sheets, `Block` first, then `Sessions`.

    Cells are text, but whole numbers, which are numbers. Only columns and labels that hold something are written,
    and those that none can do without. Loads carry their unit, so that no label `Unit` is needed.

    Args:
        block: Whose exercises are all in `catalogue`.
        catalogue: Gives each exercise its name.
    """
    rows = [
        _session_cells(day.name, line, block.weeks, catalogue) for day in block.days for line in day.lines
    ]
    return (
        lines_sheet((label, value) for label, value in labels_of(block, catalogue) if value),
        rows_sheet(rows),
    )


def labels_of(block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE) -> Iterator[tuple[str, str]]:
    """Yield each label of the sheet `Block` with its text; empty where nothing stands beside it."""
    yield block_sheet.NAME, block.name
    yield block_sheet.WEEKS, str(block.weeks)
    yield block_sheet.FIRST_DAY, _WEEKDAYS[block.week_starts]
    yield block_sheet.DAYS, ", ".join(day.name for day in block.days)
    yield block_sheet.PHASES, phases_text(block)
    yield block_sheet.DELOADS, weeks_text(sorted(block.lighter_weeks))
    yield block_sheet.TESTS, weeks_text(sorted(block.testing_weeks))
    targets = [target_text(target, catalogue[target.exercise]) for target in block.targets]
    yield block_sheet.TARGETS, "; ".join(targets)
    yield block_sheet.PREP, preps_text(block)


def _session_cells(day: str, line: Line, weeks: int, catalogue: Mapping[str, Exercise]) -> dict[str, str]:
    """Return the texts of a row by heading; empty where the cell stays empty."""
    is_all = line.weeks == frozenset(range(1, weeks + 1))
    return row_texts(line.prescription, catalogue) | {
        session_sheet.DAY: day,
        session_sheet.WEEKS: "" if is_all else weeks_text(sorted(line.weeks)),
    }


def row_texts(asked: Prescription, catalogue: Mapping[str, Exercise] = CATALOGUE) -> dict[str, str]:
    """Return the texts of a row by heading, but its day and weeks; empty where the cell stays empty."""
    exercise = catalogue[asked.exercise]
    return {
        session_sheet.ORDER: asked.order,
        session_sheet.EXERCISE: exercise.name,
        session_sheet.SETS: sets_text(asked.dose),
        session_sheet.REPS: reps_text(asked.dose),
        session_sheet.LOAD: load_text(asked.dose.load, exercise.basis),
        session_sheet.LEFT: _left(asked.dose),
        session_sheet.REST: "" if asked.rest_s is None else f"{asked.rest_s} s",
        session_sheet.TEMPO: asked.tempo or "",
        session_sheet.WAY: way_text(asked.dose.way, lambda key: catalogue[key].name),
        session_sheet.CUE: asked.cue or "",
        session_sheet.INSTEAD: "; ".join(catalogue[key].name for key in asked.instead),
        session_sheet.LINK: asked.link or "",
    }


def _left(dose: Dose) -> str:
    """Return the cell under Reps left; empty where it stands under Reps: `to 2 left`."""
    return "" if dose.to_left else left_text(dose)


def _table(rows: list[dict[str, str]]) -> Iterator[tuple[str, ...]]:
    """Yield the header and the rows, without the columns in which no row holds anything."""
    shown = [
        heading
        for heading in session_sheet.COLUMNS
        if heading in session_sheet.NEEDED or any(row[heading] for row in rows)
    ]
    yield tuple(shown)
    for row in rows:
        yield tuple(row[heading] for heading in shown)


def lines_sheet(lines: Iterable[tuple[str, str]]) -> Sheet:
    """Return labels and what stands beside them as the sheet `Block`."""
    return _sheet(block_sheet.SHEET, lines)


def rows_sheet(rows: list[dict[str, str]]) -> Sheet:
    """Return rows, each with its texts by heading, as the sheet `Sessions`."""
    return _sheet(session_sheet.SHEET, list(_table(rows)))


def _sheet(name: str, rows: Iterable[tuple[str, ...]]) -> Sheet:
    cells = [
        Cell(number, column, CellKind.NUMBER if text.isdecimal() else CellKind.TEXT, text)
        for number, row in enumerate(rows, 1)
        for column, text in enumerate(row, 1)
        if text
    ]
    return Sheet(name, rows_of(cells))
