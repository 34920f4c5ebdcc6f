"""A session that is left out, or the rest of one that was begun."""

from datetime import datetime

from bot.messages import Effect
from bot.render import moving as say
from bot.render.sessions_said import LEFT_OUT
from bot.store.units import Unit
from bot.usecases import marks
from bot.usecases.layout import carry_on
from bot.usecases.session_view import show
from core.checkin.training_log import Session

CAUSES = {"time": "time", "ill": "ill", "pain": "pain", "away": "time"}


def leave_out(reason: str, session: Session, unit: Unit, now: datetime) -> list[Effect]:
    """Leave a session out, and show its card closed, with why and when it comes again if it does."""
    unit.sessions.change(session.id, state="left_out", left_reason=reason, closed_at=now, cursor_item_id=None)
    carry_on(session.client_id, unit, now)
    again = unit.moves.later(session)
    comes = (say.comes_again(again.local_on),) if again is not None else ()
    return show(session.id, unit, screen="closed", closing=(LEFT_OUT[reason], *comes))


def leave_rest(reason: str, session: Session, unit: Unit) -> None:
    """Leave out every exercise that was not done yet."""
    for item in unit.sessions.items(session.id):
        if item.state == "open":
            unit.sessions.change_item(item.id, state="skipped", cause=CAUSES[reason])
            marks.mark(marks.SKIP, item.id, session.id, None, unit)
