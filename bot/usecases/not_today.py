"""Not today: the reason, then another day where one fits, the main lift with the next session, or left out."""

import re
from dataclasses import replace
from datetime import date, datetime

from bot.messages import EditCard, Effect, Level, Person, Tap, Tell
from bot.render import misses as told
from bot.render import moving as say
from bot.render.closing import next_session_line
from bot.store.units import Unit
from bot.usecases import illness, pain
from bot.usecases.closing import onward
from bot.usecases.leaving_out import leave_out, leave_rest
from bot.usecases.move_views import day_name, move_view
from bot.usecases.moving import left_out_last_week, move, options_for
from bot.usecases.session_view import prompt_of, show
from core.checkin.training_log import Session
from core.local_time import local_date
from core.programme.replanning import How, Option

REASONS = {1: "time", 2: "ill", 3: "pain", 4: "away"}
ASKED = ("time", "away")
"""Reasons after which another day is offered: who is ill gets well first, and pain goes its own way."""

_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_DAY = re.compile(r"(?:on |to |move (?:it )?to )?([a-z]{3,9})(?: (\d{1,2})(?: [a-z]{3,9})?)?")
_NUMBERS = {name: number for number, name in REASONS.items()}
_SAID = {
    "no time": "time",
    "time": "time",
    "busy": "time",
    "away": "away",
    "ill": "ill",
    "sick": "ill",
    "pain": "pain",
}
_LEAVE = re.compile(r"(?:leave|leave (?:it|this) out|leave out)(?: all the same)?|left out|drop it")
_MERGE = re.compile(r"(?:main )?lift(?: with .+)?|merge(?: .+)?|main")
_NEXT = re.compile(r"next(?: in line)?|comes? next")


