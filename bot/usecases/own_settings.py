"""`/settings`: what a client has answered, each changed by button or typed, said back. Consent is taken back here too.

The questions and their answers are those of joining. What is planned and not sent follows at once.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import own_settings as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import join_answers, leaving, own_changes
from bot.usecases.join_answers import GoesBack, Stays, Taken
from bot.usecases.own_view import facts_for, own_of, view_of
from bot.usecases.today import client_of
from bot.usecases.typed_words import is_bare_number
from core.checkin.reading import Context
from core.checkin.replies import read_reply
from core.units import Unit as MassUnit

MOST_WORDS = 4
"""More words than this are no slip in an answer but a message to the coach. Our proposal."""

STEPS = say.STEPS
"""What can be changed; the place is the argument of its button."""

WITHDRAW = ("take it back", "take my consent back", "withdraw")


@dataclass(frozen=True, slots=True)
class Settings:
    """`/settings`, with what is to be changed after it, if anything."""

    text: str = ""


def settings(command: Settings, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show what is set, with a button to change each; or ask for the one that was named."""
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    return [_opened(client, person, unit, now, say.step_called(command.text))]


def days_asked(client: Client, person: Person, unit: Unit, now: datetime) -> Send:
    """Ask at once on which days a client trains."""
    return _opened(client, person, unit, now, "days")


def located(zone: str | None, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the clock of a place that was shared while it is asked for; else ask whether it is to be hers."""
    prompt = unit.prompts.expecting_text(person.user_id)
    asked = prompt is not None and prompt.kind == "settings" and prompt.facts.get("step") == "zone"
    if prompt is not None and asked:
        read: Stays | Taken = Taken({"zone": zone}, said=zone)
        if zone is None:
            read = Stays(dict(prompt.facts), "no clock")
        return _answered(read, "zone", client, prompt, person, unit, now, moved=True)
    facts = {"zones": [zone], "asked": True} if zone is not None else {}
    return [_opened(client, person, unit, now, "zone", facts)]


def _opened(
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
    step: str | None = None,
    facts: dict[str, Any] | None = None,
) -> Send:
    """Send the card of the settings: the menu, or one question."""
    prompt = _prompt(client, person, unit, now, {**facts_for(step, client, unit), **(facts or {})})
    view = view_of(client, prompt, unit)
    if step is not None:
        unit.prompts.expect_text(prompt)
    message = say.menu(view, own_of(client, unit)) if step is None else say.question(view)
    key = prompt.card_key or ""
    return Send(person.chat_id, message, key=f"{key}:card", card=key, client_id=client.id)


def _prompt(client: Client, person: Person, unit: Unit, now: datetime, facts: dict[str, Any]) -> Prompt:
    unit.prompts.close_kind("settings", client.id, now)
    update_id = person.arrival.update_id if person.arrival else 0
    return unit.prompts.open(
        "settings",
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        card_key=f"settings:{client.id}:{update_id}",
        facts=facts,
    )


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
    if step == "consent" and tap.action is Action.CONFIRM:
        return leaving.stopped(client, prompt, unit, now)
    read = None if step == "consent" else join_answers.tapped(step, tap.action, tap.argument, prompt.facts)
    if read is None or isinstance(read, GoesBack):
        return refreshed(prompt, person, unit, now)
    return _answered(read, step, client, prompt, person, unit, now)


def typed(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a typed answer to an open question; None where none is open, or the words are of something else.

    Sets, pain and what else is said of training and body goes where it belongs, whatever is open. That somebody is
    pregnant, or has given birth, is taken at any time.
    """
    told = say.SAID_AT_ANY_TIME.get(" ".join(text.casefold().replace("’", "'").split()).rstrip(".!"))
    if told is not None:
        return _told_of_health(told, client, person, unit, now)
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is None or prompt.kind != "settings" or not prompt.facts.get("step"):
        return None
    step, said = prompt.facts["step"], text.strip().casefold()
    if said == "back":
        return [_shown(client, prompt, unit, facts={"step": None}, moved=True)]
    if step == "consent":
        return leaving.stopped(client, prompt, unit, now) if said.rstrip(".!") in WITHDRAW else None
    read = join_answers.typed(step, text, prompt.facts, now)
    if (
        not isinstance(read, Taken)
        and (read is None or _is_a_guess(read))
        and _is_a_reply(text, client, unit)
    ):
        return None
    if read is None or isinstance(read, GoesBack):
        return [_shown(client, prompt, unit, moved=True, note=say.not_read(step))]
    return _answered(read, step, client, prompt, person, unit, now, moved=True)


def _is_a_guess(read: object) -> bool:
    """Return whether words were taken for an answer that they may well not be."""
    return isinstance(read, Stays) and read.note in ("zone unknown", "zone like")


def _told_of_health(
    told: str, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    if client.state not in ("active", "paused"):
        return None
    prompt = _prompt(client, person, unit, now, facts_for("pregnancy", client, unit))
    return _answered(Taken(said=told), "pregnancy", client, prompt, person, unit, now)


def _is_a_reply(text: str, client: Client, unit: Unit) -> bool:
    if is_bare_number(text):
        return unit.sessions.open_one(client.id) is not None
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


def _asked(step: str, client: Client, prompt: Prompt, unit: Unit, note: str | None = None) -> EditCard:
    unit.prompts.expect_text(prompt)
    return _shown(client, prompt, unit, facts=facts_for(step, client, unit), note=note)


def _answered(
    read: Stays | Taken,
    step: str,
    client: Client,
    prompt: Prompt,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    moved: bool = False,
) -> list[Effect]:
    if isinstance(read, Stays):
        words = say.NOTES[read.note] if read.note else None
        facts = {**prompt.facts, **read.facts}
        return [_shown(client, prompt, unit, facts=facts, moved=moved, note=words)]
    if step == "pregnancy" and read.said == "birth":
        return [_asked("birth", client, prompt, unit)]
    too_few = own_changes.too_few_days(step, read.values, client, unit, now)
    if too_few is not None:
        return [_shown(client, prompt, unit, moved=moved, note=too_few)]
    change = own_changes.made(step, read, client, prompt, unit, now)
    changed = unit.clients.get(client.id)
    if step == "health" and read.said:
        return [_asked("pressure", changed, prompt, unit, change.note), *change.effects]
    shown = _shown(changed, prompt, unit, facts={"step": None}, moved=moved, note=change.note)
    return [shown, *change.effects, *own_changes.coach_finds(change.plan, changed, shown, unit)]


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
    view = view_of(client, prompt, unit, note)
    message = say.question(view) if prompt.facts.get("step") else say.menu(view, own_of(client, unit))
    return _card(prompt, message, client, moved=moved)


def _card(prompt: Prompt, message: Message, client: Client, *, moved: bool = False) -> EditCard:
    return EditCard(
        prompt.card_key or f"settings:{client.id}", prompt.chat_id, message, moved=moved, client_id=client.id
    )
