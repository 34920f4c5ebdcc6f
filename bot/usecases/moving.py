"""A session on another day: what can be done about one that is not done, done, and taken back."""

from datetime import date, datetime, timedelta

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.in_line import LIVE, next_turn, style_of
from bot.usecases.layout import carry_on
from bot.usecases.merging import booked, is_merge
from bot.usecases.session_view import prompt_of
from bot.usecases.time_off import time_off
from core.checkin.training_log import Session
from core.errors import TooFewTrainingDays
from core.local_time import instant_of, local_date
from core.oversight.misses import EXCUSED
from core.programme.block import Weekday
from core.programme.calendar import WEEK
from core.programme.replanning import Booked, How, Option, Style, options

ONE_DAY = timedelta(days=1)
LEFT_OUT = Option(how=How.LEAVE_OUT)
NEARBY = timedelta(days=9)
"""How far from a session another one can matter to it: its week, and two days."""


def options_for(session: Session, unit: Unit, now: datetime) -> tuple[Option, ...]:
    """Return what can be done about a session that is not done; leaving it out is the last, and always there."""
    client = unit.clients.get(session.client_id)
    running = unit.blocks.running(client.id)
    movable = running is not None and running.id == session.assignment_id and client.hour is not None
    if running is None or not movable or unit.sets.last_entry(session.id) or unit.moves.later(session):
        return (LEFT_OUT,)
    if style_of(unit) is Style.IN_LINE:
        try:
            on = next_turn(session, client, running, unit, now)
        except TooFewTrainingDays:
            return (LEFT_OUT,)
        return Option(how=How.NEXT, on=on), LEFT_OUT
    today = local_date(now, client.zone or "UTC")
    # A card that is still open from yesterday, or a miss, can have today.
    first = today + ONE_DAY if session.local_on >= today else today
    days = [Weekday(day) for day in client.days or ()]
    found = options(booked(session, unit), around(session, unit), days, first, week_of(session, unit)[1])
    off = time_off(client.id, first, unit)
    return tuple(
        each
        for each in found
        if not any(one.covers(on) for one in off for on in (each.on, each.other_on) if on is not None)
    )


def week_of(session: Session, unit: Unit) -> tuple[date, date]:
    """Return the first and the last date of the client's week that a session belongs to."""
    first = unit.blocks.assignment(session.assignment_id).starts_on + WEEK * (session.week_no - 1)
    return first, first + WEEK - ONE_DAY


def around(session: Session, unit: Unit) -> list[Booked]:
    """Return what else is on the calendar around a session: done, under way or to come."""
    first, last = week_of(session, unit)
    return [
        booked(
            each,
            unit,
            movable=each.state == "planned"
            and each.assignment_id == session.assignment_id
            and each.week_no == session.week_no
            and first <= each.local_on <= last,
        )
        for each in unit.sessions.of_client(session.client_id, (*LIVE, "planned"))
        if each.id != session.id and abs(each.local_on - session.local_on) <= NEARBY
    ]


def move(session: Session, option: Option, reason: str, unit: Unit, now: datetime) -> None:
    """Do what was chosen. What was given that day stays as it is; nothing of it counts."""
    client = unit.clients.get(session.client_id)
    unit.sessions.change(session.id, state="moved", left_reason=reason, closed_at=now, cursor_item_id=None)
    own_day = session.local_on == local_date(now, client.zone or "UTC")
    _remember(option, _free_orders(session, unit), session, unit, own_day=own_day)
    if option.how is How.NEXT:
        carry_on(client.id, unit, now)
    elif option.how is How.MERGE and option.other is not None:
        unit.moves.point([session], option.other)
    elif option.on is not None:
        made = unit.moves.again(session, option.on, _due(option.on, client, now), chosen=True)
        _lifts_follow(session.id, made, unit)
    if option.other is not None and option.other_on is not None:
        due_at = _due(option.other_on, client, now)
        unit.sessions.change(option.other, local_on=option.other_on, due_at=due_at, date_chosen=True)
    if option.how is How.NEXT and (again := unit.moves.later(session)) is not None:
        _lifts_follow(session.id, again.id, unit)


def _due(on: date, client: Client, now: datetime) -> datetime:
    if client.hour is None:
        raise LookupError(f"client {client.id} has no hour")
    return max(now, instant_of(on, client.hour, client.zone or "UTC"))


def _lifts_follow(before: int, after: int, unit: Unit) -> None:
    """A lift of another day that was to come with a session comes with it on its new day, and back."""
    into = unit.sessions.get(after)
    unit.moves.point([each for each in unit.moves.came_to(before) if is_merge(each, into)], after)


def _free_orders(session: Session, unit: Unit) -> list[int]:
    """What the coach has eased for a session that moves eases the one that comes next."""
    used = [each.id for each in unit.orders.used(session.client_id) if each.until_on == session.local_on]
    unit.orders.free(used)
    return used


def _remember(option: Option, freed: list[int], session: Session, unit: Unit, *, own_day: bool) -> None:
    """Keep with the card what must be put back when the move is taken back."""
    prompt = prompt_of(session.id, unit)
    made = {"freed": freed, "other": option.other if option.other_on is not None else None}
    made["own_day"] = own_day
    unit.prompts.note(prompt.id, {**prompt.facts, "moved": made})


def can_be_taken_back(session: Session, unit: Unit) -> bool:
    """Return whether what a session has moved to is still to come."""
    if session.moved_to is None:
        return True
    return unit.sessions.get(session.moved_to).state == "planned"


def take_back(session: Session, unit: Unit) -> int | None:
    """Take back what was decided about a session: it is the client's again, and what was to come for it is not.

    Returns:
        The session that had made room for it and has its own date to go back to; None where there was none.
    """
    again = unit.moves.later(session)
    if again is not None:
        _lifts_follow(again.id, session.id, unit)
    unit.sessions.change(session.id, state="sent", left_reason=None, closed_at=None, moved_to=None)
    if again is not None:
        unit.sessions.drop([again.id])
    prompt = prompt_of(session.id, unit)
    made = prompt.facts.get("moved", {})
    unit.prompts.note(prompt.id, {key: fact for key, fact in prompt.facts.items() if key != "moved"})
    standing = {each.id for each in unit.orders.standing(session.client_id)}
    unit.orders.use([each for each in made.get("freed", ()) if each in standing], session.local_on)
    other: int | None = made.get("other")
    return other


def left_out_last_week(session: Session, unit: Unit) -> Session | None:
    """Return the same day of the week before when it was not done for a reason that counts; None otherwise."""
    same = [
        each
        for each in unit.moves.of_assignment(session.assignment_id)
        if (each.week_no, each.day_key) == (session.week_no - 1, session.day_key)
    ]
    newest = max(same, key=lambda each: each.attempt, default=None)
    if newest is None or newest.state not in ("left_out", "missed") or newest.left_reason in EXCUSED:
        return None
    return newest
