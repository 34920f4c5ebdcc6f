"""Places where a client trains, as far as they matter to loads: a machine at another place is another exercise."""

from collections.abc import Sequence

from bot.store.units import Unit
from core.checkin.training_log import Item, Session
from core.programme.exercises import Exercise, Implement

ELSEWHERE = "elsewhere"
"""A place that is no place of hers: a hotel, another gym. It is another one each time."""


def is_of_a_place(exercise: Exercise) -> bool:
    """Return whether an exercise is another one at another place: a machine is, with other pins and pulleys."""
    return exercise.implement is Implement.STACK


def usual_place(client_id: int, unit: Unit) -> str | None:
    """Return a client's word for her usual place; None where no kit of it is kept."""
    kit = unit.kits.usual(client_id)
    return None if kit is None else kit.place


def is_usual(place: str | None, usual: str | None) -> bool:
    """Return whether a place is the usual one; it is where nobody has said a place."""
    return place is None or usual is None or place == usual


def done_there(
    past: Sequence[tuple[Session, Item]], place: str | None, usual: str | None
) -> list[tuple[Session, Item]]:
    """Return what was done at a place, of what was done of a machine.

    Args:
        past: Sessions with their items, oldest first. Of one that names no place, it was the usual one.
        place: Where; None for the usual place.
        usual: The usual place; None where it is not known.
    """
    if usual is None:
        return list(past)
    here = place or usual
    return [each for each in past if here != ELSEWHERE and (each[0].place or usual) == here]
