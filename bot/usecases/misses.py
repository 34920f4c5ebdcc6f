"""Missed sessions: settled after their grace, asked about kindly, told to the coach when it is time."""

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Action, EditCard, Effect, Level, Message, Person, Send, Tap, Tell
from bot.render import misses as say
from bot.render import moving
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import illness, pain
from bot.usecases.effects import after_quiet
from bot.usecases.move_views import move_view
from bot.usecases.moving import options_for
from bot.usecases.not_today import moved_lines
from bot.usecases.session_view import show
from bot.usecases.settling import settle
from bot.usecases.silence import stop_cards
from bot.usecases.unasked import has_room
from core.local_time import local_date
from core.oversight.misses import OPEN, Concern, Past, Question, Standing, grace_end, standing
from core.programme.replanning import How, Option

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
    if session.state not in OPEN or now < grace_end(
        session.local_on, client.zone or "UTC", unit.rules.policy(client.id)
    ):
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
    return standing(past, began, client.heard_at, today, unit.rules.policy(client.id))


def _after_miss(client: Client, unit: Unit, now: datetime) -> list[Effect]:
    found = standing_of(client, unit, now)
    account = unit.accounts.of_client(client.id)
    if not found.run or account is None:
        return []
    effects: list[Effect] = []
    if client.state == "active":
        if found.question is Question.STOPPED:
            effects += stop_cards(client, account, unit, now)
        elif has_room(client, unit, now, unit.rules.policy(client.id)):
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
        due_at=after_quiet(now, client.zone or "UTC", unit.rules.policy(client.id)),
        card=prompt.card_key,
        client_id=client.id,
        unasked=True,
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
    again = unit.moves.later(session) if session.state == "missed" else None
    return say.Named(
        unit.versions.day_name(session),
        past.on,
        past.reason,
        comes_on=again.local_on if again is not None and again.state == "planned" else None,
    )


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Keep the reason; want of time may get another day, pain asks where, sickness gets its one line."""
    if tap.action in (Action.MOVE, Action.DROP) and prompt.facts.get("options"):
        return _chosen(tap, prompt, unit, now)
    reason = REASONS.get(tap.argument)
    if tap.action is not Action.PICK or reason is None or prompt.facts.get("reason"):
        return refreshed(prompt, person, unit, now)
    for session_id in prompt.facts["sessions"]:
        if unit.sessions.get(session_id).state == "missed":
            unit.sessions.change(session_id, left_reason=reason)
    facts = {**prompt.facts, "reason": reason}
    found = _other_days(prompt, unit, now) if reason == "time" else []
    if found:
        facts |= {"options": [each.model_dump(mode="json") for each in found], "at": now.isoformat()}
    else:
        unit.prompts.close(prompt.id, now)
    effects: list[Effect] = [_card(unit.prompts.revise(prompt.id, facts=facts), unit)]
    if reason == "pain":
        effects += pain.begin(person, unit, now, session_id=None, item=None)
    if reason == "ill":
        effects += _illness_asked(prompt, person, unit, now)
    return effects


def _illness_asked(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask what kind of illness it is, which began with the first session missed for it; not of a held plan."""
    client = unit.clients.get(prompt.client_id or 0)
    if client.frozen_at is not None:
        return []
    first = min(unit.sessions.get(each).local_on for each in prompt.facts["sessions"])
    return illness.begin(client, person, unit, now, since=first)


def _other_days(prompt: Prompt, unit: Unit, now: datetime) -> list[Option]:
    """Return the days that a session which was missed can still have; of several none, for that would be a debt."""
    missed = [unit.sessions.get(each) for each in prompt.facts["sessions"]]
    if len(missed) != 1 or missed[0].state != "missed":
        return []
    client = unit.clients.get(missed[0].client_id)
    if client.frozen_at is not None or client.state != "active":
        return []
    return [each for each in options_for(missed[0], unit, now) if each.how not in (How.LEAVE_OUT, How.NEXT)]


def _chosen(tap: Tap, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Move what was missed to the day that was chosen, if it still fits."""
    options = [Option.model_validate(each) for each in prompt.facts["options"]]
    facts = {key: fact for key, fact in prompt.facts.items() if key != "options"}
    unit.prompts.close(prompt.id, now)
    if tap.action is Action.MOVE and tap.argument < len(options):
        option = options[tap.argument]
        if option in _other_days(prompt, unit, now):
            session = unit.sessions.get(prompt.facts["sessions"][0])
            lines = moved_lines(option, "time", session, unit, now)
            facts["lines"] = [*lines]
            shown = unit.prompts.revise(prompt.id, facts=facts)
            return [*show(session.id, unit, screen="closed", closing=lines), _card(shown, unit)]
        facts["lines"] = [moving.NO_DAY]
    return [_card(unit.prompts.revise(prompt.id, facts=facts), unit)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the question, or what was answered, as it stands."""
    return [_card(prompt, unit)]


def _card(prompt: Prompt, unit: Unit) -> EditCard:
    key = prompt.card_key or f"missed:{prompt.subject}"
    return EditCard(key, prompt.chat_id, _message(prompt, unit), client_id=prompt.client_id)


def _message(prompt: Prompt, unit: Unit) -> Message:
    facts = prompt.facts
    sessions = [unit.sessions.get(each) for each in facts["sessions"]]
    named = [_name(Past(session_id=each.id, on=each.local_on, state=each.state), unit) for each in sessions]
    if "lines" in facts:
        return say.decided(named[-1].day, facts["lines"])
    if "options" in facts:
        at = datetime.fromisoformat(facts["at"])
        options = [Option.model_validate(each) for each in facts["options"]]
        with suppress(LookupError):  # what would have moved too is no longer planned
            moves = [move_view(each, sessions[-1], unit, at) for each in options]
            return say.offer(prompt.id, prompt.revision, named[-1], moves)
    if "reason" in facts:
        return say.noted(str(facts["reason"]), named[-1].comes_on)
    return say.ask(prompt.id, prompt.revision, named)
