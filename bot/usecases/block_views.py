"""A block that was kept, shown to its coach: figures, warnings, a picture; and all the warnings on a tap."""

from collections.abc import Sequence
from datetime import datetime

from bot.messages import Effect, Message, Person, Send, Tap
from bot.render import blocks as words
from bot.render.setting_up import Buttons
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.assigning import JOINED
from bot.usecases.decisions import kit_of
from core.loads.kit_fit import Undoable, nobody_can
from core.programme.block import Block
from core.programme.problems import Problem
from core.programme.rows import BlockFile

PICTURE = "block.png"


def kept(
    found: BlockFile,
    version: int,
    number: int,
    picture: bytes | None,
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    """Show a block that was kept: a message, and its picture after it.

    Args:
        found: The block and its warnings.
        version: Row of the version.
        number: Of the version, from 1.
        picture: PNG, drawn before; None where nobody drew it.
    """
    key = f"block:{person.arrival.update_id if person.arrival else 0}"
    facts = {"warnings": [one.model_dump(mode="json") for one in found.warnings]}
    prompt = unit.prompts.open(
        "block", person.user_id, person.chat_id, now, subject=version, card_key=key, facts=facts
    )
    undoable = undoable_in(found.block, unit)
    catalogue = unit.exercises.catalogue()
    message = words.kept(found, number, undoable, Buttons(prompt.id, prompt.revision), catalogue)
    effects: list[Effect] = [Send(person.chat_id, message, key=key, card=key)]
    if picture is not None:
        picture_id = unit.oversight.add_picture(PICTURE, picture, now)
        caption = words.picture_caption(found.block.name)
        photo = Message(caption, silent=True, media_kind="photo", picture_id=picture_id)
        effects.append(Send(person.chat_id, photo, key=f"{key}:picture"))
    return effects


def undoable_in(block: Block, unit: Unit) -> tuple[Undoable, ...]:
    """Return what of a block none of the coach's clients can load."""
    kits = [(one.name, kit_of(one, unit)) for one in unit.clients.roster() if one.state in JOINED]
    return nobody_can(block, kits, unit.exercises.catalogue())


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show every warning of the block, as many messages as it takes."""
    if person.role != "coach" or prompt.subject is None:
        return []
    warnings = [Problem.model_validate(one) for one in prompt.facts["warnings"]]
    block = unit.blocks.version(prompt.subject)
    pages = words.all_warnings(block.name, warnings, undoable_in(block, unit), unit.exercises.catalogue())
    return [Send(prompt.chat_id, page, key=f"{prompt.card_key}:{at}") for at, page in enumerate(pages)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Do nothing: the card says what was so when the block came, and its button never grows old."""
    return []
