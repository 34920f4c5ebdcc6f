"""The way to a tested maximum: easy sets, then singles, up after each that was lifted and down after one that was not.

Who may be tested at all is a question of the load line, and of the coach: never somebody new, on a way back, in pain,
pregnant, with untreated blood pressure or alone under a bar; from 60 on only by her order. Nothing here asks it.

Source: [NSCA], the test of one repetition maximum, read in copies that agree on pounds and percentages; kilograms from
memory.
"""

from decimal import Decimal
from typing import NamedTuple

from core.loads.equipment import Ladder
from core.programme.exercises import Region
from core.units import Mass
from core.value import Value


class Change(NamedTuple):
    """How far a load goes up or down between two sets of a test.

    Attributes:
        least: [fraction]
        most: [fraction]
        pounds: Least and most of the same in pounds. [lb]
        kilograms: The same in kilograms, from memory. [kg]
    """

    least: Decimal
    most: Decimal
    pounds: tuple[int, int]
    kilograms: tuple[int, int]


_UPPER_RISE = Change(Decimal("0.05"), Decimal("0.10"), (10, 20), (4, 9))
"""Least and most up after a lifted set, upper body, then in pounds and kilograms. [fraction, lb, kg] Source: [NSCA];
kilograms from memory."""
_LOWER_RISE = Change(Decimal("0.10"), Decimal("0.20"), (30, 40), (14, 18))
"""The same, lower body. [fraction, lb, kg] Source: [NSCA]; kilograms from memory."""
_UPPER_FALL = Change(Decimal("0.025"), Decimal("0.05"), (5, 10), (2, 4))
"""Least and most down after a failed single, upper body. [fraction, lb, kg] Source: [NSCA]; kilograms from memory."""
_LOWER_FALL = Change(Decimal("0.05"), Decimal("0.10"), (15, 20), (7, 9))
"""The same, lower body. [fraction, lb, kg] Source: [NSCA]; kilograms from memory."""
RISE = {Region.UPPER: _UPPER_RISE, Region.LOWER: _LOWER_RISE, Region.TRUNK: _UPPER_RISE}
"""Up after a set that was lifted; the trunk as the upper body is our own choice."""
FALL = {Region.UPPER: _UPPER_FALL, Region.LOWER: _LOWER_FALL, Region.TRUNK: _UPPER_FALL}
"""Down after a single that was not lifted; the trunk as the upper body is our own choice."""

SETS = (((5, 10), (60, 60)), ((3, 5), (120, 120)), ((2, 3), (120, 240)))
"""Reps and rest after them of the sets before the first single, lightest first. [reps, s] Source: [NSCA]."""
SINGLE_REST = (120, 240)
"""Rest between singles. [s] Source: [NSCA]."""
MOST_SINGLES = 5
"""Singles within which a maximum is to be found; three to five. Source: [NSCA]."""


class Attempt(Value):
    """A set of a test.

    Attributes:
        load: What the kit makes.
        reps: Fewest and most; 1 for a single. [reps]
        rest_s: Shortest and longest rest after it. [s]
    """

    load: Mass
    reps: tuple[int, int]
    rest_s: tuple[int, int]


def way_to_single(expected: Mass, region: Region, ladder: Ladder) -> tuple[Attempt, ...]:
    """Return the sets up to the first single, which is at or under the maximum that is expected.

    Each set is as far under the next one as the test rises at most, and then the greatest load of the kit at or under
    that; sets that come out the same are left out, the heavier reps with them. Empty where even the lightest load is
    over what is expected.

    Args:
        expected: The maximum that is expected: an estimate, or the last one tested; all of it, not what is added to a
            body.
        region: Part of the body.
        ladder: What can be loaded.
    """
    single = ladder.at_or_under(expected)
    if single is None:
        return ()
    rise = 1 + RISE[region].most
    found: list[Attempt] = []
    for place, (reps, rest) in enumerate(SETS):
        load = ladder.at_or_under(single / rise ** (len(SETS) - place))
        if load is not None and load < single and (not found or load > found[-1].load):
            found.append(Attempt(load=load, reps=reps, rest_s=rest))
    return (*found, Attempt(load=single, reps=(1, 1), rest_s=SINGLE_REST))


def next_single(
    lifted: tuple[Mass, ...], failed: tuple[Mass, ...], region: Region, ladder: Ladder
) -> Mass | None:
    """Return the next single; None when the maximum is found: the heaviest that was lifted, or nothing was.

    Up by at most what the test rises, down by at least what it falls, never up to what has failed, never down to what
    has been lifted, and no more than five singles.

    Args:
        lifted: Singles that went up.
        failed: Singles that did not.
        region: Part of the body.
        ladder: What can be loaded.
    """
    if len(lifted) + len(failed) >= MOST_SINGLES or not lifted + failed:
        return None
    best = max(lifted, default=None)
    over = min(failed, default=None)
    if over is None:
        return _up(max(lifted), region, ladder)
    down = ladder.at_or_under(over * (1 - FALL[region].least))
    return down if down is not None and (best is None or down > best) else None


def _up(load: Mass, region: Region, ladder: Ladder) -> Mass | None:
    """Return the greatest load within the rise, in percent or where that makes no step in pounds; None at the top."""
    change = RISE[region]
    by_percent = ladder.at_or_under(load * (1 + change.most))
    if by_percent is not None and by_percent > load:
        return by_percent
    by_pounds = ladder.at_or_under(load + Mass.of(change.pounds[1], "lb"))
    return by_pounds if by_pounds is not None and by_pounds > load else None
