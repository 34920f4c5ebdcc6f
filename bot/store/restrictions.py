"""What clients must not do, as their coach has said it. A new word takes the place of the old one, which is kept."""

from collections.abc import Iterable
from datetime import datetime

from sqlalchemy import insert, select, update

from bot.store.presence import holds_nothing
from bot.store.read_once import read_once
from bot.store.rows import Rows
from bot.store.tables import rule
from core.programme.restrictions import Restriction

KEY = "restrictions"
"""Key of the rules that say so."""


class ClientRestrictions(Rows):
    """Restrictions of one coach's clients."""

    @read_once
    def of(self, client_id: int) -> frozenset[Restriction]:
        """Return what a client must not do; nothing where nobody said anything."""
        if holds_nothing(self, rule, client_id):
            return frozenset()
        value = self.connection.execute(
            select(rule.c.value).where(
                rule.c.coach_id == self.coach_id,
                rule.c.client_id == client_id,
                rule.c.key == KEY,
                rule.c.voided_at.is_(None),
            )
        ).scalar()
        return frozenset(Restriction(each) for each in value or ())

    def say(
        self, client_id: int, restrictions: Iterable[Restriction], by_user_id: int, now: datetime
    ) -> None:
        """Keep what a client must not do from now on: all of it, and nothing else."""
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
        self.connection.execute(
            insert(rule).values(
                coach_id=self.coach_id,
                client_id=client_id,
                key=KEY,
                value=sorted(restrictions),
                by_user_id=by_user_id,
                at=now,
            )
        )
