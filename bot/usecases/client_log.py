"""The log of one client as text: sessions with their sets, and what was said of the body, of the last days."""

from datetime import date, datetime, timedelta

from bot.messages import Effect, Person, Send
from bot.render import client_log as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.move_views import moved_to, taken_in
from core.checkin.training_log import LoggedSet, Session
from core.local_time import local_date

LOG_DAYS = 14
"""How far back the log is shown. [days] Our proposal."""
CLOSED = ("done", "partial", "left_out", "missed", "unsent", "held", "moved")
ALL = ("sent", "started", "asking", *CLOSED)


def pages(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show a coach the log of a client's last 14 days, on as many messages as it takes."""
    today = local_date(now, client.zone or "UTC")
    first = today - timedelta(days=LOG_DAYS)
    sessions = [each for each in unit.sessions.of_client(client.id, ALL) if each.local_on >= first]
    days: dict[date, list[str]] = {}
    for session in reversed(sessions):
        days.setdefault(session.local_on, []).extend(say.session_lines(done_in(session, unit)))
    for kind in ("pain", "soreness", "stop_sign"):
        for report in unit.body.since(client.id, first, kind):
            days.setdefault(report.local_on, []).append(say.report_line(report, unit.exercises.catalogue()))
    update = person.arrival.update_id if person.arrival else 0
    found = say.log(client.name, LOG_DAYS, sorted(days.items()))
    return [
        Send(person.chat_id, page, key=f"log:{update}:{number}", client_id=None)
        for number, page in enumerate(found)
    ]


def done_in(session: Session, unit: Unit) -> say.DoneSession:
    """Gather what was done in a session."""
    items = unit.sessions.items(session.id)
    logged: dict[int, list[LoggedSet]] = {}
    for each in unit.sets.standing([item.id for item in items]):
        logged.setdefault(each.item_id, []).append(each)
    return say.DoneSession(
        name=unit.versions.day_name(session),
        week_no=session.week_no,
        on=session.local_on,
        state=session.state,
        items=tuple((item, tuple(logged.get(item.id, ()))) for item in items),
        to=moved_to(session, unit),
        with_lift=taken_in(session, unit),
        catalogue=unit.exercises.catalogue(),
    )
