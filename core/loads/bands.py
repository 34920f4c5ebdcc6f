"""Bands, by the names that their owner gives them, the lightest first.

No load is ever reckoned of a band: what it pulls depends on how far it is stretched, on its age and on who made it. A
step is another band. Common practice, no source.
"""

from core.loads.kit import Kit
from core.programme.exercises import Exercise, Implement, Station

_HUNG_ON = frozenset({Station.PULL_UP_BAR, Station.DIP_BARS})


def assists(exercise: Exercise) -> bool:
    """Return whether a band takes load off here: the whole body hangs in it, so that a stronger one is easier."""
    return exercise.implement is Implement.BAND and bool(exercise.needs & _HUNG_ON)


def harder_band(name: str, exercise: Exercise, kit: Kit) -> str | None:
    """Return the next band up in difficulty; None at the end of the bands, and for one that the kit does not have."""
    return _beside(name, kit, -1 if assists(exercise) else 1)


def easier_band(name: str, exercise: Exercise, kit: Kit) -> str | None:
    """Return the next band down in difficulty; None at the end of the bands, and for one that the kit does not have."""
    return _beside(name, kit, 1 if assists(exercise) else -1)


def _beside(name: str, kit: Kit, step: int) -> str | None:
    bands = [band.strip().casefold() for band in kit.bands]
    wanted = name.strip().casefold()
    if wanted not in bands:
        return None
    place = bands.index(wanted) + step
    return kit.bands[place] if 0 <= place < len(bands) else None
