"""What a coach has set for herself: rows over the defaults of `core/policy.py`, for all, one client or one exercise."""

import logging
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, time
from decimal import Decimal
from functools import cached_property
from typing import Any

from pydantic import ValidationError
from sqlalchemy import Connection, insert, select, update

from bot.store.rows import Rows, given
from bot.store.tables import rule
from core.policy import Policy
from core.units import Mass

BEGIN = "policy:"
"""How the keys of these rows begin; other rules lie in the same table under other keys."""
Setting = Decimal | Mass | int | time | bool | None
DEFAULTS = Policy()

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class KeptRule:
    """A rule as it was set.

    Attributes:
        id: Row.
        client_id: For whom; None for all.
        exercise: For which; None for all.
        field: Of `Policy`.
        value: As it is stored; `in_policy` reads it.
        by_user_id: Who set it.
        at: When.
        voided_at: Since when it holds no more.
    """

    id: int
    client_id: int | None
    exercise: str | None
    field: str
    value: Any
    by_user_id: int
    at: datetime
    voided_at: datetime | None


_STANDING = (
    select(rule)
    .where(given(rule.c.coach_id), rule.c.key.startswith(BEGIN, autoescape=True), rule.c.voided_at.is_(None))
    .order_by(rule.c.id)
)


class Rules(Rows):
    """A coach's rules. All that stand are read once for a unit, so that a loop over clients asks nothing more."""

    @cached_property
    def _made(self) -> dict[tuple[int | None, str | None], Policy]:
        return {}

    @cached_property
    def _stands(self) -> dict[tuple[int | None, str | None], list[KeptRule]]:
        found: dict[tuple[int | None, str | None], list[KeptRule]] = {}
        for each in map(_kept, self.connection.execute(_STANDING, {"coach_id": self.coach_id})):
            found.setdefault((each.client_id, each.exercise), []).append(each)
        return found

    def policy(self, client_id: int | None = None, exercise: str | None = None) -> Policy:
        """Return what holds: the defaults, over them what is set for all, the client, the exercise, and both.

        Args:
            client_id: For whom; None for the coach herself and all.
            exercise: Key in the catalogue, where loads are meant.
        """
        key = (client_id, exercise)
        if key not in self._made:
            rows = [each for layer in _layers(client_id, exercise) for each in self._stands.get(layer, ())]
            made, unfit = overlaid(rows)
            for each in unfit:
                log.warning("rule_left_out", extra={"coach_id": self.coach_id, "part": each.field})
            self._made[key] = made
        return self._made[key]

    def tried(
        self, field: str, value: Setting, client_id: int | None = None, exercise: str | None = None
    ) -> "Tried":
        """Return what would hold with one more rule; nothing is kept."""
        return Tried(self._stands, field, value, client_id, exercise)

    def without(self, field: str, client_id: int | None = None, exercise: str | None = None) -> "Tried":
        """Return what would hold without the rule of a field for just this client and exercise."""
        return Tried(self._stands, field, None, client_id, exercise, is_set=False)

    def standing(self) -> list[KeptRule]:
        """Return what is set, oldest first."""
        return sorted((each for rows in self._stands.values() for each in rows), key=lambda each: each.id)

    def unfit(self) -> list[KeptRule]:
        """Return what is set and is left out, since it does not fit its range or what else is set."""
        found = {each.id: each for key in self._stands for each in overlaid(self._over(key))[1]}
        return [found[each] for each in sorted(found)]

    def at(self, field: str, client_id: int | None, exercise: str | None) -> KeptRule | None:
        """Return what is set of a field for just this client and exercise."""
        return next(
            (each for each in self._stands.get((client_id, exercise), ()) if each.field == field), None
        )

    def get(self, rule_id: int) -> KeptRule | None:
        """Return one, whether it stands or not."""
        return next(iter(self._rows(rule.c.id == rule_id)), None)

    def history(
        self, field: str, client_id: int | None = None, exercise: str | None = None
    ) -> list[KeptRule]:
        """Return what was ever set of a field for just this client and exercise, newest first."""
        found = self._rows(rule.c.key == f"{BEGIN}{field}")
        return [each for each in reversed(found) if (each.client_id, each.exercise) == (client_id, exercise)]

    def set(
        self,
        field: str,
        value: Setting,
        by_user_id: int,
        now: datetime,
        *,
        client_id: int | None = None,
        exercise: str | None = None,
    ) -> int:
        """Keep a rule in place of the one that stood for just this client and exercise; return its row."""
        return self.restore(field, stored(value), by_user_id, now, client_id=client_id, exercise=exercise)

    def restore(
        self,
        field: str,
        value: Any,
        by_user_id: int,
        now: datetime,
        *,
        client_id: int | None = None,
        exercise: str | None = None,
    ) -> int:
        """Keep a rule whose value is as it was stored."""
        self.drop(field, now, client_id=client_id, exercise=exercise)
        made = self.connection.execute(
            insert(rule)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                exercise=exercise,
                key=f"{BEGIN}{field}",
                value={"is": value},
                by_user_id=by_user_id,
                at=now,
            )
            .returning(rule.c.id)
        )
        self._forget()
        return int(made.scalar_one())

    def drop(
        self, field: str, now: datetime, *, client_id: int | None = None, exercise: str | None = None
    ) -> None:
        """End the rule of a field for just this client and exercise; the row stays."""
        self.connection.execute(
            update(rule)
            .where(
                rule.c.coach_id == self.coach_id,
                rule.c.key == f"{BEGIN}{field}",
                rule.c.client_id.is_(None) if client_id is None else rule.c.client_id == client_id,
                rule.c.exercise.is_(None) if exercise is None else rule.c.exercise == exercise,
                rule.c.voided_at.is_(None),
            )
            .values(voided_at=now)
        )
        self._forget()

    def _over(self, key: tuple[int | None, str | None]) -> list[KeptRule]:
        return [each for layer in _layers(*key) for each in self._stands.get(layer, ())]

    def _forget(self) -> None:
        self.__dict__.pop("_made", None)
        self.__dict__.pop("_stands", None)

    def _rows(self, *which: Any) -> list[KeptRule]:
        query = (
            select(rule)
            .where(rule.c.coach_id == self.coach_id, rule.c.key.startswith(BEGIN, autoescape=True), *which)
            .order_by(rule.c.id)
        )
        return [_kept(row) for row in self.connection.execute(query)]


