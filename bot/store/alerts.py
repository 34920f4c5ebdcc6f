"""Matters that a coach must hear: told once, again only when grown."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Connection, insert, or_, select, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import alert


@dataclass(frozen=True, slots=True)
class Alert:
    """A matter that a coach must hear.

    Attributes:
        id: Its row.
        client_id: Whom it is about.
        key: The matter; how it begins says of what kind it is.
        level: How soon, as `bot.messages.Level` has it.
        grown: What it has grown to.
        at: When it began.
        told_at: When the message to the coach was queued; None for what is only kept.
        seen_at: When it was seen; None again when it has grown since.
        closed_at: When it ended.
        facts: What the digest says of it, and how it came to be looked at.
        due_at: When it is looked at again: as long as a matter that cannot wait is unseen, or what may come of it is
            not yet told.
        reminded: How often it was told again for being unseen.
    """

    id: int
    client_id: int
    key: str
    level: int
    grown: int
    at: datetime
    told_at: datetime | None
    seen_at: datetime | None
    closed_at: datetime | None
    facts: Mapping[str, Any] | None
    due_at: datetime | None
    reminded: int


MATTER_LASTS = timedelta(days=14)
"""After this long the same again is a new matter. Our proposal."""


def alerts_due_anywhere(connection: Connection, now: datetime, limit: int) -> list[tuple[int, int]]:
    """Return (coach, alert) of matters that are to be looked at again, the longest due first."""
    query = (
        select(alert.c.coach_id, alert.c.id)
        .where(alert.c.closed_at.is_(None), alert.c.due_at <= now)
        .order_by(alert.c.due_at, alert.c.id)
        .limit(limit)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def next_alert_due(connection: Connection) -> datetime | None:
    """Return when a matter is to be looked at again next."""
    query = select(alert.c.due_at).where(alert.c.closed_at.is_(None), alert.c.due_at.is_not(None))
    found: datetime | None = connection.execute(query.order_by(alert.c.due_at).limit(1)).scalar()
    return found


class Alerts(Rows):
    """Matters of one coach: told once, again only when grown."""

    def grow(
        self,
        client_id: int,
        key: str,
        level: int,
        grown: int,
        now: datetime,
        *,
        facts: Mapping[str, Any] | None = None,
        stands: bool = False,
    ) -> Alert | None:
        """Keep a matter; return it when it is new or has grown, None when there is nothing new to tell.

        Args:
            client_id: Whom it is about.
            key: The matter.
            level: How soon.
            grown: What it has grown to.
            now: Instant.
            facts: What the digest says of it; None leaves what is kept.
            stands: True for what the digest tells: the same is no new matter, however long it goes on.
        """
        found = self.open_one(key)
        lasts = found is not None and not stands and found.level > 0
        if found is not None and lasts and now - (found.told_at or found.at) > MATTER_LASTS:
            self.close(key, now)
            found = None
        if found is None:
            self._add(client_id, key, level, grown, now, facts)
            return self.open_one(key)
        if grown <= found.grown and level <= found.level:
            return None
        known: dict[str, Any] = {} if facts is None else {"facts": dict(facts)}
        if stands:
            known["told_at"] = None
        if level >= found.level:  # What could not wait and is unseen is told on, though less has come to it.
            known |= {"due_at": None, "reminded": 0}
        self._change(
            found.id,
            grown=max(grown, found.grown),
            level=max(level, found.level),
            seen_at=None,
            **known,
        )
        return self.open_one(key)

    def watch(self, client_id: int, key: str, due_at: datetime, now: datetime) -> None:
        """Have something looked at on a date that may then be a matter; what is one already stays as it is."""
        found = self.open_one(key)
        if found is None:
            self._add(client_id, key, 0, 0, now, None, due_at=due_at)
        elif found.level == 0 and found.due_at != due_at:
            self._change(found.id, due_at=due_at)

    def put_off(self, alert_id: int, due_at: datetime | None) -> None:
        """Have a matter looked at later, or no more."""
        self._change(alert_id, due_at=due_at)

    def again(self, alert_id: int, reminded: int, due_at: datetime | None) -> None:
        """Note that a matter is told again, and when it is looked at next."""
        self._change(alert_id, reminded=reminded, due_at=due_at)

    def untold(self, prefixes: tuple[str, ...]) -> list[Alert]:
        """Return the open matters of these kinds that are only kept for the digest and were not told yet."""
        kinds = [alert.c.key.startswith(each, autoescape=True) for each in prefixes]
        query = (
            rows_of(Alert, alert)
            .where(
                alert.c.coach_id == self.coach_id,
                alert.c.closed_at.is_(None),
                alert.c.told_at.is_(None),
                alert.c.level > 0,
                or_(*kinds),
            )
            .order_by(alert.c.id)
        )
        return [Alert(*row) for row in self.connection.execute(query)]

    def _add(
        self,
        client_id: int,
        key: str,
        level: int,
        grown: int,
        now: datetime,
        facts: Mapping[str, Any] | None,
        *,
        due_at: datetime | None = None,
    ) -> None:
        row = {"coach_id": self.coach_id, "client_id": client_id, "key": key, "level": level, "grown": grown}
        row |= {"at": now, "facts": None if facts is None else dict(facts), "due_at": due_at}
        self.connection.execute(insert(alert).values(row))

    def _change(self, alert_id: int, **values: Any) -> None:
        mine = alert.c.id == alert_id, alert.c.coach_id == self.coach_id
        self.connection.execute(update(alert).where(*mine).values(**values))

    def open_one(self, key: str) -> Alert | None:
        """Return the open matter of a key."""
        query = rows_of(Alert, alert).where(
            alert.c.coach_id == self.coach_id, alert.c.key == key, alert.c.closed_at.is_(None)
        )
        return one(Alert, self.connection.execute(query).first())

    def was_ever(self, key: str) -> bool:
        """Return whether there was ever a matter of a key, open or not."""
        query = select(alert.c.id).where(alert.c.coach_id == self.coach_id, alert.c.key == key)
        return self.connection.execute(query.limit(1)).first() is not None

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

    def told_since(self, prefix: str, since: datetime) -> list[Alert]:
        """Return the open matters of a kind that were told from an instant on and are unseen, the first told first."""
        query = (
            rows_of(Alert, alert)
            .where(
                alert.c.coach_id == self.coach_id,
                alert.c.key.startswith(prefix, autoescape=True),
                alert.c.told_at >= since,
                alert.c.closed_at.is_(None),
                alert.c.seen_at.is_(None),
            )
            .order_by(alert.c.told_at, alert.c.id)
        )
        return [Alert(*row) for row in self.connection.execute(query)]

    def some(self, alert_ids: Collection[int]) -> list[Alert]:
        """Return those of some matters that are there, the oldest first."""
        mine = alert.c.coach_id == self.coach_id, alert.c.id.in_(alert_ids)
        query = rows_of(Alert, alert).where(*mine).order_by(alert.c.id)
        return [Alert(*row) for row in self.connection.execute(query)]

    def seen(self, alert_id: int, now: datetime) -> None:
        """Note that a matter was seen; it is not told again for being unseen."""
        self._change(alert_id, seen_at=now, due_at=None)

    def told(self, alert_id: int, now: datetime, *, again_at: datetime | None = None) -> None:
        """Note that the coach's message is queued, and when the matter is looked at again if it stays unseen."""
        again = {} if again_at is None else {"due_at": again_at}
        self._change(alert_id, told_at=now, **again)

    def close_of(self, client_id: int, now: datetime, prefix: str = "", but: tuple[str, ...] = ()) -> None:
        """End every matter of a client whose key begins so, but for some; what is only watched goes on."""
        left = [~alert.c.key.startswith(each, autoescape=True) for each in but]
        self.connection.execute(
            update(alert)
            .where(
                alert.c.coach_id == self.coach_id,
                alert.c.client_id == client_id,
                alert.c.key.startswith(prefix, autoescape=True),
                alert.c.level > 0,
                alert.c.closed_at.is_(None),
                *left,
            )
            .values(closed_at=now)
        )

    def close(self, key: str, now: datetime) -> None:
        """End a matter; the same again would be a new one."""
        self.close_all([key], now)

    def close_all(self, keys: Collection[str], now: datetime) -> None:
        """End matters; the same again would be new ones."""
        self.connection.execute(
            update(alert)
            .where(alert.c.coach_id == self.coach_id, alert.c.key.in_(keys), alert.c.closed_at.is_(None))
            .values(closed_at=now)
        )
