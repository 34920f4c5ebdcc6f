"""What a simulated client can do: a maximum for each exercise that grows with training and tires, and reps at a load.

The maximum of an exercise is set so that the block's own load, at its own reps and reps left, fits the client as the
draw of her strength says: so a rehearsal shows how a block goes on, and not whether its first loads are right for
anybody. Where the block writes no load, the maximum comes from a table of patterns, scaled by what it does write.
"""

from collections.abc import Mapping
from datetime import date
from math import floor

from core.loads.asked import SHARE_UNKNOWN, Counted, amount, counted_in
from core.oversight.simulated_lifter import SimulatedLifter
from core.programme.block import Block
from core.programme.exercises import Basis, Exercise, Implement, Pattern
from core.programme.prescription import Dose, Load
from core.units import Mass

TYPICAL_KG: Mapping[Pattern, float] = {
    Pattern.SQUAT: 100, Pattern.LUNGE: 60, Pattern.STEP: 50, Pattern.HINGE: 120, Pattern.BRIDGE: 130,
    Pattern.KNEE_EXTENSION: 70, Pattern.KNEE_FLEXION: 50, Pattern.HIP_ABDUCTION: 50, Pattern.HIP_ADDUCTION: 50,
    Pattern.CALF: 110, Pattern.HORIZONTAL_PRESS: 75, Pattern.VERTICAL_PRESS: 45, Pattern.DIP: 90,
    Pattern.HORIZONTAL_PULL: 70, Pattern.VERTICAL_PULL: 75, Pattern.CURL: 35, Pattern.ELBOW_EXTENSION: 35,
    Pattern.RAISE: 28, Pattern.SHRUG: 110, Pattern.CARRY: 130, Pattern.SWING: 60, Pattern.TRUNK: 50,
    Pattern.JUMP: 40,
}  # fmt: skip
"""Maximum with both hands on one bar or handle; only how the patterns stand to each other counts. [kg] Invented for the
rehearsal."""
A_HAND, ONE_WEIGHT, ONE_SIDE = 0.37, 0.45, 0.5
"""Share of that for a weight in each hand, one dumbbell or kettlebell held, and one limb on a machine. Common practice,
no source, for the first; the others are invented for the rehearsal."""
OWN_BODY = 1.33
"""Maximum against the share of the own body that moves, where the block does not say: ten reps of it. Invented for the
rehearsal."""
SPARE = 1.3
"""How much longer, or farther, somebody can go than the least that the block asks for. Invented for the rehearsal."""
ENDURANCE = 3
"""Power of strength that time, way and reps without a load go by. Invented for the rehearsal."""
SET_TIRES = 0.012
"""Share of strength that each set takes from the next ones of the exercise. [fraction] Invented for the rehearsal."""
SESSION_TIRES = 0.002
"""Share of strength that each set takes from later exercises of the session. [fraction] Invented for the rehearsal."""
WEEK_TIRES = 0.0015
"""Share of strength that each set takes from its pattern on the days after. [fraction] Invented for the rehearsal."""
HALF_REST_DAYS = 2.0
"""Days in which half of that is back. [days] Invented for the rehearsal."""
HAIR = 1e-9
"""So that a rep that is there to the hair is there."""
USUAL_LEFT = 2
"""Reps left that a load is taken to be written for where the block does not say. Common practice, no source."""


