"""Goals of clients, as they or their coach have put them."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import insert, update

from bot.store.rows import Rows, rows_of
from bot.store.tables import goal


@dataclass(frozen=True, slots=True)
class Goal:
    """A goal.

    Attributes:
        id: Its row.
        text: What it is, 1-200 characters, as typed.
        by_on: Until when; None where no date was said.
        at: When it was put.
        outcome: "reached", "given up", "changed" or "undone"; None while it stands.
        ended_at: When it ended; None while it stands.
    """

    id: int
    text: str
    by_on: date | None
    at: datetime
    outcome: str | None = None
    ended_at: datetime | None = None


class Goals(Rows):
    """Goals of one coach's clients."""

    def standing(self, client_id: int) -> list[Goal]:
        """Return the goals that stand, in the order in which they were put."""
        query = (
            rows_of(Goal, goal)
            .where(goal.c.coach_id == self.coach_id, goal.c.client_id == client_id, goal.c.ended_at.is_(None))
            .order_by(goal.c.id)
        )
        return [Goal(*row) for row in self.connection.execute(query)]

    def add(self, client_id: int, text: str, by_on: date | None, now: datetime) -> int:
        """Keep a goal and return its row."""
        made = self.connection.execute(
            insert(goal)
            .values(coach_id=self.coach_id, client_id=client_id, text=text, by_on=by_on, at=now)
            .returning(goal.c.id)
        )
        return int(made.scalar_one())

    def end(self, goal_id: int, client_id: int, outcome: str, now: datetime) -> None:
        """Note what became of a goal that stands."""
        self._change(goal_id, client_id, outcome=outcome, ended_at=now)

    def again(self, goal_id: int, client_id: int) -> None:
        """Take back what was said of a goal: it stands again."""
        self._change(goal_id, client_id, outcome=None, ended_at=None)

    def _change(self, goal_id: int, client_id: int, **values: object) -> None:
        self.connection.execute(
            update(goal)
            .where(goal.c.coach_id == self.coach_id, goal.c.client_id == client_id, goal.c.id == goal_id)
            .values(**values)
        )
