"""Sets as they were logged."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from functools import lru_cache
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Row,
    Select,
    String,
    bindparam,
    exists,
    func,
    insert,
    or_,
    select,
    update,
)

from bot.store.read_once import read_ahead, read_once
from bot.store.rows import Rows, given, not_by
from bot.store.tables import item, logged_set, session
from core.checkin.training_log import LoggedSet, NewSet
from core.programme.prescription import Load, LoadKind
from core.units import Mass, Unit

_SET = tuple(
    logged_set.c[name]
    for name in (
        "id",
        "item_id",
        "set_no",
        "side",
        "load_kind",
        "load",
        "unit",
        "reps",
        "seconds",
        "rir",
        "by_tap",
        "entry",
        "message_id",
        "metres",
        "rpe",
    )
)
"""What a set is read from: a client's history is many rows, and each column of each costs."""

_STANDING = (
    select(*_SET)
    .where(
        not_by(logged_set.c.coach_id) == bindparam("coach_id"),
        logged_set.c.item_id.in_(bindparam("item_ids", expanding=True)),
        logged_set.c.voided_at.is_(None),
    )
    .order_by(logged_set.c.item_id, logged_set.c.set_no, logged_set.c.side)
)


def load_of(row: Row[Any]) -> Load | None:
    """Return the load of a row of `logged_set`."""
    return _load(row.load_kind, row.load, row.unit)


@lru_cache(maxsize=2048)
def _load(kind: str | None, value: Decimal | None, unit: str | None) -> Load | None:
    """Return a load that was kept: the same few come with every session, and checking one takes longer than this.

    Equal numbers are the same digits here: the column gives none with zeros at its end.
    """
    if kind is None:
        return None
    return Load(LoadKind(kind), None if value is None else Mass(value, Unit(str(unit))))


def _logged(values: Sequence[Any]) -> LoggedSet:
    """Build a set from values in the order of `_SET`."""
    row_id, item_id, set_no, side, kind, load, unit, *rest = values
    return LoggedSet(row_id, item_id, set_no, side, _load(kind, load, unit), *rest)


@dataclass(frozen=True, slots=True)
class At:
    """Where exercises count that are another one at another place.

    Attributes:
        exercises: Keys of those; all others count wherever they were done.
        place: Where it must have been; None for nowhere.
        usual: The usual place: where a session that names none was done.
    """

    exercises: Collection[str]
    place: str | None
    usual: str | None


def _last(*counts: ColumnElement[bool]) -> Select[Any]:
    """Return the question for the sets of each exercise in the newest closed session that has any and counts."""
    standing = exists().where(logged_set.c.item_id == item.c.id, logged_set.c.voided_at.is_(None))
    newest = (session.c.local_on.desc(), session.c.id.desc(), item.c.position.desc())
    ranked = (
        select(item.c.id, item.c.exercise)
        .add_columns(func.row_number().over(partition_by=item.c.exercise, order_by=newest).label("place"))
        .join(session, session.c.id == item.c.session_id)
        .where(
            not_by(session.c.coach_id) == bindparam("coach_id"),
            given(session.c.client_id),
            session.c.state.in_(("done", "partial", "asking", "left_out")),
            session.c.id != bindparam("besides"),
            item.c.exercise.in_(bindparam("exercises", expanding=True)),
            standing,
            *counts,
        )
        .subquery()
    )
    return (
        select(*_SET, ranked.c.exercise)
        .join(ranked, ranked.c.id == logged_set.c.item_id)
        .where(ranked.c.place == 1, logged_set.c.voided_at.is_(None))
        .order_by(logged_set.c.item_id, logged_set.c.set_no, logged_set.c.side)
    )


_LAST = _last()
_THERE = func.coalesce(session.c.place, bindparam("usual", type_=String)) == bindparam("place", type_=String)
_LAST_THERE = _last(or_(item.c.exercise.not_in(bindparam("of_a_place", expanding=True)), _THERE))
_LAST_ENTRY = (
    select(func.max(logged_set.c.entry))
    .join(item, item.c.id == logged_set.c.item_id)
    .where(given(item.c.session_id))
)
_ADD = insert(logged_set)


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
                "metres": each.metres,
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
            self.connection.execute(_ADD, rows)

    @read_once
    def standing(self, item_ids: list[int]) -> list[LoggedSet]:
        """Return sets not taken back, in order."""
        asked = {"coach_id": self.coach_id, "item_ids": item_ids}
        return [_logged(row) for row in self.connection.execute(_STANDING, asked)]

    def read_standing(self, of_each: Collection[list[int]]) -> None:
        """Read ahead what `standing` gives for each of several lists of items."""
        found: dict[int, list[LoggedSet]] = {}
        for each in self.standing([item_id for item_ids in of_each for item_id in item_ids]):
            found.setdefault(each.item_id, []).append(each)
        for item_ids in of_each:
            sets = [each for item_id in sorted(item_ids) for each in found.get(item_id, ())]
            read_ahead(Sets.standing, self, sets, item_ids, tables=frozenset({"logged_set"}))

    def last_of(
        self, client_id: int, exercises: Collection[str], besides: int, *, at: At | None = None
    ) -> dict[str, tuple[LoggedSet, ...]]:
        """Return a client's standing sets of each exercise in the newest closed session that has any, by exercise.

        Args:
            client_id: Whose.
            exercises: Keys in the catalogue.
            besides: A session that does not count.
            at: Where it counts for which exercises; None where the place is all the same.
        """
        asked: dict[str, Any] = {
            "coach_id": self.coach_id,
            "client_id": client_id,
            "exercises": list(exercises),
            "besides": besides,
        }
        if at is not None:
            asked |= {"of_a_place": list(at.exercises), "place": at.place, "usual": at.usual}
        found: dict[str, list[LoggedSet]] = {}
        for row in self.connection.execute(_LAST if at is None else _LAST_THERE, asked):
            found.setdefault(row.exercise, []).append(_logged(row[:-1]))
        return {exercise: tuple(sets) for exercise, sets in found.items()}

    def next_entry(self, session_id: int) -> int:
        """Return a number for sets logged together; rises through the session."""
        return int(self.connection.execute(_LAST_ENTRY, {"session_id": session_id}).scalar() or 0) + 1

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
            select(*_SET)
            .join(item, item.c.id == logged_set.c.item_id)
            .join(session, session.c.id == item.c.session_id)
            .where(
                not_by(logged_set.c.coach_id) == self.coach_id,
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
