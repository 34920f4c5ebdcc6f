"""`/lastloads`: the form for last loads, with the names of the coach's people and exercises to choose from."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Message, Person, Send
from bot.render import last_loads as words
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.last_loads import whom_there_is

FORM = "last-loads.xlsx"


@dataclass(frozen=True, slots=True)
class LastLoadsAsked:
    """`/lastloads`.

    Attributes:
        content: The form; None where nobody made it, since whoever asks is no coach.
    """

    content: bytes | None = None


def last_loads_asked(command: LastLoadsAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Send the form."""
    if person.role != "coach" or command.content is None:
        return only_for_coaches(person)
    picture_id = unit.oversight.add_picture(FORM, command.content, now)
    message = Message(words.form(), silent=True, media_kind="document", picture_id=picture_id)
    arrival = person.arrival.update_id if person.arrival else 0
    return [Send(person.chat_id, message, key=f"last-loads-form:{arrival}")]


def names_in(unit: Unit, now: datetime) -> list[str]:
    """Return the names that the form offers: the coach's clients, then those whom she has invited."""
    return [whom.name for whom in whom_there_is(unit, now)]
