"""The second person whom a coach has named: who hears of what cannot wait when the coach does not see it."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, select, update

from bot.store.invites import code_hash
from bot.store.tables import coach


@dataclass(frozen=True, slots=True)
class Second:
    """A coach's second person.

    Attributes:
        coach_id: Whose.
        name: As the coach calls her.
        user_id: Her account; None until she has opened the link.
        chat_id: Her chat.
        until: Until when the link is good; None once it is used.
    """

    coach_id: int
    name: str
    user_id: int | None
    chat_id: int | None
    until: datetime | None


_COLUMNS = (
    coach.c.id,
    coach.c.second_name,
    coach.c.second_user_id,
    coach.c.second_chat_id,
    coach.c.second_until,
)


class Seconds:
    """Second persons; house-level, since a link is opened by somebody whose tenant is not known yet."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def of(self, coach_id: int) -> Second | None:
        """Return the second person of a coach, bound or only named."""
        query = select(*_COLUMNS).where(coach.c.id == coach_id, coach.c.second_name.is_not(None))
        row = self.connection.execute(query).first()
        return None if row is None else Second(*row)

    def who(self, user_id: int) -> Second | None:
        """Return whose second person an account is."""
        query = select(*_COLUMNS).where(coach.c.second_user_id == user_id).order_by(coach.c.id)
        row = self.connection.execute(query.limit(1)).first()
        return None if row is None else Second(*row)

    def knows(self, code: str) -> bool:
        """Return whether a code is one that has not bound anybody yet."""
        query = select(coach.c.id).where(coach.c.second_code == code_hash(code))
        return self.connection.execute(query.limit(1)).first() is not None

    def name(self, coach_id: int, name: str, code: str, until: datetime) -> None:
        """Name a second person, with a code that binds an account once; whoever was bound before is no more."""
        self._set(
            coach_id,
            second_name=name,
            second_user_id=None,
            second_chat_id=None,
            second_code=code_hash(code),
            second_until=until,
        )

    def bind(self, code: str, user_id: int, chat_id: int, now: datetime) -> Second | None:
        """Bind an account by its code, once; None where the code is not good."""
        mine = coach.c.second_code == code_hash(code), coach.c.second_until > now
        done = self.connection.execute(
            update(coach)
            .where(*mine)
            .values(second_user_id=user_id, second_chat_id=chat_id, second_code=None, second_until=None)
            .returning(coach.c.id)
        )
        found: int | None = done.scalar()
        return None if found is None else self.of(found)

    def end(self, coach_id: int) -> None:
        """Have nobody be the second person."""
        self._set(
            coach_id,
            second_name=None,
            second_user_id=None,
            second_chat_id=None,
            second_code=None,
            second_until=None,
        )

    def _set(self, coach_id: int, **values: object) -> None:
        self.connection.execute(update(coach).where(coach.c.id == coach_id).values(**values))
