"""Sessions, their items, and what was logged in them."""

from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, Row, func, insert, select, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import client, item, logged_set, session
from core.checkin.training_log import Item, LoggedSet, NewSet, Session
from core.programme.prescription import Dose, Load, LoadKind, Prescription
from core.units import Mass, Unit

_ITEM = tuple(
    item.c[name]
    for name in (
        "id",
        "session_id",
        "position",
        "exercise",
        "prescription",
        "given",
        "decision_id",
        "state",
        "cause",
        "left_last",
    )
)


def _item(row: Row[Any]) -> Item:
    return _item_of(tuple(row))


def _item_of(values: tuple[Any, ...]) -> Item:
    """Build an item from values in the order of `_ITEM`."""
    item_id, session_id, position, exercise, prescription, given, decision_id, state, cause, left_last = (
        values
    )
    return Item(
        item_id,
        session_id,
        position,
        exercise,
        Prescription.model_validate(prescription),
        Dose.model_validate(given),
        decision_id,
        state,
        cause,
        left_last,
    )


def _logged(row: Row[Any]) -> LoggedSet:
    load = None
    if row.load_kind is not None:
        mass = None if row.load is None else Mass(row.load, Unit(row.unit))
        load = Load(LoadKind(row.load_kind), mass)
    return LoggedSet(
        row.id,
        row.item_id,
        row.set_no,
        row.side,
        load,
        row.reps,
        row.seconds,
        row.rir,
        row.by_tap,
        row.entry,
        row.message_id,
    )


