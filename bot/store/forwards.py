"""Messages of clients that were passed on to their coach."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import insert, select, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import forwarded


@dataclass(frozen=True, slots=True)
class Forwarded:
    """A client's message as it was passed on."""

    id: int
    client_id: int
    chat_id: int
    message_id: int | None
    from_message_id: int | None
    kind: str
    answered_at: datetime | None


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
    ) -> None:
        """Keep whose words a message to the coach holds, so that a reply finds its way."""
        self.connection.execute(
            insert(forwarded).values(
                coach_id=self.coach_id,
                client_id=client_id,
                outbox_key=outbox_key,
                chat_id=chat_id,
                from_message_id=from_message_id,
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
