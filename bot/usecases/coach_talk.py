"""What a coach types that is no command: an answer to a question, or words for a client that she has named."""

from collections.abc import Sequence
from datetime import datetime

from bot.messages import Effect, Person, Send
from bot.render.coach_talk import coach_help, edits_stay
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import (
    answering,
    block_voice,
    check_in_questions,
    clinician_limits,
    coach_settings,
    correcting,
    kit,
    last_loads,
    orders_said,
    raises,
    raises_said,
    referring,
    reminding,
    rules,
    setting_up,
    telling_many,
    versions,
    video_cue,
    way_out_said,
    week_files,
)

CARE = {
    clinician_limits.KIND: clinician_limits.typed,
    referring.KIND: referring.typed,
    reminding.KIND: reminding.typed,
    rules.KIND: rules.typed,
    telling_many.KIND: telling_many.typed,
    block_voice.KIND: block_voice.typed,
    video_cue.KIND: video_cue.typed,
}
"""By kind of question about care, her rules or what she says to several, who takes typed words for its buttons."""


def heard(text: str, person: Person, unit: Unit, now: datetime, *, edited: bool = False) -> Sequence[Effect]:
    """Read it as the answer to what is open; else say what a coach can do."""
    if edited and person.arrival is not None and person.arrival.reply_to is not None:
        return [Send(person.chat_id, edits_stay(), key=f"edit:{person.arrival.update_id}")]
    steady = None if edited else way_out_said.heard(text, person, unit, now)
    if steady is not None:
        return steady
    ordered = None if edited else _ordered(text, person, unit, now, answers=True)
    passed_on = ordered or answering.heard(answering.Words(text), person, unit, now)
    if passed_on is not None:
        return passed_on
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is not None and prompt.kind == "correct":
        return correcting.typed(text, prompt, person, unit, now)
    if prompt is not None and prompt.kind == coach_settings.KIND:
        return coach_settings.typed(text, prompt, person, unit, now)
    if prompt is not None and prompt.kind == "assign":
        return setting_up.typed(text, prompt, unit, now)
    if prompt is not None and prompt.kind == last_loads.KIND:
        return last_loads.typed(text, prompt, unit, now)
    said = _settled(text, prompt, person, unit, now)
    if said is None and not edited:
        said = _ordered(text, person, unit, now, answers=False)
    if said is not None:
        return said
    arrival = person.arrival.update_id if person.arrival else 0
    return [Send(person.chat_id, coach_help(), key=f"help:{arrival}")]


def _ordered(text: str, person: Person, unit: Unit, now: datetime, *, answers: bool) -> list[Effect] | None:
    """Take an order, or a word to raises that wait; `answers` while it may be the answer to what is open."""
    raised = raises_said.heard(text, person, unit, now, answers=answers)
    return orders_said.heard(text, person, unit, now, answers=answers) if raised is None else raised


def _settled(
    text: str, prompt: Prompt | None, person: Person, unit: Unit, now: datetime
) -> Sequence[Effect] | None:
    """Take the answer to a question that other words leave open."""
    if prompt is not None and prompt.kind == check_in_questions.KIND:
        return check_in_questions.typed(text, prompt, person, unit, now)
    if prompt is not None and prompt.kind in CARE:
        return CARE[prompt.kind](text, prompt, person, unit, now)
    if prompt is not None and prompt.kind == raises.KIND:
        return raises.typed(text, prompt, person, unit, now)
    if prompt is not None and prompt.kind == kit.KIND:
        return kit.typed(text, person, unit, now)
    if prompt is not None and prompt.kind == versions.KIND:
        return versions.typed(text, prompt, unit, now)
    if prompt is not None and prompt.kind == week_files.KIND:
        return week_files.typed(text, prompt, unit, now)
    return None
