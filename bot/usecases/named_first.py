"""A coach's line that begins with a client's name: `Ada physiotherapist: left knee`, `Ada 12 sessions`."""

import re

from bot.messages import Person, Send
from bot.render import whose as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.finding_clients import clients_meant
from bot.usecases.leaving import answer
from core.programme.folding import folded


def named_first(text: str, unit: Unit) -> tuple[Client | None, str]:
    """Return the client whom a line names first, and the rest of it; None, and the line, where that is not clear.

    Her whole name counts, or its first word where only one has it. Nothing shorter: `fri` is a day, not Frida.
    """
    line = " ".join(text.split())
    everyone = unit.clients.roster()
    for client in sorted(everyone, key=lambda each: -len(each.name)):
        rest = _rest(line, client.name)
        if rest is not None and sum(folded(each.name) == folded(client.name) for each in everyone) == 1:
            return client, rest
    found = [(each, _rest(line, (each.name.split() or [""])[0])) for each in everyone]
    begun = [(client, rest) for client, rest in found if rest is not None]
    return (begun[0][0], begun[0][1] or "") if len(begun) == 1 else (None, line)


def _rest(line: str, name: str) -> str | None:
    """Return what stands behind a name that a line begins with."""
    if not name or not line.casefold().startswith(name.casefold()):
        return None
    rest = line[len(name) :]
    return re.sub(r"^[\s:,]+", "", rest) if not rest or rest[0] in " :," else None


def which(command: str, text: str, person: Person, unit: Unit) -> Send:
    """Ask which client is meant."""
    typed = re.split(r"[:,]", text, maxsplit=1)[0].strip().partition(" ")[0]
    names = [each.name for each in clients_meant(typed, unit)]
    return answer(person, command, say.which(command, typed, names))
