"""Clinicians' limits, as a coach has kept them. Only she takes one out; a date of its own ends it."""

from datetime import date, datetime
from typing import Any

from sqlalchemy import insert, select, update

from bot.store.presence import holds_nothing
from bot.store.read_once import read_once
from bot.store.rows import Rows
from bot.store.tables import clinician_limit
from core.loads.limits import Limit


class ClinicianLimits(Rows):
    """Limits of one coach's clients."""

    def add(self, client_id: int, limit: Limit, now: datetime) -> int:
        """Keep a limit and return its row; its own `row_id` does not count."""
        made = self.connection.execute(
            insert(clinician_limit)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                spec=limit.model_dump(mode="json", exclude={"row_id"}, exclude_none=True),
                at=now,
            )
            .returning(clinician_limit.c.id)
        )
        return int(made.scalar_one())

    @read_once
    def kept(self, client_id: int) -> tuple[Limit, ...]:
        """Return the limits that were not taken out, by row; those over and those to come are among them."""
        if holds_nothing(self, clinician_limit, client_id):
            return ()
        query = (
            select(clinician_limit.c.id, clinician_limit.c.spec)
            .where(*self._mine(client_id), clinician_limit.c.ended_at.is_(None))
            .order_by(clinician_limit.c.id)
        )
        return tuple(_limit(row) for row in self.connection.execute(query))

    def standing(self, client_id: int, today: date) -> tuple[Limit, ...]:
        """Return the limits that hold on a day or will, by row."""
        return tuple(one for one in self.kept(client_id) if one.until is None or one.until >= today)

    def get(self, limit_id: int, client_id: int) -> Limit | None:
        """Return one limit that was not taken out; None when it was, or is not hers."""
        return next((one for one in self.kept(client_id) if one.row_id == limit_id), None)

    def take_out(self, limit_id: int, client_id: int, now: datetime) -> bool:
        """End a limit at the coach's word; False when it is ended already, or not hers."""
        done = self.connection.execute(
            update(clinician_limit)
            .where(
                *self._mine(client_id),
                clinician_limit.c.id == limit_id,
                clinician_limit.c.ended_at.is_(None),
            )
            .values(ended_at=now)
        )
        return bool(done.rowcount)

    def _mine(self, client_id: int) -> tuple[Any, ...]:
        return (clinician_limit.c.coach_id == self.coach_id, clinician_limit.c.client_id == client_id)


def _limit(row: Any) -> Limit:
    return Limit.model_validate({**row.spec, "row_id": row.id})
