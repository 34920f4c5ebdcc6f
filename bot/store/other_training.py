"""Training beside the block, as clients have told of it."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import insert, select, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import other_training


@dataclass(frozen=True, slots=True)
class Other:
    """Something that was trained beside the block.

    Attributes:
        id: Its row.
        client_id: Whose.
        kind: A kind of `core.checkin.other_training_words.Trained`.
        local_on: Date on her own calendar.
        minutes: How long; None where she has not said. [min]
        effort: Place in the five words of effort from 1; None where she has not said.
    """

    id: int
    client_id: int
    kind: str
    local_on: date
    minutes: int | None
    effort: int | None


class OtherTraining(Rows):
    """Training beside the block of one coach's clients. A correction voids a row and adds another."""

    def add(
        self,
        client_id: int,
        kind: str,
        on: date,
        now: datetime,
        *,
        minutes: int | None = None,
        effort: int | None = None,
        message_id: int | None = None,
    ) -> int:
        """Keep what was trained and return its row."""
        made = self.connection.execute(
            insert(other_training)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                kind=kind,
                local_on=on,
                minutes=minutes,
                effort=effort,
                message_id=message_id,
                at=now,
            )
            .returning(other_training.c.id)
        )
        return int(made.scalar_one())

    def void(self, row_id: int, client_id: int, now: datetime) -> None:
        """Take one back."""
        self.connection.execute(
            update(other_training)
            .where(
                other_training.c.coach_id == self.coach_id,
                other_training.c.client_id == client_id,
                other_training.c.id == row_id,
                other_training.c.voided_at.is_(None),
            )
            .values(voided_at=now)
        )

    def is_from(self, client_id: int, message_id: int) -> bool:
        """Return whether a message of a client told of some, taken back since or not."""
        query = select(other_training.c.id).where(
            other_training.c.coach_id == self.coach_id,
            other_training.c.client_id == client_id,
            other_training.c.message_id == message_id,
        )
        return self.connection.execute(query.limit(1)).first() is not None

    def get(self, row_id: int, client_id: int) -> Other | None:
        """Return one of a client's that was not taken back."""
        query = rows_of(Other, other_training).where(
            other_training.c.coach_id == self.coach_id,
            other_training.c.client_id == client_id,
            other_training.c.id == row_id,
            other_training.c.voided_at.is_(None),
        )
        return one(Other, self.connection.execute(query).first())

    def since(self, first: date) -> dict[int, tuple[Other, ...]]:
        """Return what was trained from a date on, by client, oldest first."""
        query = (
            rows_of(Other, other_training)
            .where(
                other_training.c.coach_id == self.coach_id,
                other_training.c.local_on >= first,
                other_training.c.voided_at.is_(None),
            )
            .order_by(other_training.c.local_on, other_training.c.id)
        )
        found: dict[int, tuple[Other, ...]] = {}
        for row in self.connection.execute(query):
            each = Other(*row)
            found[each.client_id] = (*found.get(each.client_id, ()), each)
        return found
