"""Daily preps that a coach has set, one running for a client, and her clips of drills."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, insert, select, update

from bot.store.presence import holds_nothing
from bot.store.rows import Rows, given, one, rows_of
from bot.store.tables import clip, daily_prep, prompt
from core.programme.daily_prep import DailyPrep


@dataclass(frozen=True, slots=True)
class KeptPrep:
    """A daily prep as kept.

    Attributes:
        due_at: When the next day's is due, on the client's own clock.
        ended_at: When it was stopped or replaced; None while it runs.
    """

    id: int
    client_id: int
    spec: dict[str, Any]
    due_at: datetime
    ended_at: datetime | None

    @property
    def asked(self) -> DailyPrep:
        """What the coach asks for."""
        return DailyPrep.model_validate(self.spec)


_RUNNING = rows_of(KeptPrep, daily_prep).where(
    given(daily_prep.c.coach_id), given(daily_prep.c.client_id), daily_prep.c.ended_at.is_(None)
)


class DailyPreps(Rows):
    """Daily preps of one coach's clients."""

    def start(self, client_id: int, asked: DailyPrep, due_at: datetime, now: datetime) -> int:
        """Start a daily prep; the one that ran before ends."""
        self.end(client_id, now)
        made = self.connection.execute(
            insert(daily_prep)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                spec=asked.model_dump(mode="json"),
                due_at=due_at,
                at=now,
            )
            .returning(daily_prep.c.id)
        )
        return int(made.scalar_one())

    def end(self, client_id: int, now: datetime) -> None:
        """End what runs for a client."""
        self.connection.execute(
            update(daily_prep)
            .where(
                daily_prep.c.coach_id == self.coach_id,
                daily_prep.c.client_id == client_id,
                daily_prep.c.ended_at.is_(None),
            )
            .values(ended_at=now)
        )

    def get(self, prep_id: int) -> KeptPrep | None:
        """Return one daily prep; None when it is not this coach's."""
        query = rows_of(KeptPrep, daily_prep).where(
            daily_prep.c.id == prep_id, daily_prep.c.coach_id == self.coach_id
        )
        return one(KeptPrep, self.connection.execute(query).first())

    def running(self, client_id: int) -> KeptPrep | None:
        """Return what runs for a client."""
        if holds_nothing(self, daily_prep, client_id):
            return None
        asked = {"coach_id": self.coach_id, "client_id": client_id}
        return one(KeptPrep, self.connection.execute(_RUNNING, asked).first())

    def move(self, prep_id: int, due_at: datetime) -> None:
        """Say when it is due next."""
        self.connection.execute(
            update(daily_prep)
            .where(daily_prep.c.id == prep_id, daily_prep.c.coach_id == self.coach_id)
            .values(due_at=due_at)
        )

    def done_since(self, client_id: int, kind: str, since: datetime) -> tuple[int, int]:
        """Return how many daily preps a client has said done, and how many went out to her, since an instant."""
        query = select(func.count(prompt.c.closed_at), func.count()).where(
            prompt.c.coach_id == self.coach_id,
            prompt.c.client_id == client_id,
            prompt.c.kind == kind,
            prompt.c.opened_at >= since,
        )
        done, sent = self.connection.execute(query).one()
        return int(done), int(sent)


class Clips(Rows):
    """Where one coach shows drills; the newest of a drill stands."""

    def keep(self, drill: str, link: str | None, now: datetime) -> None:
        """Keep the address of a clip in place of the one before; None takes it away."""
        self.connection.execute(
            update(clip)
            .where(clip.c.coach_id == self.coach_id, clip.c.drill == drill, clip.c.voided_at.is_(None))
            .values(voided_at=now)
        )
        if link is not None:
            row = {"coach_id": self.coach_id, "drill": drill, "link": link, "at": now}
            self.connection.execute(insert(clip).values(row))

    def standing(self) -> Mapping[str, str]:
        """Return the address of each drill's clip, by the drill's key."""
        query = select(clip.c.drill, clip.c.link).where(
            clip.c.coach_id == self.coach_id, clip.c.voided_at.is_(None)
        )
        return {row.drill: row.link for row in self.connection.execute(query.order_by(clip.c.id))}