class Sessions(Rows):
    """Sessions of one coach's clients."""

    def lay(
        self, client_id: int, assignment_id: int, week_no: int, day_key: str, on: date, due_at: datetime
    ) -> bool:
        """Lay out one session; False when it is there already."""
        found = self.connection.execute(
            select(session.c.id).where(
                session.c.assignment_id == assignment_id,
                session.c.week_no == week_no,
                session.c.day_key == day_key,
            )
        ).first()
        if found is not None:
            return False
        self.connection.execute(
            insert(session).values(
                coach_id=self.coach_id,
                client_id=client_id,
                assignment_id=assignment_id,
                week_no=week_no,
                day_key=day_key,
                local_on=on,
                due_at=due_at,
                state="planned",
            )
        )
        return True

    def get(self, session_id: int) -> Session:
        """Return one session.

        Raises:
            LookupError: It is not of this coach.
        """
        query = rows_of(Session, session).where(
            session.c.id == session_id, session.c.coach_id == self.coach_id
        )
        found = one(Session, self.connection.execute(query).first())
        if found is None:
            raise LookupError(f"no session {session_id} here")
        return found

    def of_client(self, client_id: int, states: tuple[str, ...]) -> list[Session]:
        """Return a client's sessions in any of `states`, newest first."""
        query = (
            rows_of(Session, session)
            .where(
                session.c.coach_id == self.coach_id,
                session.c.client_id == client_id,
                session.c.state.in_(states),
            )
            .order_by(session.c.local_on.desc(), session.c.id.desc())
        )
        return [Session(*row) for row in self.connection.execute(query)]

    def open_one(self, client_id: int) -> Session | None:
        """Return the session a client is in, or has the card of."""
        found = self.of_client(client_id, ("started", "asking", "sent"))
        return min(found, key=lambda each: each.state == "sent") if found else None

    def next_planned(self, client_id: int) -> Session | None:
        """Return the next session that has not been sent."""
        found = self.of_client(client_id, ("planned",))
        return found[-1] if found else None

    def change(self, session_id: int, **values: Any) -> None:
        """Set columns of one session."""
        self.connection.execute(
            update(session)
            .where(session.c.id == session_id, session.c.coach_id == self.coach_id)
            .values(**values)
        )

    def revise(self, session_id: int) -> int:
        """Count the session's revision up and return it."""
        done = self.connection.execute(
            update(session)
            .where(session.c.id == session_id, session.c.coach_id == self.coach_id)
            .values(revision=session.c.revision + 1)
            .returning(session.c.revision)
        )
        return int(done.scalar_one())

    def drop_planned(self, client_id: int) -> None:
        """Take back what is laid out and not sent; for a new block, hour or zone."""
        self.connection.execute(
            session.delete().where(
                session.c.coach_id == self.coach_id,
                session.c.client_id == client_id,
                session.c.state == "planned",
            )
        )

    def add_item(
        self,
        session_id: int,
        position: int,
        exercise: str,
        prescription: Prescription,
        given: Dose,
        decision_id: int,
    ) -> int:
        """Add one exercise to a session; `exercise` differs from the prescription's when it stands in for it."""
        made = self.connection.execute(
            insert(item)
            .values(
                coach_id=self.coach_id,
                session_id=session_id,
                position=position,
                exercise=exercise,
                prescription=prescription.model_dump(mode="json"),
                given=given.model_dump(mode="json"),
                decision_id=decision_id,
                state="open",
            )
            .returning(item.c.id)
        )
        return int(made.scalar_one())

    def items(self, session_id: int) -> list[Item]:
        """Return the exercises of a session, in order."""
        query = (
            select(*_ITEM)
            .where(item.c.session_id == session_id, item.c.coach_id == self.coach_id)
            .order_by(item.c.position)
        )
        return [_item(row) for row in self.connection.execute(query)]

    def item(self, item_id: int) -> Item:
        """Return one exercise of a session.

        Raises:
            LookupError: It is not of this coach.
        """
        row = self.connection.execute(
            select(*_ITEM).where(item.c.id == item_id, item.c.coach_id == self.coach_id)
        ).first()
        if row is None:
            raise LookupError(f"no item {item_id} here")
        return _item(row)

    def change_item(self, item_id: int, **values: Any) -> None:
        """Set columns of one exercise of a session."""
        if isinstance(values.get("given"), Dose):
            values["given"] = values["given"].model_dump(mode="json")
        self.connection.execute(
            update(item).where(item.c.id == item_id, item.c.coach_id == self.coach_id).values(**values)
        )

    def past_items(self, client_id: int, exercise: str, limit: int) -> list[tuple[Session, Item]]:
        """Return the last `limit` closed sessions' items of an exercise, oldest first."""
        session_columns = tuple(session.c[name] for name in Session.__dataclass_fields__)
        query = (
            select(*session_columns, *(column.label(f"item_{column.name}") for column in _ITEM))
            .join(item, item.c.session_id == session.c.id)
            .where(
                session.c.coach_id == self.coach_id,
                session.c.client_id == client_id,
                session.c.state.in_(("done", "partial", "asking", "left_out")),
                item.c.exercise == exercise,
            )
            .order_by(session.c.local_on.desc(), session.c.id.desc(), item.c.position.desc())
            .limit(limit)
        )
        found = []
        width = len(session_columns)
        for row in self.connection.execute(query):
            values = tuple(row)
            rest = values[width:]
            found.append(
                (
                    Session(*values[:width]),
                    _item_of(rest),
                )
            )
        return found[::-1]

    def due(self, now: datetime, limit: int) -> list[int]:
        """Return planned sessions of this coach that are due."""
        query = (
            select(session.c.id)
            .where(session.c.coach_id == self.coach_id, session.c.state == "planned", session.c.due_at <= now)
            .order_by(session.c.due_at, session.c.id)
            .limit(limit)
        )
        return list(self.connection.execute(query).scalars())


