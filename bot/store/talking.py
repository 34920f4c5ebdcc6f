"""What a coach says to several: phrases, notes on weeks, absences, videos she asks for; and what was told once."""

from datetime import datetime
from functools import cached_property

from sqlalchemy import select

from bot.store.coach_absences import CoachAbsences
from bot.store.outbox import adding
from bot.store.phrases import Phrases
from bot.store.rows import Rows
from bot.store.tables import told
from bot.store.video_asks import VideoAsks
from bot.store.week_notes import WeekNotes


class Talking(Rows):
    """Rows of one coach about what she says."""

    @cached_property
    def phrases(self) -> Phrases:
        """Phrases that she has saved."""
        return Phrases(self.connection, self.coach_id)

    @cached_property
    def week_notes(self) -> WeekNotes:
        """Notes on weeks of her blocks."""
        return WeekNotes(self.connection, self.coach_id)

    @cached_property
    def absences(self) -> CoachAbsences:
        """When she is away."""
        return CoachAbsences(self.connection, self.coach_id)

    @cached_property
    def video_asks(self) -> VideoAsks:
        """Videos that she asks for."""
        return VideoAsks(self.connection, self.coach_id)

    def tell_once(self, client_id: int, what: str, now: datetime) -> bool:
        """Note that a client is told of a matter; False when she was before."""
        row = {"coach_id": self.coach_id, "client_id": client_id, "what": what, "at": now}
        query = adding(self.connection, told).values(row)
        query = query.on_conflict_do_nothing(index_elements=["client_id", "what"]).returning(told.c.id)
        return self.connection.execute(query).scalar() is not None

    def was_told(self, client_id: int, what: str) -> bool:
        """Return whether a client was told of a matter."""
        query = select(told.c.id).where(
            told.c.coach_id == self.coach_id, told.c.client_id == client_id, told.c.what == what
        )
        return self.connection.execute(query.limit(1)).first() is not None
