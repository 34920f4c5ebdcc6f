"""Matters that a coach must hear: told once, again only when grown."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import insert, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import alert


@dataclass(frozen=True, slots=True)
class Alert:
    """A matter that a coach must hear."""

    id: int
    client_id: int
    key: str
    level: int
    grown: int
    at: datetime
    told_at: datetime | None
    seen_at: datetime | None
    closed_at: datetime | None


MATTER_LASTS = timedelta(days=14)
"""After this long the same again is a new matter. Our proposal."""


class Alerts(Rows):
    """Matters of one coach: told once, again only when grown."""

    def grow(self, client_id: int, key: str, level: int, grown: int, now: datetime) -> Alert | None:
        """Keep a matter; return it when it is new or has grown, None when there is nothing new to tell."""
        found = self.open_one(key)
        if found is not None and now - (found.told_at or found.at) > MATTER_LASTS:
            self.close(key, now)
            found = None
        if found is None:
            self.connection.execute(
                insert(alert).values(
                    coach_id=self.coach_id, client_id=client_id, key=key, level=level, grown=grown, at=now
                )
            )
            return self.open_one(key)
        if grown <= found.grown and level <= found.level:
            return None
        self.connection.execute(
            update(alert)
            .where(alert.c.id == found.id)
            .values(grown=max(grown, found.grown), level=max(level, found.level), seen_at=None)
        )
        return self.open_one(key)

    def open_one(self, key: str) -> Alert | None:
        """Return the open matter of a key."""
        query = rows_of(Alert, alert).where(
            alert.c.coach_id == self.coach_id, alert.c.key == key, alert.c.closed_at.is_(None)
        )
        return one(Alert, self.connection.execute(query).first())

    def get(self, alert_id: int) -> Alert:
        """Return one matter.

        Raises:
            LookupError: It is not of this coach.
        """
        query = rows_of(Alert, alert).where(alert.c.id == alert_id, alert.c.coach_id == self.coach_id)
        found = one(Alert, self.connection.execute(query).first())
        if found is None:
            raise LookupError(f"no alert {alert_id} here")
        return found

    def of_client(self, client_id: int) -> list[Alert]:
        """Return the open matters of a client, the most urgent first."""
        query = (
            rows_of(Alert, alert)
            .where(
                alert.c.coach_id == self.coach_id,
                alert.c.client_id == client_id,
                alert.c.closed_at.is_(None),
            )
            .order_by(alert.c.level.desc(), alert.c.id.desc())
        )
        return [Alert(*row) for row in self.connection.execute(query)]

    def seen(self, alert_id: int, now: datetime) -> None:
        """Note that the coach has seen a matter."""
        self.connection.execute(
            update(alert).where(alert.c.id == alert_id, alert.c.coach_id == self.coach_id).values(seen_at=now)
        )

    def told(self, alert_id: int, now: datetime) -> None:
        """Note that the coach's message is queued."""
        self.connection.execute(update(alert).where(alert.c.id == alert_id).values(told_at=now))

    def close_of(self, client_id: int, now: datetime, prefix: str = "") -> None:
        """End every matter of a client whose key begins so."""
        self.connection.execute(
            update(alert)
            .where(
                alert.c.coach_id == self.coach_id,
                alert.c.client_id == client_id,
                alert.c.key.startswith(prefix, autoescape=True),
                alert.c.closed_at.is_(None),
            )
            .values(closed_at=now)
        )

    def close(self, key: str, now: datetime) -> None:
        """End a matter; the same again would be a new one."""
        self.connection.execute(
            update(alert)
            .where(alert.c.coach_id == self.coach_id, alert.c.key == key, alert.c.closed_at.is_(None))
            .values(closed_at=now)
        )
