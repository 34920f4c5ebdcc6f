"""What may stand in each cell of a row of `My exercises`: words of lists that are known, yes and no, a step."""

import re
from collections.abc import Mapping
from decimal import Decimal
from enum import StrEnum
from types import MappingProxyType
from typing import Generic, TypeVar

from core.programme.exercises import Basis, Implement, Pattern, Site, Station
from core.programme.grammar import squeezed, typed
from core.programme.muscles import Muscle
from core.programme.problems import Code
from core.programme.sheets import Cell, UnreadError
from core.programme.written_names import WrittenNames
from core.units import Mass, Unit

LONGEST_NAME = 40
"""Longest name of an exercise. [characters] Our proposal: a line of the card takes about 32."""
MOST_STEP_KG = Decimal(50)
"""Greatest usual step. [kg] Our proposal: over that it is a slip."""
_NOT_IN_NAMES = frozenset(',;:<>="|')
"""Marks that a line or a cell of ours parts names by."""
_STEP = re.compile(r"(\d{1,3}(?:[.,]\d{1,3})?) ?(kg|kilos?|lbs?|pounds?)?")
_YES, _NO = frozenset({"yes", "y", "true", "x", "1"}), frozenset({"no", "n", "false", "-", "0"})

T = TypeVar("T", bound=StrEnum)


class Choices(Generic[T]):
    """A list of words that are known, each with the trade's other words for it."""

    def __init__(self, kind: type[T], also: Mapping[T, tuple[str, ...]]) -> None:
        self._kind = kind
        self.names = WrittenNames(
            [one.value for one in kind], {one.value: words for one, words in also.items()}
        )

    def one_in(self, cell: Cell) -> T:
        """Return the one that a cell names."""
        return self._named(typed(cell))

    def some_in(self, cell: Cell) -> frozenset[T]:
        """Return those that a cell names, with commas or semicolons between them."""
        return frozenset(self._named(part) for part in parts_of(typed(cell)))

    def _named(self, text: str) -> T:
        name = self.names.named(text)
        if name is None:
            facts = {"written": text, "known": self.names.known, "suggestions": self.names.near(text)}
            raise UnreadError(Code.OWN_WORD_UNKNOWN, **facts)
        return self._kind(name)


