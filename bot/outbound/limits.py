"""How fast messages may go, on given instants: nothing here looks at a clock."""

from datetime import datetime, timedelta

PER_CHAT = timedelta(seconds=1)
"""The platform's advice for one chat: a message a second, short bursts tolerated."""

CHAT_BURST = 3
CEILING = 30.0
"""Messages a second that the platform lets a bot send overall."""

OVERALL_BURST = 5


class Bucket:
    """Lets a burst through and then one in each interval.

    In any stretch of time of length t it lets `burst + t / interval` through at most.
    """

    def __init__(self, interval: timedelta, burst: int) -> None:
        self._interval = interval
        self._slack = interval * (burst - 1)
        self._full_at: datetime | None = None
        """When everything that was let through will have been paid off."""

    def ready_at(self, now: datetime) -> datetime:
        """Return the earliest instant, not before now, at which one may pass."""
        return now if self._full_at is None else max(now, self._full_at - self._slack)

    def room(self, now: datetime) -> int:
        """Return how many may pass at once now."""
        owed = timedelta(0) if self._full_at is None else max(self._full_at - now, timedelta(0))
        return max(0, (self._slack - owed) // self._interval + 1)

    def take(self, now: datetime) -> None:
        """Let one pass, allowed or not: what passed too early is paid off by those after it."""
        start = now if self._full_at is None else max(now, self._full_at)
        self._full_at = start + self._interval

    def set_back(self, by: timedelta) -> None:
        """Follow a clock that was set back: what is owed stays owed, and no more."""
        if self._full_at is not None:
            self._full_at -= by

    def is_fresh(self, now: datetime) -> bool:
        """Return whether nothing is owed."""
        return self._full_at is None or self._full_at <= now


class Limits:
    """The pace overall and in each chat.

    Args:
        per_second: Messages a second overall. [0 < x <= 30]
    """

    def __init__(self, per_second: float) -> None:
        if not 0 < per_second <= CEILING:
            raise ValueError(f"the platform takes up to {CEILING:.0f} messages a second")
        burst = max(1, min(OVERALL_BURST, int(CEILING - per_second)))
        self._overall = Bucket(timedelta(seconds=1 / per_second), burst)
        self._chats: dict[int, Bucket] = {}
        self._paused_until: datetime | None = None

    def pause(self, until: datetime) -> None:
        """Let nothing through until then; a pause never gets shorter."""
        self._paused_until = until if self._paused_until is None else max(until, self._paused_until)

    def set_back(self, by: timedelta) -> None:
        """Follow a clock that was set back, so that nobody waits for the time that comes a second time."""
        for bucket in (self._overall, *self._chats.values()):
            bucket.set_back(by)
        if self._paused_until is not None:
            self._paused_until -= by

    def _opens_at(self, now: datetime) -> datetime:
        return now if self._paused_until is None else max(now, self._paused_until)

    def ready_at(self, chat_id: int, now: datetime) -> datetime:
        """Return the earliest instant, not before now, at which a chat may be sent to."""
        opens = max(self._opens_at(now), self._overall.ready_at(now))
        return max(opens, self._chats[chat_id].ready_at(now)) if chat_id in self._chats else opens

    def room(self, now: datetime) -> int:
        """Return how many may be sent at once now, all chats together."""
        return self._overall.room(now) if self._opens_at(now) == now else 0

    def full_chats(self, now: datetime) -> frozenset[int]:
        """Return the chats that must wait."""
        return frozenset(chat for chat, bucket in self._chats.items() if bucket.ready_at(now) > now)

    def next_opening(self, now: datetime) -> datetime | None:
        """Return the next instant at which something that waits for the pace may go; None when nothing does."""
        found = [self._opens_at(now), self._overall.ready_at(now)]
        if max(found) > now:
            return max(found)
        return min((self._chats[chat].ready_at(now) for chat in self.full_chats(now)), default=None)

    def take(self, chat_id: int, now: datetime) -> None:
        """Count a message, allowed or not: safety never waits, and the rest waits for it."""
        self._chats = {chat: bucket for chat, bucket in self._chats.items() if not bucket.is_fresh(now)}
        self._overall.take(now)
        self._chats.setdefault(chat_id, Bucket(PER_CHAT, CHAT_BURST)).take(now)
