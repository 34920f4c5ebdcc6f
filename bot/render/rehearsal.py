"""The words of a rehearsal: tables of plain cells, and what stands above and below them."""

from collections.abc import Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from typing import NamedTuple

from bot.render.counts import counted
from bot.render.problems import problem_line
from bot.render.rule_names import rule_name
from core.loads.decision import Kind
from core.oversight.rehearsal_result import LiftLoads, Rehearsal, Spread
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Basis, Exercise
from core.programme.muscles import Muscle
from core.units import plain

ACROSS = 4
"""Lifts beside each other in one table. Our proposal: as many as a terminal of 80 letters holds."""
RULES = 16
"""Rules shown. Our proposal."""
WAITS = 8
"""Exercises shown that wait. Our proposal."""
BREACHES = 20
"""Breaches named."""
SOUND = (
    "Looked at from outside: no decision is over its load line, and each can be loaded. No load rises through pain of "
    "4 and over. Nothing is given that is locked."
)
KITS = {
    "bar": "a gym without dumbbells",
    "both": "a gym with everything",
    "dumbbells": "dumbbells at home",
    "bodyweight": "nothing",
}
KINDS = {
    Kind.RAISE: "heavier",
    Kind.HOLD: "the same load",
    Kind.LOWER: "lighter",
    Kind.START: "a first time",
    Kind.SWAP: "swapped",
    Kind.PAUSE: "paused",
}
CAVEAT = (
    "These people and their numbers are invented, with what is published about reps at a load, reps left and days that "
    "differ. It shows how the block goes on under the rules. It is no forecast, and it cannot tell whether the first "
    "loads are right for your clients: each simulated one is about as strong as the block says."
)


class Grid(NamedTuple):
    """A table.

    Attributes:
        title: Above it.
        headings: Of the columns; the first one is of words, the others of numbers.
        rows: Cells, as many as there are headings.
        notes: Below it.
    """

    title: str
    headings: Sequence[str]
    rows: Sequence[Sequence[str]]
    notes: Sequence[str] = ()


def heading(found: Rehearsal, seed: int) -> list[str]:
    """Say what was played, with whom, and what it is not."""
    kits = ", ".join(f"{count} {KITS[kind]}" for kind, count in sorted(found.kits.items()))
    return [
        f"{found.block}: {counted(found.weeks, 'week')}, {counted(found.clients, 'simulated client')}, seed {seed}",
        f"{found.new} in their first three months, {found.older} of 60 and over. Kit: {kits}.",
        CAVEAT,
    ]


def grids(found: Rehearsal, catalogue: Mapping[str, Exercise] = CATALOGUE) -> list[Grid]:
    """Return the tables of a rehearsal; none without a row."""
    starts = range(0, len(found.lifts), ACROSS)
    lifts = [_lifts(found.lifts[start : start + ACROSS], catalogue) for start in starts]
    return [grid for grid in (*lifts, _rules(found), _waits(found, catalogue), _muscles(found)) if grid.rows]


def _lifts(lifts: Sequence[LiftLoads], catalogue: Mapping[str, Exercise]) -> Grid:
    weeks = [one.week for one in lifts[0].weeks]
    rows = [
        [str(week), *(_loads(lift.weeks[place].load) for lift in lifts)] for place, week in enumerate(weeks)
    ]
    notes = []
    for lift in lifts:
        name = catalogue[lift.exercise].name
        if lift.instead:
            notes.append(f"{name}: {counted(lift.instead, 'client')} with something else in its place.")
        if lift.unplaced:
            notes.append(
                f"{name}: {counted(lift.unplaced, 'client')} with nothing for it. You would be asked."
            )
    return Grid(
        "Loads of the main lifts: middle of the clients (middle half)",
        ["Week", *(f"{catalogue[lift.exercise].name} [{unit_words(lift, catalogue)}]" for lift in lifts)],
        rows,
        notes,
    )


def unit_words(lift: LiftLoads, catalogue: Mapping[str, Exercise] = CATALOGUE) -> str:
    """Return the unit of a lift's loads, with what they are counted by: `kg`, `kg a hand`, `kg added`."""
    counted = {Basis.PER_HAND: " a hand", Basis.PER_SIDE: " a side", Basis.BODYWEIGHT: " added"}
    return f"{lift.unit}{counted.get(catalogue[lift.exercise].basis, '')}"


