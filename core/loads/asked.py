"""What is asked for today, with everything that follows from the dose, the kit and the person alone."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from enum import StrEnum
from functools import lru_cache

from core.loads.autoregulation import Table, table_for
from core.loads.equipment import Ladder, ladder_for
from core.loads.meaning import Meaning, meaning_of
from core.loads.past import Inputs
from core.loads.reasons import ReasonCode
from core.programme.exercises import Basis, Exercise, Implement, Region
from core.programme.prescription import Dose, Load, LoadKind, Span
from core.programme.set_styles import StyleKind
from core.units import Mass, Unit, plain

ZERO = Mass.of(0)
LIGHT_BODY_KG = Decimal(50)
"""Bodyweight that an added load is held against where it is not known. [kg] Our proposal: light, so that a step
looks rather too big than too small."""
SHARE_UNKNOWN = Decimal("0.5")
"""Share of bodyweight that moves where the catalogue has none. [fraction] Our proposal."""
SAFE_LEFT = 2
"""Fewest reps left alone under a bar, and from 60 on. [reps] Our proposal, never loosened."""
CENTI = Decimal("0.01")
"""Fineness of a load in a reason. [unit]"""
_LEAST_SYSTEM = Mass.of(10)
_NO_AMOUNT = frozenset({LoadKind.FIND, LoadKind.PERCENT, LoadKind.UP})
OPEN_REPS = Span(low=1, high=1000)
"""Reps of a set that goes on until so many are left: every set that has one is done."""


class Counted(StrEnum):
    """What a set is counted in; the values are names of facts."""

    REPS = "reps"
    SECONDS = "seconds"
    METRES = "metres"
    OPEN = "open reps"


@dataclass(frozen=True, slots=True)
class Asked:
    """Today's task.

    Attributes:
        exercise: What is lifted.
        ladder: What can be loaded; a single zero where nothing is counted.
        span: Reps, seconds or metres.
        counted: Which of them.
        left: Reps left asked for, before any ceiling; None for timed sets that say nothing.
        written: The load as written, as a mass; None for `find` or none.
        most_at_once: Gives the most that a load may rise to at once, before anything slows it.
        cap_fraction: The same as a fraction. [fraction]
        cap_four_weeks: Most rise over 28 days. [fraction]
        cap_week: Most rise over 7 days; None for no such cap. [fraction]
        table: The table that the way up goes by, if it goes by one.
        meant: What the writing says beside the load: the way up, shares, steps.
    """

    exercise: Exercise
    ladder: Ladder
    span: Span
    counted: Counted
    left: int | None
    written: Mass | None
    most_at_once: Callable[[Mass, int], Mass]
    cap_fraction: Decimal
    cap_four_weeks: Decimal
    cap_week: Decimal | None
    table: Table | None
    meant: Meaning

    @property
    def timed(self) -> bool:
        """True where a set is no number of reps: reps left and formulas mean nothing then."""
        return self.counted in (Counted.SECONDS, Counted.METRES)

    @property
    def loadless(self) -> bool:
        """True when there is nothing to load: a band, or bodyweight with nothing to add."""
        return self.ladder.steps == (ZERO,)


def counted_in(dose: Dose) -> tuple[Counted, Span]:
    """Return what a dose is counted in, and how many."""
    if dose.reps is not None:
        return Counted.REPS, dose.reps
    if dose.seconds is not None:
        return Counted.SECONDS, dose.seconds
    return (Counted.OPEN, OPEN_REPS) if dose.metres is None else (Counted.METRES, dose.metres)


def asked_for(inputs: Inputs, meant: Meaning | None = None) -> Asked:
    """Return what is asked for today.

    Args:
        inputs: With a load that the rules know.
        meant: What the writing said beside the load; by `inputs` where it is not given.
    """
    dose, policy, exercise = inputs.dose, inputs.policy, inputs.exercise
    counted, span = counted_in(dose)
    timed = counted in (Counted.SECONDS, Counted.METRES)
    table = table_for(dose, exercise)
    left = dose.left if dose.left is not None or timed else policy.left_default
    left = left if table is None else 0
    slow = 2 if is_older(inputs) else 1
    upper = exercise.region is Region.UPPER
    fraction = (policy.cap_upper if upper else policy.cap_lower) / slow
    week = policy.cap_week_upper if upper else policy.cap_week_lower
    four = (policy.cap_four_weeks_new if inputs.lifter.new else policy.cap_four_weeks_trained) / slow
    cap_mass = (policy.cap_upper_mass if upper else policy.cap_lower_mass) / (slow * hands(exercise))

    def most_at_once(base: Mass, half: int) -> Mass:
        """Return the smaller of the percentage and the mass; `half` is 2 at half speed, else 1."""
        return min(base + system_mass(base, exercise) * (fraction / half), base + cap_mass / half)

    return Asked(
        exercise=exercise,
        ladder=_ladder(inputs),
        span=span,
        counted=counted,
        left=left,
        written=amount(dose.load, exercise),
        most_at_once=most_at_once,
        cap_fraction=fraction,
        cap_four_weeks=four,
        cap_week=None if week is None else week / slow,
        table=table,
        meant=meant or meaning_of(inputs),
    )


def _ladder(inputs: Inputs) -> Ladder:
    """Return the ladder, from zero where the lift is done with nothing or was written as bodyweight."""
    exercise, load = inputs.exercise, inputs.dose.load
    if exercise.basis is Basis.BODYWEIGHT and inputs.dose.load is None:
        # The coach wrote no load at all, so none is ever added: reps or time are the way up.
        return Ladder(steps=(ZERO,))
    ladder = ladder_for(exercise, inputs.kit)
    loads = (load, *(one.load for past in inputs.history[-1:] for one in past.sets))
    bare = any(one is not None and one.kind is LoadKind.BODYWEIGHT for one in loads)
    if exercise.implement is Implement.BAND or (bare and exercise.basis is not Basis.BODYWEIGHT):
        return Ladder(steps=(ZERO, *ladder.steps))
    return ladder


def is_older(inputs: Inputs) -> bool:
    """Return whether the caps are halved for age."""
    return inputs.lifter.age_band == "60+"


def is_alone_under_bar(inputs: Inputs) -> bool:
    """Return whether a failed rep would leave a bar on someone with nobody there."""
    return inputs.exercise.needs_safeties and inputs.kit.usually_alone and not inputs.kit.safety_arms


def is_without_end(dose: Dose) -> bool:
    """Return whether a set may go on to the limit: an open last set, steps down, pauses inside a set."""
    style = dose.style.kind if dose.style is not None else None
    return dose.or_more or dose.to_left or style in (StyleKind.DESCENDING, StyleKind.REST_PAUSE)


def hands(exercise: Exercise) -> int:
    """Return how many times the written load is moved: both hands, or both sides of a bar."""
    return 2 if exercise.basis in (Basis.PER_HAND, Basis.PER_SIDE) else 1


def amount(load: Load | None, exercise: Exercise) -> Mass | None:
    """Return a load as a mass, what is added for bodyweight (zero when bare); None where it is not written as one."""
    if load is None:
        bare = exercise.basis is Basis.BODYWEIGHT or exercise.implement is Implement.BAND
        return ZERO if bare else None
    if load.kind in _NO_AMOUNT:
        return None
    return ZERO if load.mass is None else load.mass


def as_load(mass: Mass, exercise: Exercise) -> Load | None:
    """Return a mass as a load of this exercise; None where a band is the load."""
    if exercise.implement is Implement.BAND:
        return None
    if exercise.basis is Basis.BODYWEIGHT or mass == ZERO:
        return Load.bodyweight(mass)
    return Load(LoadKind.MASS, mass)


def system_mass(mass: Mass, exercise: Exercise) -> Mass:
    """Return the mass that a rise is a fraction of; with bodyweight a light body's share of it is added."""
    if exercise.basis is not Basis.BODYWEIGHT and mass > ZERO:
        return mass
    share = exercise.body_share if exercise.body_share is not None else SHARE_UNKNOWN
    # Where a machine takes off more than a light body weighs, the fraction would turn over.
    return max(mass + Mass(LIGHT_BODY_KG * share, Unit.KG), _LEAST_SYSTEM)


