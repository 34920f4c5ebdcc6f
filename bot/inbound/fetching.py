"""The platform's client, with one call more: updates as they come, unread."""

import os
from typing import Any

from telegram.ext import ExtBot

# The library warns whenever the platform asks for a pause, unless we say that we know what is coming: intervals as
# timedelta. This is its own switch, and it is read at each use.
os.environ.setdefault("PTB_TIMEDELTA", "true")


class FetchingBot(ExtBot[None]):
    """Fetches raw updates: the library reads a batch as a whole, so that one odd update would lose all of it."""

    def __repr__(self) -> str:
        """Name the kind alone: the library's own picture of a bot shows its token."""
        return type(self).__name__

    async def raw_updates(self, asked: dict[str, Any], *, read_timeout: float) -> Any:
        """Return what the platform answers to `getUpdates`, as JSON values.

        Args:
            asked: Parameters of the method.
            read_timeout: How long to wait for the answer; over the method's own time-out. [s]

        Raises:
            telegram.error.TelegramError: The call failed.
        """
        return await self._post("getUpdates", asked, read_timeout=read_timeout)
