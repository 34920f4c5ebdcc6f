"""Which sessions a simulated client comes to: single misses, and now and then some weeks away."""

from collections.abc import Iterable
from enum import StrEnum

from core.oversight.chance import Chance, happens, whole

AWAY = 0.015
"""Share of weeks in which somebody goes away. Invented for the rehearsal."""
AWAY_WEEKS = (2, 4)
"""How long that is. [weeks] Invented for the rehearsal."""


class Attendance(StrEnum):
    """What became of a session that was due."""

    KEPT = "kept"
    MISSED = "missed"
    AWAY = "away"


def attended(
    chance: Chance, weeks: Iterable[int], misses: float, away: float = AWAY
) -> tuple[Attendance, ...]:
    """Return what becomes of each session.

    The same numbers are drawn whatever the shares are: at greater ones, nobody comes to a session more.

    Args:
        chance: A stream of its own.
        weeks: Week of each session, in order. [1..]
        misses: Share of sessions missed. [0..1]
        away: Share of weeks in which somebody goes away. [0..1]
    """
    found = []
    week, back = 0, 1
    for number in weeks:
        if number != week:
            week = number
            goes, length = happens(chance, away), whole(chance, *AWAY_WEEKS)
            back = max(back, week + length) if goes else back
        missed = happens(chance, misses)
        found.append(Attendance.AWAY if week < back else Attendance.MISSED if missed else Attendance.KEPT)
    return tuple(found)
