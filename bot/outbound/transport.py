"""What the sender needs of the way out, and of the store's threads."""

from collections.abc import Callable
from typing import Protocol, TypeVar

from bot.outbound.policy import Outcome
from bot.store.outbox import OutboxRow

T = TypeVar("T")


class Transport(Protocol):
    """Makes one call."""

    async def deliver(self, row: OutboxRow) -> Outcome:
        """Call the platform exactly once, and say what became of it. Never raises."""
        ...


class Write(Protocol):
    """Runs store functions off the event loop."""

    async def __call__(self, work: Callable[[], T], priority: int = ...) -> T:
        """Run `work` and return what it returns."""
        ...
