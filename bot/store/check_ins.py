"""Clients who are asked no check-in, as their coach has said it."""

from datetime import datetime

from sqlalchemy import insert, select, update

from bot.store.rows import Rows
from bot.store.tables import rule

KEY = "no check-in"
"""Key of the rules that say so."""


class CheckIns(Rows):
    """For whom of one coach's clients the check-in is off."""

    def is_off(self, client_id: int) -> bool:
        """Return whether a client is asked none."""
        return client_id in self.off()

    def off(self) -> frozenset[int]:
        """Return the clients who are asked none."""
        query = select(rule.c.client_id).where(
            rule.c.coach_id == self.coach_id, rule.c.key == KEY, rule.c.voided_at.is_(None)
        )
        return frozenset(self.connection.execute(query).scalars())

    def turn(self, client_id: int, by_user_id: int, now: datetime, *, on: bool) -> None:
        """Turn the check-in of a client on or off."""
        self.connection.execute(
            update(rule)
            .where(
                rule.c.coach_id == self.coach_id,
                rule.c.client_id == client_id,
                rule.c.key == KEY,
                rule.c.voided_at.is_(None),
            )
            .values(voided_at=now)
        )
        if not on:
            self.connection.execute(
                insert(rule).values(
                    coach_id=self.coach_id,
                    client_id=client_id,
                    key=KEY,
                    value=True,
                    by_user_id=by_user_id,
                    at=now,
                )
            )
