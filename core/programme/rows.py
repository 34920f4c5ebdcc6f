"""A coach's block from the cells of her spreadsheet: with its warnings, or every problem at once."""

from collections.abc import Mapping, Sequence

from core.policy import Policy
from core.programme import block_sheet, session_sheet
from core.programme.block import Block, Day, Line, weeks_text
from core.programme.block_sheet import Head, head_of
from core.programme.catalogue import CATALOGUE
from core.programme.checks import block_warnings
from core.programme.exercises import Exercise
from core.programme.folding import folded
from core.programme.problems import Code, Place, Problem, Severity, problem
from core.programme.row_reading import Written, written_in
from core.programme.session_sheet import rows_by_day, session_rows
from core.programme.sheets import Sheet
from core.value import Value

_POLICY = Policy()


class BlockFile(Value):
    """A block that was read, and what a coach may want to look at again.

    Attributes:
        block: As written.
        warnings: None of them stops it.
    """

    block: Block
    warnings: tuple[Problem, ...] = ()


def block_from_sheets(
    sheets: Sequence[Sheet],
    catalogue: Mapping[str, Exercise] = CATALOGUE,
    policy: Policy = _POLICY,
) -> BlockFile | list[Problem]:
    """Read a block.

    Args:
        sheets: Of one file, in its order.
        catalogue: Exercises that may be named.
        policy: The coach's caps, for the warnings.

    Returns:
        The block with its warnings, or every problem: those of the sheet `Block` first, then by row.
    """
    block_tab, session_tab = _tab(sheets, block_sheet.SHEET), _tab(sheets, session_sheet.SHEET)
    head = head_of(block_tab) if block_tab is not None else Head()
    of_sessions: list[Problem] = []
    rows = session_rows(session_tab, of_sessions) if session_tab is not None else ()
    lines = [written_in(row, head, catalogue) for row in rows]
    of_sessions += [found for line in lines for found in line.problems]
    of_sessions += _orders_twice(lines, head)
    of_block = [*head.problems, *(_days_without_rows(head, rows_by_day(rows)) if rows else ())]
    problems = [
        *_missing_tabs(sheets),
        *_other_tabs(sheets),
        *sorted(of_block, key=_by_cell),
        *sorted(of_sessions, key=_by_cell),
    ]
    if any(found.severity is Severity.ERROR for found in problems):
        return problems
    block = _block(head, lines)
    return BlockFile(block=block, warnings=(*problems, *block_warnings(block, catalogue, policy)))


def _by_cell(found: Problem) -> tuple[int, int, str]:
    """Return what problems of a sheet sort by: row, then column; what has neither comes first."""
    column = (found.place.cell or "").rstrip("0123456789")
    return found.place.row or 0, len(column), column


def _block(head: Head, lines: Sequence[Written]) -> Block:
    days = (
        Day(
            key=key,
            name=name,
            lines=tuple(
                Line(weeks=line.weeks, prescription=line.prescription)
                for line in lines
                if line.day == key and line.weeks is not None and line.prescription is not None
            ),
        )
        for key, name in head.days.items()
    )
    return Block.model_validate(
        {"name": head.name, "weeks": head.weeks, "week_starts": head.week_starts, "days": tuple(days)}
    )


def _tab(sheets: Sequence[Sheet], name: str) -> Sheet | None:
    return next((sheet for sheet in sheets if folded(sheet.name) == folded(name)), None)


def _missing_tabs(sheets: Sequence[Sheet]) -> list[Problem]:
    found = ", ".join(sheet.name for sheet in sheets)
    return [
        problem(Code.SHEET_MISSING, Place(sheet=name), sheet=name, found=found)
        for name in (block_sheet.SHEET, session_sheet.SHEET)
        if _tab(sheets, name) is None
    ]


def _other_tabs(sheets: Sequence[Sheet]) -> list[Problem]:
    ours = {folded(block_sheet.SHEET), folded(session_sheet.SHEET)}
    return [
        problem(Code.SHEET_NOT_READ, Place(sheet=sheet.name), name=sheet.name)
        for sheet in sheets
        if folded(sheet.name) not in ours and sheet.rows
    ]


def _orders_twice(lines: Sequence[Written], head: Head) -> list[Problem]:
    """Return a problem for each row whose place in a session is taken in one of its weeks."""
    taken: dict[tuple[str, str, int], int] = {}
    problems = []
    for line in lines:
        if line.day is None or line.order is None or line.weeks is None:
            continue
        slots = [(line.day, line.order, week) for week in sorted(line.weeks)]
        clashes = [slot for slot in slots if slot in taken]
        if clashes:
            facts = {
                "order": line.order,
                "day": head.days.get(line.day, line.row.cells[session_sheet.DAY].text),
                "weeks": weeks_text([week for _, _, week in clashes]),
                "first_row": taken[clashes[0]],
            }
            problems.append(problem(Code.ORDER_TWICE, line.row.place(session_sheet.ORDER), **facts))
        for slot in slots:
            taken.setdefault(slot, line.row.number)
    return problems


def _days_without_rows(head: Head, named: set[str]) -> list[Problem]:
    return [
        problem(Code.DAY_WITHOUT_ROWS, head.days_at, day=name)
        for key, name in head.days.items()
        if key not in named
    ]
