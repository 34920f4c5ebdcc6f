"""Who is who: accounts, coaches, clients, consent."""

from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any

from sqlalchemy import ColumnElement, Connection, insert, select, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, given, one, rows_of
from bot.store.tables import account, client, coach, consent


@dataclass(frozen=True, slots=True)
class Account:
    """A platform account that is known here."""

    user_id: int
    chat_id: int
    coach_id: int
    role: str
    client_id: int | None
    reachable: bool


_ACCOUNT = rows_of(Account, account).where(given(account.c.user_id))
_CLIENTS_ACCOUNT = rows_of(Account, account).where(given(account.c.client_id))


class Accounts:
    """Accounts of every tenant: read before the tenant is known."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def find(self, user_id: int) -> Account | None:
        """Return the account of a platform user."""
        return one(Account, self.connection.execute(_ACCOUNT, {"user_id": user_id}).first())

    def bind(
        self, user_id: int, chat_id: int, coach_id: int, role: str, client_id: int | None = None
    ) -> None:
        """Tie a platform user to a coach, as the coach herself or as a client."""
        self.connection.execute(
            insert(account).values(
                user_id=user_id, chat_id=chat_id, coach_id=coach_id, role=role, client_id=client_id
            )
        )

    def coach_chat(self, coach_id: int) -> int | None:
        """Return the coach's private chat; None while her account is not bound."""
        query = select(account.c.chat_id).where(account.c.coach_id == coach_id, account.c.role == "coach")
        return self.connection.execute(query).scalar()

    def coach(self, coach_id: int) -> Account | None:
        """Return the coach's own account; None while it is not bound."""
        query = rows_of(Account, account).where(account.c.coach_id == coach_id, account.c.role == "coach")
        return one(Account, self.connection.execute(query).first())

    def at(self, chat_id: int) -> Account | None:
        """Return the account of a private chat."""
        query = rows_of(Account, account).where(account.c.chat_id == chat_id)
        return one(Account, self.connection.execute(query).first())

    @read_once
    def of_client(self, client_id: int) -> Account | None:
        """Return the account of a client; None while she has not joined."""
        return one(Account, self.connection.execute(_CLIENTS_ACCOUNT, {"client_id": client_id}).first())

    def reachable(self, coach_id: int) -> frozenset[int]:
        """Return the clients of a coach whom messages reach: they have joined and have not blocked the bot."""
        query = select(account.c.client_id).where(
            account.c.coach_id == coach_id, account.c.client_id.is_not(None), account.c.reachable
        )
        return frozenset(self.connection.execute(query).scalars())

    def set_reachable(self, user_id: int, now: datetime, *, reachable: bool) -> None:
        """Note that a user blocked or unblocked the bot."""
        self.connection.execute(
            update(account)
            .where(account.c.user_id == user_id)
            .values(reachable=reachable, unreachable_at=None if reachable else now)
        )

    def unbind(self, user_id: int) -> None:
        """Forget which account a user had."""
        self.connection.execute(account.delete().where(account.c.user_id == user_id))


@dataclass(frozen=True, slots=True)
class Coach:
    """A coach."""

    id: int
    name: str
    zone: str
    country: str | None
    created_at: datetime
    missed_style: str = "calendar"
    in_line_since: datetime | None = None
    plan_weekday: int = 6
    check_in_weekday: int = 6
    check_in_questions: list[dict[str, Any]] | None = None
    office_days: list[int] | None = None
    office_from: time | None = None
    office_to: time | None = None


_COACH = rows_of(Coach, coach).where(given(coach.c.id))


class Coaches:
    """Coaches themselves; house-level, used by the command line and by alerts."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def add(self, name: str, zone: str, now: datetime) -> int:
        """Add a coach and return her id."""
        done = self.connection.execute(
            insert(coach).values(name=name, zone=zone, created_at=now).returning(coach.c.id)
        )
        return int(done.scalar_one())

    @read_once
    def get(self, coach_id: int) -> Coach:
        """Return a coach."""
        found = one(Coach, self.connection.execute(_COACH, {"id": coach_id}).first())
        if found is None:
            raise LookupError(f"no coach {coach_id}")
        return found

    def change(self, coach_id: int, **values: Any) -> None:
        """Set columns of a coach."""
        self.connection.execute(update(coach).where(coach.c.id == coach_id).values(**values))

    def ids(self) -> list[int]:
        """Return every coach's id, rising."""
        return list(self.connection.execute(select(coach.c.id).order_by(coach.c.id)).scalars())


