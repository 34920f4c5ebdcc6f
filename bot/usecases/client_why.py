"""`/why`: a decision of a client's exercise, for her coach, back to the sets and reports that it rests on."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Action, Effect, Person, Send, Tap
from bot.render import client_papers as say
from bot.render.whose import which
from bot.store.decisions import KeptDecision
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer
from core.loads.decision import Inputs
from core.programme.catalogue import named, suggestions

KIND = "why"
MOST = 20
"""Exercises that are offered, the newest decisions first. Our proposal."""
LOOKED_AT = 120
"""Decisions of a client that are looked through for them. Our proposal: some weeks."""


@dataclass(frozen=True, slots=True)
class WhyAsked:
    """`/why`, with a name and an exercise after a comma."""

    text: str = ""


def why_asked(command: WhyAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the newest decision for an exercise; ask which where none is named."""
    if person.role != "coach":
        return only_for_coaches(person)
    name, _, exercise = (part.strip() for part in command.text.partition(","))
    found = clients_meant(name, unit)
    if not is_clear(name, found):
        return [answer(person, KIND, which(KIND, name, [each.name for each in found]))]
    known = {each.exercise: unit.exercises.get(each.exercise) for each in newest_decisions(found[0], unit)}
    near = suggestions(exercise, 1, known) if exercise else []
    meant = named(exercise, known) or (near[0] if near else None)
    if meant is None:
        return begin(found[0], person, unit, now)
    return _shown(found[0], meant.key, person, unit)


def begin(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask which exercise is meant."""
    keys = [each.exercise for each in newest_decisions(client, unit)]
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        facts={"keys": keys},
    )
    names = [unit.exercises.get(key).name for key in keys]
    message = say.why_which(client.name, names, say.Buttons(prompt.id, prompt.revision))
    return [answer(person, KIND, message)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the decision that was chosen; every button stays good."""
    keys: list[str] = prompt.facts.get("keys", [])
    if person.role != "coach" or tap.action is not Action.PICK or tap.argument >= len(keys):
        return []
    return _shown(unit.clients.get(prompt.subject or 0), keys[tap.argument], person, unit)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """What was shown is shown; `/why` shows it anew."""
    return []


def _shown(client: Client, exercise: str, person: Person, unit: Unit) -> list[Effect]:
    kept = unit.decisions.latest(client.id, exercise)
    if kept is None:
        return []
    inputs = Inputs.model_validate_json(kept.inputs)
    update_id = person.arrival.update_id if person.arrival else 0
    return [
        Send(person.chat_id, page, key=f"{KIND}:{update_id}:{number}")
        for number, page in enumerate(say.why(client.name, kept.id, kept.made_at, inputs, kept.value))
    ]


def newest_decisions(client: Client, unit: Unit) -> list[KeptDecision]:
    """Return the newest decision of each exercise, newest first."""
    found: dict[str, KeptDecision] = {}
    for _, each in zip(range(LOOKED_AT), unit.decisions.of_client(client.id), strict=False):
        found.setdefault(each.exercise, each)
    return list(found.values())[:MOST]
