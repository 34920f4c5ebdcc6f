"""Warnings on a whole block, with their figures; never a refusal of a coach's judgement."""

from collections.abc import Iterator, Mapping

from core.policy import Policy
from core.programme.alone_checks import limits_under_bar, open_under_bar
from core.programme.block import Block, weeks_text
from core.programme.catalogue import CATALOGUE
from core.programme.deload_checks import long_without_deload
from core.programme.exercises import Exercise, Pattern
from core.programme.jump_checks import load_jumps, rep_jumps, set_jumps
from core.programme.problems import Code, Place, Problem, problem
from core.programme.spacing_checks import crowded
from core.programme.target_checks import far_targets
from core.programme.volume import HIP, KNEE, PULL, PUSH, balance, sets_by_pattern
from core.programme.volume_checks import out_of_band, untrained

_POLICY = Policy()


def block_warnings(
    block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE, policy: Policy = _POLICY
) -> tuple[Problem, ...]:
    """Return what a coach may want to look at again in a block that can be used as it is.

    What somebody may come to harm by stands first, then what the plan cannot hold, then what is out of proportion.
    """
    return (
        *limits_under_bar(block, catalogue),
        *open_under_bar(block, catalogue),
        *_empty_days(block),
        *load_jumps(block, catalogue, policy),
        *rep_jumps(block, catalogue),
        *set_jumps(block, catalogue, policy),
        *crowded(block, catalogue),
        *long_without_deload(block, catalogue, policy),
        *far_targets(block, catalogue, policy),
        *_uneven(block, catalogue, Code.PUSH_TO_PULL),
        *_uneven(block, catalogue, Code.KNEE_TO_HIP),
        *out_of_band(block, catalogue, policy),
        *untrained(block, catalogue),
    )


def _empty_days(block: Block) -> Iterator[Problem]:
    for day in block.days:
        empty = [week for week in range(1, block.weeks + 1) if not day.in_week(week)]
        if empty:
            yield problem(Code.DAY_EMPTY_IN_WEEK, Place(), day=day.name, weeks=weeks_text(empty))


_SIDES: Mapping[Code, tuple[frozenset[Pattern], frozenset[Pattern], str, str]] = {
    Code.PUSH_TO_PULL: (PUSH, PULL, "push", "pull"),
    Code.KNEE_TO_HIP: (KNEE, HIP, "knee", "hip"),
}


def _uneven(block: Block, catalogue: Mapping[str, Exercise], code: Code) -> Iterator[Problem]:
    """Yield one warning for each pair of figures that is out of balance, with the weeks it holds in.

    Weeks for tests are left out: what is tested is not what is trained.
    """
    one, other, one_name, other_name = _SIDES[code]
    weeks: dict[tuple[int, int], list[int]] = {}
    for week in range(1, block.weeks + 1):
        sides = balance(sets_by_pattern(block, week, catalogue), one, other)
        if not sides.even and week not in block.testing_weeks:
            weeks.setdefault((sides.one, sides.other), []).append(week)
    for (first, second), numbers in weeks.items():
        facts = {one_name: first, other_name: second, "weeks": weeks_text(numbers)}
        yield problem(code, Place(), **facts)
