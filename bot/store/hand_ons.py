"""Whether a client lets her coach hand a summary on to a practitioner: asked, said, taken back."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import insert, update

from bot.store.rows import Rows, given, one, rows_of
from bot.store.tables import hand_on


@dataclass(frozen=True, slots=True)
class HandOn:
    """One asking.

    Attributes:
        id: Its row.
        client_id: Who was asked.
        at: When.
        given_at: When she said yes.
        refused_at: When she said no.
        withdrawn_at: When she took her yes back.
        handed_at: When the coach got the summary by it: a yes is good for one.
    """

    id: int
    client_id: int
    at: datetime
    given_at: datetime | None = None
    refused_at: datetime | None = None
    withdrawn_at: datetime | None = None
    handed_at: datetime | None = None

    @property
    def stands(self) -> bool:
        """True while she agrees, before and after it was handed on."""
        return self.given_at is not None and self.withdrawn_at is None

    @property
    def is_good(self) -> bool:
        """True while a summary may be made by it: she agrees, and none was made yet."""
        return self.stands and self.handed_at is None

    @property
    def is_open(self) -> bool:
        """True while she has not answered."""
        return self.given_at is None and self.refused_at is None


_OF_CLIENT = (
    rows_of(HandOn, hand_on)
    .where(given(hand_on.c.coach_id), given(hand_on.c.client_id))
    .order_by(hand_on.c.id.desc())
)
_NEWEST = _OF_CLIENT.limit(1)
_STANDING = _OF_CLIENT.where(hand_on.c.given_at.is_not(None), hand_on.c.withdrawn_at.is_(None))


class HandOns(Rows):
    """What one coach's clients let be handed on."""

    def ask(self, client_id: int, now: datetime) -> int:
        """Note that a client is asked, and return the row."""
        made = self.connection.execute(
            insert(hand_on)
            .values(coach_id=self.coach_id, client_id=client_id, at=now)
            .returning(hand_on.c.id)
        )
        return int(made.scalar_one())

    def newest(self, client_id: int) -> HandOn | None:
        """Return the last asking of a client."""
        asked = {"coach_id": self.coach_id, "client_id": client_id}
        return one(HandOn, self.connection.execute(_NEWEST, asked).first())

    def get(self, row_id: int) -> HandOn | None:
        """Return one asking; None when it is not of this coach's clients."""
        query = rows_of(HandOn, hand_on).where(hand_on.c.id == row_id, hand_on.c.coach_id == self.coach_id)
        return one(HandOn, self.connection.execute(query).first())

    def standing(self, client_id: int) -> list[HandOn]:
        """Return the askings to which a client has said yes and not taken it back, the newest first."""
        asked = {"coach_id": self.coach_id, "client_id": client_id}
        return [HandOn(*row) for row in self.connection.execute(_STANDING, asked)]

    def change(self, row_id: int, **values: Any) -> None:
        """Note what she said: `given_at`, `refused_at`, `withdrawn_at`; or that it was used, `handed_at`."""
        self.connection.execute(
            update(hand_on)
            .where(hand_on.c.id == row_id, hand_on.c.coach_id == self.coach_id)
            .values(**values)
        )
