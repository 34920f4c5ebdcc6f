"""Illnesses as clients have said them: added and voided; a day on which one is free of it, or is released, is noted."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import insert, or_, update

from bot.store.presence import holds_nothing
from bot.store.read_once import read_once
from bot.store.rows import Rows, one, rows_of
from bot.store.tables import illness
from core.loads.health import Illness, IllnessKind


@dataclass(frozen=True, slots=True)
class KeptIllness:
    """An illness as kept.

    Attributes:
        kind: A value of `core.loads.health.IllnessKind`.
        since: First day, on the client's own calendar.
        free_on: First day free of symptoms and of fever medicine; of a head cold the day from which it is taken as
            over. None while not known.
        released_on: When the coach took the plan up again.
        easy_on: The day that was to be an easy one.
        at: When it was said.
        voided_at: When it was taken back.
    """

    id: int
    client_id: int
    kind: str
    since: date
    free_on: date | None
    released_on: date | None
    easy_on: date | None
    at: datetime
    voided_at: datetime | None

    @property
    def value(self) -> Illness:
        """The illness that rules compute with."""
        return Illness(
            kind=IllnessKind(self.kind),
            since=self.since,
            free_on=self.free_on,
            released_on=self.released_on,
            easy_on=self.easy_on,
        )


class Illnesses(Rows):
    """Illnesses of one coach's clients."""

    def add(
        self,
        client_id: int,
        kind: IllnessKind,
        since: date,
        now: datetime,
        *,
        free_on: date | None = None,
        easy_on: date | None = None,
    ) -> int:
        """Keep an illness and return its row."""
        made = self.connection.execute(
            insert(illness)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                kind=kind.value,
                since=since,
                free_on=free_on,
                easy_on=easy_on,
                at=now,
            )
            .returning(illness.c.id)
        )
        return int(made.scalar_one())

    def get(self, illness_id: int) -> KeptIllness:
        """Return one illness.

        Raises:
            LookupError: It is not of this coach's clients.
        """
        found = one(KeptIllness, self.connection.execute(self._of(illness.c.id == illness_id)).first())
        if found is None:
            raise LookupError(f"no illness {illness_id} here")
        return found

    @read_once
    def bearing(self, client_id: int, since: date) -> list[KeptIllness]:
        """Return a client's illnesses that were not over before a date, oldest first."""
        if holds_nothing(self, illness, client_id):
            return []
        query = self._of(
            illness.c.client_id == client_id,
            illness.c.voided_at.is_(None),
            or_(
                illness.c.since >= since,
                illness.c.free_on >= since,
                illness.c.released_on >= since,
                illness.c.free_on.is_(None) & illness.c.released_on.is_(None),
            ),
        ).order_by(illness.c.since, illness.c.id)
        return [KeptIllness(*row) for row in self.connection.execute(query)]

    def newest(self, client_id: int) -> KeptIllness | None:
        """Return what a client said last of an illness, and did not take back."""
        query = self._of(illness.c.client_id == client_id, illness.c.voided_at.is_(None))
        query = query.order_by(illness.c.id.desc()).limit(1)
        return one(KeptIllness, self.connection.execute(query).first())

    def free(self, client_id: int, kind: IllnessKind, on: date) -> None:
        """Note from when a client is free of all that she had of a kind and is not over."""
        self._change(
            illness.c.client_id == client_id,
            illness.c.kind == kind.value,
            or_(illness.c.free_on.is_(None), illness.c.free_on > on),
            free_on=on,
        )

    def release(self, client_id: int, on: date) -> None:
        """Note that the coach takes up what a clinician was to look at first."""
        self._change(
            illness.c.client_id == client_id,
            illness.c.kind == IllnessKind.CLINICIAN.value,
            illness.c.released_on.is_(None),
            released_on=on,
        )

    def make_easy(self, illness_id: int, on: date) -> None:
        """Note that a day of a head cold is to be an easy one."""
        self._change(illness.c.id == illness_id, easy_on=on)

    def void(self, illness_id: int, now: datetime) -> None:
        """Take an illness back."""
        self._change(illness.c.id == illness_id, voided_at=now)

    def _change(self, *which: Any, **values: Any) -> None:
        where = (illness.c.coach_id == self.coach_id, illness.c.voided_at.is_(None), *which)
        self.connection.execute(update(illness).where(*where).values(**values))

    def _of(self, *which: Any) -> Any:
        return rows_of(KeptIllness, illness).where(illness.c.coach_id == self.coach_id, *which)
