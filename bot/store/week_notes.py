"""A coach's notes on weeks of her blocks: words, or a voice message with them."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import insert, select, update

from bot.store.presence import holds_nothing
from bot.store.rows import Rows, one, rows_of
from bot.store.tables import block_version, week_note


@dataclass(frozen=True, slots=True)
class WeekNote:
    """A note.

    Attributes:
        id: Its row.
        block_id: Block it is about, whatever its version.
        week_no: Week of the block, from 1.
        text: Words, 0-1000.
        media_kind: "voice" and the like; None for words alone.
        file_id: The platform's id of the file.
        voided_at: When it was taken back; None while it stands.
    """

    id: int
    block_id: int
    week_no: int
    text: str
    media_kind: str | None
    file_id: str | None
    voided_at: datetime | None


class WeekNotes(Rows):
    """Notes of one coach on weeks of her blocks; the newest of a week stands."""

    def keep(
        self,
        block_id: int,
        week_no: int,
        text: str,
        now: datetime,
        *,
        media_kind: str | None = None,
        file_id: str | None = None,
    ) -> int:
        """Keep a note in place of the one before of that week, and return its row."""
        standing = self.standing(block_id, week_no)
        if standing is not None:
            self.void(standing.id, now)
        made = self.connection.execute(
            insert(week_note)
            .values(
                coach_id=self.coach_id,
                block_id=block_id,
                week_no=week_no,
                text=text,
                media_kind=media_kind,
                file_id=file_id,
                at=now,
            )
            .returning(week_note.c.id)
        )
        return int(made.scalar_one())

    def void(self, note_id: int, now: datetime) -> None:
        """Take a note back."""
        self._set(note_id, now)

    def again(self, note_id: int) -> None:
        """Have a note that was replaced stand again."""
        self._set(note_id, None)

    def _set(self, note_id: int, voided_at: datetime | None) -> None:
        self.connection.execute(
            update(week_note)
            .where(week_note.c.coach_id == self.coach_id, week_note.c.id == note_id)
            .values(voided_at=voided_at)
        )

    def get(self, note_id: int) -> WeekNote | None:
        """Return a note; None when it is not this coach's."""
        query = rows_of(WeekNote, week_note).where(
            week_note.c.id == note_id, week_note.c.coach_id == self.coach_id
        )
        return one(WeekNote, self.connection.execute(query).first())

    def standing(self, block_id: int, week_no: int) -> WeekNote | None:
        """Return the note that stands on a week of a block."""
        query = rows_of(WeekNote, week_note).where(
            week_note.c.coach_id == self.coach_id,
            week_note.c.block_id == block_id,
            week_note.c.week_no == week_no,
            week_note.c.voided_at.is_(None),
        )
        return one(WeekNote, self.connection.execute(query).first())

    def are_none(self) -> bool:
        """Return whether there are known to be none, and were none."""
        return holds_nothing(self, week_note)

    def on_card(self, version_id: int, week_no: int) -> WeekNote | None:
        """Return the note that stands on a week of the block that a version belongs to."""
        block_id = self.block_of(version_id)
        return None if block_id is None else self.standing(block_id, week_no)

    def block_of(self, version_id: int) -> int | None:
        """Return the block that a version belongs to; None when it is not this coach's."""
        query = select(block_version.c.block_id).where(
            block_version.c.coach_id == self.coach_id, block_version.c.id == version_id
        )
        found: int | None = self.connection.execute(query).scalar()
        return found
