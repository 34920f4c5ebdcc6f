"""Videos that a coach asks for, with exercise, set and side."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import insert, update

from bot.store.presence import holds_nothing
from bot.store.read_once import read_once
from bot.store.rows import Rows, given, one, rows_of
from bot.store.tables import video_ask


@dataclass(frozen=True, slots=True)
class VideoAsk:
    """A video that a coach asks for.

    Attributes:
        id: Its row.
        client_id: Of whom.
        exercise: Key in the catalogue.
        set_no: Which set, from 1; None for any.
        side: From where, as the coach wrote it; None where she did not say.
        at: When she asked.
        answered_at: When one came; None while it is waited for.
        voided_at: When it was taken back.
    """

    id: int
    client_id: int
    exercise: str
    set_no: int | None
    side: str | None
    at: datetime
    answered_at: datetime | None
    voided_at: datetime | None


_OPEN = (video_ask.c.answered_at.is_(None), video_ask.c.voided_at.is_(None))
_WAITING = rows_of(VideoAsk, video_ask).where(given(video_ask.c.coach_id), *_OPEN).order_by(video_ask.c.id)
_OF_CLIENT = _WAITING.where(given(video_ask.c.client_id))


class VideoAsks(Rows):
    """Videos that one coach asks for; of an exercise the newest counts."""

    def add(self, client_id: int, exercise: str, set_no: int | None, side: str | None, now: datetime) -> int:
        """Ask for a video in place of one that was asked for of the same, and return its row."""
        self.connection.execute(
            update(video_ask)
            .where(
                video_ask.c.coach_id == self.coach_id,
                *_OPEN,
                video_ask.c.client_id == client_id,
                video_ask.c.exercise == exercise,
            )
            .values(voided_at=now)
        )
        made = self.connection.execute(
            insert(video_ask)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                exercise=exercise,
                set_no=set_no,
                side=side,
                at=now,
            )
            .returning(video_ask.c.id)
        )
        return int(made.scalar_one())

    def get(self, ask_id: int) -> VideoAsk | None:
        """Return what was asked for; None when it is not this coach's."""
        query = rows_of(VideoAsk, video_ask).where(
            video_ask.c.coach_id == self.coach_id, video_ask.c.id == ask_id
        )
        return one(VideoAsk, self.connection.execute(query).first())

    def void(self, ask_id: int, now: datetime) -> None:
        """Take back what was asked for."""
        self._change(ask_id, voided_at=now)

    def answered(self, ask_id: int, now: datetime) -> None:
        """Note that it came."""
        self._change(ask_id, answered_at=now)

    def _change(self, ask_id: int, **values: datetime) -> None:
        self.connection.execute(
            update(video_ask)
            .where(video_ask.c.coach_id == self.coach_id, video_ask.c.id == ask_id)
            .values(**values)
        )

    def waiting(self) -> list[VideoAsk]:
        """Return all that is waited for, oldest first."""
        return [VideoAsk(*row) for row in self.connection.execute(_WAITING, {"coach_id": self.coach_id})]

    @read_once
    def of_client(self, client_id: int) -> Mapping[str, VideoAsk]:
        """Return what is waited for of a client, by exercise."""
        if holds_nothing(self, video_ask, client_id):
            return {}
        asked = {"coach_id": self.coach_id, "client_id": client_id}
        found = [VideoAsk(*row) for row in self.connection.execute(_OF_CLIENT, asked)]
        return {each.exercise: each for each in found}
