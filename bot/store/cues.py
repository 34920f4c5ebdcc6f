"""A coach's cues, by exercise and by site: for one client or for all, kept and taken back."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import insert, or_, update

from bot.store.presence import holds_nothing
from bot.store.read_once import read_once
from bot.store.rows import Rows, given, one, rows_of
from bot.store.tables import cue
from core.checkin.cues import Cue
from core.programme.exercises import Side, Site


@dataclass(frozen=True, slots=True)
class About:
    """What a cue is about.

    Attributes:
        client_id: For whom; None for all her clients.
        exercise: Key; None for any.
        site: Where it hurts; None for a cue that is shown with the exercise.
        side: `L` or `R`; None for both.
    """

    client_id: int | None = None
    exercise: str | None = None
    site: str | None = None
    side: str | None = None


@dataclass(frozen=True, slots=True)
class KeptCue:
    """A cue as kept."""

    id: int
    client_id: int | None
    exercise: str | None
    site: str | None
    side: str | None
    text: str
    at: datetime
    voided_at: datetime | None

    @property
    def about(self) -> About:
        """What it is about."""
        return About(self.client_id, self.exercise, self.site, self.side)

    @property
    def value(self) -> Cue:
        """The cue that rules compute with."""
        return Cue(
            row_id=self.id,
            for_one=self.client_id is not None,
            exercise=self.exercise,
            site=Site(self.site) if self.site else None,
            side=Side(self.side) if self.side else None,
            text=self.text,
        )


_FOR_CLIENT = (
    rows_of(KeptCue, cue)
    .where(
        given(cue.c.coach_id),
        cue.c.voided_at.is_(None),
        or_(given(cue.c.client_id), cue.c.client_id.is_(None)),
    )
    .order_by(cue.c.id)
)


class Cues(Rows):
    """Cues of one coach."""

    def add(self, about: About, text: str, now: datetime) -> int:
        """Keep a cue; it stands beside others about the same until they are taken back."""
        values = {
            "client_id": about.client_id,
            "exercise": about.exercise,
            "site": about.site,
            "side": about.side,
        }
        made = self.connection.execute(
            insert(cue).values(coach_id=self.coach_id, text=text, at=now, **values).returning(cue.c.id)
        )
        return int(made.scalar_one())

    def get(self, cue_id: int) -> KeptCue | None:
        """Return one cue of this coach; None when it is not hers."""
        query = rows_of(KeptCue, cue).where(cue.c.id == cue_id, cue.c.coach_id == self.coach_id)
        return one(KeptCue, self.connection.execute(query).first())

    def standing(self) -> list[KeptCue]:
        """Return all that stand, oldest first."""
        query = rows_of(KeptCue, cue).where(cue.c.coach_id == self.coach_id, cue.c.voided_at.is_(None))
        return [KeptCue(*row) for row in self.connection.execute(query.order_by(cue.c.id))]

    @read_once
    def for_client(self, client_id: int) -> tuple[Cue, ...]:
        """Return what stands for one client and for all, as values."""
        if holds_nothing(self, cue):
            return ()
        asked = {"coach_id": self.coach_id, "client_id": client_id}
        return tuple(KeptCue(*row).value for row in self.connection.execute(_FOR_CLIENT, asked))

    def void(self, cue_id: int, now: datetime) -> None:
        """Take a cue back; the row stays."""
        self.connection.execute(
            update(cue).where(cue.c.id == cue_id, cue.c.coach_id == self.coach_id).values(voided_at=now)
        )
