"""When a coach is away herself, and who covers."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import ColumnElement, insert, update

from bot.store.presence import holds_nothing
from bot.store.read_once import read_once
from bot.store.rows import Rows, one, rows_of
from bot.store.tables import coach_absence


@dataclass(frozen=True, slots=True)
class CoachAbsence:
    """An absence of a coach.

    Attributes:
        id: Its row.
        from_on: First day, on her own calendar.
        until_on: Last day.
        cover: Who covers, as she wrote it; None where nobody does.
        ended_on: Day on which she was back sooner; None where she was not.
        voided_at: When it was taken back.
    """

    id: int
    from_on: date
    until_on: date
    cover: str | None
    ended_on: date | None
    voided_at: datetime | None


class CoachAbsences(Rows):
    """Absences of one coach; the newest stands."""

    def add(self, from_on: date, until_on: date, cover: str | None, now: datetime) -> int:
        """Keep an absence in place of what stood, and return its row."""
        self.connection.execute(update(coach_absence).where(*self._standing()).values(voided_at=now))
        made = self.connection.execute(
            insert(coach_absence)
            .values(coach_id=self.coach_id, from_on=from_on, until_on=until_on, cover=cover, at=now)
            .returning(coach_absence.c.id)
        )
        return int(made.scalar_one())

    def get(self, absence_id: int) -> CoachAbsence | None:
        """Return an absence; None when it is not this coach's."""
        query = rows_of(CoachAbsence, coach_absence).where(
            coach_absence.c.coach_id == self.coach_id, coach_absence.c.id == absence_id
        )
        return one(CoachAbsence, self.connection.execute(query).first())

    def are_none(self) -> bool:
        """Return whether there are known to be none, and were none."""
        return holds_nothing(self, coach_absence)

    def void(self, absence_id: int, now: datetime) -> None:
        """Take an absence back."""
        self.connection.execute(
            update(coach_absence)
            .where(coach_absence.c.coach_id == self.coach_id, coach_absence.c.id == absence_id)
            .values(voided_at=now)
        )

    def end(self, on: date) -> None:
        """She is back: what stands ends on a day."""
        self.connection.execute(update(coach_absence).where(*self._standing()).values(ended_on=on))

    @read_once
    def coming(self, today: date) -> CoachAbsence | None:
        """Return the absence that is on, or is still to come."""
        if holds_nothing(self, coach_absence):
            return None
        query = rows_of(CoachAbsence, coach_absence).where(
            *self._standing(), coach_absence.c.until_on >= today
        )
        return one(
            CoachAbsence, self.connection.execute(query.order_by(coach_absence.c.id.desc()).limit(1)).first()
        )

    @read_once
    def on(self, today: date) -> CoachAbsence | None:
        """Return the absence that a day lies in."""
        found = self.coming(today)
        return found if found is not None and found.from_on <= today else None

    def _standing(self) -> tuple[ColumnElement[bool], ...]:
        mine = coach_absence.c.coach_id == self.coach_id
        return mine, coach_absence.c.voided_at.is_(None), coach_absence.c.ended_on.is_(None)
