"""Whom a change of a rule touches, and which next loads would be others; and what follows once it holds."""

from collections.abc import Callable
from datetime import datetime, timedelta

from bot.render.rule_values import Shift, Touched
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import daily_card, week_clock
from bot.usecases.decisions import given_dose, inputs_for, kit_of
from bot.usecases.merging import moment_of
from bot.usecases.standing_in import chosen_in
from core.checkin.training_log import Session
from core.loads.decision import Decision, Inputs, next_decision
from core.loads.equipment import Kit
from core.local_time import local_date
from core.oversight.rule import Group, Reach, Rule
from core.policy import Policy
from core.programme.exercises import Exercise
from core.programme.prescription import Dose

CHEAP = 3
"""Most clients whose next loads are worked out for a preview: each takes about a card's time. Our proposal."""
COMING = timedelta(days=7)
"""Days from today in which next loads are looked at: most exercises come in them. Our proposal."""
_LOADS = frozenset({Group.LOADS, Group.SETS, Group.PAIN, Group.ILLNESS})
_TRAIN = ("active", "paused")

PolicyOf = Callable[[int, str], Policy]


def touched(
    rule: Rule, client_id: int | None, exercise: str | None, policy_of: PolicyOf, unit: Unit, now: datetime
) -> Touched:
    """Return whom a change touches.

    Args:
        rule: Which.
        client_id: For whom; None for all.
        exercise: For which; None for all.
        policy_of: What would hold for a client and an exercise.
        unit: Open transaction.
        now: Instant.
    """
    if rule.reach is Reach.ALL:
        return Touched(None)
    everyone = [each for each in unit.clients.roster() if each.state in _TRAIN]
    meant = [each for each in everyone if client_id in (None, each.id)]
    own = {each.client_id for each in unit.rules.standing() if each.field == rule.field}
    spared = [each for each in meant if client_id is None and each.id in own]
    mine = [each for each in meant if each not in spared and _has(exercise, each, unit, now)]
    names = tuple(sorted(each.name for each in mine))
    shifts = None
    if rule.group in _LOADS and len(mine) <= CHEAP:
        shifts = tuple(shift for each in mine for shift in _shifts(each, policy_of, unit, now))
    return Touched(names, tuple(sorted(each.name for each in spared)), shifts)


def follow(rule: Rule, client_id: int | None, unit: Unit, now: datetime) -> None:
    """Have what waits follow an hour that has changed."""
    if rule.group is not Group.HOURS:
        return
    for each in unit.clients.roster():
        if client_id in (None, each.id) and each.state in _TRAIN:
            week_clock.planned(each.id, unit, now)
            daily_card.planned_anew(each, unit, now)


def _has(exercise: str | None, client: Client, unit: Unit, now: datetime) -> bool:
    """Return whether a client's block has an exercise; any where none is named."""
    if exercise is None:
        return True
    running = unit.blocks.running(client.id)
    if running is None:
        return False
    block = unit.versions.block_for(running, local_date(now, client.zone or "UTC"))
    return any(
        row.exercise == exercise for day in block.days for row in (each.prescription for each in day.lines)
    )


def _shifts(client: Client, policy_of: PolicyOf, unit: Unit, now: datetime) -> list[Shift]:
    """Return what of a client's coming week would be given otherwise, each exercise the next time it comes.

    Nothing of it is kept.
    """
    if client.frozen_at is not None:
        return []
    last = local_date(now, client.zone or "UTC") + COMING
    planned = [each for each in unit.sessions.of_client(client.id, ("planned",)) if each.local_on <= last]
    kit, known = kit_of(client, unit), dict[tuple[int, str, Dose], Inputs]()
    before, after = dict[str, Dose](), dict[str, Dose]()
    for session in reversed(planned):  # soonest first
        for policy, found in ((unit.rules.policy, before), (policy_of, after)):
            for key, dose in _doses(session, client, policy, kit, known, unit).items():
                found.setdefault(key, dose)
    return [
        Shift(client.name, unit.exercises.get(key), dose, after[key])
        for key, dose in before.items()
        if key in after and after[key] != dose
    ]


def _doses(
    planned: Session,
    client: Client,
    policy_of: PolicyOf,
    kit: Kit,
    known: dict[tuple[int, str, Dose], Inputs],
    unit: Unit,
) -> dict[str, Dose]:
    """Return what a session would give; what its decisions rest on is gathered once, for both policies."""
    moment = moment_of(planned, unit)

    def decides(exercise: Exercise, dose: Dose) -> tuple[int, Decision]:
        asked = planned.id, exercise.key, dose
        if asked not in known:
            known[asked] = inputs_for(client, exercise.key, dose, moment, kit, unit)
        tried = known[asked].model_copy(update={"policy": policy_of(client.id, exercise.key)})
        return 0, next_decision(tried)

    return {
        chosen.exercise: given_dose(chosen.dose, chosen.decision)
        for _, _, chosen in chosen_in(planned, client, decides, unit)
    }
