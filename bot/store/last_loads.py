"""Last loads that a coach has noted: the newest of a client and exercise stands, an older one is voided."""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from sqlalchemy import func, insert, select, update

from bot.store.presence import holds_nothing
from bot.store.read_once import read_once
from bot.store.rows import Rows, given, rows_of
from bot.store.tables import item, last_load, logged_set, session
from core.programme.last_loads import LastLoad
from core.programme.prescription import Load, LoadKind
from core.units import Mass, Unit


@dataclass(frozen=True, slots=True)
class KeptLastLoad:
    """A last load as kept."""

    id: int
    client_id: int
    exercise: str
    load_kind: str
    load: Decimal | None
    unit: str | None
    reps: int
    local_on: date

    @property
    def value(self) -> LastLoad:
        """The load that rules compute with."""
        mass = None if self.load is None else Mass(self.load, Unit(self.unit or "kg"))
        load = Load(LoadKind(self.load_kind), mass)
        return LastLoad(exercise=self.exercise, load=load, reps=self.reps, on=self.local_on)


_STANDING = (
    rows_of(KeptLastLoad, last_load)
    .where(given(last_load.c.coach_id), given(last_load.c.client_id), last_load.c.voided_at.is_(None))
    .order_by(last_load.c.id)
)


class LastLoads(Rows):
    """Last loads of one coach's clients: added and voided, never changed."""

    def keep(self, client_id: int, value: LastLoad, basis: str, now: datetime) -> bool:
        """Keep a last load, and void the one before it; False, and nothing changed, when it stands as it is."""
        before = self.standing(client_id).get(value.exercise)
        if before is not None and before.value == value:
            return False
        if before is not None:
            self.connection.execute(
                update(last_load)
                .where(last_load.c.id == before.id, last_load.c.coach_id == self.coach_id)
                .values(voided_at=now)
            )
        mass = value.load.mass
        self.connection.execute(
            insert(last_load).values(
                coach_id=self.coach_id,
                client_id=client_id,
                exercise=value.exercise,
                load_kind=value.load.kind.value,
                load=None if mass is None else mass.value,
                unit=None if mass is None else mass.unit.value,
                basis=basis,
                reps=value.reps,
                local_on=value.on,
                at=now,
            )
        )
        return True

    @read_once
    def standing(self, client_id: int) -> dict[str, KeptLastLoad]:
        """Return a client's last loads by exercise, in the order in which they were kept."""
        if holds_nothing(self, last_load, client_id):
            return {}
        rows = self.connection.execute(_STANDING, {"coach_id": self.coach_id, "client_id": client_id})
        return {row.exercise: KeptLastLoad(*row) for row in rows}

    @read_once
    def dates(self, client_id: int, first: date, before: date) -> set[date]:
        """Return the dates of a client's last loads from `first` to the day before `before`."""
        if holds_nothing(self, last_load, client_id):
            return set()
        query = select(last_load.c.local_on).where(
            last_load.c.coach_id == self.coach_id,
            last_load.c.client_id == client_id,
            last_load.c.voided_at.is_(None),
            last_load.c.local_on >= first,
            last_load.c.local_on < before,
        )
        return set(self.connection.execute(query).scalars())

    def first_logged(self, client_id: int) -> dict[str, date]:
        """Return when each exercise that a client has logged sets of here was first trained."""
        query = (
            select(item.c.exercise, func.min(session.c.local_on).label("first"))
            .join(session, session.c.id == item.c.session_id)
            .join(logged_set, logged_set.c.item_id == item.c.id)
            .where(
                session.c.coach_id == self.coach_id,
                session.c.client_id == client_id,
                session.c.state.in_(("done", "partial", "asking")),
                logged_set.c.voided_at.is_(None),
            )
            .group_by(item.c.exercise)
        )
        return {row.exercise: row.first for row in self.connection.execute(query)}
