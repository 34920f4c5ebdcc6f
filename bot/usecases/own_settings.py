"""`/settings`: a client's own hour, days, clock and unit, each by button or typed, said back.

The questions and their answers are those of joining. What is planned and not sent follows at once.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import own_settings as say
from bot.render.join import JoinView, not_read, understood
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import daily_card, join_answers
from bot.usecases.join import keep_kit
from bot.usecases.join_answers import HOURS, GoesBack, Stays, Taken
from bot.usecases.replanning import planned_anew
from bot.usecases.today import client_of
from core.checkin.reading import Context
from core.checkin.replies import read_reply
from core.local_time import local_date
from core.units import Unit as MassUnit

MOST_WORDS = 4
"""More words than this are no slip in an answer but a message to the coach. Our proposal."""

STEPS = ("hour", "days", "zone", "unit")
"""What can be changed; the place is the argument of its button."""


@dataclass(frozen=True, slots=True)
class Settings:
    """`/settings`."""


def settings(command: Settings, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show what is set, with a button to change each."""
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    return [_opened(client, person, unit, now)]


def days_asked(client: Client, person: Person, unit: Unit, now: datetime) -> Send:
    """Ask at once on which days a client trains."""
    return _opened(client, person, unit, now, "days")


def _opened(client: Client, person: Person, unit: Unit, now: datetime, step: str | None = None) -> Send:
    """Send the card of the settings: the menu, or one question."""
    unit.prompts.close_kind("settings", client.id, now)
    update_id = person.arrival.update_id if person.arrival else 0
    prompt = unit.prompts.open(
        "settings",
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        card_key=f"settings:{client.id}:{update_id}",
        facts=_facts(step, client, unit),
    )
    view = _view(client, prompt, unit)
    if step is not None:
        unit.prompts.expect_text(prompt)
    message = say.menu(view, _set(client)) if step is None else say.question(view)
    key = prompt.card_key or ""
    return Send(person.chat_id, message, key=f"{key}:card", card=key, client_id=client.id)


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Open a question, or take its answer."""
    client = unit.clients.get(prompt.subject or 0)
    if client.state not in ("active", "paused"):
        return []
    step = prompt.facts.get("step")
    if step is None:
        if tap.action is not Action.CHANGE or tap.argument >= len(STEPS):
            return refreshed(prompt, person, unit, now)
        return [_asked(STEPS[tap.argument], client, prompt, unit)]
    if tap.action is Action.BACK:
        return [_shown(client, prompt, unit, facts={"step": None})]
    read = join_answers.tapped(step, tap.action, tap.argument, prompt.facts)
    if read is None or isinstance(read, GoesBack):
        return refreshed(prompt, person, unit, now)
    return _answered(read, step, client, prompt, unit, now)


def typed(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a typed answer to an open question; None where none is open, or the words are of something else.

    Sets, pain and what else is said of training and body goes where it belongs, whatever is open.
    """
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is None or prompt.kind != "settings" or not prompt.facts.get("step"):
        return None
    step = prompt.facts["step"]
    if text.strip().casefold() == "back":
        return [_shown(client, prompt, unit, facts={"step": None}, moved=True)]
    read = join_answers.typed(step, text, prompt.facts, now)
    if (read is None or (isinstance(read, Stays) and read.note == "zone unknown")) and _is_a_reply(
        text, client
    ):
        return None
    if read is None or isinstance(read, GoesBack):
        return [_shown(client, prompt, unit, moved=True, note=not_read(step))]
    return _answered(read, step, client, prompt, unit, now, moved=True)


