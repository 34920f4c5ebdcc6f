"""A client who says nothing: no more cards after three, and every one again with her first word or tap."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Action, EditCard, Effect, Level, Message, Person, Send, Tap, Tell
from bot.render import misses as say
from bot.store.people import Account, Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import own_settings
from bot.usecases.effects import after_quiet
from bot.usecases.layout import lay_out
from bot.usecases.sending import late_until
from core.checkin.training_log import Session
from core.errors import TooFewTrainingDays
from core.local_time import local_date

PAUSE = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class EndPause:
    """The pause that a client chose is over."""

    client_id: int


def stop_cards(client: Client, account: Account, unit: Unit, now: datetime) -> list[Effect]:
    """Send no more cards until she says something. What falls due meanwhile is unsent, so it is no miss."""
    unit.clients.change(client.id, state="paused", paused_until=None)
    prompt = unit.prompts.open(
        "silence", account.user_id, account.chat_id, now, client_id=client.id, subject=client.id
    )
    key = f"silence:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    return [
        Send(
            account.chat_id,
            say.stopped(prompt.id, prompt.revision, unit.coaches.get(unit.tenant).name),
            key=f"{key}:ask",
            due_at=after_quiet(now, client.zone or "UTC", unit.rules.policy(client.id)),
            card=key,
            client_id=client.id,
            unasked=True,
        )
    ]


def noticed(person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Note that a client is there. Whatever she says or taps takes the cards up again that her silence had stopped."""
    if (
        person.role != "client"
        or person.client_id is None
        or unit.accounts.of_client(person.client_id) is None
    ):
        return []  # She may have had everything deleted just now.
    unit.oversight.heard(person.client_id, now)
    prompt = unit.prompts.of("silence", person.client_id)
    client = unit.clients.get(person.client_id)
    if prompt is None or client.state != "paused" or client.paused_until is not None:
        return []
    return _taken_up(prompt, client, unit, now)


def _taken_up(prompt: Prompt, client: Client, unit: Unit, now: datetime, *, said: str = "") -> list[Effect]:
    unit.prompts.close(prompt.id, now)
    resume(client, unit, now)
    if client.frozen_at is not None:
        return []
    planned = _next_that_comes(client, unit, now)
    words = say.taken_up(planned.local_on if planned else None, said)
    return [
        _card(
            unit.prompts.revise(prompt.id, facts={**prompt.facts, "words": words.html}), words, moved=not said
        ),
        Tell(client.id, f"back:{client.id}:{prompt.id}", 1, Level.TODAY, say.is_back(client.name)),
    ]


def _next_that_comes(client: Client, unit: Unit, now: datetime) -> Session | None:
    """Return the next session that will really go out: today's only while it is not too late for it."""
    zone = client.zone or "UTC"
    for each in reversed(unit.sessions.of_client(client.id, ("planned",))):
        if (
            each.due_at >= now
            or late_until(each.local_on, now, zone, unit.rules.policy(client.id)) is not None
        ):
            return each
    return None


def resume(client: Client, unit: Unit, now: datetime) -> None:
    """Send cards again."""
    unit.clients.change(client.id, state="active", paused_until=None)
    try:
        lay_out(client.id, unit, now)
    except TooFewTrainingDays:
        # Laid out again when her coach has put that right; what she said must not be lost over it.
        return


def end_pause(command: EndPause, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the cards up again on the day that ends a chosen pause. The next card says so by itself."""
    client = unit.clients.get(command.client_id)
    today = local_date(now, client.zone or "UTC")
    if client.state == "paused" and client.paused_until is not None and client.paused_until <= today:
        unit.prompts.close_kind("silence", client.id, now)
        resume(client, unit, now)
    return []


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Pause for a week, or take up again: with other days, or with a talk first."""
    client = unit.clients.get(prompt.subject or 0)
    match tap.action, tap.argument:
        case Action.PICK, 1:
            return _paused(prompt, client, unit, now)
        case Action.PICK, 2:
            back = _taken_up(prompt, client, unit, now, said=say.WHICH_DAYS)
            again = unit.clients.get(client.id)
            return [*back, own_settings.days_asked(again, person, unit, now)] if back else []
        case Action.PICK, 3:
            told = Tell(
                client.id, f"talk:{client.id}:{prompt.id}", 1, Level.TODAY, say.wants_to_talk(client.name)
            )
            return [*_taken_up(prompt, client, unit, now, said=say.WILL_TALK)[:1], told]
        case Action.CONFIRM, _ if client.state == "paused":
            return _taken_up(prompt, client, unit, now, said=say.WELCOME)
        case _:
            return refreshed(prompt, person, unit, now)


def _paused(prompt: Prompt, client: Client, unit: Unit, now: datetime) -> list[Effect]:
    until = local_date(now, client.zone or "UTC") + PAUSE
    unit.clients.change(client.id, paused_until=until)
    shown = unit.prompts.revise(prompt.id)
    told = Tell(
        client.id, f"pause:{client.id}:{prompt.id}", 1, Level.TODAY, say.has_paused(client.name, until)
    )
    return [_card(shown, say.paused(shown.id, shown.revision, until)), told]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how it stands."""
    words = prompt.facts.get("words")
    if words is not None:
        return [_card(prompt, Message(str(words), silent=True))]
    client = unit.clients.get(prompt.subject or 0)
    if client.paused_until is not None:
        return [_card(prompt, say.paused(prompt.id, prompt.revision, client.paused_until))]
    coach = unit.coaches.get(unit.tenant).name
    return [_card(prompt, say.stopped(prompt.id, prompt.revision, coach))]


def _card(prompt: Prompt, message: Message, *, moved: bool = False) -> EditCard:
    key = prompt.card_key or f"silence:{prompt.id}"
    return EditCard(key, prompt.chat_id, message, moved=moved, client_id=prompt.client_id)
