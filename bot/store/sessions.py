"""Sessions and their items."""

from collections.abc import Collection, Iterable
from datetime import date, datetime
from typing import Any

from sqlalchemy import bindparam, func, insert, select, update

from bot.store.items import ITEM, NewItem, item_from, item_of
from bot.store.read_once import read_ahead, read_once
from bot.store.rows import Rows, given, made_row, not_by, one, rows_of, settable, this
from bot.store.tables import item, session
from core.checkin.training_log import Item, Session
from core.programme.prescription import Dose, Prescription

_SESSION = tuple(session.c[name] for name in Session.__dataclass_fields__)

_ONE = rows_of(Session, session).where(given(session.c.id), given(session.c.coach_id))

_CHANGE = update(session).where(this(session.c.id), this(session.c.coach_id))
_REVISE = _CHANGE.values(revision=session.c.revision + 1).returning(session.c.revision)
_CHANGE_ITEM = update(item).where(this(item.c.id), this(item.c.coach_id))


_LAID = select(session.c.id).where(
    given(session.c.assignment_id), given(session.c.week_no), given(session.c.day_key)
)

_OF_CLIENT = (
    rows_of(Session, session)
    .where(
        not_by(session.c.coach_id) == bindparam("coach_id"),
        given(session.c.client_id),
        session.c.state.in_(bindparam("states", expanding=True)),
    )
    .order_by(session.c.local_on.desc(), session.c.id.desc())
)

_ITEMS = select(*ITEM).where(given(item.c.session_id), given(item.c.coach_id)).order_by(item.c.position)

_PAST = (
    select(*_SESSION, *(column.label(f"item_{column.name}") for column in ITEM))
    .join(item, item.c.session_id == session.c.id)
    .where(
        not_by(session.c.coach_id) == bindparam("coach_id"),
        given(session.c.client_id),
        session.c.state.in_(("done", "partial", "asking", "left_out")),
        given(item.c.exercise),
    )
    .order_by(session.c.local_on.desc(), session.c.id.desc(), item.c.position.desc())
    .limit(bindparam("most"))
)

_NEWEST = (session.c.local_on.desc(), session.c.id.desc(), item.c.position.desc())
_RANKED = (
    select(item.c.id)
    .add_columns(func.row_number().over(partition_by=item.c.exercise, order_by=_NEWEST).label("place"))
    .join(session, item.c.session_id == session.c.id)
    .where(
        not_by(session.c.coach_id) == bindparam("coach_id"),
        given(session.c.client_id),
        session.c.state.in_(("done", "partial", "asking", "left_out")),
        item.c.exercise.in_(bindparam("exercises", expanding=True)),
    )
    .subquery()
)
_PAST_OF_ALL = (
    select(*_SESSION, *(column.label(f"item_{column.name}") for column in ITEM))
    .join(item, item.c.session_id == session.c.id)
    .join(_RANKED, _RANKED.c.id == item.c.id)
    .where(_RANKED.c.place <= bindparam("most"))
    .order_by(*_NEWEST)
)
_PAST_TABLES = frozenset({"session", "item"})

_TRAINED = (
    select(session.c.local_on)
    .where(
        not_by(session.c.coach_id) == bindparam("coach_id"),
        given(session.c.client_id),
        session.c.state.in_(("done", "partial", "asking")),
        session.c.local_on >= bindparam("first"),
        session.c.local_on < bindparam("before"),
    )
    .distinct()
    .order_by(session.c.local_on)
)

_ADD_ITEM = insert(item)


