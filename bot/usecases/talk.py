"""Where words and taps go: by who speaks, and by what was asked."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from bot.messages import Effect, Person, Tap, encode
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import coach_talk, join, pain, replies, session, setting_up, stop_signs, strangers
from core.checkin.stop_signs import scan


@dataclass(frozen=True, slots=True)
class Heard:
    """Somebody typed something.

    Attributes:
        text: As typed.
        edited: True when it corrects an earlier message.
    """

    text: str
    edited: bool = False


@dataclass(frozen=True, slots=True)
class Tapped:
    """Somebody tapped a button; None when the data was not ours."""

    tap: Tap | None


def heard(command: Heard, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Answer what was typed. A stop sign comes before everything else, whoever writes it."""
    if person.role == "coach":
        return coach_talk.heard(command.text, person, unit, now)
    sign = scan(command.text)
    if sign is not None:
        return stop_signs.found(sign, command.text, person, unit, now)
    if person.role != "client" or person.client_id is None:
        return strangers.answered(person, unit, now)
    client = unit.clients.get(person.client_id)
    if client.state == "joining":
        return join.heard(command.text, client, person, unit, now)
    if client.state == "stopped":
        return join.stopped_speaks(person)
    if command.edited:
        return replies.corrected(command.text, client, person, unit, now)
    return replies.heard(command.text, client, person, unit, now)


Tapping = Callable[[Tap, Prompt, Person, Unit, datetime], Sequence[Effect]]
Refreshing = Callable[[Prompt, Person, Unit, datetime], Sequence[Effect]]

KINDS: dict[str, tuple[Tapping, Refreshing]] = {
    "join": (join.tapped, join.refreshed),
    "session": (session.tapped, session.refreshed),
    "reading": (replies.tapped, replies.refreshed),
    "pain": (pain.tapped, pain.refreshed),
    "stopped": (stop_signs.tapped, stop_signs.refreshed),
    "release": (stop_signs.tapped_by_coach, stop_signs.refreshed),
    "assign": (setting_up.tapped, setting_up.refreshed),
}
"""For each kind of prompt: what a tap does, and how its card is shown again when the tap was stale."""


def tapped(command: Tapped, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Do what a tap asks: once for a prompt and revision.

    The tap is checked for sender and tenant (the prompt must be this person's), for an open prompt and for its
    revision. The same tap again does nothing; a stale one shows the card as it stands, and says so.
    """
    tap = command.tap
    if tap is None or person.coach_id is None:
        return []
    prompt = unit.prompts.get(tap.prompt)
    if prompt is None or prompt.user_id != person.user_id or prompt.kind not in KINDS:
        return []
    act, refresh = KINDS[prompt.kind]
    data = encode(tap)
    if prompt.facts.get("last") == data:
        return []
    if prompt.closed_at is not None or tap.revision != prompt.revision:
        return refresh(prompt, person, unit, now)
    marked = {**prompt.facts, "last": data}
    unit.prompts.note(prompt.id, marked)
    return act(tap, replace(prompt, facts=marked), person, unit, now)
