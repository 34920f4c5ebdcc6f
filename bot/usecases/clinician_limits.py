"""`/limit NAME: WHAT`: what a clinician has limited. Read back in full, then it holds at once; only the coach ends it.

A limit goes into every decision from the moment it holds. What it rules out is done otherwise where something stands
in, on the card that is out and on those to come; the coach reads what before it holds and after, and takes all of it
back together on the same day. Of a card that is out less is given, never more; what was begun stays as it was done.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import clinician_limits as say
from bot.render.setting_up import Buttons
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import clinician_limits_held
from bot.usecases.block_files import only_for_coaches
from bot.usecases.leaving import answer
from bot.usecases.named_first import named_first, which
from bot.usecases.taps_typed import typed_tap
from core.loads.limit_words import limit_read
from core.loads.limits import Limit
from core.local_time import local_date

KIND = "limit"
WORDS = {
    **dict.fromkeys(("let it hold", "it holds", "yes", "hold"), Action.CONFIRM),
    **dict.fromkeys(("no", "cancel"), Action.CANCEL),
    "take it out": Action.DROP,
    "yes, take it out": Action.RELEASE,
    **dict.fromkeys(("keep it", "back"), Action.BACK),
    "undo": Action.UNDO,
}
"""What may be typed for a button."""


@dataclass(frozen=True, slots=True)
class LimitSaid:
    """`/limit`, with what stands after it."""

    text: str = ""


def limit_said(command: LimitSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Read a clinician's limit and read it back; with a name alone, list what stands. Nothing holds yet."""
    if person.role != "coach":
        return only_for_coaches(person)
    if not command.text.strip():
        return [answer(person, KIND, say.how_to())]
    client, rest = named_first(command.text, unit)
    if client is None:
        return [which(KIND, command.text, person, unit)]
    today = local_date(now, client.zone or "UTC")
    if not rest:
        return _opened(client, person, unit, now, {"asks": None})
    catalogue = unit.exercises.catalogue()
    read = limit_read(rest, today, catalogue)
    if read.no_unit:
        return [answer(person, KIND, say.no_unit())]
    if read.backwards:
        return [answer(person, KIND, say.backwards())]
    if not read.limits:
        return [answer(person, KIND, say.unread(read.unread, read.near))]
    draft = [each.model_dump(mode="json", exclude_none=True) for each in read.limits]
    return _opened(client, person, unit, now, {"asks": "hold", "draft": draft})


def _opened(client: Client, person: Person, unit: Unit, now: datetime, facts: dict[str, Any]) -> list[Effect]:
    unit.prompts.close_kind(KIND, client.id, now)
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        facts=facts,
    )
    key = f"{KIND}:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    unit.prompts.expect_text(prompt)
    message = _message(prompt, client, unit, now)
    return [Send(person.chat_id, message, key=f"{key}:card", card=key, client_id=client.id)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Let a limit hold, or not; take one out after asking once more."""
    if person.role != "coach":
        return []
    client = unit.clients.get(prompt.subject or 0)
    asks = prompt.facts.get("asks")
    match tap.action:
        case Action.CONFIRM if asks == "hold":
            return _held(prompt, client, unit, now)
        case Action.CANCEL if asks == "hold":
            unit.prompts.close(prompt.id, now)
            return [_card(prompt, say.cancelled())]
        case Action.DROP if asks is None and _named(tap, client, unit, now) is not None:
            limit = _named(tap, client, unit, now)
            return [_shown(prompt, client, unit, now, asks="out", out=limit.row_id if limit else 0)]
        case Action.RELEASE if asks == "out":
            back = clinician_limits_held.taken_out(prompt.facts.get("out", 0), client, unit, now)
            note = say.STALE if back is None else say.taken_out(back, unit.exercises.catalogue())
            return [_shown(prompt, client, unit, now, note)]
        case Action.UNDO if _may_undo(prompt, client, now):
            effects = clinician_limits_held.undone(prompt.facts["held"], client, unit, now)
            note = say.undone(on_card=bool(effects))
            return [*effects, _shown(prompt, client, unit, now, note)]
        case Action.BACK if asks == "out":
            return [_shown(prompt, client, unit, now)]
        case _:
            return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how things stand, after a tap on a button that is no longer good."""
    if person.role != "coach":
        return []
    if prompt.closed_at is not None:
        return [_card(prompt, say.closed())]
    client = unit.clients.get(prompt.subject or 0)
    return [_shown(prompt, client, unit, now, say.STALE, **_kept_facts(prompt))]


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take typed words for a button; None for other words."""
    tap = typed_tap(text, prompt, WORDS)
    if tap is None:
        return None
    found = tapped(tap, prompt, person, unit, now)
    return [
        replace(each, moved=True) if isinstance(each, EditCard) and each.card == prompt.card_key else each
        for each in found
    ]


def _named(tap: Tap, client: Client, unit: Unit, now: datetime) -> Limit | None:
    """Return the limit that a button names; typed words name the one that stands, where there is one alone."""
    if tap.argument:
        return unit.clinician_limits.get(tap.argument, client.id)
    standing = unit.clinician_limits.standing(client.id, local_date(now, client.zone or "UTC"))
    return standing[0] if len(standing) == 1 else None


def _held(prompt: Prompt, client: Client, unit: Unit, now: datetime) -> list[Effect]:
    held = clinician_limits_held.held(_draft(prompt), client, unit, now)
    note = say.held(client.name, held.card, held.coming, unit.exercises.catalogue())
    return [*held.effects, _shown(prompt, client, unit, now, note, held=held.facts)]


def _may_undo(prompt: Prompt, client: Client, now: datetime) -> bool:
    """Return whether limits may be taken back as a slip: on their first day; later on only a clinician ends one."""
    held = prompt.facts.get("held")
    return held is not None and held["on"] == local_date(now, client.zone or "UTC").isoformat()


def _draft(prompt: Prompt) -> tuple[Limit, ...]:
    return tuple(Limit.model_validate(each) for each in prompt.facts.get("draft", ()))


def _kept_facts(prompt: Prompt) -> dict[str, Any]:
    return {key: prompt.facts[key] for key in ("asks", "draft", "out", "held") if key in prompt.facts}


def _shown(
    prompt: Prompt, client: Client, unit: Unit, now: datetime, note: str = "", **facts: Any
) -> EditCard:
    last = {"last": prompt.facts["last"]} if "last" in prompt.facts else {}
    revised = unit.prompts.revise(prompt.id, facts={"asks": None, **facts, **last})
    return _card(revised, _message(revised, client, unit, now, note))


def _message(prompt: Prompt, client: Client, unit: Unit, now: datetime, note: str = "") -> Message:
    buttons, catalogue = Buttons(prompt.id, prompt.revision), unit.exercises.catalogue()
    if prompt.facts.get("asks") == "hold":
        draft = _draft(prompt)
        coming = clinician_limits_held.coming_with(draft, client, unit, now)
        return say.read_back(client.name, draft, coming, catalogue, buttons)
    limit = unit.clinician_limits.get(prompt.facts.get("out", 0), client.id)
    if prompt.facts.get("asks") == "out" and limit is not None:
        return say.ask_out(client.name, limit, catalogue, buttons)
    standing = unit.clinician_limits.standing(client.id, local_date(now, client.zone or "UTC"))
    can_undo = _may_undo(prompt, client, now)
    return say.standing(client.name, standing, catalogue, buttons, note, can_undo=can_undo)


def _card(prompt: Prompt, message: Message) -> EditCard:
    key = prompt.card_key or f"{KIND}:{prompt.id}"
    return EditCard(key, prompt.chat_id, message, client_id=prompt.client_id)
