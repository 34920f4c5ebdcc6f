"""Outages of ours: which coaches there are, and the sessions that an outage spares."""

from collections.abc import Collection
from datetime import datetime

from sqlalchemy import Connection, select, true, update

from bot.store.oversight import SYSTEM
from bot.store.tables import coach, session
from core.oversight.misses import OPEN


def coaches_anywhere(connection: Connection) -> list[int]:
    """Return every coach."""
    return list(connection.execute(select(coach.c.id).order_by(coach.c.id)).scalars())


def spare(connection: Connection, until: datetime, coach_ids: Collection[int] | None = None) -> None:
    """Mark the sessions that were open in an outage which ended now: whatever comes of them, they are no misses.

    Args:
        connection: Open transaction.
        until: When the outage ended.
        coach_ids: Whose clients' sessions; None for everybody's.
    """
    connection.execute(
        update(session)
        .where(session.c.state.in_(sorted(OPEN)), session.c.sent_at < until, session.c.left_reason.is_(None))
        .where(true() if coach_ids is None else session.c.coach_id.in_(coach_ids))
        .values(left_reason=SYSTEM)
    )
