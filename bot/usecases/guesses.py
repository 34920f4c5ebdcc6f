"""Codes of invitations that were wrong, counted, so that nobody tries many.

A code is twenty letters of chance, which no guessing finds; what is counted is kept in the memory of the process alone.
"""

from datetime import datetime, timedelta

WITHIN = timedelta(hours=1)
"""How long a wrong code counts. Our proposal."""
MOST_EACH = 5
"""Most wrong codes of one account in that time; then none of hers is looked up. Our proposal."""
MOST_ALL = 200
"""Most wrong codes of everybody together in that time; then nobody's is looked up. Our proposal."""


class Guesses:
    """Wrong codes of the last hour."""

    def __init__(self) -> None:
        self._wrong: list[tuple[datetime, int]] = []

    def may_try(self, user_id: int, now: datetime) -> bool:
        """Return whether a code of an account is looked up now."""
        # A clock that is set back must not keep what counts for longer.
        self._wrong = [each for each in self._wrong if now - WITHIN < each[0] <= now]
        hers = sum(1 for _, who in self._wrong if who == user_id)
        return hers < MOST_EACH and len(self._wrong) < MOST_ALL

    def was_wrong(self, user_id: int, now: datetime) -> None:
        """Count a code that opens nothing."""
        self._wrong.append((now, user_id))
