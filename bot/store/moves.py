"""Sessions that come on another day: attempts after the first, and main lifts that another session takes in."""

from datetime import date, datetime

from sqlalchemy import ColumnElement, bindparam, func, insert, select, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, given, not_by, rows_of
from bot.store.tables import session
from core.checkin.training_log import Session

_CAME = (
    rows_of(Session, session)
    .where(given(session.c.coach_id), given(session.c.moved_to))
    .order_by(session.c.id)
)
_INTO = session.alias()
_TOOK_IN = (
    select(session.c.moved_to)
    .join(_INTO, _INTO.c.id == session.c.moved_to)
    .where(
        not_by(session.c.coach_id) == bindparam("coach_id"),
        given(session.c.client_id),
        _INTO.c.day_key != session.c.day_key,
    )
)


class Moves(Rows):
    """What has moved of one coach's clients."""

    def of_assignment(self, assignment_id: int) -> list[Session]:
        """Return every session of what a client runs, in the order in which they were laid out."""
        query = (
            rows_of(Session, session)
            .where(session.c.coach_id == self.coach_id, session.c.assignment_id == assignment_id)
            .order_by(session.c.id)
        )
        return [Session(*row) for row in self.connection.execute(query)]

    def again(self, before: Session, on: date, due_at: datetime, *, chosen: bool) -> int:
        """Lay out the same day of the same week once more, and say so in the session it comes after."""
        newest = self.connection.execute(
            select(func.max(session.c.attempt)).where(*_same_day(before))
        ).scalar_one()
        made = self.connection.execute(
            insert(session)
            .values(
                coach_id=self.coach_id,
                client_id=before.client_id,
                assignment_id=before.assignment_id,
                week_no=before.week_no,
                day_key=before.day_key,
                attempt=newest + 1,
                local_on=on,
                due_at=due_at,
                date_chosen=chosen,
                state="planned",
            )
            .returning(session.c.id)
        )
        made_id = int(made.scalar_one())
        self.connection.execute(
            update(session)
            .where(session.c.id == before.id, session.c.coach_id == self.coach_id)
            .values(moved_to=made_id)
        )
        return made_id

    def later(self, before: Session) -> Session | None:
        """Return the newest attempt after a session; None when it is the newest itself."""
        query = (
            rows_of(Session, session)
            .where(
                session.c.coach_id == self.coach_id,
                *_same_day(before),
                session.c.attempt > before.attempt,
            )
            .order_by(session.c.attempt.desc())
        )
        row = self.connection.execute(query.limit(1)).first()
        return None if row is None else Session(*row)

    @read_once
    def came_to(self, session_id: int) -> list[Session]:
        """Return the sessions that have moved to this one, or whose main lift has, oldest first."""
        rows = self.connection.execute(_CAME, {"coach_id": self.coach_id, "moved_to": session_id})
        return [Session(*row) for row in rows]

    @read_once
    def took_in(self, client_id: int) -> frozenset[int]:
        """Return the sessions of a client that took in a lift of another day."""
        asked = {"coach_id": self.coach_id, "client_id": client_id}
        return frozenset(self.connection.execute(_TOOK_IN, asked).scalars())

    def point(self, sessions: list[Session], to: int) -> None:
        """Say that lifts go to another session than before."""
        self.connection.execute(
            update(session)
            .where(session.c.coach_id == self.coach_id, session.c.id.in_([each.id for each in sessions]))
            .values(moved_to=to)
        )


def _same_day(of: Session) -> tuple[ColumnElement[bool], ...]:
    return (
        session.c.assignment_id == of.assignment_id,
        session.c.week_no == of.week_no,
        session.c.day_key == of.day_key,
    )
