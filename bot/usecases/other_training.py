"""Training beside the block: one tap or one line, kept for the coach; it changes no decision."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import other_training as say
from bot.render.setting_up import Buttons
from bot.store.other_training import Other
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.forwarding import words_passed_on
from bot.usecases.lines_of_body import told_of_body, training_with_body
from bot.usecases.other_training_button import KIND
from bot.usecases.today import client_of
from core.checkin.other_training_words import (
    EFFORTS,
    MOST_MINUTES,
    OtherRead,
    effort_read,
    kind_read,
    minutes_read,
    training_read,
)
from core.local_time import local_date

__all__ = ["KIND", "OtherSaid", "other_said", "refreshed", "shown_of", "tapped", "typed"]

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class OtherSaid:
    """`/other`, with what a client types after it."""

    text: str = ""


def other_said(command: OtherSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask what was done; with words after the command take those."""
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    today = _today(client, now)
    kind = kind_read(command.text)
    read = training_read(command.text, today) if command.text.strip() else None
    if read is None and kind is not None:
        read = OtherRead(kind=kind, on=today)
    if read is not None:
        return _taken(read, command.text, client, person, unit, now)
    if (both := _with_body(command.text, client, person, unit, now)) is not None:
        return both
    return [_opened({}, client, person, unit, now)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Keep a kind, add minutes, effort or the day, or take it back."""
    client = unit.clients.get(prompt.subject or 0)
    if client.state not in ("active", "paused"):
        return []
    if tap.action is Action.START:
        return [_opened({}, client, person, unit, now)]
    kept = _kept(prompt, client, unit)
    done = (
        _first_tap(tap, prompt, client, person, unit, now)
        if kept is None
        else _added_by_tap(tap, kept, prompt, client, unit, now)
    )
    return refreshed(prompt, person, unit, now) if done is None else done


def _first_tap(
    tap: Tap, prompt: Prompt, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    """Keep what was tapped, or pass the line on that was no training; None for a button that is not offered."""
    match tap.action:
        case Action.PICK if tap.argument < len(say.KINDS):
            read = OtherRead(kind=say.KINDS[tap.argument], on=_today(client, now))
            return _keep(read, prompt, client, unit, now)
        case Action.CONFIRM if "read" in prompt.facts:
            return _keep(OtherRead.model_validate(prompt.facts["read"]), prompt, client, unit, now)
        case Action.CANCEL if "read" in prompt.facts:
            unit.prompts.close(prompt.id, now)
            passed = words_passed_on(str(prompt.facts["text"]), client, person, unit, now)
            return [*passed, _card(prompt, say.for_coach())]
    return None


def _added_by_tap(
    tap: Tap, kept: Other, prompt: Prompt, client: Client, unit: Unit, now: datetime
) -> list[Effect] | None:
    """Add minutes, effort or the day, or take it back; None for a button that is not offered."""
    today = _today(client, now)
    match tap.action:
        case Action.TRIM if 1 <= tap.argument <= MOST_MINUTES:
            return _changed(kept, prompt, client, unit, now, minutes=tap.argument)
        case Action.FEEL if 1 <= tap.argument <= len(EFFORTS):
            return _changed(kept, prompt, client, unit, now, effort=tap.argument)
        case Action.MOVE if kept.local_on == today:
            return _changed(kept, prompt, client, unit, now, on=today - ONE_DAY)
        case Action.UNDO:
            return _undone(kept, prompt, client, unit, now)
    return None


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how it stands, after a tap on a button that is no longer good."""
    client = unit.clients.get(prompt.subject or 0)
    if prompt.card_key is None:
        return [_opened({}, client, person, unit, now)] if client.state in ("active", "paused") else []
    if prompt.closed_at is not None:
        return []
    return [_shown(prompt, client, unit, now, say.STALE)]


def typed(
    text: str, client: Client, person: Person, unit: Unit, now: datetime, *, in_session: bool
) -> list[Effect] | None:
    """Take a line that tells of other training, or adds to what was just kept; None for anything else.

    While a session is open only a line of which every word is known is taken, so that sets go to their exercise.
    """
    added = _added(text, client, person, unit, now, in_session=in_session)
    if added is not None:
        return added
    read = training_read(text, _today(client, now))
    if read is None:
        return _with_body(text, client, person, unit, now)
    if in_session and not read.clear:
        return None
    return _taken(read, text, client, person, unit, now)


def _with_body(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take training and what hurt in it, told in one line; None for anything else.

    The question about pain is asked last and shown first: the next words answer it.
    """
    found = training_with_body(text, _today(client, now), client, unit)
    if found is None:
        return None
    read, reading, rest = found
    kept = _taken(read, text, client, person, unit, now)
    return [*told_of_body(reading, rest, client, person, unit, now, in_session=True), *kept]


def _added(
    text: str, client: Client, person: Person, unit: Unit, now: datetime, *, in_session: bool
) -> list[Effect] | None:
    """Take minutes, effort, a kind or `undo` for the card that is open."""
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is None or prompt.kind != KIND:
        return None
    words = " ".join(text.casefold().strip(" .!").split())
    kept = _kept(prompt, client, unit)
    if kept is None:
        kind = kind_read(words)
        if kind is None or in_session or "read" in prompt.facts:
            return None
        return _below(_keep(OtherRead(kind=kind, on=_today(client, now)), prompt, client, unit, now))
    if words == "undo":
        return _below(_undone(kept, prompt, client, unit, now))
    if words in ("yesterday", "it was yesterday"):
        on = _today(client, now) - ONE_DAY
        return _below(_changed(kept, prompt, client, unit, now, on=on))
    minutes, rest = minutes_read(words)
    if words.isdigit() and not in_session:
        minutes, rest = int(words), ""
    effort = effort_read(rest)
    beside = rest.replace(EFFORTS[effort - 1].casefold(), "", 1) if effort is not None else rest
    if beside.strip(" ,") or (minutes is None and effort is None):
        return None
    if minutes is not None and not 1 <= minutes <= MOST_MINUTES:
        return None
    return _below(_changed(kept, prompt, client, unit, now, minutes=minutes, effort=effort))


def _taken(
    read: OtherRead, text: str, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Keep what is clear; ask about what is not."""
    if not read.clear:
        return [_opened({"read": read.model_dump(mode="json"), "text": text}, client, person, unit, now)]
    message_id = person.arrival.message_id if person.arrival else None
    return [
        _opened(
            {"row": _row(read, client, unit, now, message_id), "distance": read.distance},
            client,
            person,
            unit,
            now,
        )
    ]


def _row(read: OtherRead, client: Client, unit: Unit, now: datetime, message_id: int | None = None) -> int:
    return unit.other_training.add(
        client.id,
        read.kind.value,
        read.on,
        now,
        minutes=read.minutes,
        effort=read.effort,
        message_id=message_id,
    )


def _keep(read: OtherRead, prompt: Prompt, client: Client, unit: Unit, now: datetime) -> list[Effect]:
    facts = {"row": _row(read, client, unit, now), "distance": read.distance}
    revised = unit.prompts.revise(prompt.id, facts=facts)
    unit.prompts.expect_text(revised)
    return [_shown(revised, client, unit, now)]


def _changed(
    kept: Other,
    prompt: Prompt,
    client: Client,
    unit: Unit,
    now: datetime,
    *,
    minutes: int | None = None,
    effort: int | None = None,
    on: date | None = None,
) -> list[Effect]:
    """Add to what is kept: the old row is voided, and another takes its place."""
    unit.other_training.void(kept.id, client.id, now)
    row = unit.other_training.add(
        client.id,
        kept.kind,
        on or kept.local_on,
        now,
        minutes=minutes or kept.minutes,
        effort=effort or kept.effort,
    )
    revised = unit.prompts.revise(prompt.id, facts={**prompt.facts, "row": row})
    unit.prompts.expect_text(revised)
    return [_shown(revised, client, unit, now)]


def _undone(kept: Other, prompt: Prompt, client: Client, unit: Unit, now: datetime) -> list[Effect]:
    unit.other_training.void(kept.id, client.id, now)
    unit.prompts.close(prompt.id, now)
    unit.prompts.revise(prompt.id)
    return [_card(prompt, say.taken_back())]


def _opened(facts: dict[str, Any], client: Client, person: Person, unit: Unit, now: datetime) -> Send:
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, client_id=client.id, subject=client.id, facts=facts
    )
    key = f"other:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    unit.prompts.expect_text(prompt)
    return Send(
        person.chat_id, _message(prompt, client, unit, now), key=f"{key}:card", card=key, client_id=client.id
    )


def _message(prompt: Prompt, client: Client, unit: Unit, now: datetime, note: str = "") -> Message:
    buttons = Buttons(prompt.id, prompt.revision)
    kept = _kept(prompt, client, unit)
    if kept is not None:
        note = note or (say.NO_DISTANCE if prompt.facts.get("distance") else "")
        return say.kept(shown_of(kept), _today(client, now), buttons, note)
    if "read" in prompt.facts:
        read = OtherRead.model_validate(prompt.facts["read"])
        return say.ask_whether(say.Kept(read.kind, read.on, read.minutes, read.effort), buttons)
    return say.ask(buttons)


def shown_of(other: Other) -> say.Kept:
    """Return what is kept as its words need it."""
    return say.kept_of(other.kind, other.local_on, other.minutes, other.effort)


def _shown(prompt: Prompt, client: Client, unit: Unit, now: datetime, note: str = "") -> EditCard:
    return _card(prompt, _message(prompt, client, unit, now, note))


def _kept(prompt: Prompt, client: Client, unit: Unit) -> Other | None:
    row = prompt.facts.get("row")
    return unit.other_training.get(int(row), client.id) if row is not None else None


def _card(prompt: Prompt, message: Message) -> EditCard:
    key = prompt.card_key or f"other:{prompt.id}"
    return EditCard(key, prompt.chat_id, message, client_id=prompt.client_id)


def _below(effects: list[Effect]) -> list[Effect]:
    """Move the card down under what was typed."""
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]


def _today(client: Client, now: datetime) -> date:
    return local_date(now, client.zone or "UTC")
