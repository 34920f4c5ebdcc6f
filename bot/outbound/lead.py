"""Whether this process may send: where several serve one database, one of them leads."""

from typing import Any, Protocol


class Lead(Protocol):
    """Asked before each claim and before each call."""

    def is_safe(self) -> bool:
        """Return whether the process leads, and has heard so lately enough that no other can."""
        ...

    def may_claim(self, connection: Any) -> bool:
        """Return whether the store says so too, asked in the transaction of a claim."""
        ...


class Alone:
    """One process serves: it leads for as long as it runs."""

    def is_safe(self) -> bool:
        """Return that it leads."""
        return True

    def may_claim(self, _: Any) -> bool:
        """Return that nobody says otherwise."""
        return True
