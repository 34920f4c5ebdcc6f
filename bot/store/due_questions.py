"""Questions that fall due on a date: the morning after pain, the week's plan, the check-in, the end of a block."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, select, update

from bot.store.outbox import adding
from bot.store.rows import Rows, one, rows_of
from bot.store.tables import due_question


@dataclass(frozen=True, slots=True)
class DueQuestion:
    """One question to one client, on one date of hers.

    Attributes:
        id: Its row.
        client_id: Whom.
        kind: What is asked, a key of `bot.usecases.asking.ASKERS`; 1-12 characters.
        local_on: Date on her own calendar; of a kind there is one a date.
        due_at: Not before.
        subject: Row that it is about, if any: a report of pain, an assignment.
        facts: What the asker needs to know.
        sent_at: When it went out; None before.
        answered_at: When it was answered to the end; None before.
        answers: What was answered so far.
        dropped_at: When it became needless before it went out.
    """

    id: int
    client_id: int
    kind: str
    local_on: date
    due_at: datetime
    subject: int | None
    facts: Mapping[str, Any]
    sent_at: datetime | None
    answered_at: datetime | None
    answers: Mapping[str, Any] | None
    dropped_at: datetime | None


class DueQuestions(Rows):
    """Questions to one coach's clients. Of a client, kind and date there is one: twice changes nothing."""

    def plan(
        self,
        client_id: int,
        kind: str,
        local_on: date,
        due_at: datetime,
        now: datetime,
        *,
        subject: int | None = None,
        facts: Mapping[str, Any] | None = None,
    ) -> int | None:
        """Have a question fall due; None, and nothing changed, where there is one of its kind on that date."""
        row = {
            "coach_id": self.coach_id,
            "client_id": client_id,
            "kind": kind,
            "local_on": local_on,
            "due_at": due_at,
            "subject": subject,
            "facts": dict(facts or {}),
            "at": now,
        }
        query = adding(self.connection, due_question).values(row)
        query = query.on_conflict_do_nothing(index_elements=["client_id", "kind", "local_on"])
        made: int | None = self.connection.execute(query.returning(due_question.c.id)).scalar()
        return made

    def get(self, question_id: int) -> DueQuestion:
        """Return one question.

        Raises:
            LookupError: It is not this coach's.
        """
        found = self._first(due_question.c.id == question_id)
        if found is None:
            raise LookupError(f"no question {question_id} here")
        return found

    def on(self, client_id: int, kind: str, local_on: date) -> DueQuestion | None:
        """Return the question of a kind on a date."""
        return self._first(
            due_question.c.client_id == client_id,
            due_question.c.kind == kind,
            due_question.c.local_on == local_on,
        )

    def newest(self, client_id: int, kind: str) -> DueQuestion | None:
        """Return the question of a kind with the latest date that was not dropped, sent or still to come."""
        return self._first(
            due_question.c.client_id == client_id,
            due_question.c.kind == kind,
            due_question.c.dropped_at.is_(None),
        )

    def of_client(self, client_id: int, kind: str, since: date) -> list[DueQuestion]:
        """Return the questions of a kind from a date on, oldest first."""
        query = self._of(
            due_question.c.client_id == client_id,
            due_question.c.kind == kind,
            due_question.c.local_on >= since,
        )
        query = query.order_by(due_question.c.local_on, due_question.c.id)
        return [DueQuestion(*row) for row in self.connection.execute(query)]

    def waiting(self, client_id: int, kind: str) -> list[DueQuestion]:
        """Return the questions of a kind that have not gone out and are not needless, the earliest first."""
        query = self._of(
            due_question.c.client_id == client_id,
            due_question.c.kind == kind,
            due_question.c.sent_at.is_(None),
            due_question.c.dropped_at.is_(None),
        )
        query = query.order_by(due_question.c.local_on, due_question.c.id)
        return [DueQuestion(*row) for row in self.connection.execute(query)]

    def put_on(self, question_id: int, local_on: date, due_at: datetime) -> None:
        """Have one that waits fall due on another date, on which there is none of its kind yet."""
        self._change(question_id, local_on=local_on, due_at=due_at)

    def put_off(self, question_id: int, due_at: datetime) -> None:
        """Have it fall due later."""
        self._change(question_id, due_at=due_at)

    def sent(self, question_id: int, now: datetime) -> None:
        """Note that it went out."""
        self._change(question_id, sent_at=now)

    def note(self, question_id: int, answers: Mapping[str, Any]) -> None:
        """Keep what was answered so far."""
        self._change(question_id, answers=dict(answers))

    def answered(self, question_id: int, answers: Mapping[str, Any], now: datetime) -> None:
        """Keep what was answered, to the end."""
        self._change(question_id, answers=dict(answers), answered_at=now)

    def drop(self, question_id: int, now: datetime) -> None:
        """Note that it is needless; one that went out stays as it is."""
        self.connection.execute(
            update(due_question)
            .where(
                due_question.c.id == question_id,
                due_question.c.coach_id == self.coach_id,
                due_question.c.sent_at.is_(None),
            )
            .values(dropped_at=now)
        )

    def since(self, kind: str, first: date) -> dict[int, list[DueQuestion]]:
        """Return what of a kind went out to this coach's clients from a date on, by client, oldest first."""
        query = self._of(
            due_question.c.kind == kind,
            due_question.c.local_on >= first,
            due_question.c.sent_at.is_not(None),
        )
        found: dict[int, list[DueQuestion]] = {}
        query = query.order_by(due_question.c.local_on, due_question.c.id)
        for row in self.connection.execute(query):
            found.setdefault(row.client_id, []).append(DueQuestion(*row))
        return found

    def _change(self, question_id: int, **values: Any) -> None:
        self.connection.execute(
            update(due_question)
            .where(due_question.c.id == question_id, due_question.c.coach_id == self.coach_id)
            .values(**values)
        )

    def _of(self, *which: Any) -> Any:
        return rows_of(DueQuestion, due_question).where(due_question.c.coach_id == self.coach_id, *which)

    def _first(self, *which: Any) -> DueQuestion | None:
        query = self._of(*which).order_by(due_question.c.local_on.desc(), due_question.c.id.desc()).limit(1)
        return one(DueQuestion, self.connection.execute(query).first())


_WAITING = (due_question.c.sent_at.is_(None), due_question.c.dropped_at.is_(None))


def questions_due_anywhere(connection: Connection, now: datetime, limit: int) -> list[tuple[int, int]]:
    """Return (coach, question) of questions that are due and have not gone out, the longest due first."""
    query = (
        select(due_question.c.coach_id, due_question.c.id)
        .where(*_WAITING, due_question.c.due_at <= now)
        .order_by(due_question.c.due_at, due_question.c.id)
        .limit(limit)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def next_question_due(connection: Connection) -> datetime | None:
    """Return when the next question is due."""
    found: datetime | None = connection.execute(
        select(due_question.c.due_at).where(*_WAITING).order_by(due_question.c.due_at).limit(1)
    ).scalar()
    return found
