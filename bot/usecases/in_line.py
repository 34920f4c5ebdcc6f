"""Next in line: what was not done comes next on the client's next training day, and all behind it moves on."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time

from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.merging import work_of
from bot.usecases.time_off import time_off
from core.checkin.training_log import Session
from core.errors import TooFewTrainingDays
from core.local_time import instant_of, local_date
from core.programme.block import Block, Weekday
from core.programme.calendar import sessions_between
from core.programme.in_line import Turn, dates_in_line, slots
from core.programme.replanning import APART, Style, mains
from core.programme.versions import Course, Stretch, renamed

Key = tuple[int, str]
"""Week and day of a block."""

LIVE = ("sent", "started", "asking", "done", "partial")
UNDONE = ("missed", "unsent", "held")
LONGER_THAN_ANY = 53
"""A week after the last that a block can have."""
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
    added, found = 0, waiting(client, running, unit, now)
    _drop_orphans(running, found, unit)
    for each in found:
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


def _drop_orphans(running: Assignment, found: Collection[Waiting], unit: Unit) -> None:
    """Take back what is planned and has no turn any more: a version that holds by then has no such day."""
    turns = {each.row.id for each in found if each.row is not None}
    if unit.versions.standing(running.id):
        planned = (each for each in unit.moves.of_assignment(running.id) if each.state == "planned")
        unit.sessions.drop([each.id for each in planned if each.id not in turns], reason="coach")


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
    instead: tuple[Course, date] | None = None,
) -> list[Waiting]:
    """Return what waits for its turn, in the order of the block, each with its date.

    Args:
        client: Whose; with clock, hour and days.
        running: What she runs.
        unit: Open transaction.
        now: Instant.
        besides: A session that waits too, if it is not done now.
        whole: True for the whole block, not only what comes in the next weeks.
        instead: To see what a version would change: the block as she would run it, and from which date. What is
            planned from then on is laid out anew.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than the block has.
    """
    line = _Line(client, running, unit, now, besides=besides, whole=whole)
    course = unit.versions.course(running)
    if instead is not None:
        course, from_on = instead
        line.forget_planned(from_on)
    for stretch in course.stretches(line.first):
        line.go_on(stretch)
    return line.found


class _Line:
    """The line of one client, put together from the versions that hold one after the other.

    A version's turns are those whose dates come while it holds; the next begins in the week in which it is left.
    """

    def __init__(
        self,
        client: Client,
        running: Assignment,
        unit: Unit,
        now: datetime,
        *,
        besides: Session | None,
        whole: bool,
    ) -> None:
        self.client, self.running, self.unit, self.now = client, running, unit, now
        self.besides, self.whole = besides, whole
        self.first = max(local_date(now, client.zone or "UTC"), running.starts_on)
        self.days = [Weekday(day) for day in client.days or ()]
        self.since = unit.coaches.get(unit.tenant).in_line_since
        self.rows = unit.moves.of_assignment(running.id)
        self.newest = _newest(self.rows)
        self.found: list[Waiting] = []
        self.placed: list[tuple[Turn, date]] = []
        self.week = 0
        self.block: Block | None = None

    def forget_planned(self, from_on: date) -> None:
        """Leave out what would be laid out anew from a date on."""
        self.rows = [each for each in self.rows if not laid_anew(each, from_on)]
        self.newest = _newest(self.rows)

    def go_on(self, stretch: Stretch) -> None:
        """Give the turns of one version their dates."""
        block = stretch.block
        everything = sessions_between(block, self.running.starts_on, self.days, date.min, date.max)
        written = {(each.week_no, each.day_key): each.on for each in everything}
        keys, more = self._keys(written, block)
        turns = [_turn(key, written[key], self.newest.get(key), block, self.unit) for key in keys]
        free = _free(self.client, self.running, block, self.days, self.unit, self.now)
        after = self.found[-1].on if self.found else date.min
        dates = dates_in_line(
            [*self._before(written, block)[-2 * len(block.days) :], *self.placed],
            turns,
            (on for on in free if on >= stretch.first and on > after),
        )
        count = sum(stretch.last is None or on <= stretch.last for on in dates)
        dated = list(zip(keys, turns, dates, strict=True))[:count]
        self.found += (Waiting(key, self.newest.get(key), on) for key, _, on in dated)
        self.placed += ((turn, on) for _, turn, on in dated)
        left = keys[count][0] if count < len(keys) else block.weeks + 1
        self.week = LONGER_THAN_ANY if count == len(keys) and more else left
        self.block = block

    def _keys(self, written: Mapping[Key, date], block: Block) -> tuple[list[Key], bool]:
        """Return what waits of a version in its order, and whether more of it comes after that."""
        places = {key: place for place, key in enumerate(written)}
        names = renamed(self.block, block) if self.block is not None else {}
        had = {(each.key[0], names.get(each.key[1], each.key[1])) for each in self.found}
        laid = max((places[key] for key in self.newest if key in places), default=-1)
        most = None if self.whole else AHEAD_WEEKS * len(block.days)
        ahead = [key for key in written if places[key] > laid]
        waits = (key for key, row in self.newest.items() if row == self.besides or _waits(row, self.since))
        keys = [
            key
            for key in (*(key for key in waits if key in places), *ahead[:most])
            if key[0] >= self.week and key not in had
        ]
        return sorted(keys, key=places.__getitem__), most is not None and len(ahead) > most

    def _before(self, written: Mapping[Key, date], block: Block) -> list[tuple[Turn, date]]:
        """Return what has had its date: one of an earlier version as if it had been written for the date it came on."""
        found: list[tuple[Turn, date]] = []
        for row in self.rows:
            if row.state in LIVE and (key := _key(row)) in written:
                found.append((_turn(key, written[key], None, block, self.unit), row.local_on))
            elif row.state in LIVE:
                was = self.unit.versions.block_of(row)
                found.append((_turn(key, row.local_on, None, was, self.unit), row.local_on))
        return found


def laid_anew(row: Session, from_on: date) -> bool:
    """Return whether a session is laid out anew where another version holds from a date on."""
    return row.state == "planned" and row.attempt == 1 and row.local_on >= from_on


def _newest(rows: Collection[Session]) -> dict[Key, Session]:
    """Return the newest session of each day of each week."""
    return {_key(row): row for row in sorted(rows, key=lambda each: each.attempt)}


def _waits(row: Session, since: datetime | None) -> bool:
    """Return whether a day waits for another turn, its newest session being this one."""
    if row.state == "planned" or (row.state == "moved" and row.moved_to is None):
        return True
    undone = row.state in UNDONE or (row.state == "left_out" and row.left_reason == "ill")
    return undone and since is not None and (row.closed_at or row.due_at) >= since


def _turn(key: Key, written_on: date, row: Session | None, block: Block, unit: Unit) -> Turn:
    day = block.day(key[1])
    work = work_of(day.in_week(key[0]), unit) if day is not None else ()
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
    gone = time_off(client.id, today, unit)
    return (
        on
        for on in slots(block, running.starts_on, days, first)
        if on not in used and not any(each.covers(on) for each in gone)
    )


def _key(session: Session) -> Key:
    return session.week_no, session.day_key