class SimulatedBody:
    """What one simulated client can do, as her training goes on.

    Args:
        lifter: Who she is.
        block: What she trains, for what its loads are written for.
        catalogue: Exercises by key.
    """

    def __init__(self, lifter: SimulatedLifter, block: Block, catalogue: Mapping[str, Exercise]) -> None:
        self._lifter = lifter
        self._written = first_doses(block)
        self._maxima = {
            key: most
            for key, dose in self._written.items()
            if (most := self._as_written(catalogue[key], dose)) is not None
        }
        self._level = _levels(self._maxima, catalogue)
        self._grown = dict.fromkeys(Pattern, 1.0)
        self._tired = dict.fromkeys(Pattern, 0.0)
        self._seen: date | None = None

    def wake(self, on: date) -> None:
        """Rest until a day: half of the tiredness goes every two days."""
        days = 0 if self._seen is None else (on - self._seen).days
        self._seen = on
        left = 0.5 ** (days / HALF_REST_DAYS)
        self._tired = {pattern: share * left for pattern, share in self._tired.items()}

    def train(self, exercise: Exercise, sets: int) -> None:
        """Grow and tire by some hard sets of an exercise."""
        self._grown[exercise.pattern] *= 1 + self._lifter.gain * sets
        self._tired[exercise.pattern] += WEEK_TIRES * sets

    def maximum(self, exercise: Exercise) -> float:
        """Return the most that can be lifted once today, the own body's share of it included. [kg]"""
        fresh = self._maxima.get(exercise.key)
        if fresh is None:
            fresh = self._typical(exercise)
        return fresh * self._grown[exercise.pattern] * (1 - self._tired[exercise.pattern])

    def most(self, exercise: Exercise, dose: Dose, load: Load | None, share: float) -> int:
        """Return the most reps, seconds or metres of one set.

        Reps fall with the load by the common line, with a factor of the client's own. Source: [Epley1985].

        Args:
            exercise: What is lifted.
            dose: What is asked for; says what is counted.
            load: What is on.
            share: What the day and the sets before have left of her strength. [fraction]
        """
        counted, span = counted_in(dose)
        mass = amount(load, exercise)
        moved = None if mass is None else self._moved(mass, exercise)
        if counted in (Counted.SECONDS, Counted.METRES) or moved is None:
            return self._endured(exercise, dose, moved, share, span.low)
        most = self.maximum(exercise) * share
        if most * (1 + HAIR) < moved:
            return 0
        return max(1, floor(self._lifter.reps * (most / moved - 1) + HAIR))

    def load_kg(self, exercise: Exercise, reps: float, share: float) -> float:
        """Return the load that allows so many reps to the limit; under zero where even the body is too heavy. [kg]

        Args:
            exercise: What is lifted.
            reps: To the limit. [reps]
            share: What the day and the sets before have left of her strength. [fraction]
        """
        return self.maximum(exercise) * share / (1 + reps / self._lifter.reps) - self._own(exercise)

    def _endured(self, exercise: Exercise, dose: Dose, moved: float | None, share: float, low: int) -> int:
        """Return how long, far or often something without a countable maximum can be done."""
        first = self._written.setdefault(exercise.key, dose)
        counted, span = counted_in(first)
        least = low if counted is not counted_in(dose)[0] else span.low
        timed = counted in (Counted.SECONDS, Counted.METRES)
        fresh = least * SPARE if timed else least + (USUAL_LEFT if first.left is None else first.left)
        fit = self._lifter.strength * self._grown[exercise.pattern] * share
        mass = amount(first.load, exercise)
        before = None if mass is None else self._moved(mass, exercise)
        heavier = moved / before if moved is not None and before is not None else 1.0
        return floor(fresh * (fit / heavier) ** ENDURANCE + HAIR)

    def _as_written(self, exercise: Exercise, dose: Dose) -> float | None:
        """Return the maximum that a written load stands for; None where none is written. [kg]"""
        counted, span = counted_in(dose)
        mass = amount(dose.load, exercise)
        moved = None if mass is None else self._moved(mass, exercise)
        if counted is not Counted.REPS or moved is None:
            return None
        total = span.low + (USUAL_LEFT if dose.left is None else dose.left)
        return self._lifter.strength * moved * (1 + total / self._lifter.reps)

    def _moved(self, mass: Mass, exercise: Exercise) -> float | None:
        """Return what moves, the own body's share of it included; None where nothing is counted. [kg]"""
        moved = self._own(exercise) + float(mass.kg)
        if exercise.basis is Basis.BODYWEIGHT:
            return max(1.0, moved)
        return moved if moved > 0 else None

    def _own(self, exercise: Exercise) -> float:
        """Return the part of the own body that moves with an exercise. [kg]"""
        if exercise.basis is not Basis.BODYWEIGHT:
            return 0.0
        share = exercise.body_share if exercise.body_share is not None else SHARE_UNKNOWN
        return float(share) * self._lifter.body_kg

    def _typical(self, exercise: Exercise) -> float:
        if exercise.basis is Basis.BODYWEIGHT:
            return self._own(exercise) * OWN_BODY * self._lifter.strength
        level = self._level.get(exercise.pattern, self._level.get(None, self._lifter.strength))
        return typical_kg(exercise) * level


def first_doses(block: Block) -> dict[str, Dose]:
    """Return what each exercise of a block is first asked for with; a written load before none."""
    found: dict[str, tuple[bool, int, Dose]] = {}
    for line in (line for day in block.days for line in day.lines):
        dose = line.prescription.dose
        load = dose.load
        bare = load is None or (load.mass is None and load != Load.bodyweight())
        mine = (bare, min(line.weeks), dose)
        before = found.get(line.prescription.exercise)
        if before is None or mine[:2] < before[:2]:
            found[line.prescription.exercise] = mine
    return {key: dose for key, (_, _, dose) in found.items()}


def typical_kg(exercise: Exercise) -> float:
    """Return the maximum that the table gives for an exercise that is no bodyweight lift. [kg]"""
    base = TYPICAL_KG[exercise.pattern]
    if exercise.basis in (Basis.PER_HAND, Basis.PER_SIDE):
        return base * A_HAND
    if exercise.implement in (Implement.DUMBBELL, Implement.KETTLEBELL):
        return base * ONE_WEIGHT
    return base * ONE_SIDE if exercise.each_side else base


def _levels(maxima: Mapping[str, float], catalogue: Mapping[str, Exercise]) -> dict[Pattern | None, float]:
    """Return how the written loads of each pattern, and of all (None), stand to the table."""
    found: dict[Pattern | None, list[float]] = {}
    for key, most in maxima.items():
        exercise = catalogue[key]
        if exercise.basis is not Basis.BODYWEIGHT:
            level = most / typical_kg(exercise)
            found.setdefault(exercise.pattern, []).append(level)
            found.setdefault(None, []).append(level)
    return {pattern: sum(levels) / len(levels) for pattern, levels in found.items()}
