"""Cards: messages that are kept up to date where they stand, and move down when they have scrolled away."""

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import insert, select, update

from bot.messages import EditCard, Message, Send
from bot.store.outbox import SENDS, Outbox, OutboxRow, body_of, message_of
from bot.store.rows import Rows, given, made_row, one, rows_of, settable, this
from bot.store.tables import card, outbox


@dataclass(frozen=True, slots=True)
class Card:
    """A card.

    Attributes:
        id: Its row.
        client_id: Whose it is.
        key: Unique for the tenant.
        chat_id: Where it stands.
        message_id: Message that it is; None until that is known.
        wanted: Revision that it should show.
        shown: Revision that it is known to show.
    """

    id: int
    client_id: int | None
    key: str
    chat_id: int
    message_id: int | None
    wanted: int
    shown: int


_ONE = rows_of(Card, card).where(given(card.c.coach_id), given(card.c.key))
_BY_ID = rows_of(Card, card).where(given(card.c.coach_id), given(card.c.id))
_AT = rows_of(Card, card).where(given(card.c.coach_id), given(card.c.chat_id), given(card.c.message_id))
_SET = update(card).where(this(card.c.id), this(card.c.coach_id))
_CHANGE = update(outbox).where(this(outbox.c.id))
_QUEUED = (
    select(outbox.c.id)
    .where(given(outbox.c.card_id), outbox.c.state == "queued", outbox.c.op != "strip")
    .order_by(outbox.c.id)
)
_NEW = insert(card)


class Cards(Rows):
    """Cards of one coach's people."""

    def find(self, key: str) -> Card | None:
        """Return the card of a key."""
        asked = {"coach_id": self.coach_id, "key": key}
        return one(Card, self.connection.execute(_ONE, asked).first())

    def card_at(self, chat_id: int, message_id: int) -> Card | None:
        """Return the card that a message is."""
        asked = {"coach_id": self.coach_id, "chat_id": chat_id, "message_id": message_id}
        return one(Card, self.connection.execute(_AT, asked).first())

    def start(self, effect: Send, now: datetime) -> int | None:
        """Queue a message that becomes a card; None, and nothing changed, when its key was there already.

        Raises:
            ValueError: The effect names no card.
        """
        if effect.card is None:
            raise ValueError("only a message that names a card becomes one")
        row_id = Outbox(self.connection).put(self.coach_id, effect, now)
        if row_id is None:
            return None
        known = self._wanted(effect.card, effect.chat_id, effect.client_id)
        for older in self._queued(known.id) if known.wanted > 1 else ():
            self._change(older, state="cancelled", cause="superseded")
        body = body_of(effect.message, revision=known.wanted)
        self._change(row_id, card_id=known.id, body=body)
        return row_id

    def show(self, effect: EditCard, now: datetime) -> None:
        """Have a card show new content. Of a card at most one row is queued: a newer content replaces an older."""
        known = self._wanted(effect.card, effect.chat_id, effect.client_id)
        body = body_of(_moved(effect), revision=known.wanted)
        waiting = self._queued(known.id)
        if waiting:
            self._replace(waiting[-1], effect, body)
            return
        op = "send" if known.message_id is None and not self._in_flight(known.id) else "edit"
        Outbox(self.connection).add(
            self.coach_id,
            known.chat_id,
            f"card:{known.id}:{known.wanted}",
            now,
            op="move" if op == "edit" and effect.moved else op,
            body=body,
            card_id=known.id,
            client_id=effect.client_id,
        )

    def delivered(self, row: OutboxRow, message_id: int | None, now: datetime) -> None:
        """Note what a card shows, and as which message; an older message of it loses its buttons."""
        if row.card_id is None or row.op == "strip":
            return
        asked = {"coach_id": self.coach_id, "id": row.card_id}
        known = one(Card, self.connection.execute(_BY_ID, asked).first())
        if known is None:
            return
        shown = max(known.shown, row.revision)
        if row.op not in SENDS or message_id is None:
            self._set(known.id, shown=shown)
            return
        self._set(known.id, shown=shown, message_id=message_id)
        old = known.message_id
        if old is not None and old != message_id and known.chat_id == row.chat_id:
            key = f"strip:{known.id}:{old}"
            Outbox(self.connection).add(
                self.coach_id, row.chat_id, key, now, op="strip", card_id=known.id, message_id=old
            )

    def lost(self, row: OutboxRow) -> None:
        """The card's message is gone: the next call makes a new one."""
        self.connection.execute(
            update(card)
            .where(card.c.id == row.card_id, card.c.coach_id == self.coach_id)
            .where(card.c.message_id == row.message_id)
            .values(message_id=None)
        )

    def follow(self, client_id: int, chat_id: int, from_chat: int | None) -> None:
        """Have a client's cards stand in another chat from now on; the next showing of each is a new message there."""
        self.connection.execute(
            update(card)
            .where(
                card.c.coach_id == self.coach_id, card.c.client_id == client_id, card.c.chat_id == from_chat
            )
            .values(chat_id=chat_id, message_id=None)
        )

    def is_superseded(self, row: OutboxRow) -> bool:
        """Return whether a later queued row shows this card, so that an edit need not be tried again."""
        return (
            row.op == "edit"
            and row.card_id is not None
            and any(each > row.id for each in self._queued(row.card_id))
        )

    def _wanted(self, key: str, chat_id: int, client_id: int | None) -> Card:
        known = self.find(key)
        if known is not None:
            changed: dict[str, Any] = {"wanted": known.wanted + 1}
            if known.chat_id != chat_id:
                changed |= {"chat_id": chat_id, "message_id": None}
            self._set(known.id, **changed)
            return replace(known, **changed)
        values = {"coach_id": self.coach_id, "key": key, "chat_id": chat_id, "client_id": client_id}
        made = made_row(self.connection.execute(_NEW, values | {"wanted": 1}))
        return Card(made, client_id, key, chat_id, None, 1, 0)

    def _replace(self, row_id: int, effect: EditCard, body: dict[str, Any]) -> None:
        op, old = self.connection.execute(
            select(outbox.c.op, outbox.c.body).where(outbox.c.id == row_id)
        ).one()
        if op == "send":
            body = body_of(replace(effect.message, silent=message_of(old).silent), revision=body["revision"])
        moved = op == "edit" and effect.moved
        self._change(row_id, body=body, op="move" if moved else op, chat_id=effect.chat_id)

    def _queued(self, card_id: int) -> list[int]:
        return list(self.connection.execute(_QUEUED, {"card_id": card_id}).scalars())

    def _in_flight(self, card_id: int) -> bool:
        query = select(outbox.c.id).where(
            outbox.c.card_id == card_id, outbox.c.state == "sending", outbox.c.op.in_(SENDS)
        )
        return self.connection.execute(query.limit(1)).first() is not None

    def _set(self, card_id: int, **values: Any) -> None:
        self.connection.execute(
            _SET, {"this_id": card_id, "this_coach_id": self.coach_id, **settable(card, values)}
        )

    def _change(self, row_id: int, **values: Any) -> None:
        self.connection.execute(_CHANGE, {"this_id": row_id, **settable(outbox, values)})


def _moved(effect: EditCard) -> Message:
    return replace(effect.message, silent=True) if effect.moved else effect.message
