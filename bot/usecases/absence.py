"""What keeps a session from coming: an illness that is not over, an absence without training, a holiday.

None of them is a miss.
"""

from datetime import date, datetime, timedelta

from bot.store.illnesses import KeptIllness
from bot.store.units import Unit
from bot.usecases.layout import carry_on
from bot.usecases.time_off import why_off
from core.checkin.training_log import Session
from core.loads.health import IllnessKind
from core.policy import Policy

ILL = "ill"
ASKED = "illness"
"""Kind of the question how she is."""


def illness_on(client_id: int, on: date, unit: Unit) -> KeptIllness | None:
    """Return the illness for which nobody trains on a date; one whose end is not known comes first."""
    policy = unit.rules.policy(client_id)
    found = [
        each
        for each in unit.illnesses.bearing(client_id, on - waits(policy))
        if each.kind == IllnessKind.GENERAL and each.since <= on
    ]
    waiting = [each for each in found if each.free_on is None or on < back_on(each.free_on, policy)]
    return min(waiting, key=lambda each: (each.free_on is not None, -each.id), default=None)


def waits(policy: Policy) -> timedelta:
    """Return how long training waits after the last symptom."""
    return timedelta(days=policy.ill_wait)


def back_on(free_on: date, policy: Policy) -> date:
    """Return the day from which training goes on after an illness."""
    return free_on + waits(policy)


def keeps_back(session: Session, unit: Unit) -> str | None:
    """Return why the card of a session does not come; None where it does."""
    if illness_on(session.client_id, session.local_on, unit) is not None:
        return ILL
    return why_off(session.client_id, session.local_on, unit)


def kept_back(session: Session, reason: str, unit: Unit, now: datetime) -> None:
    """Leave a session out without a card; on that morning it is asked how she is, while that is not known.

    Next in line, what an absence or a holiday keeps back comes after it.
    """
    state = "left_out" if reason == ILL else "unsent"
    unit.sessions.change(session.id, state=state, left_reason=reason, closed_at=now)
    carry_on(session.client_id, unit, now)
    ill = illness_on(session.client_id, session.local_on, unit)
    if reason == ILL and ill is not None and ill.free_on is None:
        unit.due_questions.plan(session.client_id, ASKED, session.local_on, now, now, subject=ill.id)
