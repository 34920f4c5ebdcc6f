"""What the running program leaves behind for whoever looks after it: a small file, no row.

It must be cheap, and readable when the database is not. It lies beside the database on SQLite, and in the folder the
program was started from otherwise.
"""

import json
import logging
import os
from datetime import UTC, datetime
from enum import StrEnum
from pathlib import Path

from bot.store.backup import NotBackedUp, database_file

log = logging.getLogger(__name__)


class Mark(StrEnum):
    """What is marked with its instant."""

    STARTED = "started"
    FETCHED = "fetched"
    """The platform answered a fetch."""
    COACHES_TOLD = "coaches_told"
    """Coaches were told that the program stops."""
    BACKUP_FAILED = "backup_failed"


class Heartbeat:
    """The file and its marks. A mark that cannot be kept is logged once, and is no reason to stop."""

    def __init__(self, url: str) -> None:
        try:
            database = database_file(url)
            self.path = database.with_name(f"{database.name}.heartbeat")
        except NotBackedUp:
            self.path = Path("plimsoll.heartbeat")
        self._failed = False

    def at(self, mark: Mark) -> datetime | None:
        """Return when something last happened; None for never, and when the file cannot be read."""
        try:
            kept = datetime.fromisoformat(self._marks()[mark])
        except (KeyError, TypeError, ValueError):
            return None
        return kept if kept.tzinfo is not None else None

    def set(self, mark: Mark, at: datetime | None) -> None:
        """Keep when something happened; None forgets it."""
        marks = {name: when for name, when in self._marks().items() if name in set(Mark)}
        marks.pop(mark, None)
        if at is not None:
            marks[mark] = at.astimezone(UTC).isoformat(timespec="seconds")
        partial = self.path.with_name(f"{self.path.name}.{os.getpid()}")
        try:
            partial.write_text(json.dumps(marks) + "\n", encoding="ascii")
            partial.replace(self.path)
        except OSError:
            if not self._failed:
                log.warning("heartbeat_not_kept")
            self._failed = True

    def _marks(self) -> dict[str, str]:
        try:
            found = json.loads(self.path.read_text(encoding="ascii"))
        except (OSError, ValueError):
            return {}
        return found if isinstance(found, dict) else {}
