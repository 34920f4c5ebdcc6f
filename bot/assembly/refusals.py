"""Reasons not to start, or to stop: each says what to do."""

from telegram.error import Forbidden, InvalidToken

from bot.store.engine import AlreadyRunning
from bot.store.migrate import NewerSchema
from bot.store.neighbours import OthersOlder


class TokenRefused(Exception):
    """The platform refused the token."""

    def __str__(self) -> str:
        return "The platform refused the token. Set PLIMSOLL_TOKEN to the token of your bot and start again."

    @staticmethod
    def causes() -> tuple[type[Exception], ...]:
        """Return what the platform's library raises then."""
        return (InvalidToken, Forbidden)


class DatabaseAway(Exception):
    """The database cannot be reached, or takes nothing just now; it may be back at the next start."""

    def __str__(self) -> str:
        return (
            "The database cannot be reached, or takes nothing just now. See that its server runs, that "
            "PLIMSOLL_DATABASE_URL is its address, and that its disk has room; then start again."
        )


class PortTaken(Exception):
    """Nothing can listen where the monitoring or the webhook was to be.

    Attributes:
        port: Where.
        settings: How the settings of it begin.
    """

    def __init__(self, port: int, settings: str = "PLIMSOLL_MONITORING") -> None:
        super().__init__(port, settings)
        self.port = port
        self.settings = settings

    def __str__(self) -> str:
        return (
            f"Port {self.port} cannot be listened on: another program may hold it. Set {self.settings}_PORT to a "
            f"free one, and {self.settings}_ADDRESS to an address of this machine."
        )


REFUSALS: tuple[type[Exception], ...] = (
    TokenRefused,
    AlreadyRunning,
    NewerSchema,
    OthersOlder,
    PortTaken,
    DatabaseAway,
)
