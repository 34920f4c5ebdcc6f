"""The card of an illness: one question after the other on it, each with its buttons."""

from datetime import date, datetime

from bot.messages import EditCard, Effect, Message, Person, Send
from bot.render import illness as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from core.loads.health import IllnessKind
from core.local_time import local_date

KIND = "illness"
ASK_KIND, ASK_COLD, ASK_WELL, NOTED = "kind", "cold", "well", "noted"
"""Screens of the card."""


def opened(
    client: Client,
    person: Person,
    screen: str,
    unit: Unit,
    now: datetime,
    *,
    session: int | None = None,
    since: date | None = None,
    illness: int | None = None,
    key: str | None = None,
) -> Prompt:
    """Open the question anew, on a screen of it; one that was open is over."""
    unit.prompts.close_kind(KIND, client.id, now)
    update_id = person.arrival.update_id if person.arrival else 0
    first = since or local_date(now, client.zone or "UTC")
    return unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        card_key=key or f"{KIND}:{client.id}:{update_id}",
        facts={"screen": screen, "session": session, "since": first.isoformat(), "illness": illness},
        expects_text=True,
    )


def message_of(prompt: Prompt, unit: Unit) -> Message:
    """Return the question as it stands."""
    under, policy = buttons(prompt), unit.rules.policy(prompt.client_id)
    match prompt.facts["screen"]:
        case "kind":
            return say.ask_kind(under)
        case "cold":
            return say.ask_cold(under, int(policy.ill_drop * 100))
        case "well":
            return say.ask_well(under, policy.ill_wait)
    kept = unit.illnesses.get(int(prompt.facts["illness"]))
    if kept.kind == IllnessKind.COLD:
        return say.noted_cold(under, policy.cold_days)
    return say.noted_general(under, kept.since, policy.ill_wait)


def revised(prompt: Prompt, unit: Unit, **facts: object) -> Prompt:
    """Go on with the question, with other facts."""
    return unit.prompts.revise(prompt.id, facts={**prompt.facts, **facts})


def closed(prompt: Prompt, message: Message, unit: Unit, now: datetime) -> list[Effect]:
    """End the question, and show what came of it."""
    unit.prompts.close(prompt.id, now)
    return [shown(prompt, message)]


def buttons(prompt: Prompt) -> say.Buttons:
    """Return what makes the buttons of the question as it stands."""
    return say.Buttons(prompt.id, prompt.revision)


def _key(prompt: Prompt) -> str:
    return prompt.card_key or f"{KIND}:{prompt.id}"


def shown(prompt: Prompt, message: Message) -> EditCard:
    """Show something on the card of the question."""
    return EditCard(_key(prompt), prompt.chat_id, message, client_id=prompt.client_id)


def as_sent(effect: Effect, prompt: Prompt) -> Effect:
    """Return the first showing of a card as the message that it becomes."""
    if not isinstance(effect, EditCard) or effect.card != prompt.card_key:
        return effect
    key = f"{effect.card}:card"
    return Send(effect.chat_id, effect.message, key=key, card=effect.card, client_id=effect.client_id)
