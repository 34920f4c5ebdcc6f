"""Referrals: to which practitioner a coach has sent a client, why, and what came of it."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import insert, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import referral
from core.loads.limits import Clinician


@dataclass(frozen=True, slots=True)
class Referral:
    """A referral.

    Attributes:
        id: Its row.
        client_id: Whom.
        clinician: To whom, a value of `core.loads.limits.Clinician`.
        why: 1-300 characters, as the coach typed it.
        at: When it was noted.
        told_at: When the client was told; None while the coach has only noted it.
        seen_on: When the practitioner saw her, on her own calendar; None while not known.
        outcome: What came of it in words, 1-500 characters.
        review_on: When the coach wants to look at it again.
        closed_at: When the coach closed it; None while it is open.
    """

    id: int
    client_id: int
    clinician: str
    why: str
    at: datetime
    told_at: datetime | None = None
    seen_on: date | None = None
    outcome: str | None = None
    review_on: date | None = None
    closed_at: datetime | None = None

    @property
    def to(self) -> Clinician:
        """To whom."""
        return Clinician(self.clinician)


class Referrals(Rows):
    """Referrals of one coach's clients."""

    def add(self, client_id: int, to: Clinician, why: str, now: datetime) -> int:
        """Keep a referral and return its row."""
        made = self.connection.execute(
            insert(referral)
            .values(coach_id=self.coach_id, client_id=client_id, clinician=to.value, why=why, at=now)
            .returning(referral.c.id)
        )
        return int(made.scalar_one())

    def get(self, referral_id: int) -> Referral | None:
        """Return one referral of this coach; None when it is not hers."""
        query = self._of(referral.c.id == referral_id)
        return one(Referral, self.connection.execute(query).first())

    def of_client(self, client_id: int) -> list[Referral]:
        """Return all of a client's referrals, oldest first."""
        return self._listed(referral.c.client_id == client_id)

    def open(self) -> list[Referral]:
        """Return the referrals of all clients that are not closed, oldest first."""
        return self._listed(referral.c.closed_at.is_(None))

    def due(self, on: date) -> list[Referral]:
        """Return the open referrals whose review date has come by a date, oldest first."""
        return self._listed(referral.c.closed_at.is_(None), referral.c.review_on <= on)

    def change(self, referral_id: int, **values: Any) -> None:
        """Note what became of it: `told_at`, `seen_on`, `outcome`, `review_on`, `closed_at`."""
        self.connection.execute(
            update(referral)
            .where(referral.c.id == referral_id, referral.c.coach_id == self.coach_id)
            .values(**values)
        )

    def _of(self, *which: Any) -> Any:
        return rows_of(Referral, referral).where(referral.c.coach_id == self.coach_id, *which)

    def _listed(self, *which: Any) -> list[Referral]:
        query = self._of(*which).order_by(referral.c.id)
        return [Referral(*row) for row in self.connection.execute(query)]