def _is_a_reply(text: str, client: Client) -> bool:
    if len(text.split()) > MOST_WORDS:
        return True
    reading = read_reply(text, Context(unit=MassUnit(client.unit or "kg")))
    return not reading.note or bool(reading.sets or reading.pain or reading.soreness)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the settings as they stand, after a tap on a button that is no longer good."""
    client = unit.clients.get(prompt.subject or 0)
    if client.state not in ("active", "paused") or prompt.closed_at is not None:
        return [_card(prompt, say.closed(), client)]
    return [_shown(client, prompt, unit, note=say.STALE)]


def _asked(step: str, client: Client, prompt: Prompt, unit: Unit) -> Effect:
    unit.prompts.expect_text(prompt)
    return _shown(client, prompt, unit, facts=_facts(step, client, unit))


def _facts(step: str | None, client: Client, unit: Unit) -> dict[str, Any]:
    facts: dict[str, Any] = {"step": step}
    if step == "days":
        facts["days"] = client.days or []
    if step == "zone":
        facts["zones"] = [unit.coaches.get(unit.tenant).zone]
    return facts


def _answered(
    read: Stays | Taken,
    step: str,
    client: Client,
    prompt: Prompt,
    unit: Unit,
    now: datetime,
    *,
    moved: bool = False,
) -> list[Effect]:
    match read:
        case Stays(facts, note):
            words = say.NOTES[note] if note else None
            return [_shown(client, prompt, unit, facts={**prompt.facts, **facts}, moved=moved, note=words)]
        case Taken(values, said):
            needed = _days_needed(client, unit, now)
            if step == "days" and len(values["days"]) < needed:
                return [_shown(client, prompt, unit, moved=moved, note=say.too_few(needed))]
            unit.clients.change(client.id, **values)
            changed = unit.clients.get(client.id)
            note, plan = _followed(step, said, changed, unit, now)
            shown = _shown(changed, prompt, unit, facts={"step": None}, moved=moved, note=note)
            return [shown, *_coach_finds(plan, changed, shown, unit)]


def _days_needed(client: Client, unit: Unit, now: datetime) -> int:
    """Return the most days a week that a client runs now, or has coming."""
    running = unit.blocks.running(client.id)
    if running is None:
        return 1
    coming = unit.versions.course(running).stretches(local_date(now, client.zone or "UTC"))
    return max(len(each.block.days) for each in coming)


def _followed(
    step: str, said: object, client: Client, unit: Unit, now: datetime
) -> tuple[str, say.Plan | None]:
    """Let what is planned follow what was changed; return what to say of both."""
    if step == "unit":
        keep_kit(client, unit)
        return say.unit_said(client.unit or "kg"), None
    plan = planned_anew(client.id, unit, now)
    daily_card.planned_anew(client, unit, now)
    return f"{understood(step, said, now)}\n{say.plan_said(plan)}", plan


def _coach_finds(plan: say.Plan | None, client: Client, shown: EditCard, unit: Unit) -> list[Effect]:
    """Leave the coach a message, without a sound, when a change has cost a session."""
    coach_chat = unit.accounts.coach_chat(unit.tenant)
    if plan is None or not plan.lost or coach_chat is None:
        return []
    prompt = unit.prompts.of("settings", client.id)
    key = f"{shown.card}:lost:{prompt.revision if prompt is not None else 0}"
    return [Send(coach_chat, say.lost_for_coach(client.name, _set(client), plan), key=key)]


def _set(client: Client) -> say.Own:
    return say.Own(client.hour, tuple(client.days or ()), client.zone or "UTC", client.unit or "kg")


def _view(client: Client, prompt: Prompt, unit: Unit, note: str | None = None) -> JoinView:
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
        note=note,
    )


def _shown(
    client: Client,
    prompt: Prompt,
    unit: Unit,
    *,
    facts: dict[str, Any] | None = None,
    moved: bool = False,
    note: str | None = None,
) -> EditCard:
    prompt = unit.prompts.revise(prompt.id, facts=facts if facts is not None else prompt.facts)
    if not prompt.facts.get("step"):
        unit.prompts.expect_no_text(prompt.user_id)
    view = _view(client, prompt, unit, note)
    message = say.question(view) if prompt.facts.get("step") else say.menu(view, _set(client))
    return _card(prompt, message, client, moved=moved)


def _card(prompt: Prompt, message: Message, client: Client, *, moved: bool = False) -> EditCard:
    return EditCard(
        prompt.card_key or f"settings:{client.id}", prompt.chat_id, message, moved=moved, client_id=client.id
    )
