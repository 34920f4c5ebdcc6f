"""How many sets a week a muscle may have more than before: a ceiling on sets, where the weeks before are known.

Our proposal after a practising coach's review: two hard sets or 20 % more, whichever is more. A set counts one for a
muscle that an exercise is for, a half for one that helps. Source: [Pelland2024].
"""

from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal

from core.loads.outcome import Reason
from core.loads.past import Inputs, MuscleSets
from core.loads.proposals import reason
from core.loads.reasons import ReasonCode
from core.programme.exercises import Exercise
from core.programme.muscles import Muscle
from core.programme.volume import DIRECT, HARD_LEFT, INDIRECT
from core.units import plain


@dataclass(frozen=True, slots=True)
class SetsLine:
    """The most sets of an exercise today.

    Attributes:
        most: At least 1. [sets]
        told: Why.
    """

    most: int
    told: Reason


def sets_line(inputs: Inputs, left: int | None) -> SetsLine | None:
    """Return the most sets that the weeks before leave of this exercise today; None where they set no ceiling.

    Args:
        inputs: With the hard sets of the weeks before.
        left: Reps left asked for: sets with more than four left are no hard sets.
    """
    if left is not None and left > HARD_LEFT:
        return None
    found = []
    for one in inputs.week_sets:
        worth = _worth(inputs.exercise, one.muscle)
        if worth:
            most = most_sets(inputs, one)
            here = int(((most - one.now) / worth).to_integral_value(ROUND_FLOOR))
            found.append((max(1, here), one.muscle.value, one, most))
    if not found:
        return None
    fewest, muscle, of, most = min(found, key=lambda each: each[:2])
    facts = {"sets": str(fewest), "muscle": muscle, "before": plain(of.before), "most": plain(most)}
    return SetsLine(fewest, reason(ReasonCode.SETS_WEEK, **facts))


def most_sets(inputs: Inputs, known: MuscleSets) -> Decimal:
    """Return the most hard sets of a muscle this week. [sets]"""
    policy = inputs.policy
    return known.before + max(Decimal(policy.sets_rise), known.before * policy.sets_rise_share)


def _worth(exercise: Exercise, muscle: Muscle) -> Decimal:
    if muscle in exercise.direct:
        return DIRECT
    return INDIRECT if muscle in exercise.indirect else Decimal(0)
