"""Files to a coach: the form of a block to fill in, and a block of hers as it was taken."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.files.kinds import Kind
from bot.files.written import WRITERS
from bot.messages import Effect, Message, Person, Send
from bot.render import block_copies as words
from bot.store.units import Unit
from bot.usecases.assigning import block_named, blocks_of
from bot.usecases.block_files import only_for_coaches
from core.programme.folding import folded
from core.programme.writing import sheets_of

FORM = "block.xlsx"
LONGEST_FILE_NAME = 60
"""Longest name of a file, without its ending. [characters] Our proposal."""


@dataclass(frozen=True, slots=True)
class FormAsked:
    """`/template`.

    Attributes:
        content: The file; None where nobody made it, since whoever asks is no coach.
    """

    content: bytes | None = None


@dataclass(frozen=True, slots=True)
class BlockAsked:
    """`/block NAME`, or `/block NAME as csv`."""

    text: str = ""


def form_asked(command: FormAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Send the form."""
    if person.role != "coach" or command.content is None:
        return only_for_coaches(person)
    return [_file(words.form(), FORM, command.content, person, unit, now)]


def block_asked(command: BlockAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Send a block back as a file; name the blocks where none was named, and there are several.

    Raises:
        NoBlockYet: The coach has none.
        UnknownBlock: None has this name.
    """
    if person.role != "coach":
        return only_for_coaches(person)
    blocks = blocks_of(unit)
    name, kind = _kind_asked(command.text, [name for _, name, _ in blocks])
    if not name and len(blocks) > 1:
        message = words.which([name for _, name, _ in blocks])
        return [Send(person.chat_id, message, key=_key(person))]
    version = block_named(name, unit) if name else blocks[0][0]
    number = next(number for row, _, number in blocks if row == version)
    block = unit.blocks.version(version)
    content = WRITERS[kind](sheets_of(block, unit.exercises.catalogue()))
    return [_file(words.copy(block.name, number), file_name(block.name, kind), content, person, unit, now)]


def _kind_asked(text: str, names: Sequence[str]) -> tuple[str, Kind]:
    """Return the name and the kind of file of `Harbour strength as csv`; a spreadsheet where none is named."""
    name = text.strip()
    found = re.fullmatch(r"(?P<name>.*?)\s*\bas (?P<kind>xlsx|csv|yaml)", name, re.IGNORECASE)
    if found is None or folded(name) in {folded(each) for each in names}:
        return name, Kind.XLSX
    return found["name"], Kind(found["kind"].lower())


def file_name(name: str, kind: Kind = Kind.XLSX) -> str:
    """Return what a block's file is called: `Lower & upper` is `lower-upper.xlsx`."""
    return ("-".join(re.findall(r"\w+", name.lower()))[:LONGEST_FILE_NAME] or "block") + f".{kind}"


def _key(person: Person) -> str:
    return f"block-file:{person.arrival.update_id if person.arrival else 0}"


def _file(caption: str, name: str, content: bytes, person: Person, unit: Unit, now: datetime) -> Send:
    picture_id = unit.oversight.add_picture(name, content, now)
    message = Message(caption, silent=True, media_kind="document", picture_id=picture_id)
    return Send(person.chat_id, message, key=_key(person))
