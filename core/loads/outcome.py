"""What is decided: load, sets, one target, and why."""

from enum import StrEnum
from typing import ClassVar

from pydantic import Field

from core.programme.prescription import Load
from core.units import Mass
from core.value import Grown, Value

RULES_VERSION = "2026.5"


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


class PlannedSet(Value):
    """One set of a plan with its own load.

    Attributes:
        load: What to put on.
        reps: How many; where it goes to the limit, about so many.
        to_limit: True where it is as many as can be done well.
    """

    load: Load
    reps: int
    to_limit: bool = False


class LastSet(Value):
    """What the last set of a plan is loaded with, by the reps of the set before it.

    Attributes:
        reps_from: So many reps or more of the set before, up to the next row.
        load: What to put on.
    """

    reps_from: int
    load: Load


class SetPlan(Value):
    """Four sets with loads of their own: three known beforehand, the last by what the third one gave.

    Attributes:
        table: Name of the table.
        sets: The first three.
        last: The fourth, to the limit too, by rising reps of the third; each load once, the first from 0 reps.
    """

    table: str
    sets: tuple[PlannedSet, ...]
    last: tuple[LastSet, ...]

    def fourth(self, reps: int) -> Load:
        """Return what the fourth set is loaded with after so many reps in the third. [reps >= 0]"""
        return next(one.load for one in reversed(self.last) if one.reps_from <= reps)


class Decision(Grown):
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
        plan: The sets with loads of their own, where a table has them; `load` is then the full load.
    """

    later: ClassVar[frozenset[str]] = frozenset({"plan"})

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
    plan: SetPlan | None = None