@dataclass(frozen=True, slots=True)
class Tried:
    """What would hold with one more rule, which replaces the one in its place; or without that one."""

    stands: Mapping[tuple[int | None, str | None], list[KeptRule]]
    field: str
    value: Setting
    client_id: int | None
    exercise: str | None
    is_set: bool = True

    def policy(self, client_id: int | None = None, exercise: str | None = None) -> Policy:
        """Return what would hold for a client and an exercise."""
        rows: list[KeptRule] = []
        for layer in _layers(client_id, exercise):
            rows += [each for each in self.stands.get(layer, ()) if not self._is_at(each)]
            if self.is_set and layer == (self.client_id, self.exercise):
                rows.append(_new(self.field, stored(self.value), layer))
        return overlaid(rows)[0]

    def _is_at(self, each: KeptRule) -> bool:
        return (each.client_id, each.exercise, each.field) == (self.client_id, self.exercise, self.field)


def overlaid(rows: Iterable[KeptRule]) -> tuple[Policy, list[KeptRule]]:
    """Return the defaults with rules over them, the later over the earlier; and those that fit no more, left out."""
    found = list(rows)
    if not found:
        return DEFAULTS, []
    try:
        return Policy.model_validate({each.field: each.value for each in found}), []
    except ValidationError:
        pass
    values: dict[str, Any] = {}
    unfit: list[KeptRule] = []
    for each in found:
        try:
            Policy.model_validate({**values, each.field: each.value})
        except ValidationError:
            unfit.append(each)
        else:
            values[each.field] = each.value
    return Policy.model_validate(values), unfit


def stored(value: Setting) -> Any:
    """Return a setting as it is stored."""
    match value:
        case Mass():
            return {"value": str(value.value), "unit": value.unit.value}
        case Decimal():
            return str(value)
        case time():
            return value.isoformat()
        case _:
            return value


def left_out_anywhere(connection: Connection) -> int:
    """Return how many rules that stand, of any coach, are left out because they do not fit."""
    query = select(rule.c.coach_id).where(
        rule.c.key.startswith(BEGIN, autoescape=True), rule.c.voided_at.is_(None)
    )
    coaches = sorted(set(connection.execute(query).scalars()))
    return sum(len(Rules(connection, coach_id).unfit()) for coach_id in coaches)


def _layers(client_id: int | None, exercise: str | None) -> tuple[tuple[int | None, str | None], ...]:
    layers = ((None, None), (client_id, None), (None, exercise), (client_id, exercise))
    return tuple(dict.fromkeys(layers))


def _new(field: str, value: Any, layer: tuple[int | None, str | None]) -> KeptRule:
    return KeptRule(0, layer[0], layer[1], field, value, 0, datetime.min, None)  # noqa: DTZ901


def _kept(row: Any) -> KeptRule:
    value = row.value.get("is") if isinstance(row.value, dict) else row.value
    field = row.key.removeprefix(BEGIN)
    return KeptRule(row.id, row.client_id, row.exercise, field, value, row.by_user_id, row.at, row.voided_at)
