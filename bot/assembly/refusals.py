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


class PortTaken(Exception):
    """Nothing can listen where the monitoring was to be.

    Attributes:
        port: Where.
    """

    def __init__(self, port: int) -> None:
        super().__init__(port)
        self.port = port

    def __str__(self) -> str:
        return (
            f"Port {self.port} cannot be listened on: another program may hold it. Set PLIMSOLL_MONITORING_PORT to a "
            "free one, and PLIMSOLL_MONITORING_ADDRESS to an address of this machine."
        )


REFUSALS: tuple[type[Exception], ...] = (TokenRefused, AlreadyRunning, NewerSchema, PortTaken)
