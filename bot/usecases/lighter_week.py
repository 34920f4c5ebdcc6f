"""A planned lighter week after a week that was light already: told to the coach, who alone takes it out.

She wrote it, and her silence raises nothing: it stays lighter until she says otherwise.
"""

from bot.messages import Effect, Level, Tell
from bot.render import lighter_week as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.coming_back import days_without
from core.checkin.training_log import Session
from core.loads.comeback import FEWEST_AWAY
from core.loads.deload_due import WEEK, WeekBehind, light_already
from core.oversight.misses import EXCUSED, KEPT, SETTLED

UNWELL = ("pain", "ill")
"""Reasons for which a session was not kept that speak for a lighter week, not against it."""


def told(session: Session, client: Client, unit: Unit) -> list[Effect]:
    """Return what a coach is told with the first card of a planned lighter week, where the week before was light.

    Nothing where somebody was in pain, ill or on hold in it: then a lighter week is the careful choice anyhow.
    """
    if session.week_no not in unit.versions.block_of(session).lighter_weeks:
        return []
    of_week = [
        each for each in unit.moves.of_assignment(session.assignment_id) if each.week_no == session.week_no
    ]
    if any(each.sent_at is not None and each.id != session.id for each in of_week):
        return []
    on, since = session.local_on, session.local_on - WEEK
    past = [
        each for each in unit.oversight.past(client.id, since).get(client.id, ()) if since <= each.on < on
    ]
    unwell = any(each.reason in UNWELL or each.state == "held" for each in past)
    hurts = any(each.score != 0 for each in unit.body.bearing(client.id, since))
    if unwell or hurts or unit.illnesses.bearing(client.id, since):
        return []
    days = days_without(client.id, on, unit)
    due = [each for each in past if each.state in SETTLED and each.reason not in EXCUSED]
    kept = sum(each.state in KEPT for each in due)
    away = days >= FEWEST_AWAY
    if not light_already(WeekBehind(away=away, due=len(due), kept=kept)):
        return []
    message = say.after_light_week(
        client.name, session.week_no, days=days if away else None, kept=kept, due=len(due)
    )
    key = f"lighter:{session.assignment_id}:{session.week_no}"
    return [Tell(client.id, key, 1, Level.TODAY, message)]
