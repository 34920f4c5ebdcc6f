"""A session that its client has not closed is over: kept as far as it was done, or missed, or no fault of hers."""

from datetime import datetime

from bot.messages import Effect
from bot.render.moving import comes_again
from bot.render.sessions_said import NOT_CARRIED, NOT_COUNTED, NOTHING_LOGGED, WAS_GONE, WAS_HOLIDAY
from bot.store.oversight import SYSTEM
from bot.store.units import Unit
from bot.usecases import alerting
from bot.usecases.closing import decide_next
from bot.usecases.layout import carry_on
from bot.usecases.session_view import card_key, show
from bot.usecases.time_off import AWAY, HOLIDAY, why_off
from core.checkin.training_log import Session

UNREACHABLE = "unreachable"
IN_DOUBT = "in doubt"


def settle(session: Session, unit: Unit, now: datetime, *, coming: bool = True) -> list[Effect]:
    """Settle a session whose card is out: partial or done where something was logged, missed where nothing was.

    A client who could not be reached, a card that may never have arrived and an outage of the bot make it unsent.

    Args:
        session: The session.
        unit: Open transaction.
        now: Instant.
        coming: False when the next session's card comes in the same breath, so that it need not be named.
    """
    items = unit.sessions.items(session.id)
    begun = any(item.state == "done" for item in items)
    for item in items:
        if item.state == "open":
            unit.sessions.change_item(item.id, state="skipped")
    if begun:
        state = "partial" if any(item.state != "done" for item in items) else "done"
        unit.sessions.change(session.id, state=state, closed_at=now, cursor_item_id=None)
        lines = decide_next(unit.sessions.get(session.id), "closing", unit, now, coming=coming)
        shown = show(session.id, unit, screen="closed", closing=lines)
        return [*shown, *alerting.of_session(session.id, unit, now)]
    excuse = why_off(session.client_id, session.local_on, unit) or excuse_of(session, unit)
    state = "missed" if excuse is None else "unsent"
    unit.sessions.change(session.id, state=state, left_reason=excuse, closed_at=now, cursor_item_id=None)
    carry_on(session.client_id, unit, now)
    if excuse == UNREACHABLE:
        unit.sessions.revise(session.id)
        return []
    again = unit.moves.later(session)
    carried = NOT_CARRIED if again is None else comes_again(again.local_on)
    line = f"{NOTHING_LOGGED} {carried}" if excuse is None else NOT_COUNTED
    off = {AWAY: WAS_GONE, HOLIDAY: WAS_HOLIDAY}.get(excuse or "")
    line = line if off is None else f"{off} {carried}"
    return show(session.id, unit, screen="closed", closing=(line,))


def excuse_of(session: Session, unit: Unit) -> str | None:
    """Return why a silent session is not the client's miss; None when it is."""
    account = unit.accounts.of_client(session.client_id)
    if account is None or not account.reachable:
        return UNREACHABLE
    if unit.oversight.reason(session.id) == SYSTEM:
        return SYSTEM
    return IN_DOUBT if unit.oversight.is_in_doubt(card_key(session.id)) else None
