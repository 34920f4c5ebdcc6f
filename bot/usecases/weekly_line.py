"""The week in a line or two, above the check-in: sessions kept of due, main lifts up, the same, lower. Facts alone."""

from datetime import date, timedelta

from bot.render import weekly_line as say
from bot.store.people import Client
from bot.store.units import Unit
from core.oversight.facts import Lifted
from core.oversight.misses import tally
from core.programme.exercises import Exercise
from core.programme.prescription import LoadKind

NONE, SHORT, FULL = "none", "short", "full"
"""Lengths that a client may choose."""
WEEK = timedelta(days=6)
BEFORE = timedelta(days=90)
"""How far back the last load before this week is looked for. Our proposal."""


def weekly_line(client: Client, unit: Unit, on: date) -> str | None:
    """Return the seven days that end on a date as HTML, in the length that the client chose; None for nothing to say.

    Args:
        client: Whose week.
        unit: Open transaction.
        on: Last day of it, on her calendar.
    """
    length = client.weekly_line
    if length == NONE:
        return None
    first = on - WEEK
    counted = tally(unit.oversight.past(client.id, first).get(client.id, ()), first, on)
    moved = _moved(unit.oversight.lifted(on - BEFORE, client.id).get(client.id, ()), first, on, unit)
    if not counted.due and not moved:
        return None
    return say.full(counted, moved) if length == FULL else say.short(counted, moved)


def _moved(lifted: tuple[Lifted, ...], first: date, on: date, unit: Unit) -> tuple[say.Moved, ...]:
    """Return the heaviest load of each main lift this week, with that of the session before the week."""
    now: dict[str, Lifted] = {}
    before: dict[str, Lifted] = {}
    for each in lifted:
        if each.on > on or each.load.kind not in (LoadKind.MASS, LoadKind.BODYWEIGHT):
            continue
        if each.on >= first:
            kept = now.get(each.exercise)
            now[each.exercise] = each if kept is None or say.added(each.load) > say.added(kept.load) else kept
        else:
            before[each.exercise] = each
    catalogue = unit.exercises.catalogue()
    main: list[Exercise] = sorted(
        (catalogue[key] for key in now if key in catalogue and catalogue[key].main_lift),
        key=lambda each: each.name,
    )
    return tuple(
        say.Moved(each, now[each.key].load, before[each.key].load if each.key in before else None)
        for each in main
    )
