"""Seasons gathered from the rows: what was run and is run, holidays, events, and when clients said they are away."""

from collections.abc import Iterator
from datetime import date, timedelta

from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.seasons import Ran, SeasonEntry
from bot.store.units import Unit
from bot.usecases.in_line import ends_on
from core.local_time import local_date
from core.oversight.season import Season, SeasonRow, Span, SpanKind, season

BACK = timedelta(weeks=26)
"""How far back entries are still shown and numbered. Our proposal."""
TRAINS = "(trains there)"
ONE_DAY = timedelta(days=1)


def season_seen(client: Client | None, unit: Unit, today: date) -> Season:
    """Gather the season of one client, or of everybody who trains."""
    unit.versions.read_all()
    clients = [client] if client is not None else unit.clients.roster()
    entries = list(enumerate(unit.seasons.standing(today - BACK), 1))
    ran: dict[int, list[Ran]] = {}
    for each in unit.seasons.ran(client.id if client is not None else None):
        ran.setdefault(each.client_id, []).append(each)
    rows = [
        SeasonRow(
            name=each.name,
            spans=(
                *_blocks(each, ran.get(each.id, []), unit, today),
                *(span_of(entry, number) for number, entry in entries if entry.client_id == each.id),
                *_aways(each, unit, today),
            ),
        )
        for each in clients
        if client is not None or each.state in ("active", "paused")
    ]
    everybody = [span_of(entry, number) for number, entry in entries if entry.client_id is None]
    return season(today, rows, everybody)


def span_of(entry: SeasonEntry, number: int | None) -> Span:
    """Return an entry as days in a row."""
    return Span(
        kind=SpanKind(entry.kind), name=entry.name, first=entry.from_on, last=entry.until_on, number=number
    )


def _blocks(client: Client, ran: list[Ran], unit: Unit, today: date) -> Iterator[Span]:
    """Yield what a client ran and runs: until its end, the day before the next begins, or the day on which it ended."""
    for place, each in enumerate(ran):
        running = Assignment(each.id, each.client_id, each.version_id, each.starts_on, each.laid_until)
        course = unit.versions.course(running)
        last = last_of(client, running, unit, today) if each.ended_at is None else course.ends_on
        if place + 1 < len(ran):
            last = min(last, ran[place + 1].starts_on - ONE_DAY)
        elif each.ended_at is not None:
            last = min(last, local_date(each.ended_at, client.zone or "UTC"))
        if last >= each.starts_on:
            yield Span(kind=SpanKind.BLOCK, name=course.first.name, first=each.starts_on, last=last)


def last_of(client: Client, running: Assignment, unit: Unit, today: date) -> date:
    """Return the last date of what a client runs, by the calendar or by the order of what was done."""
    ends = unit.versions.course(running).ends_on
    return max(ends, ends_on(client, unit, today) or ends)


def _aways(client: Client, unit: Unit, today: date) -> Iterator[Span]:
    for each in unit.aways.standing(client.id, today - BACK):
        name = TRAINS if each.training else ""
        yield Span(kind=SpanKind.AWAY, name=name, first=each.from_on, last=each.last_on)
