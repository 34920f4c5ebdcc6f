"""A reminder when a rest is over: only for who asks for it, once or for all of a session.

It is a message with a sound, due when the rest ends. What is logged next, the end of the session, pain and a stop sign
take it back; so does a card that comes later than that.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from bot.messages import EditCard, Effect, Person, Send, Tap
from bot.render import resting as say
from bot.render.sessions_said import OLD_BUTTON
from bot.store.units import Unit
from bot.usecases.session_view import prompt_of, reminders_key, show
from core.checkin.training_log import Item, Session
from core.programme.grammar import LONGEST_REST_S
from core.programme.together import groups

LEAST_S = 10
"""Shortest rest that a message can mark. [s] Our proposal: sending takes a second or two."""
GOOD_FOR = timedelta(minutes=5)
"""How late a reminder may still come: after that the rest is long over. Our proposal."""
OFF, ONCE, EVERY = "", "once", "every"
_MODES = {0: OFF, 1: ONCE, 2: EVERY}

_REST = re.compile(
    r"(?:rest|remind me (?:in|after))(?: for| of)? (?P<first>\d{1,4})(?::(?P<seconds>[0-5]\d))?"
    r" ?(?P<unit>s|sec|secs|seconds?|m|min|mins|minutes?)?"
)
_SAID = {
    "rest": ONCE,
    "remind me": ONCE,
    "rest reminder": ONCE,
    "remind me after rest": ONCE,
    "remind me again": ONCE,
    "rest now": ONCE,
    "remind me every time": EVERY,
    "remind me every rest": EVERY,
    "every rest today": EVERY,
    "every rest": EVERY,
    "no reminder": OFF,
    "no reminders": OFF,
    "stop reminding me": OFF,
    "don't remind me": OFF,
}


def asked(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Set a reminder for the rest that begins now: this once, for every rest of the session, or none any more."""
    mode = _MODES.get(tap.argument)
    if mode is None or session.state != "started":
        return show(session.id, unit, note=OLD_BUTTON)
    return _set(mode, None, session, person, unit, now)


def typed(text: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take `rest 90`, `rest 2:00`, `remind me`, `remind me every time`, `no reminder`; None for other words."""
    if session.state == "asking":
        return None
    words = " ".join(text.casefold().replace("’", "'").strip(" .!").split())
    found = _REST.fullmatch(words)
    if words not in _SAID and found is None:
        return None
    effects = _set(_SAID.get(words, ONCE), _seconds(found) if found else None, session, person, unit, now)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]


def _seconds(found: re.Match[str]) -> int:
    """Return how long a typed rest is. A bare number up to 10 is minutes, since nobody rests for so few seconds. [s]"""
    first, seconds = int(found["first"]), found["seconds"]
    if seconds is not None:
        return first * 60 + int(seconds)
    in_minutes = found["unit"].startswith("m") if found["unit"] else first <= LEAST_S
    return first * 60 if in_minutes else first


def _set(
    mode: str, seconds: int | None, session: Session, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    prompt = prompt_of(session.id, unit)
    every = prompt.facts.get("remind", OFF) == EVERY
    kept = EVERY if every and mode == ONCE else mode
    unit.prompts.note(prompt.id, {**prompt.facts, "remind": kept})
    withdraw(session.id, unit)
    screen = "item" if session.state == "started" else "overview"
    if mode == OFF:
        return show(session.id, unit, screen=screen, note=say.NO_REMINDER)
    items = unit.sessions.items(session.id)
    here = next((each for each in items if each.id == session.cursor_item_id), None)
    lasts = seconds if seconds is not None else rest_of(here, items) if here is not None else None
    if lasts is None:
        return show(session.id, unit, screen=screen, note=say.HOW_LONG)
    if not LEAST_S <= lasts <= LONGEST_REST_S:
        return show(session.id, unit, screen=screen, note=say.not_so_long(LEAST_S, LONGEST_REST_S))
    shown = show(session.id, unit, screen=screen, note=say.will_remind(lasts, every=mode == EVERY))
    return [*shown, _reminder(lasts, here, session, unit, now)]


def after(item: Item, session_id: int, unit: Unit, now: datetime, *, goes_on: bool) -> list[Effect]:
    """Take back the reminder that is pending, since an exercise was logged; set the next where she wants every one.

    Args:
        item: What was logged.
        session_id: Its session.
        unit: Open transaction.
        now: Instant.
        goes_on: True where another exercise follows.
    """
    withdraw(session_id, unit)
    prompt = prompt_of(session_id, unit)
    mode = prompt.facts.get("remind", OFF)
    if mode == ONCE:
        unit.prompts.note(prompt.id, {**prompt.facts, "remind": OFF})
    lasts = rest_of(item, unit.sessions.items(session_id))
    if mode != EVERY or not goes_on or lasts is None or lasts < LEAST_S:
        return []
    session = unit.sessions.get(session_id)
    here = unit.sessions.item(session.cursor_item_id) if session.cursor_item_id else None
    return [_reminder(lasts, here, session, unit, now)]


def rest_of(item: Item, items: Sequence[Item]) -> int | None:
    """Return the rest after an exercise, or after the round where it goes in turn with others that are open. [s]"""
    with_it = [each.prescription for each in items if each.state == "open" or each.id == item.id]
    order = item.prescription.order
    group = next(one for one in groups(with_it) if order in {member.order for member in one.members})
    return group.rest_s


def withdraw(session_id: int, unit: Unit) -> None:
    """Take back the reminders of a session that are still to come."""
    unit.outbox.withdraw(unit.tenant, reminders_key(session_id))


def _reminder(lasts: int, here: Item | None, session: Session, unit: Unit, now: datetime) -> Send:
    prompt, due = prompt_of(session.id, unit), now + timedelta(seconds=lasts)
    exercise = unit.exercises.get(here.exercise) if here is not None else None
    order = here.prescription.order if here is not None else ""
    return Send(
        prompt.chat_id,
        say.rest_is_over(lasts, order, exercise),
        key=f"{reminders_key(session.id)}{prompt.revision}:{int(due.timestamp())}",
        due_at=due,
        not_after=due + GOOD_FOR,
        client_id=session.client_id,
    )
