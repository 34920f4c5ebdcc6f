"""What the digest says of the talk itself: that the coach is away, and which videos she asked for have not come."""

from datetime import date

from bot.store.units import Unit
from bot.usecases.coach_away import digest_line
from bot.usecases.video_asked import waiting_words


def texts_of_talk(unit: Unit, on: date) -> tuple[str, ...]:
    """Return one more message of the digest, or none.

    Args:
        unit: Open transaction.
        on: Last date of its week.
    """
    parts = [each for each in (digest_line(unit, on), waiting_words(unit)) if each]
    return ("\n\n".join(parts),) if parts else ()
