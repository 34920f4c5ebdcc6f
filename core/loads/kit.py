"""What there is to lift at one place, as its owner says it. What can be made of it is `core.loads.equipment`."""

from collections.abc import Iterable
from typing import ClassVar

from pydantic import Field, model_validator

from core.units import Mass, Unit
from core.value import Grown, Value

MOST_STEPS = 200
"""Most steps of a run or a stack. Our proposal: over any that there is; it catches a step written too small."""


class Plates(Value):
    """Plates of one mass; `pairs` None when there are plenty."""

    mass: Mass
    pairs: int | None = None


class Bar(Value):
    """A bar beside the usual one.

    Attributes:
        name: As its owner calls it: "light bar", "trap bar".
        mass: Empty, without collars.
        exercises: Keys of the exercises that it is for; none where it serves as the usual bar does.
    """

    name: str
    mass: Mass
    exercises: tuple[str, ...] = ()


class Run(Value):
    """Masses at even steps: a rack of dumbbells, or a dumbbell whose mass is dialled.

    Attributes:
        first: The lightest.
        last: The heaviest; what does not lie on a step is not there.
        step: From one to the next, in the same unit.
    """

    first: Mass
    last: Mass
    step: Mass

    @model_validator(mode="after")
    def _rises(self) -> "Run":
        _check_steps(self.first, self.step, self.last)
        return self

    @property
    def masses(self) -> tuple[Mass, ...]:
        """Each mass, rising."""
        count = int((self.last.value - self.first.value) // self.step.value)
        return tuple(self.first + self.step * place for place in range(count + 1))


class Handles(Value):
    """Dumbbell handles that discs are put on, the same at both ends.

    Attributes:
        mass: Of one handle with what holds its discs.
        count: How many handles there are.
        plates: Discs that fit; none where they are those of the bar. A pair loads both ends of one handle, so that two
            dumbbells alike need two.
        most: Most that one dumbbell is made up to; None where nobody said.
    """

    mass: Mass
    count: int = Field(default=2, ge=1)
    plates: tuple[Plates, ...] = ()
    most: Mass | None = None


class Stack(Value):
    """A machine's stack, as its pins are marked.

    Attributes:
        start: With the pin at the top.
        step: From pin to pin.
        top: With the pin at the bottom.
        adds: Small masses that can be laid on top, each once.
        exercises: Keys of the exercises that it is for; none where it serves every other.
    """

    start: Mass
    step: Mass
    top: Mass
    adds: tuple[Mass, ...] = ()
    exercises: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _rises(self) -> "Stack":
        _check_steps(self.start, self.step, self.top)
        if any(one.value <= 0 for one in self.adds):
            raise ValueError("what is laid on a stack has a mass")
        return self

    @property
    def pins(self) -> tuple[Mass, ...]:
        """The mass at each pin, rising."""
        return Run(first=self.start, last=self.top, step=self.step).masses


def _check_steps(first: Mass, step: Mass, last: Mass) -> None:
    if not first.unit is step.unit is last.unit:
        raise ValueError("steps are marked in one unit")
    if first.value <= 0 or step.value <= 0 or last.value < first.value:
        raise ValueError("steps rise from a mass to one that is no lighter")
    if (last.value - first.value) / step.value >= MOST_STEPS:
        raise ValueError(f"there are at most {MOST_STEPS} steps")


class Kit(Grown):
    """What there is to lift at one place.

    Attributes:
        place: The client's word for it: "gym", "home".
        unit: Unit its plates and dumbbells are marked in.
        bar: The empty bar; None where there is none.
        plates: For the bar.
        dumbbells: Each mass there is a pair of (a hand).
        kettlebells: Each mass there is; two alike where an exercise takes two.
        stack_step: Step of machine stacks that nobody has described; None where there are none.
        bodyweight_step: Smallest mass that can be added to a bodyweight lift (belt, vest, held dumbbell); None for
            none.
        safety_arms: True where a failed lift lands on safeties.
        usually_alone: True when nobody is there to help.
        bars: Other bars.
        collars: Both collars together, on the bar whenever a disc is; None where they weigh next to nothing.
        dumbbell_runs: Pairs of dumbbells at even steps.
        lone_dumbbells: Each mass there is only one dumbbell of.
        handles: Dumbbells that are made up from discs.
        lone_kettlebells: Each mass there is only one kettlebell of.
        stacks: Machines whose pins are known.
        assistance: The machine that takes mass off a hanging body, as its pins are marked.
        bands: Names of the bands, the lightest first, as their owner calls them, in lower case.
        added: Each mass that can be added to a bodyweight lift: vests, sandbags.
        belt: True where discs hang from a belt, one by one.
        full_size: Discs as high as the heaviest, so that a bar lies where it does in a heavy pull; none where nobody
            said, and the mass tells.
    """

    later: ClassVar[frozenset[str]] = frozenset(
        {
            "bars",
            "collars",
            "dumbbell_runs",
            "lone_dumbbells",
            "handles",
            "lone_kettlebells",
            "stacks",
            "assistance",
            "bands",
            "added",
            "belt",
            "full_size",
        }
    )

    place: str
    unit: Unit
    bar: Mass | None = None
    plates: tuple[Plates, ...] = ()
    dumbbells: tuple[Mass, ...] = ()
    kettlebells: tuple[Mass, ...] = ()
    stack_step: Mass | None = None
    bodyweight_step: Mass | None = None
    safety_arms: bool = False
    usually_alone: bool = True
    bars: tuple[Bar, ...] = ()
    collars: Mass | None = None
    dumbbell_runs: tuple[Run, ...] = ()
    lone_dumbbells: tuple[Mass, ...] = ()
    handles: Handles | None = None
    lone_kettlebells: tuple[Mass, ...] = ()
    stacks: tuple[Stack, ...] = ()
    assistance: Stack | None = None
    bands: tuple[str, ...] = ()
    added: tuple[Mass, ...] = ()
    belt: bool = False
    full_size: tuple[Mass, ...] = ()


class Stray(Value):
    """Masses of a kit that are marked in another unit than it is said to be.

    Attributes:
        part: Which field of the kit.
        masses: As marked.
    """

    part: str
    masses: tuple[Mass, ...]


def strays(kit: Kit) -> tuple[Stray, ...]:
    """Return what of a kit is marked in another unit than the kit, by part; to ask once whether that is meant.

    Nothing is wrong with a bar of 45 lb among kilograms, as long as nobody takes it for 20 kg.
    """
    found = ((part, _masses_in(getattr(kit, part))) for part in Kit.model_fields)
    odd = ((part, tuple(one for one in masses if one.unit is not kit.unit)) for part, masses in found)
    return tuple(Stray(part=part, masses=masses) for part, masses in odd if masses)


def _masses_in(part: object) -> tuple[Mass, ...]:
    """Return every mass in a part of a kit."""
    if isinstance(part, Mass):
        return (part,)
    if isinstance(part, tuple):
        return tuple(mass for one in part for mass in _masses_in(one))
    if isinstance(part, Value):
        return tuple(mass for name in type(part).model_fields for mass in _masses_in(getattr(part, name)))
    return ()


def kit_at(place: str, kits: Iterable[Kit]) -> Kit | None:
    """Return the kit of a place, however its name is cased; None where nobody has said what is there."""
    wanted = place.strip().casefold()
    return next((kit for kit in kits if kit.place.strip().casefold() == wanted), None)
