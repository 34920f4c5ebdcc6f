"""How one past exposure counts: done, missed, left short, or done at another load than asked."""

from collections import defaultdict
from enum import StrEnum
from typing import NamedTuple

from core.loads.asked import Counted, amount, counted_in
from core.loads.autoregulation import Table, was_by_table
from core.loads.past import Cause, Exposure, Outcome, SetDone
from core.programme.exercises import Exercise
from core.programme.prescription import Span
from core.programme.set_styles import StyleKind
from core.units import Mass


class Verdict(StrEnum):
    """How an exposure counts."""

    DONE = "done"
    """Every set at the load asked or over it, with at least the fewest reps, or those of a card eased by reps."""
    MISSED = "missed"
    """Too few reps in a set, or the load had to come down between sets: strength was missing."""
    SHORT = "short"
    """Sets are missing, and strength is not why: neither for nor against."""
    LIGHTER = "lighter"
    """All done, at a lighter load than asked throughout."""
    FOUND = "found"
    """A load was looked for, and found."""


EXCUSED = frozenset({Cause.TIME, Cause.KIT, Cause.GRIP, Cause.PAIN, Cause.ILL})
"""Causes that make no miss; pain and illness have rules of their own."""


class Performance(NamedTuple):
    """One exposure as it counts.

    Attributes:
        exposure: What was logged.
        verdict: How it counts.
        load: At which load.
        fewest: Fewest reps, seconds or metres of a set asked for.
        span: Reps, seconds or metres that were asked for.
        counted: Which of them.
        sets_done: Sets done, a set of two sides once.
        left: Last number of reps left that was given.
        shown: True when more than a tap stands behind it: typed numbers, or a number of reps left.
    """

    exposure: Exposure
    verdict: Verdict
    load: Mass
    fewest: int
    span: Span
    counted: Counted
    sets_done: int
    left: int | None
    shown: bool

    @property
    def by_fewer_reps(self) -> bool:
        """True when all was done of what a card had eased by reps."""
        return self.verdict is Verdict.DONE and self.fewest < self.span.low

    @property
    def rows(self) -> tuple[int, ...]:
        """Rows of its sets."""
        return tuple(sorted(one.row_id for one in self.exposure.sets))


def performances(history: tuple[Exposure, ...], exercise: Exercise) -> tuple[Performance, ...]:
    """Return every exposure that was trained, oldest first; deloads and those with no load known are left out.

    The order in which sets or sessions were logged does not matter.
    """
    usual = [one for one in history if not (one.deload or one.dose.lighter)]
    trained = [one for one in usual if one.sets and one.outcome is not Outcome.SKIPPED]
    trained.sort(key=lambda one: (one.on, one.session_id))
    counted = [_performance(one, exercise) for one in trained]
    return tuple([one for one in counted if one is not None])


def _performance(exposure: Exposure, exercise: Exercise) -> Performance | None:
    dose = exposure.dose
    counted, span = counted_in(dose)
    ordered = _in_order(exposure)
    sets, done = _judged(ordered, dose.sets)
    wanted = amount(dose.load, exercise)
    masses, counts = _lifted(sets, counted, wanted, exercise)
    if not masses:
        return None
    table = was_by_table(dose, exercise)
    if table is not None and wanted is not None:
        return _by_table(exposure, table, wanted, span, done)
    if wanted is None:
        # A search: the heaviest load that was done in full is the one that was found.
        known = list(zip(masses, counts, strict=True))
        load = max((mass for mass, count in known if count >= span.low), default=min(masses))
        fewest = min(count for mass, count in known if mass >= load)
        verdict = Verdict.FOUND
    else:
        if dose.style is not None and dose.style.kind is StyleKind.ASCENDING:
            # What is written is the load of the last set; the ones before it are lighter.
            heaviest = max(masses)
            counts = [count for mass, count in zip(masses, counts, strict=True) if mass == heaviest]
            masses = [mass for mass in masses if mass == heaviest]
        fewest = min(counts)
        least = span.low if exposure.least is None else min(exposure.least, span.low)
        verdict, load = _verdict(exposure, masses, wanted, fewest < least, done < dose.sets)
    said = [one.left for one in ordered if one.left is not None]
    return Performance(
        exposure=exposure,
        verdict=verdict,
        load=load,
        fewest=fewest,
        span=span,
        counted=counted,
        sets_done=done,
        left=said[-1] if said else None,
        shown=bool(said) or not exposure.by_tap,
    )


