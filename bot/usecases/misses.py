"""Missed sessions: settled after their grace, asked about kindly, told to the coach when it is time."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Action, EditCard, Effect, Level, Person, Send, Tap, Tell
from bot.render import misses as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import pain
from bot.usecases.effects import after_quiet
from bot.usecases.settling import settle
from bot.usecases.silence import stop_cards
from core.local_time import local_date
from core.oversight.misses import OPEN, Concern, Past, Question, Standing, grace_end, standing
from core.policy import Policy

LOOK_BACK = timedelta(days=42)
"""How far back a row of misses is followed."""

REASONS = {1: "time", 2: "ill", 3: "pain", 4: "other"}
"""What the four buttons keep."""


@dataclass(frozen=True, slots=True)
class SettleSession:
    """The grace of a session is over."""

    session_id: int


def settle_session(command: SettleSession, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Settle a session whose grace is over, and see to what follows when it was missed."""
    session = unit.sessions.get(command.session_id)
    client = unit.clients.get(session.client_id)
    if session.state not in OPEN or now < grace_end(session.local_on, client.zone or "UTC", Policy()):
        return []
    effects = settle(session, unit, now)
    if unit.sessions.get(session.id).state != "missed" or client.frozen_at is not None:
        return effects
    return [*effects, *_after_miss(client, unit, now)]


def standing_of(client: Client, unit: Unit, now: datetime) -> Standing:
    """Return how a client stands with missed sessions."""
    today = local_date(now, client.zone or "UTC")
    past = unit.oversight.past(client.id, today - LOOK_BACK).get(client.id, ())
    began = unit.oversight.began(client.id).get(client.id)
    return standing(past, began, client.heard_at, today, Policy())


def _after_miss(client: Client, unit: Unit, now: datetime) -> list[Effect]:
    found = standing_of(client, unit, now)
    account = unit.accounts.of_client(client.id)
    if not found.run or account is None:
        return []
    effects: list[Effect] = []
    if client.state == "active":
        if found.question is Question.STOPPED:
            effects += stop_cards(client, account, unit, now)
        else:
            effects.append(_question(found, client, account.user_id, account.chat_id, unit, now))
    if found.concern is not None:
        effects.append(_told(found, found.concern, client, unit))
    return effects


def _question(found: Standing, client: Client, user_id: int, chat_id: int, unit: Unit, now: datetime) -> Send:
    """Ask what was in the way, at a decent hour."""
    asked = found.run[-found.unanswered :] if found.question is Question.SILENCE else found.run[-1:]
    newest = asked[-1].session_id
    prompt = unit.prompts.open(
        "missed",
        user_id,
        chat_id,
        now,
        client_id=client.id,
        subject=newest,
        card_key=f"missed:{newest}",
        facts={"sessions": [each.session_id for each in asked]},
    )
    return Send(
        chat_id,
        say.ask(prompt.id, prompt.revision, _named(asked, unit)),
        key=f"missed:{newest}:ask",
        due_at=after_quiet(now, client.zone or "UTC", Policy()),
        card=prompt.card_key,
        client_id=client.id,
    )


def _told(found: Standing, concern: Concern, client: Client, unit: Unit) -> Tell:
    """Tell the coach: of a row again when it grows, of a silence once, of a half once in a while."""
    shown = found.run[-found.unanswered :] if concern is Concern.SILENT else found.run
    which = "half" if concern is Concern.HALF else f"{concern is Concern.SILENT:d}:{shown[0].session_id}"
    planned = unit.sessions.next_planned(client.id)
    return Tell(
        client.id,
        key=f"misses:{client.id}:{which}",
        grown=len(found.run) if concern is Concern.RUN else 1,
        level=Level.TODAY,
        message=say.alert(
            client.name, concern, _named(shown, unit), found.recent, planned.local_on if planned else None
        ),
    )


def _named(past: tuple[Past, ...], unit: Unit) -> tuple[say.Named, ...]:
    return tuple(_name(each, unit) for each in past)


def _name(past: Past, unit: Unit) -> say.Named:
    session = unit.sessions.get(past.session_id)
    block = unit.blocks.version(unit.blocks.assignment(session.assignment_id).version_id)
    day = block.day(session.day_key)
    return say.Named(day.name if day is not None else session.day_key, past.on, past.reason)


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Keep the reason; pain asks where, sickness gets its one line."""
    reason = REASONS.get(tap.argument)
    if tap.action is not Action.PICK or reason is None:
        return refreshed(prompt, person, unit, now)
    for session_id in prompt.facts["sessions"]:
        if unit.sessions.get(session_id).state == "missed":
            unit.sessions.change(session_id, left_reason=reason)
    unit.prompts.close(prompt.id, now)
    shown = unit.prompts.revise(prompt.id, facts={**prompt.facts, "reason": reason})
    effects: list[Effect] = [_card(shown, unit)]
    if reason == "pain":
        effects += pain.begin(person, unit, now, session_id=None, item=None)
    return effects


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the question, or what was answered, as it stands."""
    return [_card(prompt, unit)]


def _card(prompt: Prompt, unit: Unit) -> EditCard:
    reason = prompt.facts.get("reason")
    if reason is not None:
        message = say.noted(str(reason))
    else:
        ids = prompt.facts["sessions"]
        past = tuple(
            Past(session_id=each, on=unit.sessions.get(each).local_on, state="missed") for each in ids
        )
        message = say.ask(prompt.id, prompt.revision, _named(past, unit))
    key = prompt.card_key or f"missed:{prompt.subject}"
    return EditCard(key, prompt.chat_id, message, client_id=prompt.client_id)
