"""Messages of clients that were passed on to their coach."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, insert, select, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import forwarded, outbox


@dataclass(frozen=True, slots=True)
class Forwarded:
    """A client's message as it was passed on."""

    id: int
    client_id: int
    chat_id: int
    message_id: int | None
    from_message_id: int | None
    kind: str
    at: datetime
    answered_at: datetime | None
    item_id: int | None = None


class Forwards(Rows):
    """Messages of clients passed on to their coach."""

    def add(
        self,
        client_id: int,
        outbox_key: str,
        chat_id: int,
        from_message_id: int | None,
        kind: str,
        at: datetime,
        *,
        item_id: int | None = None,
    ) -> None:
        """Keep whose words a message to the coach holds, so that a reply finds its way."""
        self.connection.execute(
            insert(forwarded).values(
                coach_id=self.coach_id,
                client_id=client_id,
                outbox_key=outbox_key,
                chat_id=chat_id,
                from_message_id=from_message_id,
                item_id=item_id,
                kind=kind,
                at=at,
            )
        )

    def at(self, chat_id: int, message_id: int) -> Forwarded | None:
        """Return what was passed on as a message in a coach's chat."""
        query = (
            rows_of(Forwarded, forwarded)
            .where(
                forwarded.c.coach_id == self.coach_id,
                forwarded.c.chat_id == chat_id,
                forwarded.c.message_id == message_id,
            )
            .order_by(forwarded.c.id.desc())
            .limit(1)
        )
        return one(Forwarded, self.connection.execute(query).first())

    def waiting(
        self, kinds: Collection[str], client_id: int | None = None, since: datetime | None = None
    ) -> list[Forwarded]:
        """Return messages of some kinds that have no answer, oldest first: of one client, or of all.

        Args:
            kinds: As kept.
            client_id: Whose; None for everybody's.
            since: How far back; None for all of it.
        """
        query = rows_of(Forwarded, forwarded).where(
            forwarded.c.coach_id == self.coach_id,
            forwarded.c.kind.in_(kinds),
            forwarded.c.answered_at.is_(None),
            *(() if client_id is None else (forwarded.c.client_id == client_id,)),
            *(() if since is None else (forwarded.c.at >= since,)),
        )
        return [
            Forwarded(*row) for row in self.connection.execute(query.order_by(forwarded.c.at, forwarded.c.id))
        ]

    def answered(self, forwarded_id: int, now: datetime) -> None:
        """Note that the coach has answered; the first time counts."""
        self.connection.execute(
            update(forwarded)
            .where(
                forwarded.c.id == forwarded_id,
                forwarded.c.coach_id == self.coach_id,
                forwarded.c.answered_at.is_(None),
            )
            .values(answered_at=now)
        )

    def knows(self, client_id: int, message_id: int | None) -> bool:
        """Return whether a message of a client was passed on before."""
        query = select(forwarded.c.id).where(
            forwarded.c.coach_id == self.coach_id,
            forwarded.c.client_id == client_id,
            forwarded.c.from_message_id == message_id,
        )
        return message_id is not None and self.connection.execute(query.limit(1)).first() is not None

    def has_key(self, outbox_key: str) -> bool:
        """Return whether something was passed on under a key."""
        query = select(forwarded.c.id).where(
            forwarded.c.coach_id == self.coach_id, forwarded.c.outbox_key == outbox_key
        )
        return self.connection.execute(query.limit(1)).first() is not None

    def media_since(self, client_id: int, since: datetime, kind: str | None = None) -> int:
        """Return how many messages of a client that were no text, or of one kind, were passed on since an instant."""
        query = select(func.count(forwarded.c.from_message_id.distinct())).where(
            forwarded.c.coach_id == self.coach_id,
            forwarded.c.client_id == client_id,
            forwarded.c.kind != "text" if kind is None else forwarded.c.kind == kind,
            forwarded.c.at >= since,
        )
        return int(self.connection.execute(query).scalar_one())

    def has_album(self, client_id: int, album: str) -> bool:
        """Return whether something of an album of a client was passed on before."""
        query = select(forwarded.c.id).where(
            forwarded.c.coach_id == self.coach_id,
            forwarded.c.client_id == client_id,
            forwarded.c.outbox_key.contains(f":album:{album}.", autoescape=True),
        )
        return self.connection.execute(query.limit(1)).first() is not None

    def album_key(self, prefix: str, album: str) -> str | None:
        """Return the key under which something of a coach's album went out, where it begins with `prefix`."""
        query = select(outbox.c.key).where(
            outbox.c.coach_id == self.coach_id,
            outbox.c.key.startswith(f"{self.coach_id}:{prefix}:", autoescape=True),
            outbox.c.key.contains(f":album:{album}.", autoescape=True),
        )
        found: str | None = self.connection.execute(query.limit(1)).scalar()
        return None if found is None else found.partition(":")[2]
