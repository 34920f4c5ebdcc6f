"""Next in line: what was not done comes next on the client's next training day, and all behind it moves on."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time
from itertools import islice

from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.merging import work_of
from core.checkin.training_log import Session
from core.errors import TooFewTrainingDays
from core.local_time import instant_of, local_date
from core.programme.block import Block, Weekday
from core.programme.calendar import sessions_between
from core.programme.in_line import Turn, dates_in_line, slots
from core.programme.replanning import APART, Style, mains

Key = tuple[int, str]
"""Week and day of a block."""

LIVE = ("sent", "started", "asking", "done", "partial")
UNDONE = ("missed", "unsent", "held")
AHEAD_WEEKS = 3
"""Weeks of the block that are looked at for what is to be laid out: more than are laid."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """A day of a week of the block that waits for its turn.

    Attributes:
        key: Which.
        row: Its newest session; None where none was laid out yet.
        on: Date of its turn.
    """

    key: Key
    row: Session | None
    on: date


def style_of(unit: Unit) -> Style:
    """Return how this coach wants what was not done to go on."""
    return Style(unit.coaches.get(unit.tenant).missed_style)


def lay(client: Client, running: Assignment, unit: Unit, now: datetime, until: date, *, anew: bool) -> int:
    """Give every session its turn: what waits gets its date, what was not done its next attempt.

    Args:
        client: Whose; with clock, hour and days.
        running: What she runs.
        unit: Open transaction.
        now: Instant.
        until: Date up to which new days are laid out.
        anew: True after a change of hour or clock: what keeps its date gets another instant.

    Returns:
        How many sessions were added.
    """
    zone, hour = client.zone or "UTC", client.hour
    if hour is None:
        return 0
    added = 0
    for each in waiting(client, running, unit, now):
        due_at = instant_of(each.on, hour, zone)
        if each.row is None:
            if each.on <= until:
                added += unit.sessions.lay(client.id, running.id, *each.key, each.on, due_at)
        elif each.row.state != "planned":
            unit.moves.again(each.row, each.on, due_at, chosen=False)
            added += 1
        elif anew or each.row.local_on != each.on:
            unit.sessions.change(each.row.id, local_on=each.on, due_at=due_at, date_chosen=False)
    return added


def next_turn(session: Session, client: Client, running: Assignment, unit: Unit, now: datetime) -> date:
    """Return the date on which a session comes next if it is not done now."""
    found = waiting(client, running, unit, now, besides=session)
    return next(each.on for each in found if each.key == _key(session))


def ends_on(client: Client, unit: Unit, on: date) -> date | None:
    """Return the date of the last turn of what a client runs, seen from a date; None where the calendar decides."""
    running = unit.blocks.running(client.id)
    if style_of(unit) is not Style.IN_LINE or running is None or not client.days:
        return None
    now = instant_of(on, time(23, 59), client.zone or "UTC")
    try:
        found = waiting(client, running, unit, now, whole=True)
    except TooFewTrainingDays:
        return None
    return found[-1].on if found else None


def waiting(
    client: Client,
    running: Assignment,
    unit: Unit,
    now: datetime,
    *,
    besides: Session | None = None,
    whole: bool = False,
) -> list[Waiting]:
    """Return what waits for its turn, in the order of the block, each with its date.

    Args:
        client: Whose; with clock, hour and days.
        running: What she runs.
        unit: Open transaction.
        now: Instant.
        besides: A session that waits too, if it is not done now.
        whole: True for the whole block, not only what comes in the next weeks.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than the block has.
    """
    block = unit.blocks.version(running.version_id)
    days = [Weekday(day) for day in client.days or ()]
    everything = sessions_between(block, running.starts_on, days, date.min, date.max)
    written = {(each.week_no, each.day_key): each.on for each in everything}
    places = {key: place for place, key in enumerate(written)}
    rows = unit.moves.of_assignment(running.id)
    newest: dict[Key, Session] = {}
    for row in sorted(rows, key=lambda each: each.attempt):
        newest[_key(row)] = row
    since = unit.coaches.get(unit.tenant).in_line_since
    laid = max((places[key] for key in newest if key in places), default=-1)
    most = None if whole else AHEAD_WEEKS * len(block.days)
    ahead = islice((key for key in written if places[key] > laid), most)
    keys = [
        *(key for key, row in newest.items() if key in places and (row == besides or _waits(row, since))),
        *ahead,
    ]
    keys.sort(key=places.__getitem__)
    turns = [_turn(key, written[key], newest.get(key), block) for key in keys]
    before = [
        (_turn(_key(row), written[_key(row)], None, block), row.local_on)
        for row in rows
        if row.state in LIVE and _key(row) in written
    ]
    free = _free(client, running, block, days, unit, now)
    dates = dates_in_line(before[-2 * len(block.days) :], turns, free)
    return [Waiting(key, newest.get(key), on) for key, on in zip(keys, dates, strict=True)]


def _waits(row: Session, since: datetime | None) -> bool:
    """Return whether a day waits for another turn, its newest session being this one."""
    if row.state == "planned" or (row.state == "moved" and row.moved_to is None):
        return True
    undone = row.state in UNDONE or (row.state == "left_out" and row.left_reason == "ill")
    return undone and since is not None and (row.closed_at or row.due_at) >= since


def _turn(key: Key, written_on: date, row: Session | None, block: Block) -> Turn:
    day = block.day(key[1])
    work = work_of(day.in_week(key[0])) if day is not None else ()
    ill = row is not None and row.left_reason == "ill" and row.state == "left_out"
    return Turn(
        written_on=written_on,
        patterns=frozenset(each.pattern for each in mains(work)),
        not_before=row.local_on + APART if ill and row is not None else None,
    )


def _free(
    client: Client,
    running: Assignment,
    block: Block,
    days: Collection[Weekday],
    unit: Unit,
    now: datetime,
) -> Iterator[date]:
    """Yield the training days that nothing has been on, today only while its hour is to come or its session waits."""
    zone = client.zone or "UTC"
    today = local_date(now, zone)
    planned = {each.local_on for each in unit.sessions.of_client(client.id, ("planned",))}
    used = {
        each.local_on
        for each in unit.sessions.of_client(client.id, (*LIVE, *UNDONE, "left_out", "moved"))
        if each.local_on >= today
    }
    over = client.hour is not None and instant_of(today, client.hour, zone) <= now
    if over and today not in planned:
        used.add(today)
    first = max(today, running.starts_on)
    return (on for on in slots(block, running.starts_on, days, first) if on not in used)


def _key(session: Session) -> Key:
    return session.week_no, session.day_key
