"""Links that a coach has given out and that nobody has used yet: listed, and taken back."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import invitations as say
from bot.store.invites import Invite
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches


@dataclass(frozen=True, slots=True)
class Invites:
    """`/invites`."""


def invites(command: Invites, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """List open invitations, with a button to revoke each."""
    if person.role != "coach":
        return only_for_coaches(person)
    prompt = unit.prompts.open("invites", person.user_id, person.chat_id, now)
    unit.prompts.set_card(prompt.id, _key(prompt))
    key = _key(prompt)
    return [Send(person.chat_id, _message(prompt, unit, now), key=f"{key}:list", card=key)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Revoke the invitation that was tapped, while it is open and hers."""
    if person.role != "coach":
        return []
    found = next((each for each in _open(unit, now) if each.id == tap.argument), None)
    if tap.action is not Action.PICK or found is None:
        return refreshed(prompt, person, unit, now)
    unit.invites.revoke(found.id, now)
    return [_shown(prompt, unit, now, say.revoked(found.name or ""))]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show what is open now, after a tap on an old button."""
    return [_shown(prompt, unit, now, say.OLD)] if person.role == "coach" else []


def _shown(prompt: Prompt, unit: Unit, now: datetime, note: str) -> EditCard:
    revised = unit.prompts.revise(prompt.id)
    return EditCard(_key(prompt), prompt.chat_id, _message(revised, unit, now, note))


def _message(prompt: Prompt, unit: Unit, now: datetime, note: str | None = None) -> Message:
    zone = unit.coaches.get(unit.tenant).zone
    found = [(each.id, each.name or "", each.expires_at) for each in _open(unit, now)]
    return say.open_ones(found, zone, say.Buttons(prompt.id, prompt.revision), note)


def _open(unit: Unit, now: datetime) -> list[Invite]:
    return [each for each in unit.invites.open_ones(now) if each.kind == "client"]


def _key(prompt: Prompt) -> str:
    return f"invites:{prompt.id}"
