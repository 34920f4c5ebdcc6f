"""What of a block a client does otherwise than it is written: kept beside her assignment."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select, update

from bot.store.rows import Rows, given
from bot.store.tables import assignment


@dataclass(frozen=True, slots=True)
class Placed:
    """What stands in for an exercise.

    Attributes:
        instead: Key of the exercise; the written one where it is kept, None where it is left out.
        why: What stands against the written one, weightiest first, by the codes of `core.loads.substitutes`.
        chosen: True where the coach chose.
    """

    instead: str | None
    why: tuple[str, ...] = ()
    chosen: bool = False


_CHANGES = select(assignment.c.changes).where(given(assignment.c.coach_id), given(assignment.c.id))


class Placements(Rows):
    """What was shown and chosen when a client was put on a block."""

    def keep(self, assignment_id: int, changes: Mapping[str, Placed]) -> None:
        """Keep what becomes of exercises, by the key of the written one."""
        value = {
            key: {"instead": one.instead, "why": list(one.why), "chosen": one.chosen}
            for key, one in changes.items()
        }
        self.connection.execute(
            update(assignment)
            .where(assignment.c.coach_id == self.coach_id, assignment.c.id == assignment_id)
            .values(changes=value)
        )

    def of(self, assignment_id: int) -> dict[str, Placed] | None:
        """Return what becomes of exercises; None where nobody was shown any, as before there were such changes."""
        asked = {"coach_id": self.coach_id, "id": assignment_id}
        value = self.connection.execute(_CHANGES, asked).scalar()
        return None if value is None else _read(value)

    def standing(self) -> dict[int, dict[str, Placed]]:
        """Return what becomes of exercises in every block that has not ended, by assignment."""
        query = select(assignment.c.id, assignment.c.changes).where(
            assignment.c.coach_id == self.coach_id,
            assignment.c.ended_at.is_(None),
            assignment.c.changes.is_not(None),
        )
        return {row.id: _read(row.changes) for row in self.connection.execute(query) if row.changes}


def _read(value: Mapping[str, Any]) -> dict[str, Placed]:
    return {
        key: Placed(instead=one["instead"], why=tuple(one["why"]), chosen=one["chosen"])
        for key, one in value.items()
    }
