"""Files that a coach sends here: a block, last loads, exercises or a changed week."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from bot.files.block_file import may_hold_block, not_read, too_big
from bot.files.sent_file import Sent, read_sent
from bot.messages import Effect, Person
from bot.render import own_exercises as own_words
from bot.render import setting_up as words
from bot.render.block_chart import muscle_picture
from bot.store.rules import DEFAULTS
from bot.store.units import Unit
from bot.usecases import block_views, last_loads, versions, week_files
from bot.usecases.leaving import answer
from bot.usecases.only_coaches import only_for_coaches
from core.policy import Policy
from core.programme.exercises import Exercise
from core.programme.last_loads import LastLoadsFile
from core.programme.own_exercises import OwnExercisesFile, with_own
from core.programme.problems import Problem
from core.programme.rows import BlockFile
from core.programme.week_sheets import WeekFile

__all__ = ["only_for_coaches"]


@dataclass(frozen=True, slots=True)
class BlockRead:
    """A coach sent a file, and it was read.

    Attributes:
        name: What she calls the file.
        result: The block in it, or every problem.
        picture: The block's picture as PNG.
    """

    name: str
    result: BlockFile | list[Problem]
    picture: bytes | None = None


@dataclass(frozen=True, slots=True)
class FileSent:
    """Somebody sent a file.

    Attributes:
        file_id: The platform's id of it.
        name: What its sender calls it.
        size: [bytes]
        caption: What was written with it.
        album: The platform's name for what was sent together with others.
        result: What was read in it, once it was fetched.
        picture: The block's picture as PNG, drawn beside the transaction.
    """

    file_id: str
    name: str
    size: int
    caption: str = ""
    album: str | None = None
    result: Sent | list[Problem] | None = None
    picture: bytes | None = None

    @property
    def wanted(self) -> bool:
        """True when it may hold a block, by its name."""
        return may_hold_block(self.name)


def block_read(command: BlockRead, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep a block that was read and show it, or tell every problem of the file."""
    if person.role != "coach":
        return only_for_coaches(person)
    if not isinstance(command.result, BlockFile):
        pages = words.problem_pages(command.name, command.result)
        return [answer(person, f"problems-{number}", page) for number, page in enumerate(pages)]
    version, number = unit.blocks.keep(command.result.block, now)
    kept = block_views.kept(command.result, version, number, command.picture, person, unit, now)
    return [*kept, *versions.asked(version, person, unit, now)]


def file_sent(command: FileSent, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what a coach's file holds."""
    if person.role != "coach":
        return only_for_coaches(person)
    result = command.result
    if result is None:
        result = [_not_opened(command)]
    if isinstance(result, LastLoadsFile):
        return last_loads.sheet_read(command.name, result, person, unit, now)
    if isinstance(result, OwnExercisesFile):
        return _own_exercises_kept(result, command, person, unit, now)
    if isinstance(result, WeekFile):
        return week_files.week_read(command.name, result, person, unit, now)
    return block_read(BlockRead(command.name, result, command.picture), person, unit, now)


def _own_exercises_kept(
    result: OwnExercisesFile, command: FileSent, person: Person, unit: Unit, now: datetime
) -> Sequence[Effect]:
    """Keep a coach's own exercises, and then the block that stands beside them in her file."""
    unit.exercises.keep(result.exercises, now)
    pages = own_words.kept(result)
    said = [answer(person, f"exercises-{number}", page) for number, page in enumerate(pages)]
    if result.block is None:
        return said
    block = BlockRead(command.name, result.block, command.picture)
    return [*said, *block_read(block, person, unit, now)]


def opened(
    command: FileSent, content: bytes, catalogue: Mapping[str, Exercise], policy: Policy = DEFAULTS
) -> FileSent:
    """Return a file that was sent with what is in it, drawn too; for a thread of its own, since it takes its time."""
    result = read_sent(content, command.name, catalogue, policy)
    return replace(command, result=result, picture=_drawn(result, catalogue, policy))


def _drawn(result: Sent | list[Problem], catalogue: Mapping[str, Exercise], policy: Policy) -> bytes | None:
    if isinstance(result, OwnExercisesFile) and result.block is not None:
        return _drawn(result.block, with_own(result.exercises, catalogue), policy)
    return muscle_picture(result.block, catalogue, policy) if isinstance(result, BlockFile) else None


def _not_opened(command: FileSent) -> Problem:
    return too_big(command.size) if command.wanted else not_read(command.name)
