"""Files that are sent here: a coach's block; anything else goes to the coach."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.files.workbook_limits import MOST_BYTES
from bot.messages import Effect, Person
from bot.render import setting_up as words
from bot.store.units import Unit
from bot.usecases import forwarding
from bot.usecases.leaving import answer
from core.programme.problems import Code, Place, Problem, problem
from core.programme.rows import BlockFile

SPREADSHEETS = (".xlsx", ".xlsm", ".xls", ".ods", ".csv")
"""Endings of files that are opened; the reader says of each whether it can be read."""


@dataclass(frozen=True, slots=True)
class BlockRead:
    """A coach sent a file, and it was read.

    Attributes:
        name: What she calls the file.
        result: The block in it, or every problem.
    """

    name: str
    result: BlockFile | list[Problem]


@dataclass(frozen=True, slots=True)
class FileSent:
    """Somebody sent a file.

    Attributes:
        file_id: The platform's id of it.
        name: What its sender calls it.
        size: [bytes]
        caption: What was written with it.
        result: What was read in it, once it was fetched.
    """

    file_id: str
    name: str
    size: int
    caption: str = ""
    result: BlockFile | list[Problem] | None = None

    @property
    def wanted(self) -> bool:
        """True when it may hold a block, by its name."""
        return self.name.casefold().endswith(SPREADSHEETS)


def block_read(command: BlockRead, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep a block that was read and show it, or tell every problem of the file."""
    if person.role != "coach":
        return only_for_coaches(person)
    if not isinstance(command.result, BlockFile):
        pages = words.problem_pages(command.name, command.result)
        return [answer(person, f"problems-{number}", page) for number, page in enumerate(pages)]
    _, number = unit.blocks.keep(command.result.block, now)
    return [answer(person, "block", words.block_kept(command.result, number))]


def file_sent(command: FileSent, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take a coach's file as a block; pass a client's on to the coach."""
    if person.role != "coach":
        sent = forwarding.MediaSent(kind="document", file_id=command.file_id, caption=command.caption)
        return forwarding.media_sent(sent, person, unit, now)
    result = command.result
    if result is None:
        result = [_not_opened(command)]
    return block_read(BlockRead(command.name, result), person, unit, now)


def _not_opened(command: FileSent) -> Problem:
    if command.wanted:
        facts = {"size_kb": -(-command.size // 1024), "limit_kb": MOST_BYTES // 1024}
        return problem(Code.FILE_TOO_BIG, Place(), **facts)
    return problem(Code.FILE_NOT_XLSX, Place(), name=command.name)


def only_for_coaches(person: Person) -> Sequence[Effect]:
    """Answer a client or a stranger who wants what only a coach may."""
    return [answer(person, "coaches", words.only_for_coaches())]
