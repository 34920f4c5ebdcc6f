"""A block as its coach sees it before she gives it to anyone: its figures, and what is worth another look."""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from html import escape

from bot.messages import Action, Message, Rows
from bot.render.block_warnings import LINES, phone_lines, some_of, sources_of, warning_lines
from bot.render.setting_up import Buttons, pages
from core.loads.kit_fit import Undoable
from core.programme.block import Block, weeks_text
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.muscles import Muscle
from core.programme.plan_cells import target_text
from core.programme.problems import Problem
from core.programme.rows import BlockFile
from core.programme.volume import HIP, KNEE, PULL, PUSH, balance, sets_by_muscle, sets_by_pattern
from core.programme.volume_checks import LARGE, range_text, usual_weeks

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MOST_PLAN = 8
"""Most lines of phases, lighter weeks, tests and targets. Our proposal."""
HEADING = "<b>Worth another look; it can be used as it is:</b>"
AROUND = 5
"""Lines of a phone that stand around the warnings: their heading, how many more there are, an empty one."""
LEAST_WARNINGS = 3
"""Warnings that are shown however long the rest is, each being a few lines. Our proposal."""


def block_preview(block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE, *, whole: bool = False) -> str:
    """Return name, weeks, days, plan, and the sets of usual weeks, as HTML for one message.

    Args:
        block: What is shown.
        catalogue: Exercises that are named.
        whole: True for the sets of every muscle; the large ones alone otherwise, the picture having the rest.
    """
    length = f"{block.weeks} week" + ("s" if block.weeks > 1 else "")
    lines = [
        f"<b>{escape(block.name)}</b>",
        f"{length} from {_WEEKDAYS[block.week_starts]}",
        f"{len(block.days)} a week: {escape(', '.join(day.name for day in block.days))}",
        *_plan(block, catalogue),
        *_sets(block, catalogue, tuple(Muscle) if whole else LARGE),
    ]
    return "\n".join(lines)


def _sets(block: Block, catalogue: Mapping[str, Exercise], muscles: Sequence[Muscle]) -> list[str]:
    weeks = usual_weeks(block, catalogue)
    by_week = [sets_by_muscle(block, week, catalogue) for week in weeks]
    trained = [muscle for muscle in muscles if any(muscle in sets for sets in by_week)]
    ranges = [f"{muscle.value} {_range([sets.get(muscle, 0) for sets in by_week])}" for muscle in trained]
    patterns = [sets_by_pattern(block, week, catalogue) for week in weeks]
    sides: list[str] = []
    for one, other, pair in (("presses", "pulls", (PUSH, PULL)), ("knees", "hips", (KNEE, HIP))):
        both = [balance(sets, *pair) for sets in patterns]
        if any(each.one or each.other for each in both):
            sides.append(f"{one} {_range([each.one for each in both])}")
            sides.append(f"{other} {_range([each.other for each in both])}")
    figures = [", ".join(each) for each in (ranges, sides) if each]
    return ["", "<b>Sets a week</b>", *figures] if figures else []


def _plan(block: Block, catalogue: Mapping[str, Exercise]) -> list[str]:
    """Return what is written over the weeks: phases, lighter weeks, testing weeks, targets."""
    lines = [
        f"{escape(phase.name)}: {_weeks(phase.weeks)}"
        for phase in sorted(block.phases, key=lambda phase: min(phase.weeks))
    ]
    if block.lighter_weeks:
        lines.append(f"Lighter: {_weeks(block.lighter_weeks)}")
    if block.testing_weeks:
        lines.append(f"Tests: {_weeks(block.testing_weeks)}")
    lines += [
        f"Target: {escape(target_text(target, catalogue[target.exercise]))}"
        for target in sorted(block.targets, key=lambda target: target.week)
    ]
    more = len(lines) - MOST_PLAN
    return lines if more <= 0 else [*lines[:MOST_PLAN], f"… and {more} more."]


def _weeks(weeks: frozenset[int]) -> str:
    return f"week{'s' if len(weeks) > 1 else ''} {weeks_text(sorted(weeks))}"


def _range(numbers: Iterable[Decimal | int]) -> str:
    return range_text([Decimal(number) for number in numbers]).replace("-", "–")


def kept(
    found: BlockFile,
    number: int,
    undoable: Sequence[Undoable] = (),
    buttons: Buttons | None = None,
    catalogue: Mapping[str, Exercise] = CATALOGUE,
) -> Message:
    """Show a block that was kept, what to look at again, and what comes next.

    Args:
        found: The block and its warnings.
        number: Of the version.
        undoable: What nobody on the roster can do.
        buttons: Makes the button to all warnings, where there are more than are shown.
        catalogue: Exercises that are named.
    """
    version = "Kept." if number == 1 else f"Kept as version {number}. Who runs an earlier one stays on it."
    end = f"{version} Next: /assign puts a client on it."
    lines = [block_preview(found.block, catalogue), ""]
    by_kind = warning_lines(found.warnings, undoable, catalogue)
    rows: Rows = ()
    if by_kind:
        room = LINES - phone_lines("\n".join((*lines, end))) - AROUND
        shown, hidden = some_of(by_kind, room, LEAST_WARNINGS)
        lines += [HEADING, *(f"• {escape(line)}" for line in shown)]
        if hidden:
            rows = ((buttons.one(f"See all {sum(map(len, by_kind))}", Action.PICK),),) if buttons else ()
            lines += [f"… and {hidden} more."]
        lines.append("")
    return Message("\n".join((*lines, end)), rows=rows, silent=True)


def all_warnings(
    name: str,
    warnings: Sequence[Problem],
    undoable: Sequence[Undoable],
    catalogue: Mapping[str, Exercise] = CATALOGUE,
) -> list[Message]:
    """Show every warning of a block, and where the figures come from, on as many messages as it takes."""
    by_kind = warning_lines(warnings, undoable, catalogue)
    head = f"<b>{escape(name)}</b>, all that is worth another look; it can be used as it is:\n"
    lines = [f"\n• {escape(line)}" for of_kind in by_kind for line in of_kind]
    sources = sources_of(warnings)
    if sources:
        lines += ["\n\n<b>Where the figures come from</b>", *(f"\n{escape(line)}" for line in sources)]
    return pages(head, lines)


def picture_caption(name: str) -> str:
    """Say in words what the picture of a block shows."""
    counted = "A set counts one for the muscle it is for, a half for one that helps."
    return f"{escape(name)}: sets a muscle by week. {counted}"
