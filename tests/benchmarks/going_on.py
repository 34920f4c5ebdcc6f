"""A clock that goes on from a date. Apart, so that a program that is measured loads nothing else of the tests."""

from datetime import datetime

from bot.clock import WallClock


class GoingOn(WallClock):
    """The machine's clock, moved so that at `since` it said `start`; `since` is now unless it is given."""

    def __init__(self, start: datetime, since: datetime | None = None) -> None:
        self.since = since or super().now()
        self._by = start - self.since

    def now(self) -> datetime:
        return super().now() + self._by
