"""What clients have said of their health when they were asked: kept by question, a newer answer beside an older one."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import insert, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, given, rows_of
from bot.store.tables import health_answer


@dataclass(frozen=True, slots=True)
class HealthAnswer:
    """One answer that stands.

    Attributes:
        id: Its row.
        question: Which question, a word of `bot.usecases.health_known`; 1-20 characters.
        yes: What was said.
        said_on: The date that was said with it; None where none was.
        at: When it was said.
        released_on: The client's date on which her coach took the plan up knowing it; None while not.
    """

    id: int
    question: str
    yes: bool
    said_on: date | None
    at: datetime
    released_on: date | None


_STANDING = (
    rows_of(HealthAnswer, health_answer)
    .where(
        given(health_answer.c.coach_id), given(health_answer.c.client_id), health_answer.c.voided_at.is_(None)
    )
    .order_by(health_answer.c.id)
)


class HealthAnswers(Rows):
    """Answers of one coach's clients. Of a client and question one stands; older ones are voided, never changed."""

    @read_once
    def standing(self, client_id: int) -> dict[str, HealthAnswer]:
        """Return the answers that stand, by question."""
        asked = {"coach_id": self.coach_id, "client_id": client_id}
        found = [HealthAnswer(*row) for row in self.connection.execute(_STANDING, asked)]
        return {each.question: each for each in found}

    def keep(
        self, client_id: int, question: str, now: datetime, *, yes: bool, said_on: date | None = None
    ) -> None:
        """Keep an answer; the one before it no longer stands."""
        self.drop(client_id, question, now)
        self.connection.execute(
            insert(health_answer).values(
                coach_id=self.coach_id,
                client_id=client_id,
                question=question,
                yes=yes,
                said_on=said_on,
                at=now,
            )
        )

    def drop(self, client_id: int, question: str, now: datetime) -> None:
        """Void the answer to a question."""
        self.connection.execute(
            update(health_answer)
            .where(
                health_answer.c.coach_id == self.coach_id,
                health_answer.c.client_id == client_id,
                health_answer.c.question == question,
                health_answer.c.voided_at.is_(None),
            )
            .values(voided_at=now)
        )

    def release(self, client_id: int, on: date, *questions: str) -> list[str]:
        """Note that the coach took the plan up knowing these; returns which were waiting for it."""
        done = self.connection.execute(
            update(health_answer)
            .where(
                health_answer.c.coach_id == self.coach_id,
                health_answer.c.client_id == client_id,
                health_answer.c.question.in_(questions),
                health_answer.c.yes.is_(True),
                health_answer.c.released_on.is_(None),
                health_answer.c.voided_at.is_(None),
            )
            .values(released_on=on)
            .returning(health_answer.c.question)
        )
        return sorted(done.scalars())
