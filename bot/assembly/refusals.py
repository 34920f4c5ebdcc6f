"""Reasons not to start, or to stop: each says what to do."""

from telegram.error import Forbidden, InvalidToken

from bot.store.engine import AlreadyRunning
from bot.store.migrate import NewerSchema


class TokenRefused(Exception):
    """The platform refused the token."""

    def __str__(self) -> str:
        return "The platform refused the token. Set PLIMSOLL_TOKEN to the token of your bot and start again."

    @staticmethod
    def causes() -> tuple[type[Exception], ...]:
        """Return what the platform's library raises then."""
        return (InvalidToken, Forbidden)


REFUSALS: tuple[type[Exception], ...] = (TokenRefused, AlreadyRunning, NewerSchema)
