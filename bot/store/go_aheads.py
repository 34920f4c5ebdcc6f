"""Where a client hurts a little and stays so: whether her coach was asked if raises go on there, and what she said."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import insert, select, update

from bot.store.presence import holds_nothing
from bot.store.read_once import read_once
from bot.store.rows import Rows
from bot.store.tables import rule
from core.loads.go_ahead import GoAhead
from core.programme.exercises import Side, Site

KEY = "raises go on"
"""Key of the rules that say so."""


@dataclass(frozen=True, slots=True)
class AskedOf:
    """A place that a coach was asked about.

    Attributes:
        id: Row.
        client_id: Whose.
        site: Where.
        side: `L`, `R`, or None.
        score: The most that it has hurt. [1..3]
        allowed: True and False as she said; None while she has not.
        at: When she was asked, or when she said so.
    """

    id: int
    client_id: int
    site: Site
    side: str | None
    score: int
    allowed: bool | None
    at: datetime


class GoAheads(Rows):
    """Questions to a coach whether raises go on. What she says is a row of its own; a report above ends it."""

    def ask(
        self, client_id: int, site: Site, side: str | None, score: int, by_user_id: int, now: datetime
    ) -> int:
        """Keep that she was asked."""
        value = {"site": site.value, "side": side, "score": score, "allowed": None}
        return self._add(client_id, value, by_user_id, now)

    def answer(self, asked_id: int, *, allowed: bool, by_user_id: int, now: datetime) -> int | None:
        """Keep what she said; None where the question no longer stands."""
        asked = next((each for each in self._standing(rule.c.id == asked_id)), None)
        if asked is None:
            return None
        self._void([asked_id], now)
        value = {"site": asked.site.value, "side": asked.side, "score": asked.score, "allowed": allowed}
        return self._add(asked.client_id, value, by_user_id, now)

    @read_once
    def of(self, client_id: int) -> list[AskedOf]:
        """Return the places that she was asked about and that stand, oldest first."""
        return [] if holds_nothing(self, rule, client_id) else self._standing(rule.c.client_id == client_id)

    def lately(self, client_id: int, since: datetime) -> list[AskedOf]:
        """Return what she was asked and has said from an instant on, what no longer stands too."""
        return self._rows(rule.c.client_id == client_id, rule.c.at >= since)

    def allowed(self, client_id: int) -> tuple[GoAhead, ...]:
        """Return what she has allowed, as rules compute with it."""
        return tuple(
            GoAhead(
                row_id=each.id,
                site=each.site,
                side=Side(each.side) if each.side else None,
                score=each.score,
                at=each.at,
            )
            for each in self.of(client_id)
            if each.allowed
        )

    def end(self, asked_ids: list[int], now: datetime) -> None:
        """End what was asked or allowed; the rows stay."""
        self._void(asked_ids, now)

    def _add(self, client_id: int, value: dict[str, Any], by_user_id: int, now: datetime) -> int:
        made = self.connection.execute(
            insert(rule)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                key=KEY,
                value=value,
                by_user_id=by_user_id,
                at=now,
            )
            .returning(rule.c.id)
        )
        return int(made.scalar_one())

    def _standing(self, *which: Any) -> list[AskedOf]:
        return self._rows(rule.c.voided_at.is_(None), *which)

    def _rows(self, *which: Any) -> list[AskedOf]:
        query = (
            select(rule.c.id, rule.c.client_id, rule.c.value, rule.c.at)
            .where(rule.c.coach_id == self.coach_id, rule.c.key == KEY, *which)
            .order_by(rule.c.id)
        )
        return [
            AskedOf(
                row.id,
                row.client_id,
                Site(row.value["site"]),
                row.value["side"],
                row.value["score"],
                row.value["allowed"],
                row.at,
            )
            for row in self.connection.execute(query)
        ]

    def _void(self, ids: list[int], now: datetime) -> None:
        self.connection.execute(
            update(rule)
            .where(rule.c.id.in_(ids), rule.c.coach_id == self.coach_id, rule.c.key == KEY)
            .values(voided_at=now)
        )
