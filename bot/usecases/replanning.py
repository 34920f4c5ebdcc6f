"""What is planned and not sent, laid out anew: after a change of hour, days or clock."""

from datetime import datetime, timedelta

from bot.render.own_settings import Plan
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.layout import AHEAD, lay_out
from bot.usecases.today import name_of
from core.checkin.training_log import Session
from core.local_time import local_date
from core.programme.block import Weekday
from core.programme.calendar import sessions_between

WEEK = timedelta(days=7)


def planned_anew(client_id: int, unit: Unit, now: datetime) -> Plan:
    """Lay out anew what is planned, and return what comes next and what no longer finds a day.

    Today's session, moved to an hour that is over, comes at once: it is not late, for nobody kept it waiting.
    """
    client = unit.clients.get(client_id)
    zone = client.zone or "UTC"
    before = unit.sessions.of_client(client_id, ("planned",))
    lost = tuple(name_of(each, unit) for each in _without_a_day(before, client, unit, now))
    unit.sessions.drop_planned(client_id)
    lay_out(client_id, unit, now)
    for each in unit.sessions.of_client(client_id, ("planned",)):
        if each.due_at < now:
            unit.sessions.change(each.id, due_at=now)
    following = unit.sessions.next_planned(client_id)
    return Plan(
        following=name_of(following, unit) if following else None,
        due_at=following.due_at if following else None,
        today=local_date(now, zone),
        zone=zone,
        lost=lost,
    )


def _without_a_day(planned: list[Session], client: Client, unit: Unit, now: datetime) -> list[Session]:
    """Return what was planned and falls on a day that is over, soonest first; later days are laid out in their time."""
    running = unit.blocks.running(client.id)
    if running is None:
        return []
    today = local_date(now, client.zone or "UTC")
    coming = sessions_between(
        unit.blocks.version(running.version_id),
        running.starts_on,
        [Weekday(day) for day in client.days or ()],
        today,
        today + AHEAD + WEEK,
    )
    there = {(each.week_no, each.day_key) for each in coming}
    return [each for each in reversed(planned) if (each.week_no, each.day_key) not in there]
