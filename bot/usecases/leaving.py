"""Leaving, at any time from the first day: asked once, then at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Action, Cancel, EditCard, Effect, Level, Message, Person, Send, Tap, Tell
from bot.render import leaving as words
from bot.render.coach_talk import coach_is_no_client
from bot.render.join import NOTES
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import strangers


@dataclass(frozen=True, slots=True)
class Stop:
    """A client wants to stop."""


def stop(command: Stop, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask once whether a client means it."""
    if person.role == "coach":
        return [answer(person, "stop", coach_is_no_client())]
    if person.role != "client" or person.client_id is None or person.arrival is None:
        return strangers.answered(person, unit, now)
    client = unit.clients.get(person.client_id)
    if client.state == "stopped":
        return [answer(person, "stopped", words.stopped_speaks())]
    prompt = unit.prompts.open(
        "join",
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        card_key=f"leave:{client.id}:{person.arrival.update_id}",
        facts={"ask": "leave"},
    )
    return [
        Send(
            person.chat_id,
            words.stop_question(prompt.id, prompt.revision),
            key=f"leave:{person.arrival.update_id}",
            card=prompt.card_key,
            client_id=client.id,
        )
    ]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Stop, or go on."""
    if person.client_id is None:
        return []
    client = unit.clients.get(person.client_id)
    if client.state == "stopped":
        return refreshed(prompt, person, unit)
    if tap.action is Action.CANCEL:
        unit.prompts.close(prompt.id, now)
        return [card_shown(prompt, client.id, words.goes_on())]
    if tap.action is Action.CONFIRM:
        return stopped(client, prompt, unit, now)
    return refreshed(prompt, person, unit)


def refreshed(prompt: Prompt, person: Person, unit: Unit) -> Sequence[Effect]:
    """Show how leaving stands, after a tap on a button that is no longer good."""
    if person.client_id is None:
        return []
    client = unit.clients.get(person.client_id)
    if client.state == "stopped" and unit.clients.was_ended(client.id):
        return [card_shown(prompt, client.id, words.stopped_speaks())]
    if client.state == "stopped":
        coach = unit.coaches.get(unit.tenant).name
        return [card_shown(prompt, client.id, words.has_stopped(coach))]
    if prompt.closed_at is not None:
        return [card_shown(prompt, client.id, words.goes_on())]
    message = words.stop_question(prompt.id, prompt.revision, NOTES["stale"])
    return [card_shown(prompt, client.id, message)]


def ended(client: Client, unit: Unit, now: datetime, *, by_coach: bool = False) -> list[Effect]:
    """End everything at once. A client who stops takes her consent back; her coach ends what it was given for.

    Either way no consent stands after it: nothing is kept, worked out or shown of her until she agrees anew.
    """
    if by_coach:
        unit.clients.end_consent(client.id, now)
    else:
        unit.clients.withdraw(client.id, now)
    unit.contracts.end(client.id, now)
    unit.clients.change(client.id, state="stopped", join_step=None, stopped_at=now)
    unit.blocks.end(client.id, now)
    unit.daily_preps.end(client.id, now)
    unit.sessions.drop_planned(client.id)
    for open_session in unit.sessions.of_client(client.id, ("sent", "started", "asking", "held")):
        # Closed, so that an old card takes no replies when she comes back.
        state = "left_out" if open_session.state in ("sent", "held") else "partial"
        unit.sessions.change(open_session.id, state=state, left_reason="stopped", closed_at=now)
    unit.prompts.close_about(client.id, now)
    return [Cancel(client.id)]


def stopped(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """End everything because the client wants it so, and tell her coach."""
    effects = ended(client, unit, now)
    told = Tell(
        client.id,
        key=f"stopped:{client.id}:{prompt.id}",
        grown=1,
        level=Level.TODAY,
        message=words.has_left(client.name, joining=client.state == "joining"),
    )
    last = words.has_stopped(unit.coaches.get(unit.tenant).name)
    return [*effects, card_shown(prompt, client.id, last), told]


def card_shown(prompt: Prompt, client_id: int, message: Message, *, moved: bool = False) -> EditCard:
    """Show new content on a prompt's card."""
    card = prompt.card_key or f"{prompt.kind}:{prompt.id}"
    return EditCard(card, prompt.chat_id, message, moved=moved, client_id=client_id)


def answer(person: Person, what: str, message: Message) -> Send:
    """Answer whoever came, once for what came."""
    arrival = person.arrival.update_id if person.arrival else 0
    return Send(person.chat_id, message, key=f"{what}:{arrival}")
