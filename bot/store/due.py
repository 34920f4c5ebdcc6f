"""What is due, whoever's it is: questions of the clock, over every coach."""

from datetime import datetime, timedelta

from sqlalchemy import Connection, String, cast, literal, or_, select

from bot.store.tables import card, daily_prep, outbox, session

FARTHEST = timedelta(days=2)
"""A daily prep is due tomorrow at the latest, whatever the clocks do; one that is due later was made by a clock that
has been set back since."""


def due_anywhere(connection: Connection, now: datetime, limit: int) -> list[tuple[int, int]]:
    """Return (coach, session) of planned sessions that are due, the longest due first."""
    query = (
        select(session.c.coach_id, session.c.id)
        .where(session.c.state == "planned", session.c.due_at <= now)
        .order_by(session.c.due_at, session.c.id)
        .limit(limit)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def running_anywhere(connection: Connection, since: datetime) -> list[tuple[int, int]]:
    """Return (coach, session) of sessions begun since an instant and not closed."""
    query = (
        select(session.c.coach_id, session.c.id)
        .where(session.c.state.in_(("started", "asking")), session.c.started_at >= since)
        .order_by(session.c.id)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def never_shown_anywhere(connection: Connection, key_begins: str) -> list[tuple[int, int]]:
    """Return (coach, session) of sessions whose card was queued and can no longer arrive: too late, or given up.

    Args:
        connection: An open transaction.
        key_begins: How the key of a session's card begins; the session's id follows.
    """
    key = literal(key_begins).concat(cast(session.c.id, String))
    rows = select(outbox.c.id).where(outbox.c.card_id == card.c.id)
    query = (
        select(session.c.coach_id, session.c.id)
        .join(card, (card.c.coach_id == session.c.coach_id) & (card.c.key == key))
        .where(
            session.c.state == "sent",
            card.c.message_id.is_(None),
            rows.where(outbox.c.state.in_(("expired", "dead"))).exists(),
            ~rows.where(outbox.c.state.in_(("queued", "sending", "sent", "doubtful"))).exists(),
        )
        .order_by(session.c.id)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def preps_due_anywhere(connection: Connection, now: datetime, limit: int) -> list[tuple[int, int]]:
    """Return (coach, daily prep) of those that are due, the longest due first; and of those due too far ahead."""
    query = (
        select(daily_prep.c.coach_id, daily_prep.c.id)
        .where(
            daily_prep.c.ended_at.is_(None),
            or_(daily_prep.c.due_at <= now, daily_prep.c.due_at > now + FARTHEST),
        )
        .order_by(daily_prep.c.due_at, daily_prep.c.id)
        .limit(limit)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def next_prep_due(connection: Connection) -> datetime | None:
    """Return when the next daily prep is due."""
    query = select(daily_prep.c.due_at).where(daily_prep.c.ended_at.is_(None)).order_by(daily_prep.c.due_at)
    found: datetime | None = connection.execute(query.limit(1)).scalar()
    return found


def next_due(connection: Connection) -> datetime | None:
    """Return when the next planned session is due."""
    query = select(session.c.due_at).where(session.c.state == "planned").order_by(session.c.due_at).limit(1)
    found: datetime | None = connection.execute(query).scalar()
    return found
