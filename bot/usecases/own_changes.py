"""What follows from a changed setting: the plan, the kit, what holds loads, and what the coach hears of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bot.messages import EditCard, Effect, Level, Send, Tell
from bot.render import own_settings as say
from bot.render.join import understood
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import daily_card, join_health, join_known
from bot.usecases.join_answers import Taken
from bot.usecases.join_end import keep_kit
from bot.usecases.join_steps import HEALTH_STEPS
from bot.usecases.own_view import own_of
from bot.usecases.replanning import planned_anew
from core.local_time import local_date

PLANNED_BY = ("hour", "days", "zone")
TOLD = ("alone", "experience", "limits")
"""What the rules or the coach go by, so that she hears of a change."""


@dataclass(frozen=True, slots=True)
class Change:
    """What came of it.

    Attributes:
        note: What is said of it.
        effects: What follows beside the card.
        plan: What the plan has become, where it was planned anew.
    """

    note: str | None
    effects: tuple[Effect, ...] = ()
    plan: say.Plan | None = None


def too_few_days(
    step: str, values: Mapping[str, Any], client: Client, unit: Unit, now: datetime
) -> str | None:
    """Say that these are fewer days than the block asks for; None where they are enough."""
    needed = _days_needed(client, unit, now) if step == "days" else 0
    return say.too_few(needed) if step == "days" and len(values["days"]) < needed else None


def _days_needed(client: Client, unit: Unit, now: datetime) -> int:
    """Return the most days a week that a client runs now, or has coming."""
    running = unit.blocks.running(client.id)
    if running is None:
        return 1
    coming = unit.versions.course(running).stretches(local_date(now, client.zone or "UTC"))
    return max(len(each.block.days) for each in coming)


def made(step: str, read: Taken, client: Client, prompt: Prompt, unit: Unit, now: datetime) -> Change:
    """Keep an answer, and let follow what depends on it."""
    if read.values:
        unit.clients.change(client.id, **read.values)
    if step in HEALTH_STEPS:
        said = join_health.Said(client, prompt, unit, now, joining=False)
        effects, note = join_health.answered(step, read.said, said)
        return Change(note or say.NOTED, tuple(effects))
    if step == "place":
        join_known.keep_place(client, str(read.said), unit)
    changed = unit.clients.get(client.id)
    if step in ("unit", "place", "alone"):
        keep_kit(changed, unit)
    own = own_of(changed, unit)
    if step in PLANNED_BY:
        plan = planned_anew(client.id, unit, now)
        daily_card.planned_anew(changed, unit, now)
        return Change(f"{understood(step, read.said, now)}\n{say.plan_said(plan)}", plan=plan)
    told: tuple[Effect, ...] = ()
    if step in TOLD:
        key = f"own:{client.id}:{prompt.id}:{prompt.revision}"
        level = Level.TODAY if step == "limits" else Level.DIGEST
        told = (Tell(client.id, key, grown=1, level=level, message=say.for_coach(client.name, step, own)),)
    return Change(say.changed(step, own), told)


def coach_finds(plan: say.Plan | None, client: Client, shown: EditCard, unit: Unit) -> list[Effect]:
    """Leave the coach a message, without a sound, when a change has cost a session."""
    coach_chat = unit.accounts.coach_chat(unit.tenant)
    if plan is None or not plan.lost or coach_chat is None:
        return []
    prompt = unit.prompts.of("settings", client.id)
    key = f"{shown.card}:lost:{prompt.revision if prompt is not None else 0}"
    return [Send(coach_chat, say.lost_for_coach(client.name, own_of(client, unit), plan), key=key)]
