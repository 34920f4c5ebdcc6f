"""What is decided: load, sets, one target, and why."""

from enum import StrEnum

from pydantic import Field

from core.programme.prescription import Load
from core.units import Mass
from core.value import Value

RULES_VERSION = "2026.2"


class Kind(StrEnum):
    """What was decided."""

    START = "start"
    RAISE = "raise"
    HOLD = "hold"
    LOWER = "lower"
    SWAP = "swap"
    PAUSE = "pause"


class Reason(Value):
    """One reason: a code with facts, and the published source where there is one.

    `bot.render.reasons` has the words, for the client and for the coach.
    """

    code: str
    facts: dict[str, str] = Field(default_factory=dict)
    source: str | None = None


class Ceiling(Value):
    """One ceiling on today's load; `mass` None when it forbids any load."""

    reason: Reason
    mass: Mass | None


class LoadLine(Value):
    """The most that may be given today: the lowest ceiling, with every other beside it.

    Attributes:
        mass: The lowest ceiling; None when there is nothing to raise (no load, or paused).
        ceilings: In order of authority.
    """

    mass: Mass | None
    ceilings: tuple[Ceiling, ...] = ()


class Decision(Value):
    """What a client is given for one exercise.

    Attributes:
        kind: Raise, hold, lower, swap, pause, or start (no history).
        load: What to put on; None when paused or the exercise has no load.
        sets: Working sets.
        target: One number of reps (or seconds) inside the range.
        left: Reps left asked for.
        line: The load line.
        reasons: In order of authority; the first is the one to tell. Never empty.
        used: Rows of logged sets it rests on.
        pain_used: Rows of body reports it rests on.
        rules: Version of the rules.
        bridge: True when reps are past the long range and the step is still too big: first set heavier,
            slow lowering, or a harder variant.
    """

    kind: Kind
    load: Load | None
    sets: int
    target: int
    left: int | None
    line: LoadLine
    reasons: tuple[Reason, ...] = Field(min_length=1)
    used: tuple[int, ...] = ()
    pain_used: tuple[int, ...] = ()
    rules: str = RULES_VERSION
    bridge: bool = False