def _loads(load: Spread | None) -> str:
    if load is None:
        return "–"
    return f"{number(load.middle)} ({number(load.low)}–{number(load.high)})"


def number(value: Decimal) -> str:
    """Write a number with one decimal at most, half a one up."""
    return plain(value.quantize(Decimal("0.1"), ROUND_HALF_UP) + 0)


def _rules(found: Rehearsal) -> Grid:
    spoke = [one for one in found.rules if one.first or one.binding]
    rows = [
        [rule_name(one.code), str(one.first), str(one.binding), str(one.clients)] for one in spoke[:RULES]
    ]
    more = len(spoke) - RULES
    return Grid(
        "How often each rule spoke",
        ["Rule", "Told first", "Lowest ceiling", "Clients"],
        rows,
        [f"and {counted(more, 'rule')} that spoke less often"] if more > 0 else [],
    )


def _waits(found: Rehearsal, catalogue: Mapping[str, Exercise]) -> Grid:
    rows = [
        [
            catalogue[one.exercise].name,
            str(one.clients),
            str(one.sessions),
            str(one.earned),
            f"+{one.percent} %",
        ]
        for one in found.waits[:WAITS]
    ]
    more = len(found.waits) - WAITS
    return Grid(
        "Raises that waited for reps to earn the next step of the kit",
        ["Exercise", "Clients", "Sessions", "Earned", "Usual step"],
        rows,
        [f"and {counted(more, 'exercise')} more"] if more > 0 else [],
    )


def _muscles(found: Rehearsal) -> Grid:
    rows = []
    for muscle in Muscle:
        weeks = [one for one in found.muscles if one.muscle is muscle]
        if weeks:
            planned, done = [one.planned for one in weeks], [one.done for one in weeks]
            rows.append(
                [muscle.value, _range(planned), _range(done), number(sum(done, Decimal(0)) / len(done))]
            )
    return Grid(
        "Hard sets a muscle, by week",
        ["Muscle", "Planned", "Done", "Done on average"],
        rows,
    )


def _range(numbers: Sequence[Decimal]) -> str:
    low, high = number(min(numbers)), number(max(numbers))
    return low if low == high else f"{low} to {high}"


def closing(found: Rehearsal) -> list[str]:
    """Say how sessions were kept, what was decided, what hurt, and what the block's own checks warn of."""
    came, pain = found.sessions, found.pain
    kinds = ", ".join(
        f"{_percent(found.kinds[kind], found.decisions)} {words}"
        for kind, words in KINDS.items()
        if kind in found.kinds
    )
    each = came.each
    kept = (
        f"Sessions: {came.kept} of {came.due} kept ({_percent(came.kept, came.due)}), {came.missed} missed, "
        f"{came.away} in weeks away. A client kept {number(each.middle)} of {came.due // found.clients}, the "
        f"middle half {number(each.low)} to {number(each.high)}."
    )
    hurt = (
        f"Pain: {counted(pain.clients, 'client')} told of some: {counted(pain.low, 'report')} of 1 to 3, "
        f"{pain.middle} of 4 to 6, {pain.high} of 7 and over. It held {counted(pain.held, 'decision')}, {pain.locked} "
        "of them locked."
    )
    lines = [kept, f"Decisions: {found.decisions}; {kinds}.", hurt]
    if found.warnings:
        lines += ["", "The block's own checks:", *(problem_line(one) for one in found.warnings)]
    return lines


def breach_lines(found: Rehearsal) -> list[str]:
    """Say that no decision broke a rule, or how many did and which."""
    if not found.breaches:
        return [SOUND]
    count = counted(len(found.breaches), "decision")
    said = f"{count} BROKE A RULE. That is a fault of this program and not of your block; please report it."
    return [
        said,
        *(f"Client {one.client}: {one.decision.kind}, {one.rule}." for one in found.breaches[:BREACHES]),
    ]


def _percent(part: int, whole: int) -> str:
    return f"{(200 * part + whole) // (2 * whole)} %"
