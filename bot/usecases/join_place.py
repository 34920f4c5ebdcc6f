"""A place that a client shares: its clock answers the question for her clock; at other times she is asked."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person
from bot.render.helping import cannot_use
from bot.store.units import Unit
from bot.usecases import join, own_settings, strangers


@dataclass(frozen=True, slots=True)
class PlaceShared:
    """Somebody shared a place.

    Attributes:
        zone: Its time zone; None where none was found. The place itself goes no further than the door.
    """

    zone: str | None = None


def place_shared(command: PlaceShared, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take the clock of a place while it is asked for; else ask whether the clock is to be changed to it."""
    if person.role == "coach":
        return [join.answer(person, "place", cannot_use())]
    if person.role != "client" or person.client_id is None:
        return strangers.answered(person, unit, now)
    client = unit.clients.get(person.client_id)
    if client.state == "stopped":
        return join.stopped_speaks(person)
    if client.state == "joining":
        taken = join.located(command.zone, client, person, unit, now)
        return [join.asked_again(client, person, unit, now)] if taken is None else taken
    return own_settings.located(command.zone, client, person, unit, now)
