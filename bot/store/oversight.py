"""What a coach must hear, asked of the log: sessions past their grace, silences, and the facts of a digest."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, datetime, time

from sqlalchemy import Connection, func, insert, select, update

from bot.store.outbox import SENDS
from bot.store.rows import Rows, rows_of, this
from bot.store.tables import (
    account,
    assignment,
    assignment_version,
    body_report,
    card,
    client,
    clinician_limit,
    coach,
    decision,
    order,
    outbox,
    picture,
    session,
    week_change,
)
from bot.store.top_loads import top_loads, whose
from core.checkin.training_log import Session
from core.oversight.facts import Lifted
from core.oversight.misses import OPEN, Past

_CHANGES = (
    (body_report, body_report.c.at),
    (body_report, body_report.c.voided_at),
    (body_report, body_report.c.released_at),
    (order, order.c.at),
    (order, order.c.voided_at),
    (assignment, assignment.c.created_at),
    (assignment_version, assignment_version.c.at),
    (assignment_version, assignment_version.c.voided_at),
    (week_change, week_change.c.at),
    (week_change, week_change.c.voided_at),
    (clinician_limit, clinician_limit.c.at),
    (clinician_limit, clinician_limit.c.ended_at),
)
"""What decisions rest on beside sets, and when it came or went."""

SYSTEM = "system"
"""Reason kept on an open session that an outage of the bot fell into."""


@dataclass(frozen=True, slots=True)
class OpenSession:
    """A session whose card is out, with what its grace hangs on."""

    coach_id: int
    session_id: int
    on: date
    zone: str
    client_id: int


@dataclass(frozen=True, slots=True)
class DigestHour:
    """When a coach wants her digest: 0 is Monday."""

    coach_id: int
    zone: str
    weekday: int
    at: time


def open_anywhere(connection: Connection) -> list[OpenSession]:
    """Return every session whose card is out and that is not over."""
    query = (
        select(session.c.coach_id, session.c.id, session.c.local_on, client.c.zone, client.c.id)
        .join(client, client.c.id == session.c.client_id)
        .where(session.c.state.in_(sorted(OPEN)), client.c.zone.is_not(None))
        .order_by(session.c.local_on, session.c.id)
    )
    return [OpenSession(*row) for row in connection.execute(query)]


_PAUSES = select(client.c.coach_id, client.c.id, client.c.paused_until, client.c.zone).where(
    client.c.state == "paused", client.c.paused_until.is_not(None), client.c.zone.is_not(None)
)
"""In no order: with one asked for, SQLite goes through all clients in it."""


def pauses_anywhere(connection: Connection) -> list[tuple[int, int, date, str]]:
    """Return (coach, client, first day of training again, zone) of pauses that clients chose."""
    found = [tuple(row) for row in connection.execute(_PAUSES)]
    return sorted(found, key=lambda each: each[1])


def digest_hours(connection: Connection) -> list[DigestHour]:
    """Return the digest's hour of every coach who has an account and anybody on a block."""
    theirs = assignment.c.coach_id == coach.c.id
    query = (
        select(coach.c.id, coach.c.zone, coach.c.digest_weekday, coach.c.digest_at)
        .join(account, (account.c.coach_id == coach.c.id) & (account.c.role == "coach"))
        .where(select(assignment.c.id).where(theirs, assignment.c.ended_at.is_(None)).exists())
        .order_by(coach.c.id)
    )
    return [DigestHour(*row) for row in connection.execute(query)]


def had_sessions(connection: Connection, coach_id: int, before: datetime) -> bool:
    """Return whether any session of a coach's clients went out before an instant."""
    query = select(session.c.id).where(session.c.coach_id == coach_id, session.c.sent_at < before)
    return connection.execute(query.limit(1)).first() is not None


def is_queued(connection: Connection, coach_id: int, key: str) -> bool:
    """Return whether a message of a coach's was ever queued under a key."""
    query = select(outbox.c.id).where(outbox.c.key == f"{coach_id}:{key}")
    return connection.execute(query).first() is not None


_HEARD = update(client).where(this(client.c.id), this(client.c.coach_id))


