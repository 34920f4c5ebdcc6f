"""What an exercise is: pattern, kit, sides, how its load is counted, what it loads."""

from decimal import Decimal
from enum import StrEnum
from typing import Annotated, ClassVar

from pydantic import PlainSerializer

from core.programme.muscles import Muscles
from core.programme.restrictions import Restrictions
from core.value import Grown


class Pattern(StrEnum):
    """A movement pattern; pain and spacing are reasoned about by pattern."""

    SQUAT = "squat"
    LUNGE = "lunge"
    STEP = "step"
    HINGE = "hinge"
    BRIDGE = "bridge"
    KNEE_EXTENSION = "knee extension"
    KNEE_FLEXION = "knee flexion"
    HIP_ABDUCTION = "hip abduction"
    HIP_ADDUCTION = "hip adduction"
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


class Station(StrEnum):
    """What an exercise needs besides what is lifted."""

    BENCH = "bench"
    """A flat bench, or a seat as firm."""
    INCLINE_BENCH = "incline bench"
    """A bench whose back can be set."""
    BACK_BENCH = "back extension bench"
    RACK = "rack"
    PULL_UP_BAR = "pull-up bar"
    LOW_BAR = "low bar"
    """A bar at the height of the hips, or straps that hang from above."""
    DIP_BARS = "dip bars"
    CABLE = "cable"
    MACHINE = "its machine"
    STEP = "step"
    """A step, a stair or a box."""
    ANCHOR = "anchor"
    """Something firm that a band is fixed to, or that holds the feet."""
    TRAP_BAR = "trap bar"
    WHEEL = "roller wheel"
    SLIDERS = "sliders"
    """Sliding discs, or a cloth on a smooth floor."""
    ROOM = "room to walk"


class SpinalLoad(StrEnum):
    """How much of the load the spine has to bear. The classes are our proposal."""

    NONE = "none"
    """The weight of the body at most, lying, sitting supported or upright."""
    SOME = "some"
    """A load in the hands, over the head or at the end of a lever that the back holds still."""
    HIGH = "high"
    """A bar on the shoulders, or a heavy pull from bent hips."""


class Level(StrEnum):
    """From when on an exercise is usual."""

    FIRST_MONTH = "first month"
    TRAINED = "trained"
    """After some months: it needs strength, skill or tissue that is used to it."""


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

Stations = Annotated[frozenset[Station], PlainSerializer(sorted, return_type=list[Station])]
"""A set of stations; written in order, as sites are."""


class Exercise(Grown):
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
        by_distance: True when a set may be counted in metres too.
        loads_sites: Sites that the exercise loads.
        needs_safeties: True when failing under it alone is dangerous.
        main_lift: True when it usually carries a block.
        body_share: Share of bodyweight that moves with it, for bodyweight lifts. [0..1]
        equals: Keys of exercises that serve in other kit, nearest first; what asks for training comes last.
        cue: One cue in our own words.
        direct: Muscles that a set counts for as one; none where a coach did not say.
        indirect: Muscles that a set counts for as a half.
        needs: What it needs besides the implement.
        spinal_load: What the spine bears; some where nobody said.
        level: From when on it is usual; what a coach adds is hers to judge.
        step_kg: Usual step up, counted as the load is; None where none is counted. [kg]
        breaks: Restrictions that forbid it.
        link: Address of a film of it; none for ours.
        retired: True when its coach has taken it out: the log still finds it by its key, and no name does.
    """

    later: ClassVar[frozenset[str]] = frozenset({"link", "retired"})

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
    by_distance: bool = False
    direct: Muscles = frozenset()
    indirect: Muscles = frozenset()
    needs: Stations = frozenset()
    spinal_load: SpinalLoad = SpinalLoad.SOME
    level: Level = Level.FIRST_MONTH
    step_kg: Decimal | None = None
    breaks: Restrictions = frozenset()
    link: str | None = None
    retired: bool = False
