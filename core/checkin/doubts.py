"""What makes a way to read a line doubtful, and what it may have been meant to say."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from core.checkin.plausibility import HEAVIEST_KG, MOST_ADDED_KG, Known, likely_loads
from core.checkin.reading import AskWhy, Context
from core.checkin.set_atoms import Num, Per, Role, Said
from core.checkin.set_walk import Candidate, Draft
from core.checkin.words import Mark
from core.programme.exercises import Basis, Implement, Side
from core.units import Unit

HOPELESS = 9
"""Weight of a doubt that rules a candidate out."""
_QUARTERS = (5, 25, 75)
_BARS = {Unit.KG: Decimal(20), Unit.LB: Decimal(45)}
"""The bar that plates "a side" are added to, to offer a total. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why a candidate must be asked about, and what to offer instead of it.

    Attributes:
        why: For the question.
        weight: How unlikely it makes the candidate; 1 where a likely mending exists.
        instead: Candidates to offer, the likeliest first; may hold the candidate itself.
    """

    why: AskWhy
    weight: int
    instead: tuple[Candidate, ...]


def doubts_of(line: Candidate, facts: Known, context: Context) -> tuple[Doubt, ...]:
    """Return every doubt about a candidate; none when it can be kept as it is."""
    return (
        *_load_doubts(line, facts, context),
        *_count_doubts(line, facts),
        *_form_doubts(line, facts),
        *_side_doubts(line, facts, context),
        *_effort_doubts(line),
    )


def loads_of(line: Candidate) -> list[Num]:
    """Return the loads written in a line, each once."""
    return list(dict.fromkeys(one.load for one in line.sets if one.load is not None))


def _reloaded(line: Candidate, old: Num, new: Num) -> Candidate:
    return replace(line, sets=tuple(replace(one, load=new) if one.load == old else one for one in line.sets))


def _load_doubts(line: Candidate, facts: Known, context: Context) -> Iterable[Doubt]:
    for load in loads_of(line):
        kg = facts.kg(load.value, load.unit)
        bare_bodyweight = load.bodyweight and load.value == 0
        if load.per is not None and context.exercise is not None:
            yield from _basis_doubt(line, load, context)
        elif load.bodyweight and facts.bodyweight is False:
            yield Doubt(AskWhy.FAR_OFF, 2, (line,))
        elif not facts.fits(kg) and not bare_bodyweight:
            guesses = likely_loads(load.value, load.unit, facts)
            mended = [_reloaded(line, load, replace(load, value=value, unit=unit)) for value, unit in guesses]
            why = AskWhy.UNIT if guesses and guesses[0][0] == load.value else AskWhy.FAR_OFF
            typed = [line] if abs(kg) <= (MOST_ADDED_KG if load.bodyweight else HEAVIEST_KG) else []
            placed = line.shape.bare != "fit" or line.shape.two == (Role.LOAD, Role.COUNT)
            by_place = placed and load.unit is None and facts.count_fits(load.value)
            yield Doubt(why, _weight(bool(mended), bool(typed), by_place), (*mended, *typed))


def _weight(mended: bool, typed: bool, by_place: bool) -> int:
    """Return the weight of a far-off load; one that is a load only by its place, and could be reps, weighs more."""
    if not mended:
        return 2 if typed else HOPELESS
    return 3 if by_place else 1


def _basis_doubt(line: Candidate, load: Num, context: Context) -> Iterable[Doubt]:
    """Ask where a load is said to be counted otherwise than the exercise is kept."""
    basis = context.exercise.basis if context.exercise else None
    said = {Per.SIDE: Basis.PER_SIDE, Per.HAND: Basis.PER_HAND, Per.TOTAL: Basis.TOTAL}
    if load.per is None or said[load.per] is basis:
        return
    other: Decimal | None = None
    if load.per is Per.TOTAL and basis in (Basis.PER_HAND, Basis.PER_SIDE):
        other = load.value / 2
    elif load.per is Per.HAND and basis is Basis.TOTAL:
        other = load.value * 2
    elif load.per is Per.SIDE and context.exercise and context.exercise.implement is Implement.BARBELL:
        other = load.value * 2 + _BARS[load.unit or context.unit]
    elif context.exercise and context.exercise.each_side and load.per is not Per.TOTAL:
        return
    changed = (_reloaded(line, load, replace(load, value=other)),) if other is not None else ()
    yield Doubt(AskWhy.TWO_READINGS, 1, (*changed, line))


def _count_doubts(line: Candidate, facts: Known) -> Iterable[Doubt]:
    far = [
        one
        for one in line.sets
        if not facts.count_fits(one.count) and not (one.seconds and facts.high is None)
    ]
    if far:
        absurd = any(one.count > 2 * facts.count_bound for one in far)
        yield Doubt(AskWhy.FAR_OFF, 3 if absurd else 2, (line,))
    if _may_start_with_load(line, facts):
        first, *rest = line.sets
        value, unit = first.count, None
        if not _is_near(first.count, facts):
            value, unit = likely_loads(first.count, None, facts)[0]
        load = Num(value, Role.LOAD, unit, bodyweight=bool(facts.bodyweight))
        loaded = tuple(replace(one, load=load) for one in rest)
        yield Doubt(AskWhy.TWO_READINGS, 1, (line, replace(line, sets=loaded)))
    number = sum(one.side is not Side.RIGHT for one in line.sets)
    yield from _lost_mark(line, facts)
    may_be_swapped = line.crossed and len(set(line.sets)) == 1 and _is_swapped(line, facts)
    if line.sets and number and not facts.sets_fit(number) and not may_be_swapped:
        yield Doubt(AskWhy.SETS, 2, (line,))


def _may_start_with_load(line: Candidate, facts: Known) -> bool:
    """Return whether a set too many, the first far longer, may be the load after all: `20 8 8 8` for three sets."""
    counts = [one.count for one in line.sets]
    if facts.sets is None or facts.high is None or len(counts) != facts.sets + 1 or loads_of(line):
        return False
    near = _is_near(counts[0], facts) or bool(likely_loads(counts[0], None, facts))
    return near and counts[0] > facts.high + 3 and max(counts[1:]) <= facts.high + 3


def _is_near(value: Decimal, facts: Known) -> bool:
    kg = facts.kg(value, None)
    return bool(facts.bodyweight) or not facts.loads or min(facts.loads) / 4 <= kg <= max(facts.loads) * 3


def _form_doubts(line: Candidate, facts: Known) -> Iterable[Doubt]:
    if any(one.seconds for one in line.sets) and not facts.timed and facts.high is not None:
        yield Doubt(AskWhy.FAR_OFF, HOPELESS, ())
    if line.load_only is not None:
        yield from _load_alone(line, line.load_only, facts)
    if line.turned:
        turned = line.sets[0]
        as_sets = _planned_at(line, turned.load, int(turned.count), facts) if len(line.sets) == 1 else ()
        yield Doubt(AskWhy.TWO_READINGS, 1, (line, *as_sets))
    if line.crossed and len({one.count for one in line.sets}) == 1:
        yield from _swapped(line, facts)
    if line.weighed and len(line.sets) == 1:
        yield Doubt(AskWhy.TWO_READINGS, 4, (line,))
    if line.mixed or line.trailing:
        last = loads_of(line)[-1].value
        yield Doubt(AskWhy.TWO_READINGS, 3 if line.trailing and facts.count_fits(last) else 1, (line,))
    if line.lone and len(line.sets) == 1 and (facts.sets or 1) > 1 and line.sets[0].load is None:
        whole = replace(line, sets=line.sets * (facts.sets or 1))
        yield Doubt(AskWhy.SETS, 1, (whole, line))


def _load_alone(line: Candidate, load: Num, facts: Known) -> Iterable[Doubt]:
    """Ask whether a load without reps was done as planned; far off, whether it was meant to be another."""
    kg = facts.kg(load.value, load.unit)
    if facts.fits(kg):
        yield Doubt(AskWhy.TWO_READINGS, 1, _planned_at(line, load, facts.sets, facts))
        return
    guesses = likely_loads(load.value, load.unit, facts)
    loads = [replace(load, value=value, unit=unit) for value, unit in guesses]
    typed = [load] if abs(kg) <= (MOST_ADDED_KG if load.bodyweight else HEAVIEST_KG) else []
    offered = [each for one in (*loads, *typed) for each in _planned_at(line, one, facts.sets, facts)]
    yield Doubt(AskWhy.FAR_OFF, 3, tuple(offered))


def _swapped(line: Candidate, facts: Known) -> Iterable[Doubt]:
    """Ask where `8x3` may be told the other way round: three sets of eight."""
    if _is_swapped(line, facts):
        sets, count = len(line.sets), line.sets[0].count
        swapped = replace(line, sets=(replace(line.sets[0], count=Decimal(sets)),) * int(count))
        yield Doubt(AskWhy.TWO_READINGS, 1, (swapped, line))


def _is_swapped(line: Candidate, facts: Known) -> bool:
    sets, count = Decimal(len(line.sets)), line.sets[0].count
    likely = facts.in_span(sets) or (facts.count_fits(sets) and not facts.in_span(count))
    return count == facts.sets and sets != facts.sets and likely


def _lost_mark(line: Candidate, facts: Known) -> Iterable[Doubt]:
    """Ask where the first of too many reps may belong to the load: `62 5 8 8 7`, with 62.5 planned."""
    loads = loads_of(line)
    if len(loads) != 1 or facts.sets is None or len(line.sets) != facts.sets + 1:
        return
    load, (first, *rest) = loads[0], line.sets
    if load.unit is not None or load.value != int(load.value) or first.count not in _QUARTERS:
        return
    whole = replace(load, value=Decimal(f"{int(load.value)}.{int(first.count)}"))
    if facts.kg(whole.value, None) in facts.loads:
        mended = replace(line, sets=tuple(replace(one, load=whole) for one in rest))
        yield Doubt(AskWhy.TWO_READINGS, 1, (mended, line))


def _side_doubts(line: Candidate, facts: Known, context: Context) -> Iterable[Doubt]:
    sides = {one.side for one in line.sets}
    left, right = (sum(one.side is side for one in line.sets) for side in Side)
    if (None in sides and len(sides) > 1) or (left and right and left != right):
        yield Doubt(AskWhy.SIDE, 3, (line,))
    if facts.sided or context.exercise is None:
        return
    if line.paired:
        firsts = tuple(replace(one, side=None) for one in line.sets if one.side is not Side.RIGHT)
        yield Doubt(AskWhy.SIDE, 1, (line, replace(line, sets=firsts)))
    elif sides & {Side.LEFT, Side.RIGHT}:
        plain = (
            (replace(line, sets=tuple(replace(one, side=None) for one in line.sets)),)
            if len(sides) == 1
            else ()
        )
        yield Doubt(AskWhy.SIDE, 1, (line, *plain))


def _planned_at(line: Candidate, load: Num | None, sets: int | None, facts: Known) -> tuple[Candidate, ...]:
    if load is None or facts.low is None or not sets or not facts.sets_fit(sets):
        return ()
    planned = Draft(load, Decimal(facts.low), facts.timed)
    return (replace(line, sets=(planned,) * sets, load_only=None, turned=False),)


def _effort_doubts(line: Candidate) -> Iterable[Doubt]:
    for said in line.said:
        if said.upto is not None:
            ends = (replace(said, upto=None), replace(said, value=said.upto, upto=None))
            swapped = tuple(
                replace(line, said=tuple(end if one is said else one for one in line.said)) for end in ends
            )
            yield Doubt(AskWhy.TWO_READINGS, 1, swapped)
        elif said.unsure:
            rest = tuple(one for one in line.said if one is not said)
            side = Draft(None, said.value, seconds=False, side=Side.LEFT)
            yield Doubt(AskWhy.SIDE, 1, (line, replace(line, said=rest, sets=(*line.sets, side))))
        elif not _is_effort(said):
            yield Doubt(AskWhy.FAR_OFF, HOPELESS, ())
        elif said.scale is Mark.RIR and said.value > 5:
            yield Doubt(AskWhy.FAR_OFF, 1, (line,))
    if any(one.said is not None and not _is_effort(one.said) for one in line.sets):
        yield Doubt(AskWhy.FAR_OFF, HOPELESS, ())


def _is_effort(said: Said) -> bool:
    if said.scale is Mark.RPE:
        return 1 <= said.value <= 10 and said.value * 2 == int(said.value * 2)
    return 0 <= said.value <= 10 and said.value == int(said.value)
