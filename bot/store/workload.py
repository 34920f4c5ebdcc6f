"""How much waits in the store, of all tenants: numbers alone."""

from dataclasses import dataclass, field
from datetime import datetime

from sqlalchemy import Connection, func, select

from bot.store.tables import alert, inbox, outbox

OPEN = ("queued", "sending", "doubtful", "dead", "expired")
"""States that are counted. What was sent or cancelled is not: it is most of the table, and nobody waits for it."""


@dataclass(frozen=True, slots=True)
class Workload:
    """What waits, and what went wrong.

    Attributes:
        oldest_open: When the oldest message that waits for an answer came; None when none waits.
        failed: Incoming messages that the program failed on, as long as they are kept.
        outbox: Outgoing messages by lane and state, of the states in `OPEN`.
        alerts: Alerts that a coach was told of, by level; without those that were erased.
    """

    oldest_open: datetime | None = None
    failed: int = 0
    outbox: dict[tuple[str, str], int] = field(default_factory=dict)
    alerts: dict[int, int] = field(default_factory=dict)


def workload_of(connection: Connection) -> Workload:
    """Count what waits."""
    oldest = connection.scalar(select(func.min(inbox.c.received_at)).where(inbox.c.state == "new"))
    failed = connection.scalar(
        select(func.count()).select_from(inbox).where(inbox.c.state.in_(("failed", "quarantined")))
    )
    by_state = (
        select(outbox.c.lane, outbox.c.state, func.count())
        .where(outbox.c.state.in_(OPEN))
        .group_by(outbox.c.lane, outbox.c.state)
    )
    told = select(alert.c.level, func.count()).where(alert.c.told_at.is_not(None)).group_by(alert.c.level)
    return Workload(
        oldest,
        failed or 0,
        {(lane, state): count for lane, state, count in connection.execute(by_state)},
        {level: count for level, count in connection.execute(told)},  # noqa: C416  (rows are no pairs to mypy)
    )
