"""A coach's block from the cells of her spreadsheet: with its warnings, or every problem at once."""

from collections.abc import Mapping, Sequence

from core.policy import Policy
from core.programme import session_sheet
from core.programme.block import Block, Day, Line, weeks_text
from core.programme.block_sheet import Head, head_of
from core.programme.catalogue import CATALOGUE
from core.programme.checks import block_warnings
from core.programme.exercises import Exercise
from core.programme.plan_cells import Plan, plan_of, plan_warnings
from core.programme.problems import Code, Problem, Severity, problem
from core.programme.row_reading import Written, written_in
from core.programme.session_sheet import rows_by_day, session_rows
from core.programme.sheets import Sheet
from core.programme.tabs import tabs_in
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
    tabs = tabs_in(sheets)
    head = head_of(tabs.block) if tabs.block is not None else Head()
    of_sessions: list[Problem] = []
    rows = session_rows(tabs.sessions, of_sessions) if tabs.sessions is not None else ()
    lines = [written_in(row, head, catalogue) for row in rows]
    of_sessions += [found for line in lines for found in line.problems]
    of_sessions += orders_twice(lines, head)
    of_plan: list[Problem] = []
    plan = plan_of(head, catalogue, of_plan)
    of_block = [*head.problems, *of_plan, *(days_without_rows(head, rows_by_day(rows)) if rows else ())]
    problems = [
        *tabs.problems,
        *sorted(of_block, key=by_cell),
        *sorted(of_sessions, key=by_cell),
    ]
    if any(found.severity is Severity.ERROR for found in problems):
        return problems
    block = _block(head, plan, lines)
    warnings = (*problems, *plan_warnings(block, catalogue), *block_warnings(block, catalogue, policy))
    return BlockFile(block=block, warnings=warnings)


def by_cell(found: Problem) -> tuple[int, int, str]:
    """Return what problems of a sheet sort by: row, then column; what has neither comes first."""
    column = (found.place.cell or "").rstrip("0123456789")
    return found.place.row or 0, len(column), column


def _block(head: Head, plan: Plan, lines: Sequence[Written]) -> Block:
    days = (
        Day(
            key=key,
            name=name,
            lines=tuple(
                Line(weeks=line.weeks, prescription=line.prescription)
                for line in lines
                if line.day == key and line.weeks is not None and line.prescription is not None
            ),
            lighter_weeks=plan.lighter_weeks,
            prep=plan.prep.get(key),
        )
        for key, name in head.days.items()
    )
    return Block.model_validate(
        {
            "name": head.name,
            "weeks": head.weeks,
            "week_starts": head.week_starts,
            "days": tuple(days),
            "phases": plan.phases,
            "testing_weeks": plan.testing_weeks,
            "targets": plan.targets,
        }
    )


def orders_twice(lines: Sequence[Written], head: Head) -> list[Problem]:
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


def days_without_rows(head: Head, named: set[str]) -> list[Problem]:
    """Return a problem for each day that no row names."""
    return [
        problem(Code.DAY_WITHOUT_ROWS, head.days_at, day=name)
        for key, name in head.days.items()
        if key not in named
    ]