def eased(mass: Mass, factor: Decimal) -> Mass:
    """Return a share of a load: more of what is taken off, where it is assistance; bare bodyweight stays."""
    return mass * factor if mass >= ZERO else mass / factor


def percent(fraction: Decimal) -> str:
    """Write a fraction as a percentage with one decimal at most: `16.7`."""
    return plain((fraction * 100).quantize(Decimal("0.1")))


def load_text(mass: Mass, exercise: Exercise) -> str:
    """Write a load for a reason: `92.5 kg`, `bw+5 kg`, `bw`; at most two decimals, never rounded up."""
    banded, body = exercise.implement is Implement.BAND, exercise.basis is Basis.BODYWEIGHT
    return "bw" if banded else _text(mass.value, mass.unit, body=body)


@lru_cache(maxsize=4096)
def _text(value: Decimal, unit: Unit, *, body: bool) -> str:
    """Return the text of a load that is counted: each is written many times. Equal numbers have one text."""
    short = value.quantize(CENTI, ROUND_FLOOR)
    if body or not short:
        return str(Load.bodyweight(Mass(short, unit)))
    return str(Load(LoadKind.MASS, Mass(short, unit)))


def reps_that_earn(low: int, left: int, jump: Decimal) -> int:
    """Return the reps in every set that earn a step of `jump` over the load.

    At `low` reps with `left` to spare the new load is then within what was shown, by [Epley1985]. So for 8 reps
    and 2 left: +10 % at 12, +12.5 % at 13, +16.7 % at 15, +20 % at 16, +25 % at 18.

    Args:
        low: Fewest reps of the range. [reps]
        left: Reps left asked for. [reps]
        jump: Next step over the load. [fraction]
    """
    return int((low + (30 + low + left) * jump).to_integral_value(ROUND_CEILING))


def count_facts(asked: Asked, count: int) -> dict[str, str]:
    """Return reps, seconds or metres as a fact under its own name."""
    return {"reps" if asked.counted is Counted.OPEN else asked.counted.value: str(count)}


SOURCE_OF = {
    ReasonCode.CAP: "ACSM2009",
    ReasonCode.RAISE_DONE_TWICE: "ACSM2009",
    ReasonCode.RAISE_TOP: "Plotkin2022",
    ReasonCode.ADD_REP: "Plotkin2022",
    ReasonCode.RAISE_EARNED: "Epley1985",
    ReasonCode.REPS_CHANGED: "Epley1985",
    ReasonCode.COMEBACK: "CSCCa2019",
    ReasonCode.COMEBACK_COACH: "CSCCa2019",
    ReasonCode.DELOAD: "Rogerson2024",
    ReasonCode.COACH_LIGHTER: "Rogerson2024",
    ReasonCode.FEW_LEFT: "Zourdos2016",
}
"""The published source beside a rule, where there is one; the others are our proposal or common practice."""
