"""What a new version of a block changes for whom, and making it so: what is planned follows, what was sent stays."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from bot.render.differences import difference_lines
from bot.render.versions import ForClient, Group, Preview
from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.units import Unit
from bot.store.versions import KeptVersion
from bot.usecases.in_line import Key, style_of, waiting
from bot.usecases.replanning import follow_versions
from core.errors import TooFewTrainingDays
from core.local_time import local_date
from core.programme.block import Block, Weekday
from core.programme.calendar import WEEK
from core.programme.differences import difference
from core.programme.replanning import Style
from core.programme.versions import Course, planned_days, renamed, stays

NEXT_WEEK, TODAY = "week", "today"
"""When a version holds from, beside a date as text."""
ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Runner:
    """A client who runs a block of which there is another version."""

    client: Client
    running: Assignment


def runners_of(version: int, unit: Unit) -> list[Runner]:
    """Return who runs another version of a block, by name, whatever is decided for them last."""
    clients = {each.id: each for each in unit.clients.roster()}
    found = [
        Runner(clients[each.client_id], each)
        for each in unit.versions.runners(version)
        if each.client_id in clients and unit.versions.newest(each) != version
    ]
    return sorted(found, key=lambda each: each.client.name)


def begins(runner: Runner, when: str, unit: Unit, now: datetime) -> date:
    """Return the first date on which a version holds for a client.

    Args:
        runner: Whose.
        when: `NEXT_WEEK` is her own next week of the block, `TODAY`, or a date as text.
        unit: Open transaction.
        now: Instant.

    Raises:
        TooFewTrainingDays: She trains on fewer days than the block has.
    """
    today, starts_on = local_date(now, runner.client.zone or "UTC"), runner.running.starts_on
    rows = unit.moves.of_assignment(runner.running.id)
    if when != NEXT_WEEK:
        # A day that has had its session gets no other.
        is_over = any(each.local_on == today and each.state != "planned" for each in rows)
        first = today + ONE_DAY if is_over else today
        return first if when == TODAY else max(first, date.fromisoformat(when))
    if style_of(unit) is Style.CALENDAR:
        return max(starts_on, starts_on + WEEK * ((today - starts_on).days // 7 + 1))
    begun = max((each.week_no for each in rows if each.state != "planned"), default=0)
    line = waiting(runner.client, runner.running, unit, now, whole=True)
    ends = line[-1].on + ONE_DAY if line else today
    return next((each.on for each in line if each.key[0] > begun), ends)


def to_come(
    runner: Runner, course: Course, unit: Unit, now: datetime, from_on: date | None = None
) -> dict[Key, date]:
    """Return what of a course was not sent yet, each day of each week with its date.

    Args:
        runner: Whose.
        course: As she runs the block, or would.
        unit: Open transaction.
        now: Instant.
        from_on: First date on which the course is another than the one that stands; None where it stands.

    Raises:
        TooFewTrainingDays: She trains on fewer days than a version has.
    """
    client, running = runner.client, runner.running
    if style_of(unit) is Style.IN_LINE:
        instead = None if from_on is None else (course, from_on)
        line = waiting(client, running, unit, now, whole=True, instead=instead)
        return {each.key: each.on for each in line}
    days = [Weekday(day) for day in client.days or ()]
    today = local_date(now, client.zone or "UTC")
    dates = {(each.week_no, each.day_key): each.on for each in planned_days(course, days, today, date.max)}
    rows = unit.moves.of_assignment(running.id)
    for row in rows:
        if row.state != "planned":
            dates.pop((row.week_no, row.day_key), None)
    for row in rows:
        if row.state == "planned" and (row.date_chosen or row.attempt > 1):
            dates[row.week_no, row.day_key] = row.local_on
            for new in [each for each in dates if each[0] == row.week_no]:
                if row.day_key in course.other_keys(new[1], row.local_on):
                    del dates[new]
    return dates


def effect_on(runner: Runner, version: int, when: str, unit: Unit, now: datetime) -> ForClient:
    """Return what a version changes for one client."""
    client, running = runner.client, runner.running
    before, block = unit.versions.course(running), unit.blocks.version(version)
    effect = ForClient(
        client.name,
        unit.versions.number(unit.versions.newest(running)),
        local_date(now, client.zone or "UTC"),
        paused=client.state == "paused",
        on_hold=client.frozen_at is not None,
    )
    try:
        from_on = begins(runner, when, unit, now)
        after = before.after(block, from_on)
        was, comes = to_come(runner, before, unit, now), to_come(runner, after, unit, now, from_on)
    except TooFewTrainingDays as few:
        return replace(effect, too_few=(int(str(few.facts["needed"])), int(str(few.facts["given"]))))
    until = before.block_on(from_on)
    told = _compared((before, was), (after, comes), renamed(until, block), from_on)
    return replace(
        told,
        name=effect.name,
        number=effect.number,
        paused=effect.paused,
        on_hold=effect.on_hold,
        weeks=(until.weeks, block.weeks),
        alone=tuple(
            stays(each.value, until, block)
            for each in unit.versions.weeks(running.id)
            if any(week == each.week_no for week, _ in was)
        ),
    )


Dates = dict[Key, date]
"""Days of weeks that are still to come, each with its date."""


def _compared(
    before: tuple[Course, Dates], after: tuple[Course, Dates], names: Mapping[str, str], from_on: date
) -> ForClient:
    """Return what is different in the sessions from a date on, a day under its new name being the same day.

    What a longer or shorter block adds or takes is told by its length.
    """
    (course, was), (then, comes) = before, after
    coming = {key: on for key, on in comes.items() if on >= from_on}
    both = min(course.block_on(from_on).weeks, then.block_on(from_on).weeks)
    old = {
        each if each in comes else (each[0], names.get(each[1], each[1])): (each, on)
        for each, on in was.items()
    }
    changed = [
        key for key, on in coming.items() if key in old and _lines(course, *old[key]) != _lines(then, key, on)
    ]
    added = [(then, key, on) for key, on in coming.items() if key not in old and key[0] <= both]
    gone = [(course, *each) for key, each in old.items() if key not in comes and key[0] <= both]
    return ForClient(
        name="",
        number=0,
        from_on=from_on,
        week=min((week for week, _ in coming), default=0),
        changed=len(changed),
        added=_counted(added),
        gone=_counted(gone),
    )


def _lines(course: Course, key: Key, on: date) -> object:
    """Return what a day of a course asks for on a date, with its name."""
    day = course.block_for(*key, on).day(key[1])
    return None if day is None else (day.name, day.in_week(key[0]))


def _counted(days: Iterable[tuple[Course, Key, date]]) -> tuple[tuple[str, int], ...]:
    """Return how often each day comes, by its name."""
    names: Counter[str] = Counter()
    for course, key, on in days:
        day = course.block_for(*key, on).day(key[1])
        names[day.name if day is not None else key[1]] += 1
    return tuple(names.items())


def preview_of(version: int, when: str, unit: Unit, now: datetime) -> Preview:
    """Return what a version changes, from when and for whom; those who run the same version until then together."""
    block = unit.blocks.version(version)
    groups: dict[int, list[ForClient]] = {}
    for runner in runners_of(version, unit):
        newest = unit.versions.newest(runner.running)
        groups.setdefault(newest, []).append(effect_on(runner, version, when, unit, now))
    return Preview(
        block=block.name,
        number=unit.versions.number(version),
        when=when,
        groups=tuple(
            Group(
                number=unit.versions.number(newest),
                lines=tuple(_different(unit.blocks.version(newest), block, clients, unit)),
                clients=tuple(clients),
            )
            for newest, clients in sorted(groups.items())
        ),
    )


def _different(before: Block, after: Block, clients: Iterable[ForClient], unit: Unit) -> list[str]:
    first = min((each.week for each in clients if each.week), default=1)
    catalogue = unit.exercises.catalogue()
    return difference_lines(difference(before, after, catalogue, range(first, after.weeks + 1)), catalogue)


def applied(version: int, when: str, unit: Unit, now: datetime) -> tuple[list[int], list[ForClient]]:
    """Have a version hold for everybody who can run it; return the rows, and what changed for whom."""
    rows: list[int] = []
    effects: list[ForClient] = []
    for runner in runners_of(version, unit):
        effect = effect_on(runner, version, when, unit, now)
        effects.append(effect)
        if effect.too_few is None:
            rows.append(unit.versions.apply(runner.running, version, effect.from_on, now))
            follow_versions(runner.client.id, effect.from_on, unit, now)
    return rows, effects


def can_be_taken_back(kept: KeptVersion, unit: Unit) -> bool:
    """Return whether a version is still the last decided for a client, and nothing of it was sent."""
    standing = unit.versions.standing(kept.assignment_id)
    if kept.voided_at is not None or not standing or standing[-1].id != kept.id:
        return False
    return not any(
        row.sent_at is not None and row.sent_at > kept.at and row.local_on >= kept.from_on
        for row in unit.moves.of_assignment(kept.assignment_id)
    )


def take_back(kept: KeptVersion, unit: Unit, now: datetime) -> None:
    """Have a version no longer hold for a client; what is planned is as it was."""
    unit.versions.take_back(kept, now)
    running = unit.blocks.running(kept.client_id)
    if running is not None and running.id == kept.assignment_id:
        follow_versions(kept.client_id, kept.from_on, unit, now)
