"""A block that clients run came anew: from when the new version holds for them, seen before it does, and taken back."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import versions as say
from bot.render.setting_up import Buttons
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.assigning import FARTHEST
from bot.usecases.version_effects import (
    NEXT_WEEK,
    ONE_DAY,
    TODAY,
    applied,
    can_be_taken_back,
    preview_of,
    runners_of,
    take_back,
)
from core.errors import StartOutside, StartUnreadable
from core.local_time import local_date

KIND = "version"

_WHEN = {
    "next week": say.NEXT_WEEK,
    "from next week": say.NEXT_WEEK,
    "today": say.TODAY,
    "from today": say.TODAY,
    "from today on": say.TODAY,
    "from a date": say.A_DATE,
    "new clients": say.NEW_CLIENTS,
    "only new clients": say.NEW_CLIENTS,
    "only for new clients": say.NEW_CLIENTS,
}
_STEPS = {
    "apply": Action.CONFIRM,
    "yes": Action.CONFIRM,
    "leave it": Action.CANCEL,
    "no": Action.CANCEL,
    "back": Action.BACK,
    "take it back": Action.UNDO,
    "undo": Action.UNDO,
}


def asked(version: int, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask from when a version that was just kept holds for those who run an earlier one; nothing where nobody does."""
    if not runners_of(version, unit):
        return []
    prompt = unit.prompts.open(KIND, person.user_id, person.chat_id, now, subject=version)
    key = f"version:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    unit.prompts.expect_text(prompt)
    return [Send(person.chat_id, _card(prompt, unit, now), key=f"{key}:ask", card=key)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what a coach chose with a button."""
    if person.role != "coach" or prompt.subject is None:
        return []
    return _chosen(tap.action, tap.argument, prompt, unit, now)


def typed(text: str, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take what a coach typed while she is asked; None for other words.

    Raises:
        StartUnreadable: It was to be a date, and is none.
        StartOutside: It is over, or too far off.
    """
    said = " ".join(text.casefold().strip(" .!").split())
    if "applied" not in prompt.facts and "from" not in prompt.facts:
        if said in _WHEN:
            return _below(_chosen(Action.PICK, _WHEN[said], prompt, unit, now))
        if prompt.facts.get("typing") and said == "back":
            return _below(_chosen(Action.BACK, 0, prompt, unit, now))
        if prompt.facts.get("typing") or said[:1].isdecimal():
            on = _date_in(said, prompt, unit, now)
            return _below([_shown(prompt, {"from": on.isoformat()}, unit, now)])
        return None
    if said == "see all":
        return _chosen(Action.PICK, say.SEE_ALL, prompt, unit, now)
    return _below(_chosen(_STEPS[said], 0, prompt, unit, now)) if said in _STEPS else None


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show how it stands, after a tap on a button that is no longer good."""
    if person.role != "coach" or prompt.subject is None:
        return []
    if prompt.closed_at is not None:
        return [_edited(prompt, say.closed())]
    return [_edited(prompt, _card(prompt, unit, now, say.STALE))]


def _chosen(action: Action, argument: int, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Do what was chosen at the step that the card is on."""
    if "applied" in prompt.facts:
        return _taken_back(prompt, unit, now) if action is Action.UNDO else _again(prompt, unit, now)
    if action is Action.BACK:
        return [_shown(prompt, {}, unit, now)]
    if "from" in prompt.facts:
        return _decided(action, argument, prompt, unit, now)
    if action is not Action.PICK:
        return _again(prompt, unit, now)
    match argument:
        case say.NEXT_WEEK:
            return [_shown(prompt, {"from": NEXT_WEEK}, unit, now)]
        case say.TODAY:
            return [_shown(prompt, {"from": TODAY}, unit, now)]
        case say.A_DATE:
            return [_shown(prompt, {"typing": True}, unit, now)]
        case say.NEW_CLIENTS:
            return _left(prompt, unit, now)
        case _:
            return _again(prompt, unit, now)


def _decided(action: Action, argument: int, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Do what was chosen under the preview."""
    if action is Action.CONFIRM:
        return _applied(prompt, unit, now)
    if action is Action.CANCEL:
        return _left(prompt, unit, now)
    if action is Action.PICK and argument == say.SEE_ALL:
        return _all_of_it(prompt, unit, now)
    return _again(prompt, unit, now)


def _date_in(text: str, prompt: Prompt, unit: Unit, now: datetime) -> date:
    today = local_date(now, unit.coaches.get(unit.tenant).zone)
    try:
        on = date.fromisoformat(text)
    except ValueError:
        raise StartUnreadable(written=text, example=(today + ONE_DAY).isoformat()) from None
    if not today <= on <= today + FARTHEST:
        raise StartOutside(written=text, first=today, last=today + FARTHEST)
    return on


def _applied(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    version = prompt.subject or 0
    rows, effects = applied(version, prompt.facts["from"], unit, now)
    if not rows:
        return _again(prompt, unit, now)
    revised = unit.prompts.revise(prompt.id, facts={"applied": rows})
    stay = [each for each in effects if each.too_few is not None]
    return [_edited(prompt, _holds(revised, unit, stay))]


def _holds(
    prompt: Prompt, unit: Unit, stay: Sequence[say.ForClient] = (), note: str | None = None
) -> Message:
    """Say for whom a version that was applied holds."""
    block, number = _named(prompt, unit)
    kept = [row for each in prompt.facts["applied"] if (row := unit.versions.get(each)) is not None]
    done = [(unit.clients.get(row.client_id).name, row.from_on) for row in kept if row.voided_at is None]
    return say.applied(block, number, done, Buttons(prompt.id, prompt.revision), stay, note)


def _taken_back(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Take a version back for those to whom nothing of it was sent."""
    block, number = _named(prompt, unit)
    back: list[str] = []
    stay: list[str] = []
    for row_id in prompt.facts["applied"]:
        kept = unit.versions.get(row_id)
        if kept is None:
            continue
        name = unit.clients.get(kept.client_id).name
        if can_be_taken_back(kept, unit):
            take_back(kept, unit, now)
            back.append(name)
        else:
            stay.append(name)
    unit.prompts.close(prompt.id, now)
    return [_edited(prompt, say.taken_back(block, number, back, stay))]


def _left(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    unit.prompts.close(prompt.id, now)
    return [_edited(prompt, say.only_new(*_named(prompt, unit)))]


def _all_of_it(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Send all that changes as messages of its own; the card stays, and its buttons stay good."""
    unit.prompts.note(prompt.id, {key: fact for key, fact in prompt.facts.items() if key != "last"})
    pages = say.all_of_it(preview_of(prompt.subject or 0, prompt.facts["from"], unit, now))
    key = f"{prompt.card_key}:{now.timestamp():.0f}"
    return [Send(prompt.chat_id, page, key=f"{key}:{at}") for at, page in enumerate(pages)]


def _again(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    return [_edited(prompt, _card(prompt, unit, now, say.STALE))]


def _card(prompt: Prompt, unit: Unit, now: datetime, note: str | None = None) -> Message:
    """Return the card at the step it is on."""
    facts, buttons = prompt.facts, Buttons(prompt.id, prompt.revision)
    block, number = _named(prompt, unit)
    if "applied" in facts:
        return _holds(prompt, unit, note=note)
    if "from" in facts:
        return say.summary(preview_of(prompt.subject or 0, facts["from"], unit, now), buttons, note)
    example = local_date(now, unit.coaches.get(unit.tenant).zone) + ONE_DAY
    if facts.get("typing"):
        return say.ask_date(block, example, buttons, note)
    names = [each.client.name for each in runners_of(prompt.subject or 0, unit)]
    return say.ask(block, number, names, example, buttons, note) if names else say.closed()


def _named(prompt: Prompt, unit: Unit) -> tuple[str, int]:
    version = prompt.subject or 0
    return unit.blocks.version(version).name, unit.versions.number(version)


def _shown(prompt: Prompt, facts: dict[str, Any], unit: Unit, now: datetime) -> EditCard:
    return _edited(prompt, _card(unit.prompts.revise(prompt.id, facts=facts), unit, now))


def _edited(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(prompt.card_key or f"version:{prompt.id}", prompt.chat_id, message)


def _below(effects: list[Effect]) -> list[Effect]:
    """Move the card down under what was typed."""
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]