class Sessions(Rows):
    """Sessions of one coach's clients."""

    def lay(
        self, client_id: int, assignment_id: int, week_no: int, day_key: str, on: date, due_at: datetime
    ) -> bool:
        """Lay out one session; False when it is there already."""
        same = {"assignment_id": assignment_id, "week_no": week_no, "day_key": day_key}
        found = self.connection.execute(_LAID, same).first()
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

    @read_once
    def get(self, session_id: int) -> Session:
        """Return one session.

        Raises:
            LookupError: It is not of this coach.
        """
        row = self.connection.execute(_ONE, {"id": session_id, "coach_id": self.coach_id}).first()
        found = one(Session, row)
        if found is None:
            raise LookupError(f"no session {session_id} here")
        return found

    @read_once
    def of_client(self, client_id: int, states: tuple[str, ...]) -> list[Session]:
        """Return a client's sessions in any of `states`, newest first."""
        asked = {"coach_id": self.coach_id, "client_id": client_id, "states": states}
        return [Session(*row) for row in self.connection.execute(_OF_CLIENT, asked)]

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
        this_one = {"this_id": session_id, "this_coach_id": self.coach_id}
        self.connection.execute(_CHANGE, {**this_one, **settable(session, values)})

    def revise(self, session_id: int) -> int:
        """Count the session's revision up and return it."""
        this_one = {"this_id": session_id, "this_coach_id": self.coach_id}
        return int(self.connection.execute(_REVISE, this_one).scalar_one())

    def drop_planned(self, client_id: int) -> None:
        """Take back what is laid out and not sent, for a new block; what had moved there is cancelled with it."""
        self.drop([each.id for each in self.of_client(client_id, ("planned",))], reason="coach")

    def drop(self, session_ids: list[int], reason: str | None = None) -> None:
        """Take back planned sessions; what had moved to one of them is left out, for `reason` or its own."""
        self.connection.execute(
            update(session)
            .where(
                session.c.coach_id == self.coach_id,
                session.c.moved_to.in_(session_ids),
                session.c.state == "moved",
            )
            .values(state="left_out", **({"left_reason": reason} if reason is not None else {}))
        )
        self.connection.execute(
            update(session)
            .where(session.c.coach_id == self.coach_id, session.c.moved_to.in_(session_ids))
            .values(moved_to=None)
        )
        self.connection.execute(
            session.delete().where(
                session.c.coach_id == self.coach_id,
                session.c.id.in_(session_ids),
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
        return self.add_items(session_id, [NewItem(position, exercise, prescription, given, decision_id)])[0]

    def add_items(self, session_id: int, items: Iterable[NewItem]) -> list[int]:
        """Add exercises to a session and return their rows."""
        made = []
        for each in items:
            row = each._asdict() | {
                "coach_id": self.coach_id,
                "session_id": session_id,
                "prescription": each.prescription.model_dump(mode="json"),
                "given": each.given.model_dump(mode="json"),
            }
            made.append(made_row(self.connection.execute(_ADD_ITEM, row)))
        return made

    @read_once
    def items(self, session_id: int) -> list[Item]:
        """Return the exercises of a session, in order."""
        asked = {"session_id": session_id, "coach_id": self.coach_id}
        return [item_from(row) for row in self.connection.execute(_ITEMS, asked)]

    def item(self, item_id: int) -> Item:
        """Return one exercise of a session.

        Raises:
            LookupError: It is not of this coach.
        """
        row = self.connection.execute(
            select(*ITEM).where(item.c.id == item_id, item.c.coach_id == self.coach_id)
        ).first()
        if row is None:
            raise LookupError(f"no item {item_id} here")
        return item_from(row)

    def change_item(self, item_id: int, **values: Any) -> None:
        """Set columns of one exercise of a session."""
        if isinstance(values.get("given"), Dose):
            values["given"] = values["given"].model_dump(mode="json")
        this_one = {"this_id": item_id, "this_coach_id": self.coach_id}
        self.connection.execute(_CHANGE_ITEM, {**this_one, **settable(item, values)})

    @read_once
    def past_items(self, client_id: int, exercise: str, limit: int) -> list[tuple[Session, Item]]:
        """Return the last `limit` closed sessions' items of an exercise, oldest first."""
        asked = {"coach_id": self.coach_id, "client_id": client_id, "exercise": exercise, "most": limit}
        width = len(_SESSION)
        rows = [tuple(row) for row in self.connection.execute(_PAST, asked)]
        return [(Session(*row[:width]), item_of(row[width:])) for row in reversed(rows)]

    def read_past(self, client_id: int, exercises: Collection[str], limit: int) -> list[list[int]]:
        """Read ahead what `past_items` gives for each of several exercises; return the rows of the items of each."""
        asked = {
            "coach_id": self.coach_id,
            "client_id": client_id,
            "exercises": list(exercises),
            "most": limit,
        }
        width = len(_SESSION)
        found: dict[str, list[tuple[Session, Item]]] = {each: [] for each in exercises}
        for row in reversed([tuple(row) for row in self.connection.execute(_PAST_OF_ALL, asked)]):
            done = item_of(row[width:])
            found[done.exercise].append((Session(*row[:width]), done))
        for exercise, past in found.items():
            read_ahead(Sessions.past_items, self, past, client_id, exercise, limit, tables=_PAST_TABLES)
        return [[each.id for _, each in past] for past in found.values()]

    @read_once
    def trained_on(self, client_id: int, first: date, before: date) -> tuple[date, ...]:
        """Return the dates from `first` to the day before `before` on which a client trained, oldest first."""
        asked = {"coach_id": self.coach_id, "client_id": client_id, "first": first, "before": before}
        return tuple(self.connection.execute(_TRAINED, asked).scalars())

    def due(self, now: datetime, limit: int) -> list[int]:
        """Return planned sessions of this coach that are due."""
        query = (
            select(session.c.id)
            .where(session.c.coach_id == self.coach_id, session.c.state == "planned", session.c.due_at <= now)
            .order_by(session.c.due_at, session.c.id)
            .limit(limit)
        )
        return list(self.connection.execute(query).scalars())
