"""What is known of a chat whoever's it is: the platform's pauses, the last message, strangers answered."""

from datetime import datetime, timedelta
from functools import lru_cache
from typing import Any

from sqlalchemy import Connection, or_, select, update

from bot.store.outbox import adding, adding_on
from bot.store.tables import account, card, chat


@lru_cache
def _noting(dialect: str, names: tuple[str, ...]) -> Any:
    adding_one = adding_on(dialect, chat)
    values = {name: adding_one.excluded[name] for name in names}
    return adding_one.on_conflict_do_update(index_elements=["chat_id"], set_=values)


class Chats:
    """Chats of all tenants."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def _note(self, chat_id: int, **values: Any) -> None:
        noting = _noting(self.connection.dialect.name, tuple(values))
        self.connection.execute(noting, {"chat_id": chat_id, **values})

    def pause(self, chat_id: int, until: datetime) -> None:
        """Send nothing there until then, because the platform said so; a pause never gets shorter."""
        paused = self.paused_until(chat_id)
        self._note(chat_id, paused_until=until if paused is None else max(until, paused))

    def paused_until(self, chat_id: int) -> datetime | None:
        """Return until when the platform wants nothing sent there."""
        return self.connection.execute(select(chat.c.paused_until).where(chat.c.chat_id == chat_id)).scalar()

    def sent(self, chat_id: int, now: datetime) -> None:
        """Note that something arrived there."""
        self._note(chat_id, last_sent_at=now)

    def last_sent_at(self, chat_id: int) -> datetime | None:
        """Return when something last arrived there."""
        return self.connection.execute(select(chat.c.last_sent_at).where(chat.c.chat_id == chat_id)).scalar()

    def may_answer_stranger(self, chat_id: int, now: datetime, every: timedelta) -> bool:
        """Return whether somebody unknown gets an answer now, and note it if so: one in each `every`."""
        query = adding(self.connection, chat).values(chat_id=chat_id, stranger_answered_at=now)
        rested = or_(chat.c.stranger_answered_at.is_(None), chat.c.stranger_answered_at <= now - every)
        query = query.on_conflict_do_update(
            index_elements=["chat_id"], set_={"stranger_answered_at": now}, where=rested
        )
        return self.connection.execute(query.returning(chat.c.chat_id)).first() is not None

    def is_reachable(self, chat_id: int) -> bool:
        """Return whether nobody there is known to have shut us out; a stranger is not known."""
        shut = select(account.c.user_id).where(account.c.chat_id == chat_id, account.c.reachable.is_(False))
        return self.connection.execute(shut.limit(1)).first() is None

    def shut(self, chat_id: int, now: datetime) -> None:
        """Note that the platform lets nothing through to there."""
        self.connection.execute(
            update(account)
            .where(account.c.chat_id == chat_id, account.c.reachable.is_(True))
            .values(reachable=False, unreachable_at=now)
        )

    def follow(self, old_chat_id: int, new_chat_id: int) -> None:
        """A chat has another number now."""
        for table in (account, card):
            self.connection.execute(
                update(table).where(table.c.chat_id == old_chat_id).values(chat_id=new_chat_id)
            )
