"""Phrases that a coach has saved; the newest of a name stands."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import insert, update

from bot.store.rows import Rows, rows_of
from bot.store.tables import phrase


@dataclass(frozen=True, slots=True)
class Phrase:
    """A phrase: its name, 1-20 letters, and what it says, 1-1000."""

    id: int
    name: str
    text: str


class Phrases(Rows):
    """Phrases of one coach."""

    def keep(self, name: str, text: str, now: datetime) -> None:
        """Keep a phrase in place of the one before of that name."""
        self.remove(name, now)
        row = {"coach_id": self.coach_id, "name": name, "text": text, "at": now}
        self.connection.execute(insert(phrase).values(row))

    def remove(self, name: str, now: datetime) -> None:
        """Take a phrase away."""
        self.connection.execute(
            update(phrase)
            .where(phrase.c.coach_id == self.coach_id, phrase.c.name == name, phrase.c.voided_at.is_(None))
            .values(voided_at=now)
        )

    def standing(self) -> list[Phrase]:
        """Return the phrases that stand, in the order in which they were kept."""
        query = (
            rows_of(Phrase, phrase)
            .where(phrase.c.coach_id == self.coach_id, phrase.c.voided_at.is_(None))
            .order_by(phrase.c.id)
        )
        return [Phrase(*row) for row in self.connection.execute(query)]