@dataclass(frozen=True, slots=True)
class Client:
    """A client as the store knows her; None where she has not said yet."""

    id: int
    name: str
    state: str
    join_step: str | None
    age_band: str | None
    unit: str | None
    zone: str | None
    hour: time | None
    days: list[int] | None
    experience: str | None
    kit_kind: str | None
    usually_alone: bool | None
    safety_arms: bool | None
    bodyweight: Decimal | None
    frozen_at: datetime | None
    frozen_for: str | None
    joined_at: datetime | None
    heard_at: datetime | None = None
    paused_until: date | None = None
    minutes: int | None = None
    limits_said: str | None = None
    weekly_line: str = "short"


_CLIENT = rows_of(Client, client).where(given(client.c.id), given(client.c.coach_id))


class Clients(Rows):
    """Clients of one coach."""

    def add(self, name: str, now: datetime) -> int:
        """Add a client who has begun to join."""
        done = self.connection.execute(
            insert(client)
            .values(coach_id=self.coach_id, name=name, state="joining", created_at=now)
            .returning(client.c.id)
        )
        return int(done.scalar_one())

    @read_once
    def get(self, client_id: int) -> Client:
        """Return one client.

        Raises:
            LookupError: She is not a client of this coach.
        """
        row = self.connection.execute(_CLIENT, {"id": client_id, "coach_id": self.coach_id}).first()
        found = one(Client, row)
        if found is None:
            raise LookupError(f"no client {client_id} here")
        return found

    def roster(self) -> list[Client]:
        """Return everyone who has not stopped, by name."""
        query = (
            rows_of(Client, client)
            .where(client.c.coach_id == self.coach_id, client.c.state != "stopped")
            .order_by(client.c.name, client.c.id)
        )
        return [Client(*row) for row in self.connection.execute(query)]

    def everybody(self) -> list[Client]:
        """Return everyone who is kept, those who have stopped too, by name."""
        query = (
            rows_of(Client, client)
            .where(client.c.coach_id == self.coach_id)
            .order_by(client.c.name, client.c.id)
        )
        return [Client(*row) for row in self.connection.execute(query)]

    def change(self, client_id: int, **values: Any) -> None:
        """Set columns of one client."""
        self.connection.execute(
            update(client)
            .where(client.c.id == client_id, client.c.coach_id == self.coach_id)
            .values(**values)
        )

    def agree(self, client_id: int, version: str, now: datetime) -> None:
        """Keep a consent to health data."""
        self.connection.execute(
            insert(consent).values(coach_id=self.coach_id, client_id=client_id, version=version, given_at=now)
        )

    def withdraw(self, client_id: int, now: datetime) -> None:
        """Keep that a client has withdrawn her consent."""
        self.connection.execute(update(consent).where(*self._standing(client_id)).values(withdrawn_at=now))

    def end_consent(self, client_id: int, now: datetime) -> None:
        """Keep that a consent covers nothing more, since what it was given for is over; she has not withdrawn it."""
        self.connection.execute(update(consent).where(*self._standing(client_id)).values(ended_at=now))

    def was_ended(self, client_id: int) -> bool:
        """Return whether the last consent of a client ended by her coach's word, and not by her own."""
        query = (
            select(consent.c.ended_at)
            .where(consent.c.client_id == client_id, consent.c.coach_id == self.coach_id)
            .order_by(consent.c.id.desc())
            .limit(1)
        )
        return self.connection.execute(query).scalar() is not None

    def _standing(self, client_id: int) -> tuple[ColumnElement[bool], ...]:
        return (
            consent.c.client_id == client_id,
            consent.c.coach_id == self.coach_id,
            consent.c.withdrawn_at.is_(None),
            consent.c.ended_at.is_(None),
        )

    def consent_version(self, client_id: int) -> str | None:
        """Return the version of the consent that stands; None where none does."""
        query = select(consent.c.version).where(*self._standing(client_id))
        found = self.connection.execute(query.order_by(consent.c.id.desc()).limit(1)).scalar()
        return None if found is None else str(found)

    def consented(self, client_id: int) -> bool:
        """Return whether a consent stands."""
        query = select(consent.c.id).where(*self._standing(client_id))
        return self.connection.execute(query.limit(1)).first() is not None
