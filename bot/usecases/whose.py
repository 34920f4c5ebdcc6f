"""Whose progress or bests are asked for: a client's own, or those of a client that a coach names."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person
from bot.render import whose as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer
from bot.usecases.today import client_of


@dataclass(frozen=True, slots=True)
class Whose:
    """Who is meant.

    Attributes:
        client: Whose; None where that has to be asked, or nobody may ask.
        rest: What was typed beside the name.
        effects: What is answered where there is no client.
    """

    client: Client | None
    rest: str = ""
    effects: Sequence[Effect] = ()


def whose(text: str, command: str, person: Person, unit: Unit, now: datetime) -> Whose:
    """Return the client who asks, or the one whom her coach names before a comma.

    Args:
        text: What stands after the command.
        command: Its name, for an example.
        person: Who asks.
        unit: Open transaction.
        now: Instant.
    """
    if person.role != "coach":
        client, answered = client_of(person, unit, now)
        return Whose(client, " ".join(text.split()), answered)
    name, _, rest = (part.strip() for part in text.partition(","))
    found = clients_meant(name, unit)
    if is_clear(name, found):
        return Whose(found[0], rest)
    names = [each.name for each in found]
    return Whose(None, effects=[answer(person, "whose", say.which(command, name, names))])