class Oversight(Rows):
    """The log of one coach's clients, as oversight looks at it."""

    def past(self, client_id: int | None, first: date) -> dict[int, tuple[Past, ...]]:
        """Return sessions from a date on by client, oldest first: of one client or of all."""
        query = (
            select(
                session.c.client_id,
                session.c.id,
                session.c.local_on,
                session.c.state,
                session.c.left_reason,
                session.c.sent_at,
            )
            .where(*whose(self.coach_id, client_id), session.c.local_on >= first)
            .where(session.c.state != "planned")
            .order_by(session.c.local_on, session.c.id)
        )
        found: dict[int, list[Past]] = defaultdict(list)
        for row in self.connection.execute(query):
            found[row.client_id].append(
                Past(
                    session_id=row.id,
                    on=row.local_on,
                    state=row.state,
                    reason=row.left_reason,
                    sent_at=row.sent_at,
                )
            )
        return {key: tuple(each) for key, each in found.items()}

    def began(self, client_id: int | None = None) -> dict[int, date]:
        """Return the date of the first session ever sent, by client."""
        query = (
            select(session.c.client_id, func.min(session.c.local_on).label("on"))
            .where(*whose(self.coach_id, client_id), session.c.sent_at.is_not(None))
            .group_by(session.c.client_id)
        )
        return {row.client_id: row.on for row in self.connection.execute(query)}

    def reason(self, session_id: int) -> str | None:
        """Return why a session was left out or missed, or that an outage spares it."""
        query = select(session.c.left_reason).where(
            session.c.id == session_id, session.c.coach_id == self.coach_id
        )
        found: str | None = self.connection.execute(query).scalar_one()
        return found

    def is_in_doubt(self, card_key: str) -> bool:
        """Return whether a card never arrived, or nobody knows if it did."""
        query = (
            select(outbox.c.id)
            .join(card, card.c.id == outbox.c.card_id)
            .where(
                card.c.coach_id == self.coach_id,
                card.c.key == card_key,
                card.c.message_id.is_(None),
                outbox.c.op.in_(SENDS),
                outbox.c.state.in_(("doubtful", "expired", "dead")),
            )
        )
        return self.connection.execute(query.limit(1)).first() is not None

    def heard(self, client_id: int, now: datetime) -> None:
        """Note that a client said or tapped something."""
        hers = {"this_id": client_id, "this_coach_id": self.coach_id}
        self.connection.execute(_HEARD, {**hers, "heard_at": now})

    def lifted(self, first: date, client_id: int | None = None) -> dict[int, tuple[Lifted, ...]]:
        """Return the heaviest load of each exercise in each session from a date on, by client: of one or of all.

        Oldest first.
        """
        return top_loads(self.connection, self.coach_id, first, client_id)

    def decided(self) -> dict[tuple[int, str], tuple[datetime, str]]:
        """Return the newest decision of each client and exercise, as JSON, with when it was made."""
        query = (
            select(decision.c.client_id, decision.c.exercise, decision.c.made_at, decision.c.output)
            .where(decision.c.coach_id == self.coach_id, decision.c.superseded_by.is_(None))
            .order_by(decision.c.id)
        )
        rows = self.connection.execute(query)
        return {(row.client_id, row.exercise): (row.made_at, row.output) for row in rows}

    def changed(self) -> dict[int, datetime]:
        """Return, by client, when something last changed that decisions rest on beside the sets that were done."""
        found: dict[int, datetime] = {}
        for table, column in _CHANGES:
            query = (
                select(table.c.client_id, func.max(column).label("at"))
                .where(table.c.coach_id == self.coach_id, column.is_not(None))
                .group_by(table.c.client_id)
            )
            for row in self.connection.execute(query):
                found[row.client_id] = max(row.at, found.get(row.client_id, row.at))
        return found

    def planned(self, first: date, last: date) -> list[Session]:
        """Return the sessions planned from `first` to `last`, soonest first."""
        query = (
            rows_of(Session, session)
            .where(
                session.c.coach_id == self.coach_id,
                session.c.state == "planned",
                session.c.local_on.between(first, last),
            )
            .order_by(session.c.local_on, session.c.id)
        )
        return [Session(*row) for row in self.connection.execute(query)]

    def add_picture(self, name: str, content: bytes, now: datetime, *, client_id: int | None = None) -> int:
        """Keep a picture or a file of ours for the sender; `client_id` where it is about one client alone."""
        made = self.connection.execute(
            insert(picture)
            .values(coach_id=self.coach_id, client_id=client_id, bytes=content, name=name, at=now)
            .returning(picture.c.id)
        )
        return int(made.scalar_one())
