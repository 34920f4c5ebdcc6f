"""Short ways to write chance that is known beforehand, a simulated client, and a block for her."""

from collections.abc import Sequence
from typing import Self

from core.loads.equipment import default_kit
from core.oversight.simulated_lifter import SimulatedLifter
from core.programme.block import Block, Day, Line
from core.programme.prescription import Dose, Prescription
from core.units import Unit
from tests.core.loads.lifts import dose


class Scripted:
    """Chance that gives the numbers of a list, and after them the middle."""

    def __init__(self, *numbers: float, otherwise: float = 0.5) -> None:
        self._numbers, self._otherwise = list(numbers), otherwise
        self.drawn = 0

    def random(self) -> float:
        self.drawn += 1
        return self._numbers.pop(0) if self._numbers else self._otherwise

    def spawn(self, n_children: int, /) -> Sequence[Self]:
        return [type(self)(otherwise=self._otherwise) for _ in range(n_children)]


def lifter(kind: str = "both", **more: object) -> SimulatedLifter:
    kit = default_kit(kind, Unit.KG).model_copy(update={"usually_alone": False, "safety_arms": True})
    plain: dict[str, object] = {
        "kit_kind": kind,
        "kit": kit,
        "age_band": "18-39",
        "new": False,
        "body_kg": 80.0,
        "strength": 1.0,
        "reps": 30.0,
        "gain": 0.0,
        "side_gap": 0.0,
        "keeps": 0,
        "taps": 0.0,
        "tells_left": 0.0,
        "tells_effort": 0.0,
        "misses": 0.0,
    }
    return SimulatedLifter(**(plain | more))  # type: ignore[arg-type]


def block_of(*lines: tuple[str, Dose], weeks: int = 4, days: int = 1, name: str = "Slipway") -> Block:
    """A block that asks for the same on each of its days, in every week."""
    every = frozenset(range(1, weeks + 1))
    asked = tuple(
        Line(weeks=every, prescription=Prescription(order="ABCDEFGH"[place], exercise=key, dose=dose))
        for place, (key, dose) in enumerate(lines)
    )
    return Block(
        name=name,
        weeks=weeks,
        days=tuple(Day(key=f"day-{one}", name=f"Day {one}", lines=asked) for one in range(1, days + 1)),
    )


FULL = block_of(
    ("back-squat", dose(3, "5", "70")),
    ("bench-press", dose(3, "6-8", "60")),
    ("dumbbell-overhead-press", dose(3, "8-10", "14")),
    ("pull-up", dose(3, "4-6", "bw")),
    ("leg-curl", dose(3, "10-12", "find")),
    ("plank", dose(2, "30-45", None, timed=True)),
    days=2,
)
"""Two days of six exercises for four weeks: written loads, one to be found, bodyweight, time."""
