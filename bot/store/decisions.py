"""Decisions, with everything they rest on."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, bindparam, func, insert, select, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, given, made_row, not_by, one, rows_of
from bot.store.tables import decision
from core.loads.decision import Decision, Inputs


@dataclass(frozen=True, slots=True)
class KeptDecision:
    """A decision as kept: inputs and output to the byte."""

    id: int
    client_id: int
    item_id: int | None
    exercise: str
    made_for: str
    inputs: str
    output: str
    rules_version: str
    made_at: datetime
    superseded_by: int | None

    @property
    def value(self) -> Decision:
        """The decision."""
        return Decision.model_validate_json(self.output)


_ONE = rows_of(KeptDecision, decision).where(given(decision.c.id), given(decision.c.coach_id))
_VALUES = select(decision.c.id, decision.c.output).where(
    decision.c.id.in_(bindparam("ids", expanding=True)), given(decision.c.coach_id)
)
_NEWEST = (
    select(decision.c.exercise, func.max(decision.c.id))
    .where(
        not_by(decision.c.coach_id) == bindparam("coach_id"),
        given(decision.c.client_id),
        decision.c.exercise.in_(bindparam("exercises", expanding=True)),
    )
    .group_by(decision.c.exercise)
)
"""Without what it rests on, which is long and is not needed to say that it is replaced."""
_KEEP = insert(decision)
_CHANGE = update(decision).where(
    decision.c.id == bindparam("which"), not_by(decision.c.coach_id) == bindparam("whose")
)


class Decisions(Rows):
    """Decisions about one coach's clients. What was made in this transaction is known without reading it again."""

    def __init__(self, connection: Connection, coach_id: int) -> None:
        super().__init__(connection, coach_id)
        self._made: dict[int, Decision] = {}

    def keep(
        self,
        client_id: int,
        item_id: int | None,
        made_for: str,
        inputs: Inputs,
        output: Decision,
        now: datetime,
    ) -> int:
        """Keep a decision and mark what it replaces: the newest one for the same client and exercise."""
        return self.keep_all(client_id, made_for, [(inputs, output)], now, item_id=item_id)[0]

    def keep_all(
        self,
        client_id: int,
        made_for: str,
        made: Sequence[tuple[Inputs, Decision]],
        now: datetime,
        *,
        item_id: int | None = None,
    ) -> list[int]:
        """Keep decisions in the order in which they were made, each as `keep` does; return their rows."""
        exercises = sorted({inputs.exercise.key for inputs, _ in made})
        same = {"coach_id": self.coach_id, "client_id": client_id, "exercises": exercises}
        newest: dict[str, int] = {row[0]: row[1] for row in self.connection.execute(_NEWEST, same)}
        kept, replaced = [], []
        for inputs, output in made:
            row = {
                "coach_id": self.coach_id,
                "client_id": client_id,
                "item_id": item_id,
                "exercise": inputs.exercise.key,
                "made_for": made_for,
                "inputs": inputs.model_dump_json(),
                "output": output.model_dump_json(),
                "rules_version": output.rules,
                "made_at": now,
            }
            made_id = made_row(self.connection.execute(_KEEP, row))
            if (before := newest.get(inputs.exercise.key)) is not None:
                replaced.append({"which": before, "whose": self.coach_id, "superseded_by": made_id})
            newest[inputs.exercise.key] = made_id
            self._made[made_id] = output
            kept.append(made_id)
        if replaced:
            self.connection.execute(_CHANGE, replaced)
        return kept

    def for_item(self, decision_id: int, item_id: int) -> None:
        """Say which item a decision was made for."""
        self.for_items({decision_id: item_id})

    def for_items(self, made: Mapping[int, int]) -> None:
        """Say which items decisions were made for, by decision."""
        rows = [{"which": row, "whose": self.coach_id, "item_id": item_id} for row, item_id in made.items()]
        if rows:
            self.connection.execute(_CHANGE, rows)

    def get(self, decision_id: int) -> KeptDecision:
        """Return one decision.

        Raises:
            LookupError: It is not of this coach.
        """
        asked = {"id": decision_id, "coach_id": self.coach_id}
        found = one(KeptDecision, self.connection.execute(_ONE, asked).first())
        if found is None:
            raise LookupError(f"no decision {decision_id} here")
        return found

    @read_once
    def values(self, decision_ids: Collection[int]) -> dict[int, Decision]:
        """Return what was decided, by row."""
        if all(each in self._made for each in decision_ids):
            return {each: self._made[each] for each in decision_ids}
        asked = {"ids": list(decision_ids), "coach_id": self.coach_id}
        rows = self.connection.execute(_VALUES, asked)
        return {row.id: Decision.model_validate_json(row.output) for row in rows}

    def of_client(self, client_id: int) -> Iterator[KeptDecision]:
        """Return a client's decisions, newest first."""
        query = (
            rows_of(KeptDecision, decision)
            .where(decision.c.coach_id == self.coach_id, decision.c.client_id == client_id)
            .order_by(decision.c.id.desc())
        )
        return (KeptDecision(*row) for row in self.connection.execute(query))

    def telling(self, code: str, since: datetime) -> list[KeptDecision]:
        """Return the newest decisions of clients' exercises that tell a reason, made since an instant, oldest first."""
        query = (
            rows_of(KeptDecision, decision)
            .where(
                decision.c.coach_id == self.coach_id,
                decision.c.superseded_by.is_(None),
                decision.c.made_at >= since,
                decision.c.output.contains(f'"code":"{code}"'),
            )
            .order_by(decision.c.id)
        )
        return [KeptDecision(*row) for row in self.connection.execute(query)]

    @read_once
    def latest(self, client_id: int, exercise: str) -> KeptDecision | None:
        """Return the newest decision for a client's exercise."""
        query = (
            rows_of(KeptDecision, decision)
            .where(
                decision.c.coach_id == self.coach_id,
                decision.c.client_id == client_id,
                decision.c.exercise == exercise,
            )
            .order_by(decision.c.id.desc())
            .limit(1)
        )
        return one(KeptDecision, self.connection.execute(query).first())


def find_decision(connection: Connection, decision_id: int) -> KeptDecision | None:
    """Return a decision, whoever's it is: for the operator, who has no tenant."""
    query = rows_of(KeptDecision, decision).where(decision.c.id == decision_id)
    return one(KeptDecision, connection.execute(query).first())
