"""What a coach's file holds: a block or, by its sheets, one of the other things that she may send."""

from collections.abc import Callable, Mapping, Sequence

from bot.files.block_file import block_in, opened_sheets
from core.policy import Policy
from core.programme.exercises import Exercise
from core.programme.last_load_sheet import last_loads_in
from core.programme.last_loads import LastLoadsFile
from core.programme.own_exercises import OwnExercisesFile, own_exercises_in
from core.programme.problems import Problem
from core.programme.rows import BlockFile
from core.programme.sheets import Sheet
from core.programme.week_sheets import WeekFile, week_in

Sent = BlockFile | LastLoadsFile | OwnExercisesFile | WeekFile
"""What a file may hold."""
Reader = Callable[[Sequence[Sheet], Mapping[str, Exercise]], Sent | list[Problem] | None]

READERS: tuple[Reader, ...] = (week_in, own_exercises_in, last_loads_in)
"""Each returns None where the sheets are of another kind, so that the next is asked; the block's reader is last."""

_POLICY = Policy()


def read_sent(
    content: bytes, name: str, catalogue: Mapping[str, Exercise], policy: Policy = _POLICY
) -> Sent | list[Problem]:
    """Return what is in a file, or every problem of it.

    Args:
        content: The file.
        name: What its sender calls it.
        catalogue: Exercises that may be named.
        policy: The coach's, for what she may want to look at again.
    """
    sheets = opened_sheets(content, name)
    if isinstance(sheets, tuple):
        for reader in READERS:
            found = (
                own_exercises_in(sheets, catalogue, policy)
                if reader is own_exercises_in
                else reader(sheets, catalogue)
            )
            if found is not None:
                return found
    return block_in(sheets, content, catalogue, policy)
