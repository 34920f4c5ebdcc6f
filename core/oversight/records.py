"""The best so far of an exercise: what a set is held against, and which sets are held against nothing.

A best needs something before it: the first time of an exercise is no best. All that was ever done counts as before, so
that the way back from a break is none until the old best is passed. The same sets give the same bests, in whatever
order they were logged and however often they were taken back and said again.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal
from enum import StrEnum

from pydantic import Field

from core.checkin.plausibility import ABOVE, ABOVE_KG, ADDED_KG
from core.loads.dated_estimates import MOST_TOTAL
from core.loads.one_rep_max import estimate
from core.programme.exercises import Basis
from core.units import Mass
from core.value import Value

SHOWN = Decimal("0.5")
"""Step that estimates are shown in: one is better only where that shows. [unit of the load] Our proposal."""
ROOM = 5
"""Reps over twice the most ever done up to which a set is believed. [reps] Our proposal: a slip of a digit is over."""


class RecordKind(StrEnum):
    """In what a set is the best so far."""

    LOAD = "load"
    """The heaviest for at least so many reps."""
    REPS = "reps"
    """The most reps at a load; no heavier one was done as often."""
    ESTIMATE = "estimate"
    """The highest estimate for one rep."""


class LoggedLift(Value):
    """A set of one exercise as it stands in the log.

    Attributes:
        set_id: Row of the set; below zero for a last load that the coach has noted.
        session_id: Its session.
        item_id: Its place in the session.
        on: The client's local date.
        set_no: From 1.
        side: "L", "R" or nothing.
        load: As lifted; what was added where the body is the load.
        bodyweight: True where the body is the load.
        basis: How the load is counted.
        place: Where it was done; another place has other stacks.
        reps: Done.
        left: Reps left, where the client gave a number.
        paused: True for sets with pauses or steps down in them: their reps are inflated.
        search: True where the load was yet to be found.
    """

    set_id: int
    session_id: int
    item_id: int
    on: date
    set_no: int
    side: str = ""
    load: Mass
    bodyweight: bool = False
    basis: Basis
    place: str = ""
    reps: int = Field(ge=0)
    left: int | None = None
    paused: bool = False
    search: bool = False

    @property
    def comparable(self) -> tuple[bool, Basis, str]:
        """What must be the same before two sets are held against each other."""
        return self.bodyweight, self.basis, self.place if self.basis is Basis.STACK else ""

    @property
    def maximum(self) -> Mass | None:
        """Estimate for one rep, as shown; None where the set gives none that may be believed."""
        return self.maximum_with(self.left or 0)

    def maximum_with(self, left: int) -> Mass | None:
        """Return the estimate as shown, had `left` reps been left."""
        if self.bodyweight or self.reps + left > MOST_TOTAL:
            return None
        made = estimate(self.load, self.reps, left, basis=self.basis)
        return None if made is None or not made.usable else made.mass.rounded(SHOWN)


class Record(Value):
    """A best so far.

    Attributes:
        kind: In what.
        lift: The set; of work a side at a time the weaker side of the two.
        before: What was the best until then.
    """

    kind: RecordKind
    lift: LoggedLift
    before: LoggedLift


def records(sets: Iterable[LoggedLift]) -> tuple[Record, ...]:
    """Return the bests of an exercise in the order they came: of each kind at most one a session.

    Left out are sets with pauses or steps down in them, single sides, sets without a rep, and loads or reps that are
    far over anything before: those count once a second session has come near them. A search for a load makes no best,
    but what was found in it counts as done.

    Args:
        sets: Every set of one exercise that was not taken back, in any order.
    """
    lines: dict[tuple[bool, Basis, str], list[LoggedLift]] = defaultdict(list)
    for one in _of_both_sides(sets):
        if one.reps and not one.paused:
            lines[one.comparable].append(one)
    found = [record for line in lines.values() for record in _of_line(line)]
    return tuple(sorted(found, key=lambda one: (one.lift.on, one.lift.session_id, one.kind)))


def _of_both_sides(sets: Iterable[LoggedLift]) -> list[LoggedLift]:
    """Return sets with two sides as one: the weaker load and the fewer reps. A side alone says nothing."""
    alone: list[LoggedLift] = []
    pairs: dict[tuple[int, int, int], list[LoggedLift]] = defaultdict(list)
    for one in sets:
        if one.side:
            pairs[one.session_id, one.item_id, one.set_no].append(one)
        else:
            alone.append(one)
    return alone + [_weaker(pair) for pair in pairs.values() if {one.side for one in pair} == {"L", "R"}]


def _weaker(pair: Sequence[LoggedLift]) -> LoggedLift:
    weak = min(pair, key=lambda one: (one.load, one.reps, one.side))
    lefts = [one.left for one in pair if one.left is not None]
    least = {"load": min(one.load for one in pair), "reps": min(one.reps for one in pair)}
    return weak.model_copy(update=least | {"left": min(lefts, default=None)})


def _of_line(line: Iterable[LoggedLift]) -> list[Record]:
    sessions: dict[tuple[date, int], list[LoggedLift]] = defaultdict(list)
    for one in line:
        sessions[one.on, one.session_id].append(one)
    found: list[Record] = []
    known: list[LoggedLift] = []
    before: list[LoggedLift] = []
    for _, done in sorted(sessions.items()):
        believed = sorted(
            (one for one in done if _is_believed(one, known)), key=lambda one: (one.item_id, one.set_no)
        )
        tried = [one for one in believed if not one.search]
        bests = (_heaviest(tried, before), _most(tried, before), _strongest(tried, before))
        found += [best for best in bests if best is not None]
        before += believed
        known += done
    return found


def _is_believed(one: LoggedLift, known: Sequence[LoggedLift]) -> bool:
    """Return whether a set is near enough to what was done in the sessions before."""
    if not known:
        return True
    top, room = max(each.load.kg for each in known), ADDED_KG if one.bodyweight else ABOVE_KG
    most = max(each.reps for each in known)
    return one.load.kg <= max(top * ABOVE, top + room) and one.reps <= 2 * most + ROOM


def _heaviest(tried: Sequence[LoggedLift], before: Sequence[LoggedLift]) -> Record | None:
    found = [
        (one, old)
        for one in tried
        if (old := _first_best([each for each in before if each.reps >= one.reps])) is not None
        and one.load > old.load
    ]
    return _chosen(RecordKind.LOAD, found)


def _most(tried: Sequence[LoggedLift], before: Sequence[LoggedLift]) -> Record | None:
    found = []
    for one in tried:
        as_heavy = [each for each in before if each.load >= one.load]
        old = _first_best([each for each in as_heavy if each.load == one.load])
        if old is not None and one.reps > max(each.reps for each in as_heavy):
            found.append((one, old))
    return _chosen(RecordKind.REPS, found)


def _first_best(sets: Sequence[LoggedLift]) -> LoggedLift | None:
    """Return the heaviest, then that of most reps; of several alike the first."""
    return max(sets, key=lambda one: (one.load, one.reps), default=None)


def _chosen(kind: RecordKind, found: Sequence[tuple[LoggedLift, LoggedLift]]) -> Record | None:
    best = max(found, key=lambda pair: (pair[0].load, pair[0].reps), default=None)
    return None if best is None else Record(kind=kind, lift=best[0], before=best[1])


def _strongest(tried: Sequence[LoggedLift], before: Sequence[LoggedLift]) -> Record | None:
    """Return the highest estimate, where it is over all before it.

    A set of which no reps left were said counts as if it had had as many as the new one: saying makes no one stronger.
    """
    best: tuple[Mass, LoggedLift, LoggedLift] | None = None
    for one in tried:
        mass, old = one.maximum, _strongest_before(one, before)
        if mass is None or old is None or mass <= old[0] or (best is not None and mass <= best[0]):
            continue
        best = mass, one, old[1]
    return None if best is None else Record(kind=RecordKind.ESTIMATE, lift=best[1], before=best[2])


def _strongest_before(one: LoggedLift, before: Sequence[LoggedLift]) -> tuple[Mass, LoggedLift] | None:
    known = []
    for each in before:
        as_hard = each.maximum_with(one.left or 0) if each.left is None else each.maximum
        if (mass := as_hard or each.maximum) is not None:
            known.append((mass, each))
    return max(known, key=lambda pair: pair[0], default=None)


def newest(found: Iterable[Record]) -> tuple[Record, ...]:
    """Return of each kind the best that stands now, of sets that may be held against each other."""
    standing = {(one.lift.comparable, one.kind): one for one in found}
    return tuple(standing.values())
