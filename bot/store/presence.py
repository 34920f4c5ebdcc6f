"""Which tables hold nothing of a client, or of her coach at all: asked in one question, for most of them hold nothing.

A card asks some twenty tables about pain, illness, absences, limits, orders and rules. Whoever looks ahead, with
`look`, has those that are empty asked no more in this transaction. Where nobody looked, nothing is known to be empty.
"""

from sqlalchemy import Table, bindparam, exists, select

from bot.store.read_once import memory_of
from bot.store.rows import Rows, not_by
from bot.store.tables import (
    assignment_version,
    away,
    body_report,
    clinician_limit,
    coach_absence,
    cue,
    daily_prep,
    exercise,
    health_answer,
    illness,
    last_load,
    order,
    rule,
    season_entry,
    video_ask,
    week_change,
    week_note,
)

_OF_CLIENT = (
    assignment_version,
    away,
    body_report,
    clinician_limit,
    daily_prep,
    health_answer,
    illness,
    last_load,
    order,
    rule,
    video_ask,
    week_change,
)
"""Looked into for rows of the client."""
_OF_COACH = (coach_absence, cue, exercise, rule, season_entry, week_note)
"""Looked into for rows of the coach, whoever they are about."""

_HERS = tuple(
    exists()
    .where(table.c.client_id == bindparam("client_id"), not_by(table.c.coach_id) == bindparam("coach_id"))
    .label(f"{table.name}_of_client")
    for table in _OF_CLIENT
)
_ANY = tuple(
    exists().where(table.c.coach_id == bindparam("coach_id")).label(f"{table.name}_of_coach")
    for table in _OF_COACH
)
_LOOK = select(*_HERS, *_ANY)
_ASKED: tuple[tuple[Table, bool], ...] = (
    *((table, True) for table in _OF_CLIENT),
    *((table, False) for table in _OF_COACH),
)


class Presence(Rows):
    """What is known to be empty, in one transaction."""

    def look(self, client_id: int) -> None:
        """Look which tables hold nothing of a client of this coach, and nothing of the coach."""
        memory = memory_of(self.connection)
        if memory is None:
            return
        asked = {"client_id": client_id, "coach_id": self.coach_id}
        found = self.connection.execute(_LOOK, asked).one()
        for (table, of_client), is_there in zip(_ASKED, found, strict=True):
            if not is_there:
                memory.note_empty(table.name, (self.coach_id, client_id if of_client else None))


def holds_nothing(rows: Rows, table: Table, client_id: int | None = None) -> bool:
    """Return whether a table is known to hold nothing of a client; with None, nothing of the coach at all."""
    memory = memory_of(rows.connection)
    return memory is not None and memory.is_empty(table.name, (rows.coach_id, client_id))
