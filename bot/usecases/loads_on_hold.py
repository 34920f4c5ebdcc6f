"""Loads that are not looked for while a place hurts, and what a coach can give instead.

Nothing here gives anything: what she chooses is read back and held as any order of hers, under pain like all of them.
"""

from datetime import datetime
from decimal import Decimal

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import dose_for, inputs_for, kit_of
from bot.usecases.merging import lines_of, moment_of
from core.checkin.pain import loads_site
from core.loads.decision import next_decision
from core.loads.equipment import ladder_for
from core.loads.reasons import ReasonCode
from core.programme.exercises import Site
from core.programme.prescription import LoadKind
from core.units import Mass

MOST_SESSIONS = 7
"""How many coming sessions are looked at: a week of training. Our proposal."""
MOST_LOADS = 6
"""Most loads that are offered. Our proposal."""
APART = Decimal("1.25")
"""Each load that is offered is so much heavier than the one before, at least. Our proposal."""
LEAST = Decimal(0)


def on_hold(client: Client, site: Site, unit: Unit, now: datetime) -> list[str]:
    """Return the exercises at a place whose load would be looked for in the coming sessions, and is not while it hurts.

    Args:
        client: Whose.
        site: Where it hurts.
        unit: Open transaction.
        now: Instant.
    """
    coming, kit = reversed(unit.sessions.of_client(client.id, ("sent", "planned"))), kit_of(client, unit)
    found: dict[str, bool] = {}
    for session in list(coming)[:MOST_SESSIONS]:
        for asked in lines_of(session, unit):
            exercise, load = unit.exercises.get(asked.exercise), asked.dose.load
            is_search = load is None or load.kind is LoadKind.FIND
            if asked.exercise in found or not is_search or not loads_site(exercise, site):
                continue
            moment, dose = moment_of(session, unit), dose_for(exercise, asked)
            is_out = session.state == "sent"
            inputs = inputs_for(client, exercise.key, dose, moment, kit, unit, card_is_out=is_out)
            codes = {one.code for one in next_decision(inputs).reasons}
            found[asked.exercise] = ReasonCode.PAIN_NO_FINDING in codes
    return [key for key, is_held in found.items() if is_held]


def offered_loads(exercise: str, client: Client, unit: Unit) -> list[Mass]:
    """Return loads that the client's kit makes, from the lightest up, with room between them."""
    row = unit.exercises.get(exercise)
    loads: list[Mass] = []
    for step in ladder_for(row, kit_of(client, unit)).steps:
        if step.value > LEAST and (not loads or step.value >= loads[-1].value * APART):
            loads.append(step)
    return loads[:MOST_LOADS]
