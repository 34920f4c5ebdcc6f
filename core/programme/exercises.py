"""What an exercise is: pattern, kit, sides, how its load is counted, what it loads."""

from decimal import Decimal
from enum import StrEnum
from typing import Annotated

from pydantic import PlainSerializer

from core.value import Value


class Pattern(StrEnum):
    """A movement pattern; pain and spacing are reasoned about by pattern."""

    SQUAT = "squat"
    LUNGE = "lunge"
    STEP = "step"
    HINGE = "hinge"
    BRIDGE = "bridge"
    KNEE_EXTENSION = "knee extension"
    KNEE_FLEXION = "knee flexion"
    CALF = "calf"
    HORIZONTAL_PRESS = "horizontal press"
    VERTICAL_PRESS = "vertical press"
    DIP = "dip"
    HORIZONTAL_PULL = "horizontal pull"
    VERTICAL_PULL = "vertical pull"
    CURL = "curl"
    ELBOW_EXTENSION = "elbow extension"
    RAISE = "raise"
    SHRUG = "shrug"
    CARRY = "carry"
    SWING = "swing"
    TRUNK = "trunk"
    JUMP = "jump"


class Region(StrEnum):
    """Half of the body, for caps."""

    UPPER = "upper"
    LOWER = "lower"
    TRUNK = "trunk"


class Basis(StrEnum):
    """How the load of an exercise is written and kept; bases are never mixed."""

    TOTAL = "total"
    PER_HAND = "per hand"
    PER_SIDE = "a side"
    STACK = "stack"
    BODYWEIGHT = "bodyweight"


class Implement(StrEnum):
    """What is lifted."""

    BARBELL = "barbell"
    DUMBBELL = "dumbbell"
    KETTLEBELL = "kettlebell"
    STACK = "machine stack"
    BAND = "band"
    BODYWEIGHT = "bodyweight"


class Site(StrEnum):
    """A place that can hurt or be sore; the short list by region."""

    NECK = "neck"
    SHOULDER = "shoulder"
    ELBOW = "elbow"
    WRIST = "wrist"
    HAND = "hand"
    UPPER_BACK = "upper back"
    LOW_BACK = "low back"
    CHEST = "chest muscle"
    ABDOMEN = "abdomen"
    HIP = "hip"
    GROIN = "groin"
    THIGH = "thigh"
    HAMSTRING = "hamstring"
    KNEE = "knee"
    SHIN = "shin"
    CALF = "calf"
    ANKLE = "ankle"
    FOOT = "foot"
    BUTTOCK = "buttock"
    UPPER_ARM = "upper arm"
    FOREARM = "forearm"


class Side(StrEnum):
    """Left or right."""

    LEFT = "L"
    RIGHT = "R"


Sites = Annotated[frozenset[Site], PlainSerializer(sorted, return_type=list[Site])]
"""A set of sites; written in order, because a set's own order changes from run to run."""


class Exercise(Value):
    """A row of the catalogue.

    Attributes:
        key: Stable identifier, lower case with dashes.
        name: As shown.
        aliases: Other names it is written by; unique over the catalogue.
        pattern: Movement pattern.
        region: Upper, lower or trunk.
        basis: How its load is written.
        implement: What is lifted.
        each_side: True when sets are done a side at a time.
        timed: True when a set is counted in seconds.
        loads_sites: Sites that the exercise loads.
        needs_safeties: True when failing under it alone is dangerous.
        main_lift: True when it usually carries a block.
        body_share: Share of bodyweight that moves with it, for bodyweight lifts. [0..1]
        equals: Keys of exercises that serve in other kit.
        cue: One cue in our own words.
    """

    key: str
    name: str
    aliases: tuple[str, ...] = ()
    pattern: Pattern
    region: Region
    basis: Basis
    implement: Implement
    each_side: bool = False
    timed: bool = False
    loads_sites: Sites = frozenset()
    needs_safeties: bool = False
    main_lift: bool = False
    body_share: Decimal | None = None
    equals: tuple[str, ...] = ()
    cue: str = ""
