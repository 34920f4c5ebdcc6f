"""Sets as read from a reply, made into sets to be kept."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple

from bot.store.units import Unit
from bot.usecases.logging_sets import counted_load, sides
from core.checkin.reading import Effort, SetRead
from core.checkin.training_log import Item, NewSet
from core.loads.outcome import SetPlan
from core.programme.exercises import Exercise
from core.programme.prescription import Dose, Load, LoadKind
from core.units import Mass
from core.units import Unit as MassUnit

MOST_LEFT = 4
"""Reps left are kept as 0 to 3 and "four or more"."""


def left_of(effort: Effort) -> int | None:
    """Return reps left when the reply gave a number; RPE counts down from ten, from 6 on. Source: [Zourdos2016]."""
    if effort.rir is not None:
        return min(effort.rir, MOST_LEFT)
    if effort.rpe is not None and Decimal(effort.rpe) >= 6:
        return min(int(10 - Decimal(effort.rpe)), MOST_LEFT)
    return None


class Last(NamedTuple):
    """Effort that was said once, for the last set; none for the others."""

    left: int | None = None
    rpe: str | None = None


def left_after(left: int | None, sets: Sequence[NewSet]) -> int | None:
    """Return reps left in the last set: as said once for the exercise, or for that set."""
    return left if left is not None or not sets else sets[-1].rir


def plan_of(item: Item, unit: Unit) -> SetPlan | None:
    """Return the sets with loads of their own that a card asked for; None where all have the same load."""
    kept = None if item.decision_id is None else unit.decisions.get(item.decision_id)
    return kept.value.plan if kept is not None and kept.exercise == item.exercise else None


def new_sets(
    read: tuple[SetRead, ...],
    item: Item,
    exercise: Exercise,
    left: int | None,
    plan: SetPlan | None = None,
    rpe: str | None = None,
) -> list[NewSet]:
    """Turn sets as read into sets to be kept; a set without a side is kept for both where sides are kept.

    A set that was said without a load has the one that the card asked for in its place. Effort that was said once, as
    reps left or an RPE, is that of the last set.
    """
    found: list[NewSet] = []
    number, seen = 0, ""
    for each in read:
        side = each.side.value if each.side else ""
        if not side or side == "L" or seen in ("", side):
            number += 1
        seen = side
        kept_for = (side,) if side else sides(exercise, item.given)
        last = Last(left, rpe) if each is read[-1] else Last()
        made = [_kept(each, number, kept, item, exercise, last) for kept in kept_for]
        planned = _planned(plan, number, found) if each.load is None else None
        found += made if planned is None else [replace(one, load=planned) for one in made]
    return found


def _planned(plan: SetPlan | None, number: int, before: list[NewSet]) -> Load | None:
    """Return the load of a set by the card's plan; of the fourth by the reps of the third, on the weaker side."""
    if plan is None or number > len(plan.sets) + 1:
        return None
    if number <= len(plan.sets):
        return plan.sets[number - 1].load
    return plan.fourth(min(one.reps or 0 for one in before if one.set_no == number - 1))


def _kept(each: SetRead, number: int, side: str, item: Item, exercise: Exercise, last: Last) -> NewSet:
    own = each.rir is not None or each.rpe is not None
    rpe = each.rpe if own else last.rpe
    said = left_of(Effort(rir=each.rir, rpe=each.rpe))
    over_a_distance = item.given.metres is not None
    return NewSet(
        set_no=number,
        side=side,
        load=load_of(each, item.given),
        basis=exercise.basis.value,
        reps=None if over_a_distance else each.reps,
        seconds=each.seconds,
        rir=said if own else last.left,
        rpe=Decimal(rpe) if rpe is not None else None,
        metres=each.reps if over_a_distance else None,
    )


def load_of(each: SetRead, given: Dose) -> Load | None:
    """Return the load of a set as read; the one that was given where the reply has none."""
    if each.load is None:
        return counted_load(given) if given.load is None or given.load.kind is not LoadKind.FIND else None
    if each.load.startswith("bw"):
        rest = each.load[2:]
        added = Mass(Decimal(rest), each.unit or MassUnit.KG) if rest else None
        return Load.bodyweight(added)
    return Load(LoadKind.MASS, Mass(Decimal(each.load), each.unit or MassUnit.KG))


def is_without_load(sets: list[NewSet], item: Item) -> bool:
    """Return whether sets lack the load that was to be found."""
    given = item.given.load
    return (
        given is not None
        and given.kind is LoadKind.FIND
        and bool(sets)
        and any(each.load is None for each in sets)
    )