def reason_given(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the reason: end what was begun; else offer another day where one fits, or leave the session out."""
    reason = REASONS.get(tap.argument)
    if reason is None:
        return show(session.id, unit)
    if unit.sets.last_entry(session.id):
        return _rest_left_out(reason, session, person, unit, now)
    if reason in ASKED:
        found = options_for(session, unit, now)
        if len(found) > 1:
            return _asked(reason, found, session, unit, now)
    return _left_out(reason, session, person, unit, now)


def day_chosen(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Move the session as was chosen, if that can still be done; else show what can."""
    asked = prompt_of(session.id, unit).facts.get("moves")
    if not asked or tap.argument >= len(asked["options"]):
        return show(session.id, unit)
    option = Option.model_validate(asked["options"][tap.argument])
    return _moved(option, REASONS[asked["reason"]], session, person, unit, now)


def dropped(tap: Tap, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Leave the session out, though another day was offered."""
    reason = REASONS.get(tap.argument)
    if reason is None or unit.sets.last_entry(session.id):
        return show(session.id, unit)
    return _left_out(reason, session, person, unit, now)


def typed(text: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a reason, a day or "leave out", typed where it is asked; None for other words."""
    prompt = unit.prompts.newest("session", session.id)
    screen = prompt.facts.get("screen") if prompt is not None else None
    words = " ".join(text.casefold().strip(" .!").split())
    if prompt is None or screen not in ("not_today", "other_day"):
        return None
    if screen == "not_today" and words in _SAID:
        tap = Tap(0, 0, say.REASON, _NUMBERS[_SAID[words]])
        return _below(reason_given(tap, session, person, unit, now))
    if unit.sets.last_entry(session.id):
        return None
    reason = REASONS[prompt.facts["moves"]["reason"]] if screen == "other_day" else "time"
    if _LEAVE.fullmatch(words):
        return _below(_left_out(reason, session, person, unit, now))
    found = options_for(session, unit, now)
    today = local_date(now, unit.clients.get(session.client_id).zone or "UTC")
    meant = _meant(words, found, today)
    if isinstance(meant, Option):
        return _below(_moved(meant, reason, session, person, unit, now))
    if not meant:
        return None
    if len(found) == 1:
        return _below(show(session.id, unit, note=say.NO_DAY))
    return _below(_asked(reason, found, session, unit, now, note=say.NOT_THAT_DAY))


def _meant(words: str, found: tuple[Option, ...], today: date) -> Option | bool:
    """Return the option that is meant; True for a day that is none of them, False for other words."""
    if _MERGE.fullmatch(words):
        return next((each for each in found if each.how is How.MERGE), True)
    if _NEXT.fullmatch(words):
        return next((each for each in found if each.how is How.NEXT), True)
    said = _DAY.fullmatch(words)
    if said is None:
        return False
    near = {"today": today.weekday(), "tomorrow": (today.weekday() + 1) % 7}
    named = (place for place, day in enumerate(_DAYS) if day.startswith(said[1]))
    weekday = near.get(said[1], next(named, None))
    if weekday is None:
        return False
    dated = ((each, each.on) for each in found if each.on is not None)
    return next(
        (each for each, on in dated if on.weekday() == weekday and said[2] in (None, str(on.day))), True
    )


def _asked(
    reason: str,
    found: tuple[Option, ...],
    session: Session,
    unit: Unit,
    now: datetime,
    note: str | None = None,
) -> list[Effect]:
    before = left_out_last_week(session, unit)
    facts = {
        "reason": _NUMBERS[reason],
        "options": [each.model_dump(mode="json") for each in found if each.how is not How.LEAVE_OUT],
        "last_week": before.local_on.isoformat() if before else None,
        "at": now.isoformat(),
    }
    prompt = prompt_of(session.id, unit)
    unit.prompts.note(prompt.id, {**prompt.facts, "moves": facts})
    return show(session.id, unit, screen="other_day", note=note)


def _moved(
    option: Option, reason: str, session: Session, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    found = options_for(session, unit, now)
    if option not in found:
        if len(found) > 1:
            return _asked(reason, found, session, unit, now, note=say.NO_LONGER)
        return show(session.id, unit, screen="not_today", note=say.NO_DAY)
    lines = moved_lines(option, reason, session, unit, now)
    return show(session.id, unit, screen="closed", closing=lines)


def moved_lines(option: Option, reason: str, session: Session, unit: Unit, now: datetime) -> tuple[str, ...]:
    """Move a session, and return what is said of it: what was decided, and what comes next."""
    view = move_view(option, session, unit, now)
    move(session, option, reason, unit, now)
    following = unit.sessions.next_planned(session.client_id)
    moved_to = unit.sessions.get(session.id).moved_to
    if following is None or following.id == moved_to:
        return (say.decided(view),)
    return say.decided(view), next_session_line(day_name(following, unit), following.local_on)


def _rest_left_out(reason: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    leave_rest(reason, session, unit)
    return [*onward(session.id, unit, person, now), *_asked_more(reason, session, person, unit, now)]


def _asked_more(reason: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask where it hurts, or what kind of illness it is."""
    if reason == "pain":
        return pain.begin(person, unit, now, session_id=session.id, item=None)
    client = unit.clients.get(session.client_id)
    return illness.begin(client, person, unit, now, session_id=session.id) if reason == "ill" else []


def _left_out(reason: str, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    effects = leave_out(reason, session, unit, now)
    if reason in ("pain", "ill"):
        return [*effects, *_asked_more(reason, session, person, unit, now)]
    before = left_out_last_week(session, unit)
    if reason == "time" and before is not None:
        effects.append(_told(before, session, unit))
    return effects


def _told(before: Session, session: Session, unit: Unit) -> Tell:
    """Tell the coach, once, of a day that is left out two weeks running."""
    client = unit.clients.get(session.client_id)
    message = told.left_out_twice(client.name, day_name(session, unit), before.local_on, session.local_on)
    return Tell(client.id, f"misses:{client.id}:day:{before.id}", 1, Level.TODAY, message)


def _below(effects: list[Effect]) -> list[Effect]:
    """Move the card down under what was typed."""
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]
