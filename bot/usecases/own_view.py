"""What a client has set, gathered for its card."""

from typing import Any

from bot.render import own_settings as say
from bot.render.join import JoinView
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.decisions import kit_of
from bot.usecases.health_known import PREGNANT, is_yes
from bot.usecases.join_answers import HOURS, MINUTES
from bot.usecases.join_card import fresh_facts


def own_of(client: Client, unit: Unit) -> say.Own:
    """Return what a client has set."""
    kit = kit_of(client, unit)
    return say.Own(
        hour=client.hour,
        days=tuple(client.days or ()),
        zone=client.zone or "UTC",
        unit=client.unit or "kg",
        minutes=client.minutes,
        place=kit.place,
        alone=kit.usually_alone,
        arms=kit.safety_arms,
        experience=client.experience or "new",
        limits=client.limits_said,
        pregnant=is_yes(unit.health_answers.standing(client.id), PREGNANT),
        weekly=client.weekly_line,
    )


def facts_for(step: str | None, client: Client, unit: Unit) -> dict[str, Any]:
    """Return what the prompt knows when a setting is asked for."""
    return {"step": step} | (fresh_facts(step, client, unit) if step is not None else {})


def view_of(client: Client, prompt: Prompt, unit: Unit, note: str | None = None) -> JoinView:
    """Return a question as it is shown."""
    return JoinView(
        step=str(prompt.facts.get("step")),
        number=1,
        of=1,
        name=client.name,
        coach=unit.coaches.get(unit.tenant).name,
        prompt_id=prompt.id,
        revision=prompt.revision,
        facts=prompt.facts,
        hours=HOURS,
        lengths=MINUTES,
        known=(client.limits_said,) if client.limits_said else (),
        note=note,
    )
