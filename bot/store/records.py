"""Bests so far of one coach's clients: the sets that they are found in, and which were kept and told."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Row, insert, select, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, not_by, rows_of
from bot.store.sets import load_of
from bot.store.tables import item, last_load, logged_set, record, session
from core.oversight.records import LoggedLift
from core.programme.exercises import Basis
from core.programme.prescription import Dose, Load, LoadKind
from core.units import Mass, Unit

CLOSED = ("done", "partial", "left_out")
"""Sessions whose sets count: what is going on is not over."""


@dataclass(frozen=True, slots=True)
class KeptRecord:
    """A best as kept.

    Attributes:
        facts: The best as JSON, as `core.oversight.records.Record` writes it.
    """

    id: int
    client_id: int
    exercise: str
    kind: str
    set_id: int
    facts: dict[str, Any]
    at: datetime
    told_at: datetime | None
    retracted_at: datetime | None


class Records(Rows):
    """Bests of one coach's clients: kept, told, retracted; kept once for a set and kind."""

    def lifts(self, client_id: int, exercises: Collection[str] | None = None) -> dict[str, list[LoggedLift]]:
        """Return the counted sets of closed sessions that stand, by exercise; of some or of all.

        Sets without a counted load, and timed or measured ones, are left out. The coach's noted last loads come first.
        """
        found: dict[str, list[LoggedLift]] = defaultdict(list)
        for row in self._noted(client_id, exercises):
            if (one := _noted_lift(row)) is not None:
                found[row.exercise].append(one)
        query = (
            select(
                logged_set,
                session.c.id.label("session_id"),
                session.c.local_on,
                session.c.place,
                item.c.exercise,
                item.c.given,
                item.c.left_last,
            )
            .join(item, item.c.id == logged_set.c.item_id)
            .join(session, session.c.id == item.c.session_id)
            .where(
                not_by(logged_set.c.coach_id) == self.coach_id,
                session.c.client_id == client_id,
                session.c.state.in_(CLOSED),
                logged_set.c.voided_at.is_(None),
                logged_set.c.reps.is_not(None),
                logged_set.c.load_kind.is_not(None),
                *(() if exercises is None else (item.c.exercise.in_(exercises),)),
            )
            .order_by(
                session.c.local_on, session.c.id, item.c.position, logged_set.c.set_no, logged_set.c.side
            )
        )
        rows = list(self.connection.execute(query))
        ends = {row.item_id: row.id for row in rows}
        for row in rows:
            if (one := _lift(row, is_last=ends[row.item_id] == row.id)) is not None:
                found[row.exercise].append(one)
        return dict(found)

    def _noted(self, client_id: int, exercises: Collection[str] | None) -> list[Row[Any]]:
        query = select(last_load).where(
            last_load.c.coach_id == self.coach_id,
            last_load.c.client_id == client_id,
            last_load.c.voided_at.is_(None),
            *(() if exercises is None else (last_load.c.exercise.in_(exercises),)),
        )
        return list(self.connection.execute(query.order_by(last_load.c.local_on, last_load.c.id)))

    @read_once
    def kept(self, client_id: int, exercises: Collection[str] | None = None) -> list[KeptRecord]:
        """Return what was ever kept of a client, retracted too, oldest first; of some exercises or of all."""
        query = rows_of(KeptRecord, record).where(
            record.c.coach_id == self.coach_id,
            record.c.client_id == client_id,
            *(() if exercises is None else (record.c.exercise.in_(exercises),)),
        )
        return [KeptRecord(*row) for row in self.connection.execute(query.order_by(record.c.id))]

    def add(
        self, client_id: int, exercise: str, kind: str, set_id: int, facts: dict[str, Any], now: datetime
    ) -> None:
        """Keep a best."""
        self.connection.execute(
            insert(record).values(
                coach_id=self.coach_id,
                client_id=client_id,
                exercise=exercise,
                kind=kind,
                set_id=set_id,
                facts=facts,
                at=now,
            )
        )

    def change(self, record_ids: Collection[int], **values: Any) -> None:
        """Set columns of some: told, retracted or standing again, with other facts."""
        if not record_ids:
            return
        self.connection.execute(
            update(record)
            .where(record.c.coach_id == self.coach_id, record.c.id.in_(record_ids))
            .values(**values)
        )


def _lift(row: Row[Any], *, is_last: bool) -> LoggedLift | None:
    """Return a set; reps left that were said of the exercise belong to its last one."""
    load = load_of(row)
    given = Dose.model_validate(row.given)
    counted = _counted(load)
    if load is None or counted is None:
        return None
    return LoggedLift(
        set_id=row.id,
        session_id=row.session_id,
        item_id=row.item_id,
        on=row.local_on,
        set_no=row.set_no,
        side=row.side,
        load=counted,
        bodyweight=load.kind is LoadKind.BODYWEIGHT,
        basis=Basis(row.basis),
        place=row.place or "",
        reps=row.reps,
        left=row.left_last if row.rir is None and is_last else row.rir,
        paused=given.style is not None and not given.style.feeds_estimate,
        search=given.load is not None and given.load.kind is LoadKind.FIND,
    )


def _noted_lift(row: Row[Any]) -> LoggedLift | None:
    load = load_of(row)
    counted = _counted(load)
    if load is None or counted is None:
        return None
    return LoggedLift(
        set_id=-row.id,
        session_id=-row.id,
        item_id=-row.id,
        on=row.local_on,
        set_no=1,
        load=counted,
        bodyweight=load.kind is LoadKind.BODYWEIGHT,
        basis=Basis(row.basis),
        reps=row.reps,
    )


def _counted(load: Load | None) -> Mass | None:
    """Return the load that sets are held against each other by; what is added where the body is the load."""
    if load is None:
        return None
    if load.kind is LoadKind.BODYWEIGHT:
        return load.mass or Mass.of(0, Unit.KG)
    return load.mass if load.kind is LoadKind.MASS else None
