"""A coach edits what the weekly check-in asks, and whom."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from pydantic import ValidationError

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import check_in as say
from bot.render.dates import WEEKDAYS
from bot.render.setting_up import Buttons
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.finding_clients import clients_meant, is_clear
from core.checkin.check_in import (
    CHECK_IN,
    CHOSEN,
    LONGEST,
    MOST,
    Change,
    Question,
    asks_for_number,
    change_read,
    changed,
)

KIND = "checkin list"


def standing(unit: Unit) -> tuple[Question, ...]:
    """Return what this coach's clients are asked."""
    kept = unit.coaches.get(unit.tenant).check_in_questions
    if kept is None:
        return CHECK_IN
    try:
        return tuple(Question.model_validate(each) for each in kept[:MOST])
    except ValidationError:
        return CHECK_IN


def asked(text: str, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the questions; with words after the command change them first."""
    note = _taken(text, person, unit, now) if text.strip() else ""
    unit.prompts.close_kind(KIND, unit.tenant, now)
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, subject=unit.tenant, facts={"step": None}
    )
    key = f"checkin-list:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    return [Send(person.chat_id, _list(prompt, unit, note), key=f"{key}:card", card=key)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Change a question, take one out, add one, or begin anew."""
    if person.role != "coach":
        return []
    questions = standing(unit)
    match tap.action:
        case Action.CHANGE if 1 <= tap.argument <= len(questions):
            return [_asking(f"put {tap.argument}", prompt, unit)]
        case Action.TYPE if len(questions) < MOST:
            return [_asking("add", prompt, unit)]
        case Action.DROP if 1 <= tap.argument <= len(questions):
            return [_shown(prompt, unit, _changed(Change(what="out", number=tap.argument), unit))]
        case Action.PICK:
            number, place = divmod(tap.argument, 8)
            if place < len(CHOSEN):
                change = Change(what="kind", number=number, kind=CHOSEN[place])
                return [_shown(prompt, unit, _changed(change, unit))]
        case Action.UNDO:
            return [_shown(prompt, unit, _changed(Change(what="reset"), unit))]
        case Action.BACK:
            return [_shown(prompt, unit)]
        case _:
            pass
    return refreshed(prompt, person, unit, now)


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the new words of a question."""
    step = str(prompt.facts.get("step") or "add")
    words = " ".join(text.split())
    if words.casefold() == "back":
        return [_shown(prompt, unit, moved=True)]
    return [
        _shown(prompt, unit, _taken(f"{step.removeprefix('put ')} {words}", person, unit, now), moved=True)
    ]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the questions as they stand, after a tap on a button that is no longer good."""
    if person.role != "coach":
        return []
    if prompt.closed_at is not None:
        return [EditCard(_key(prompt), prompt.chat_id, say.closed())]
    return [_shown(prompt, unit, say.STALE)]


def _taken(text: str, person: Person, unit: Unit, now: datetime) -> str:
    """Do what a coach typed, and return what is said of it."""
    change = change_read(text)
    if change is None:
        return say.NOT_READ
    if change.what in ("off", "on"):
        return _turned(change, person, unit, now)
    if len(change.text) > LONGEST:
        return say.TOO_LONG
    if asks_for_number(change.text):
        return say.NO_NUMBERS
    return _changed(change, unit)


def _turned(change: Change, person: Person, unit: Unit, now: datetime) -> str:
    found = clients_meant(change.text, unit)
    if not is_clear(change.text, found):
        return say.unknown(change.text, [each.name for each in found])
    unit.check_ins.turn(found[0].id, person.user_id, now, on=change.what == "on")
    return say.turned(found[0].name, on=change.what == "on")


def _changed(change: Change, unit: Unit) -> str:
    after = changed(standing(unit), change)
    if after is None:
        return say.NO_SUCH
    kept = None if after == CHECK_IN else [each.model_dump(mode="json") for each in after]
    unit.coaches.change(unit.tenant, check_in_questions=kept)
    return say.CHANGED


def _asking(step: str, prompt: Prompt, unit: Unit) -> EditCard:
    revised = unit.prompts.revise(prompt.id, facts={**prompt.facts, "step": step})
    unit.prompts.expect_text(revised)
    buttons = Buttons(revised.id, revised.revision)
    if step == "add":
        return EditCard(_key(revised), revised.chat_id, say.adding(buttons))
    number = int(step.removeprefix("put "))
    return EditCard(_key(revised), revised.chat_id, say.one(number, standing(unit)[number - 1], buttons))


def _shown(prompt: Prompt, unit: Unit, note: str = "", *, moved: bool = False) -> EditCard:
    facts: dict[str, Any] = {**prompt.facts, "step": None}
    revised = unit.prompts.revise(prompt.id, facts=facts)
    unit.prompts.expect_no_text(prompt.user_id)
    return EditCard(_key(revised), revised.chat_id, _list(revised, unit, note), moved=moved)


def _list(prompt: Prompt, unit: Unit, note: str) -> Message:
    off = unit.check_ins.off()
    names = [each.name for each in unit.clients.roster() if each.id in off]
    day = WEEKDAYS[unit.coaches.get(unit.tenant).check_in_weekday]
    return say.listed(standing(unit), day, names, Buttons(prompt.id, prompt.revision), note)


def _key(prompt: Prompt) -> str:
    return prompt.card_key or f"checkin-list:{prompt.id}"