PATTERNS = Choices(
    Pattern,
    {
        Pattern.LUNGE: ("split squat",),
        Pattern.STEP: ("step-up", "step-down"),
        Pattern.HINGE: ("hip hinge", "deadlift"),
        Pattern.BRIDGE: ("hip thrust", "hip bridge"),
        Pattern.KNEE_EXTENSION: ("leg extension",),
        Pattern.KNEE_FLEXION: ("leg curl",),
        Pattern.CALF: ("calf raise",),
        Pattern.HORIZONTAL_PRESS: ("horizontal push", "bench press", "press-up"),
        Pattern.VERTICAL_PRESS: ("vertical push", "overhead press"),
        Pattern.HORIZONTAL_PULL: ("row",),
        Pattern.VERTICAL_PULL: ("pulldown", "pull-up"),
        Pattern.CURL: ("arm curl", "elbow flexion"),
        Pattern.ELBOW_EXTENSION: ("triceps extension",),
        Pattern.RAISE: ("lateral raise", "shoulder raise"),
        Pattern.CARRY: ("loaded carry",),
        Pattern.TRUNK: ("core", "abs"),
        Pattern.JUMP: ("hop", "landing"),
    },
)
BASES = Choices(
    Basis,
    {
        Basis.TOTAL: ("in total", "whole"),
        Basis.PER_HAND: ("a hand", "each hand", "hand"),
        Basis.PER_SIDE: ("per side", "each side"),
        Basis.STACK: ("machine stack", "pin"),
        Basis.BODYWEIGHT: ("body weight", "bw"),
    },
)
IMPLEMENTS = Choices(
    Implement,
    {
        Implement.BARBELL: ("bar",),
        Implement.DUMBBELL: ("DB",),
        Implement.KETTLEBELL: ("KB",),
        Implement.STACK: ("machine", "stack", "weight stack", "cable", "pulley"),
        Implement.BAND: ("resistance band", "loop band"),
        Implement.BODYWEIGHT: ("body weight", "body", "bw", "nothing"),
    },
)
MUSCLES = Choices(
    Muscle,
    {
        Muscle.CHEST: ("pecs", "pectorals"),
        Muscle.FRONT_DELTS: ("front deltoids", "front shoulders"),
        Muscle.SIDE_DELTS: ("side deltoids", "side shoulders"),
        Muscle.REAR_DELTS: ("rear deltoids", "rear shoulders"),
        Muscle.FOREARMS: ("grip",),
        Muscle.LATS: ("latissimus",),
        Muscle.UPPER_BACK: ("traps", "trapezius", "rhomboids"),
        Muscle.SPINAL_ERECTORS: ("erectors", "low back", "lower back"),
        Muscle.ABDOMINALS: ("abs",),
        Muscle.GLUTES: ("gluteus maximus",),
        Muscle.HAMSTRINGS: ("hams",),
        Muscle.QUADS: ("quadriceps",),
        Muscle.ADDUCTORS: ("inner thighs",),
        Muscle.ABDUCTORS: ("hip abductors",),
        Muscle.CALVES: ("calf",),
    },
)
SITES = Choices(
    Site,
    {
        Site.UPPER_BACK: ("mid back",),
        Site.LOW_BACK: ("lower back", "lumbar spine"),
        Site.CHEST: ("chest",),
        Site.ABDOMEN: ("belly", "abdominals"),
        Site.THIGH: ("quads", "front of the thigh"),
        Site.HAMSTRING: ("back of the thigh",),
        Site.BUTTOCK: ("glutes",),
    },
)
STATIONS = Choices(
    Station,
    {
        Station.BENCH: ("flat bench",),
        Station.INCLINE_BENCH: ("adjustable bench",),
        Station.RACK: ("squat rack", "stands"),
        Station.LOW_BAR: ("rings", "straps"),
        Station.CABLE: ("cable machine", "pulley"),
        Station.MACHINE: ("machine", "a machine"),
        Station.STEP: ("box", "stair"),
        Station.WHEEL: ("wheel", "roller"),
        Station.ROOM: ("room", "space to walk"),
    },
)

COUNTED_AS: Mapping[Implement, tuple[Basis, ...]] = MappingProxyType(
    {
        Implement.BARBELL: (Basis.TOTAL, Basis.PER_SIDE),
        Implement.DUMBBELL: (Basis.TOTAL, Basis.PER_HAND),
        Implement.KETTLEBELL: (Basis.TOTAL, Basis.PER_HAND),
        Implement.STACK: (Basis.STACK,),
        Implement.BAND: (Basis.TOTAL,),
        Implement.BODYWEIGHT: (Basis.BODYWEIGHT,),
    }
)
"""How the load of what is lifted can be counted, as our own rows count it."""


def parts_of(text: str) -> list[str]:
    """Return what stands between commas and semicolons."""
    return [part.strip() for part in re.split("[,;]", text) if part.strip()]


def name_in(text: str) -> str:
    """Return a name, when it can be told from what stands beside it in a cell or a line.

    Raises:
        UnreadError: It is too long, has no letter, or has a mark that parts names.
    """
    name = " ".join(text.split())
    if len(name) > LONGEST_NAME:
        raise UnreadError(Code.TEXT_TOO_LONG, length=len(name), limit=LONGEST_NAME)
    if _NOT_IN_NAMES & set(name) or not any(mark.isalpha() for mark in name):
        raise UnreadError(Code.OWN_NAME_UNREADABLE, written=text)
    return name


def yes_in(cell: Cell) -> bool:
    """Return yes or no."""
    text = squeezed(typed(cell))
    if text not in _YES | _NO:
        raise UnreadError(Code.OWN_YES_OR_NO, written=cell.text)
    return text in _YES


def step_in(cell: Cell) -> Decimal:
    """Return a usual step: `2.5 kg`, `2,5`, `5 lb`. [kg]"""
    match = _STEP.fullmatch(squeezed(typed(cell)))
    number = Decimal(match[1].replace(",", ".")) if match else Decimal(0)
    unit = Unit.LB if match and match[2] and match[2][0] in "lp" else Unit.KG
    step = Mass(number, unit).to(Unit.KG).value
    if not 0 < step <= MOST_STEP_KG:
        raise UnreadError(Code.OWN_STEP, written=cell.text)
    return step