class Sets(Rows):
    """Logged sets of one coach's clients: added and voided, never changed."""

    def add(self, item_id: int, sets: list[NewSet], entry: int, message_id: int | None, at: datetime) -> None:
        """Keep sets that were logged together."""
        rows = [
            {
                "coach_id": self.coach_id,
                "item_id": item_id,
                "set_no": each.set_no,
                "side": each.side,
                "load_kind": each.load.kind.value if each.load else None,
                "load": each.load.mass.value if each.load and each.load.mass else None,
                "unit": each.load.mass.unit.value if each.load and each.load.mass else None,
                "basis": each.basis,
                "reps": each.reps,
                "seconds": each.seconds,
                "rir": each.rir,
                "rpe": each.rpe,
                "by_tap": each.by_tap,
                "entry": entry,
                "message_id": message_id,
                "at": at,
            }
            for each in sets
        ]
        if rows:
            self.connection.execute(insert(logged_set), rows)

    def standing(self, item_ids: list[int]) -> list[LoggedSet]:
        """Return sets not taken back, in order."""
        query = (
            select(logged_set)
            .where(
                logged_set.c.coach_id == self.coach_id,
                logged_set.c.item_id.in_(item_ids),
                logged_set.c.voided_at.is_(None),
            )
            .order_by(logged_set.c.item_id, logged_set.c.set_no, logged_set.c.side)
        )
        return [_logged(row) for row in self.connection.execute(query)]

    def next_entry(self, session_id: int) -> int:
        """Return a number for sets logged together; rises through the session."""
        query = (
            select(func.max(logged_set.c.entry))
            .join(item, item.c.id == logged_set.c.item_id)
            .where(item.c.session_id == session_id)
        )
        return int(self.connection.execute(query).scalar() or 0) + 1

    def last_entry(self, session_id: int) -> list[LoggedSet]:
        """Return the sets of the newest entry that stands."""
        item_ids = list(
            self.connection.execute(select(item.c.id).where(item.c.session_id == session_id)).scalars()
        )
        standing = self.standing(item_ids)
        newest = max((each.entry for each in standing), default=0)
        return [each for each in standing if each.entry == newest]

    def from_message(self, client_id: int, message_id: int) -> list[LoggedSet]:
        """Return the standing sets that a message of the client logged."""
        query = (
            select(logged_set)
            .join(item, item.c.id == logged_set.c.item_id)
            .join(session, session.c.id == item.c.session_id)
            .where(
                logged_set.c.coach_id == self.coach_id,
                session.c.client_id == client_id,
                logged_set.c.message_id == message_id,
                logged_set.c.voided_at.is_(None),
            )
            .order_by(logged_set.c.item_id, logged_set.c.set_no)
        )
        return [_logged(row) for row in self.connection.execute(query)]

    def void(self, set_ids: list[int], by: str, now: datetime) -> None:
        """Take sets back; the rows stay."""
        self.connection.execute(
            update(logged_set)
            .where(logged_set.c.id.in_(set_ids), logged_set.c.coach_id == self.coach_id)
            .values(voided_at=now, voided_by=by)
        )


def due_anywhere(connection: Connection, now: datetime, limit: int) -> list[tuple[int, int]]:
    """Return (coach, session) of planned sessions that are due, the longest due first."""
    query = (
        select(session.c.coach_id, session.c.id)
        .where(session.c.state == "planned", session.c.due_at <= now)
        .order_by(session.c.due_at, session.c.id)
        .limit(limit)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def running_anywhere(connection: Connection, since: datetime) -> list[tuple[int, int]]:
    """Return (coach, session) of sessions begun since an instant and not closed."""
    query = (
        select(session.c.coach_id, session.c.id)
        .where(session.c.state.in_(("started", "asking")), session.c.started_at >= since)
        .order_by(session.c.id)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def next_due(connection: Connection) -> datetime | None:
    """Return when the next planned session is due."""
    query = select(session.c.due_at).where(session.c.state == "planned").order_by(session.c.due_at).limit(1)
    found: datetime | None = connection.execute(query).scalar()
    return found


def active_clients(connection: Connection) -> list[tuple[int, int]]:
    """Return (coach, client) of everyone who trains."""
    query = select(client.c.coach_id, client.c.id).where(client.c.state == "active").order_by(client.c.id)
    return [(row.coach_id, row.id) for row in connection.execute(query)]
