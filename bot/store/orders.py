"""Orders of a coach beside the block: kept, used up, taken back."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import bindparam, insert, update

from bot.store.read_once import read_once
from bot.store.rows import Rows, given, not_by, one, rows_of
from bot.store.tables import order
from core.loads.order import CoachOrder, OrderKind
from core.programme.exercises import Site
from core.units import Mass


@dataclass(frozen=True, slots=True)
class KeptOrder:
    """An order as kept.

    Attributes:
        from_on: The client's local date on which it begins to hold; None for at once.
        until_on: The client's local date of the session that used it up; None while it stands.
        facts: What it says, by kind; `until` is its last day, `once` that the next session uses it up, `deload` that
            it is a lighter week.
    """

    id: int
    client_id: int
    exercise: str | None
    kind: str
    facts: dict[str, Any]
    from_on: date | None
    until_on: date | None
    at: datetime
    voided_at: datetime | None

    @property
    def stands(self) -> bool:
        """True while it was neither used up nor taken back."""
        return self.until_on is None and self.voided_at is None

    @property
    def until(self) -> date | None:
        """The last day on which it holds; None where it has none."""
        said = self.facts.get("until")
        return date.fromisoformat(said) if said else None

    @property
    def dated(self) -> bool:
        """True where it holds on days, and no session uses it up."""
        return self.until is not None or self.from_on is not None

    @property
    def value(self) -> CoachOrder:
        """The order that rules compute with."""
        site, mass = self.facts.get("site"), self.facts.get("mass")
        return CoachOrder(
            row_id=self.id,
            kind=OrderKind(self.kind),
            exercise=self.exercise,
            site=Site(site) if site else None,
            percent=self.facts.get("percent", 0),
            mass=Mass.of(mass["value"], mass["unit"]) if mass else None,
            from_on=self.from_on,
            until=self.until,
            at=self.at if self.kind == OrderKind.LOAD else None,
            deload=bool(self.facts.get("deload")),
        )


_HISTORY = (
    rows_of(KeptOrder, order)
    .where(not_by(order.c.coach_id) == bindparam("coach_id"), given(order.c.client_id))
    .order_by(order.c.id.desc())
)


class Orders(Rows):
    """Orders for one coach's clients."""

    def add(
        self,
        client_id: int,
        kind: OrderKind,
        now: datetime,
        *,
        exercise: str | None = None,
        facts: dict[str, Any] | None = None,
        from_on: date | None = None,
    ) -> int:
        """Keep an order."""
        made = self.connection.execute(
            insert(order)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                exercise=exercise,
                kind=kind.value,
                facts=facts or {},
                from_on=from_on,
                at=now,
            )
            .returning(order.c.id)
        )
        return int(made.scalar_one())

    def get(self, order_id: int) -> KeptOrder | None:
        """Return one order of this coach; None when it is not hers."""
        query = rows_of(KeptOrder, order).where(order.c.id == order_id, order.c.coach_id == self.coach_id)
        return one(KeptOrder, self.connection.execute(query).first())

    @read_once
    def standing(self, client_id: int) -> list[KeptOrder]:
        """Return a client's orders that stand, oldest first."""
        return self._listed(client_id, order.c.until_on.is_(None))

    @read_once
    def used(self, client_id: int) -> list[KeptOrder]:
        """Return a client's orders that a session has used up, oldest first."""
        return self._listed(client_id, order.c.until_on.is_not(None))

    @read_once
    def history(self, client_id: int) -> list[KeptOrder]:
        """Return all that was ordered for a client, what is over or taken back too, newest first."""
        asked = {"coach_id": self.coach_id, "client_id": client_id}
        return [KeptOrder(*row) for row in self.connection.execute(_HISTORY, asked)]

    def _listed(self, client_id: int, which: Any) -> list[KeptOrder]:
        query = (
            rows_of(KeptOrder, order)
            .where(
                not_by(order.c.coach_id) == self.coach_id,
                order.c.client_id == client_id,
                order.c.voided_at.is_(None),
                which,
            )
            .order_by(order.c.id)
        )
        return [KeptOrder(*row) for row in self.connection.execute(query)]

    def use(self, order_ids: list[int], on: date) -> None:
        """Say which session's date used orders up."""
        self._change(order_ids, until_on=on)

    def free(self, order_ids: list[int]) -> None:
        """Let orders stand again that a session had used up, for it comes on another day."""
        self._change(order_ids, until_on=None)

    def void(self, order_ids: list[int], now: datetime) -> None:
        """Take orders back; the rows stay."""
        self._change(order_ids, voided_at=now)

    def restore(self, order_ids: list[int]) -> None:
        """Let orders stand again that had been taken back."""
        self._change(order_ids, voided_at=None)

    def note(self, order_id: int, facts: dict[str, Any]) -> None:
        """Keep other facts of an order."""
        self._change([order_id], facts=facts)

    def _change(self, order_ids: list[int], **values: Any) -> None:
        self.connection.execute(
            update(order).where(order.c.id.in_(order_ids), order.c.coach_id == self.coach_id).values(**values)
        )