def _by_table(exposure: Exposure, table: Table, wanted: Mass, span: Span, done: int) -> Performance:
    """Return how four sets by a table count: at the full load of the third, which is enough reps or a miss."""
    numbers = {one.set_no for one in exposure.sets}
    load, reps = at_set(exposure, 3, wanted) if 3 in numbers else (wanted, span.low)
    verdict = Verdict.DONE if reps >= table.enough else Verdict.MISSED
    if not {3, 4} <= numbers or (verdict is Verdict.MISSED and exposure.cause in EXCUSED):
        verdict = Verdict.SHORT
    said = [one.left for one in sorted(exposure.sets, key=_order) if one.left is not None]
    return Performance(
        exposure=exposure,
        verdict=verdict,
        load=load,
        fewest=span.low if verdict is Verdict.DONE else min(reps, span.low),
        span=span,
        counted=Counted.REPS,
        sets_done=done,
        left=said[-1] if said else None,
        shown=bool(said) or not exposure.by_tap,
    )


def at_set(exposure: Exposure, number: int, otherwise: Mass) -> tuple[Mass, int]:
    """Return load and reps of one set, of the weaker side where there are two.

    Args:
        exposure: That has it.
        number: Of the set, from 1.
        otherwise: The load where none was logged with it.
    """
    sets = [one for one in exposure.sets if one.set_no == number]
    masses = [one.load.mass for one in sets if one.load is not None and one.load.mass is not None]
    return min(masses, default=otherwise), min(one.reps or 0 for one in sets)


def total_done(one: Performance) -> int:
    """Return the reps, seconds or metres of all sets asked for together, of the weaker side where there are two."""
    sides: dict[str, int] = defaultdict(int)
    sets, _ = _judged(_in_order(one.exposure), one.exposure.dose.sets)
    for each, count in zip(sets, _counts(sets, one.counted), strict=True):
        sides[each.side or ""] += count
    return min(sides.values())


def _verdict(
    exposure: Exposure, loads: list[Mass], wanted: Mass, too_few: bool, short: bool
) -> tuple[Verdict, Mass]:
    """Return how an exposure counts and the load it counts at."""
    lightest = min(loads)
    if lightest >= wanted and not (too_few or short):
        return Verdict.DONE, lightest
    heaviest = max(loads)
    tried = min(wanted, heaviest)
    came_down = lightest < wanted <= heaviest
    excused = exposure.cause in EXCUSED and (too_few or short or came_down)
    if excused or (short and not too_few):
        return Verdict.SHORT, tried
    if too_few:
        return Verdict.MISSED, tried
    return (Verdict.LIGHTER, lightest) if heaviest < wanted else (Verdict.MISSED, tried)


def _judged(ordered: list[SetDone], asked: int) -> tuple[list[SetDone], int]:
    """Return the sets that are judged, the first `asked` of each side, and how many were done on the weaker side."""
    if not [one for one in ordered if one.side is not None]:
        return ordered[:asked], len(ordered)
    by_side: dict[str, list[SetDone]] = defaultdict(list)
    for one in ordered:
        by_side[one.side or ""].append(one)
    done = min(len(sets) for sets in by_side.values())
    if len(by_side) == 1:
        done = 0  # Only one side was logged: the other is missing altogether.
    return [one for sets in by_side.values() for one in sets[:asked]], done


def _in_order(exposure: Exposure) -> list[SetDone]:
    return sorted(exposure.sets, key=_order)


def _order(one: SetDone) -> tuple[int, str, int]:
    return one.set_no, one.side or "", one.row_id


def _lifted(
    sets: list[SetDone], counted: Counted, wanted: Mass | None, exercise: Exercise
) -> tuple[list[Mass], list[int]]:
    """Return load and count of each set whose load is known; one that was logged without it had what was asked."""
    unsaid = amount(None, exercise) if wanted is None else wanted
    loads = [unsaid if one.load is None else amount(one.load, exercise) for one in sets]
    masses, counts = [mass for mass in loads if mass is not None], _counts(sets, counted)
    if len(masses) < len(loads):
        counts = [count for mass, count in zip(loads, counts, strict=True) if mass is not None]
    return masses, counts


def _counts(sets: list[SetDone], counted: Counted) -> list[int]:
    """Return the reps, seconds or metres of each set."""
    if counted is Counted.SECONDS:
        return [one.seconds or 0 for one in sets]
    if counted is Counted.METRES:
        return [one.metres or 0 for one in sets]
    return [one.reps or 0 for one in sets]
