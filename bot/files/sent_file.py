"""What a coach's file holds: a block or, by its sheets, one of the other things that she may send."""

from collections.abc import Callable, Mapping, Sequence

from bot.files.block_file import block_in, opened_sheets
from core.programme.exercises import Exercise
from core.programme.problems import Problem
from core.programme.rows import BlockFile
from core.programme.sheets import Sheet

Sent = BlockFile
"""What a file may hold."""
Reader = Callable[[Sequence[Sheet], Mapping[str, Exercise]], Sent | list[Problem] | None]

READERS: tuple[Reader, ...] = ()
"""Each returns None where the sheets are of another kind, so that the next is asked; the block's reader is last."""


def read_sent(content: bytes, name: str, catalogue: Mapping[str, Exercise]) -> Sent | list[Problem]:
    """Return what is in a file, or every problem of it.

    Args:
        content: The file.
        name: What its sender calls it.
        catalogue: Exercises that may be named.
    """
    sheets = opened_sheets(content, name)
    if isinstance(sheets, tuple):
        for reader in READERS:
            found = reader(sheets, catalogue)
            if found is not None:
                return found
    return block_in(sheets, content, catalogue)
