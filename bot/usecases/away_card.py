"""The card of an absence: until when, training or not, with what, whose clock; said back before it holds."""

from dataclasses import asdict, dataclass, replace
from datetime import date, datetime
from typing import Any, Self

from bot.messages import EditCard, Effect, Message, Person, Send
from bot.render import away as say
from bot.store.aways import Away
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.in_line import style_of
from bot.usecases.today import name_of
from core.checkin.away_words import PLACE, AwaySaid
from core.programme.replanning import Style

KIND = "away"
UNTIL, TRAINING, KIT, RIGHT, HELD, OFFER = "until", "training", "kit", "right", "held", "offer"
"""Screens of the card."""
KINDS = ("both", "bar", "dumbbells", "bodyweight")
"""Kinds of what there may be to lift, in the order of their buttons."""


@dataclass(frozen=True, slots=True)
class Draft:
    """An absence as far as it was said."""

    first: date | None = None
    last: date | None = None
    training: bool | None = None
    kit: str | None = None
    place: str | None = None
    zone: str | None = None

    @classmethod
    def of(cls, facts: dict[str, Any]) -> Self:
        """Read it from the facts of its prompt."""
        kept = dict(facts.get("draft", {}))
        for name in ("first", "last"):
            kept[name] = date.fromisoformat(kept[name]) if kept.get(name) else None
        return cls(**kept)

    def facts(self) -> dict[str, Any]:
        """Write it for the facts of its prompt."""
        found = asdict(self)
        return found | {name: found[name].isoformat() if found[name] else None for name in ("first", "last")}

    def with_said(self, said: AwaySaid) -> "Draft":
        """Return it with what was said now."""
        known = {name: value for name, value in said._asdict().items() if value is not None}
        return replace(self, **known)

    @property
    def screen(self) -> str:
        """What is asked next."""
        if self.first is None or self.last is None:
            return UNTIL
        if self.training is None:
            return TRAINING
        return KIT if self.training and self.kit is None and self.place is None else RIGHT


def opened(draft: Draft, screen: str, client: Client, person: Person, unit: Unit, now: datetime) -> Prompt:
    """Open the question anew; one that was open is over."""
    unit.prompts.close_kind(KIND, client.id, now)
    update_id = person.arrival.update_id if person.arrival else 0
    return unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        card_key=f"{KIND}:{client.id}:{update_id}",
        facts={"screen": screen, "draft": draft.facts()},
        expects_text=True,
    )


def sent(prompt: Prompt, client: Client, unit: Unit, note: str = "") -> Effect:
    """Send the card for the first time."""
    key = prompt.card_key or ""
    message = message_of(prompt, client, unit, note)
    return Send(prompt.chat_id, message, key=f"{key}:card", card=key, client_id=client.id)


def shown(prompt: Prompt, client: Client, unit: Unit, draft: Draft, note: str = "") -> EditCard:
    """Show the question that comes next."""
    facts = {**prompt.facts, "screen": draft.screen, "draft": draft.facts()}
    revised = unit.prompts.revise(prompt.id, facts=facts)
    return card(revised, message_of(revised, client, unit, note))


def card(prompt: Prompt, message: Message) -> EditCard:
    """Show something on the card."""
    key = prompt.card_key or f"{KIND}:{prompt.id}"
    return EditCard(key, prompt.chat_id, message, client_id=prompt.client_id)


def buttons(prompt: Prompt) -> say.Buttons:
    """Return what makes the buttons of the question as it stands."""
    return say.Buttons(prompt.id, prompt.revision)


def message_of(prompt: Prompt, client: Client, unit: Unit, note: str = "") -> Message:
    """Return the question as it stands."""
    draft, under = Draft.of(prompt.facts), buttons(prompt)
    match prompt.facts["screen"]:
        case "offer":
            return say.offer(under)
        case "until":
            return say.ask_until(under, note)
        case "training" if draft.first is not None and draft.last is not None:
            return say.ask_training(under, draft.first, draft.last, note)
        case "kit":
            return say.ask_kit(under, KINDS, places(client, unit), note)
        case _:
            return say.ask_right(under, view_of(draft, client, unit), note)


def places(client: Client, unit: Unit) -> list[str]:
    """Return the places of hers beside the usual one, whose kit is known; not those of other absences."""
    kept = [kit.place for kit in unit.kits.elsewhere(client.id)]
    return [each for each in kept if not each.startswith(PLACE)][:3]


def view_of(draft: Draft, client: Client, unit: Unit, *, clock: bool = False) -> say.AwayView:
    """Return an absence as it is said back."""
    first, last = draft.first or date.min, draft.last or date.min
    laid = unit.sessions.of_client(client.id, ("planned",))
    own = client.zone or "UTC"
    return say.AwayView(
        first=first,
        last=last,
        training=bool(draft.training),
        kit=draft.kit,
        place=draft.place,
        sessions=sum(first <= each.local_on <= last for each in laid),
        in_line=style_of(unit) is Style.IN_LINE,
        zone=draft.zone if draft.zone != own else None,
        own_zone=own,
        instead=tuple((each.from_on, each.last_on) for each in overlapping(draft, client, unit)),
        clock=clock,
    )


def overlapping(draft: Draft, client: Client, unit: Unit) -> list[Away]:
    """Return the absences that a new one takes the place of."""
    if draft.first is None or draft.last is None:
        return []
    standing = unit.aways.standing(client.id, draft.first)
    return [each for each in standing if each.from_on <= draft.last and each.last_on >= draft.first]


def coming(client: Client, unit: Unit) -> str:
    """Say what comes next."""
    following = unit.sessions.next_planned(client.id)
    if following is None:
        return say.coming_words(
            None, None, client.zone or "UTC", runs=unit.blocks.running(client.id) is not None
        )
    return say.coming_words(name_of(following, unit), following.due_at, client.zone or "UTC")
