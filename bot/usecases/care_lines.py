"""A client's care, for her coach's card of her: what is ruled out, what comes, referrals, reminders, the contract."""

from datetime import date, datetime

from bot.render.clinician_limits import short_line
from bot.render.restrictions import listed
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import contract, referring, reminding
from bot.usecases.season_spans import TRAINS, span_of
from core.local_time import local_date
from core.oversight.season import Span, SpanKind


def limit_lines(client: Client, today: date, unit: Unit) -> tuple[str, ...]:
    """Return what clinicians have limited and what the coach has ruled out, plain text."""
    catalogue = unit.exercises.catalogue()
    limits = unit.clinician_limits.standing(client.id, today)
    hers = listed(unit.restrictions.of(client.id))
    return (
        *(short_line(each, catalogue, today) for each in limits),
        *([f"By you: {hers}."] if hers else []),
    )


def ahead_of(client: Client, unit: Unit, now: datetime) -> tuple[Span, ...]:
    """Return the next days off and the next event of a client: her own absence, a holiday, an event; one of each."""
    today = local_date(now, unit.coaches.get(unit.tenant).zone)
    entries = unit.seasons.standing(today, client.id)
    found = [
        next((span_of(each, None) for each in entries if each.kind == kind), None)
        for kind in (SpanKind.HOLIDAY, SpanKind.EVENT)
    ]
    aways = unit.aways.standing(client.id, today)
    if aways:
        name = TRAINS if aways[0].training else ""
        found.append(Span(kind=SpanKind.AWAY, name=name, first=aways[0].from_on, last=aways[0].last_on))
    return tuple(sorted((each for each in found if each is not None), key=lambda each: each.first))


def care_lines(client: Client, unit: Unit, now: datetime) -> tuple[str, ...]:
    """Return open referrals, reminders and the contract, plain text."""
    return (
        *referring.lines_of(client, unit),
        *reminding.lines_of(client.id, unit),
        *contract.lines_of(client, unit, now),
    )
