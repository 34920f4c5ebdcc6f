"""Muscle groups, as the trade counts sets a week."""

from enum import StrEnum
from typing import Annotated

from pydantic import PlainSerializer


class Muscle(StrEnum):
    """A muscle group that sets are counted for. The grouping is common practice, no source."""

    CHEST = "chest"
    FRONT_DELTS = "front delts"
    SIDE_DELTS = "side delts"
    REAR_DELTS = "rear delts"
    TRICEPS = "triceps"
    BICEPS = "biceps"
    """With the brachialis: what bends the elbow."""
    FOREARMS = "forearms"
    """What moves the wrist and closes the hand, and the brachioradialis."""
    LATS = "lats"
    """With the teres major."""
    UPPER_BACK = "upper back"
    """Trapezius and rhomboids."""
    SPINAL_ERECTORS = "spinal erectors"
    ABDOMINALS = "abdominals"
    OBLIQUES = "obliques"
    """With the quadratus lumborum: what bends the trunk sideways and turns it, or keeps it from that."""
    GLUTES = "glutes"
    """The gluteus maximus."""
    HAMSTRINGS = "hamstrings"
    QUADS = "quads"
    ADDUCTORS = "adductors"
    ABDUCTORS = "abductors"
    """Gluteus medius and minimus, and the tensor of the fascia lata."""
    CALVES = "calves"


Muscles = Annotated[frozenset[Muscle], PlainSerializer(sorted, return_type=list[Muscle])]
"""A set of muscles; written in order, because a set's own order changes from run to run."""
