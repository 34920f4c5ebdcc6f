"""How joining ends: with what was answered kept and told, or with a kind no."""

from collections.abc import Sequence
from datetime import datetime

from bot.messages import Effect, Level, Rows, Tell
from bot.render import joined as outcome
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import last_loads, leaving
from bot.usecases.health_known import BIRTH, PREGNANT, is_yes
from bot.usecases.kit_known import is_kind_alone
from core.loads.equipment import default_kit
from core.units import Unit as MassUnit

KIT_BUTTON = "join kit"
"""Kind of the prompt whose button shows what there is to lift."""


def keep_kit(client: Client, unit: Unit) -> None:
    """Keep the usual kit of what a client has said of place, unit and company.

    What there really is stays, once somebody has said it.
    """
    kit = default_kit(client.kit_kind or "bodyweight", MassUnit(client.unit or "kg"))
    usual = unit.kits.usual(client.id)
    if usual is not None:
        kit = kit.model_copy(update={"place": usual.place})
    known = unit.kits.at(client.id, kit.place)
    if known is not None and not is_kind_alone(known):
        kit = known
    unit.kits.set_usual(
        client.id,
        kit.model_copy(
            update={
                "usually_alone": bool(client.usually_alone),
                "safety_arms": bool(client.safety_arms),
            }
        ),
    )


def refused(client: Client, prompt: Prompt, unit: Unit, now: datetime, *, moved: bool) -> Sequence[Effect]:
    """End the joining of a minor: nothing that was answered is kept."""
    unit.clients.withdraw(client.id, now)
    unit.clients.change(client.id, state="stopped", join_step=None, age_band=None, stopped_at=now)
    unit.prompts.close_kind("join", client.id, now)
    coach = unit.coaches.get(unit.tenant)
    told = Tell(
        client.id,
        key=f"age:{client.id}:{prompt.id}",
        grown=1,
        level=Level.TODAY,
        message=outcome.could_not_join(client.name),
    )
    return [leaving.card_shown(prompt, client.id, outcome.too_young(coach.name), moved=moved), told]


def finished(client_id: int, prompt: Prompt, unit: Unit, now: datetime, *, moved: bool) -> Sequence[Effect]:
    """End joining: the client hears what comes next, her coach who has joined."""
    unit.clients.change(client_id, state="active", join_step=None, joined_at=now)
    unit.prompts.close_kind("join", client_id, now)
    last_loads.come_with(client_id, unit, now)
    client = unit.clients.get(client_id)
    if client.hour is None or client.zone is None or client.days is None:
        raise LookupError(f"client {client.id} joined without hour, zone or days")
    coach = unit.coaches.get(unit.tenant)
    rows = _kit_button(client, prompt, unit, now)
    last = outcome.joined(
        coach.name, client.hour, client.days, client.zone, frozen=client.frozen_at is not None, rows=rows
    )
    told = Tell(
        client.id,
        key=f"joined:{client.id}:{prompt.id}",
        grown=1,
        level=Level.TODAY,
        message=outcome.has_joined(newcomer(client, unit)),
    )
    return [leaving.card_shown(prompt, client.id, last, moved=moved), told]


def newcomer(client: Client, unit: Unit) -> outcome.Newcomer:
    """Gather what a coach reads of a client who has joined."""
    if client.hour is None or client.zone is None or client.days is None:
        raise LookupError(f"client {client.id} has no hour, zone or days")
    known = unit.health_answers.standing(client.id)
    pregnancy = "Pregnant" if is_yes(known, PREGNANT) else None
    if is_yes(known, BIRTH):
        pregnancy = "Gave birth in the last 12 months"
    kit = unit.kits.usual(client.id)
    return outcome.Newcomer(
        name=client.name,
        age_band=client.age_band or "",
        unit=client.unit or "kg",
        zone=client.zone,
        hour=client.hour,
        days=client.days,
        kit_kind=client.kit_kind or "bodyweight",
        usually_alone=bool(client.usually_alone),
        safety_arms=bool(client.safety_arms),
        experience=client.experience or "new",
        frozen=client.frozen_at is not None,
        place=kit.place if kit is not None else "gym",
        minutes=client.minutes,
        limits=client.limits_said,
        pregnancy=pregnancy,
    )


def _kit_button(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> Rows:
    """Return the button that asks what there is to lift; none for who lifts nothing, or has said it."""
    kit = unit.kits.usual(client.id)
    if client.kit_kind == "bodyweight" or kit is None or not is_kind_alone(kit):
        return ()
    asked = unit.prompts.open(
        KIT_BUTTON, prompt.user_id, prompt.chat_id, now, client_id=client.id, subject=client.id
    )
    return outcome.kit_button(asked.id, asked.revision)
