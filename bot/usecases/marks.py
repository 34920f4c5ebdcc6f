"""What was done on a session's card beside sets, in order, so that it can be taken back or corrected."""

from typing import Any

from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.session_view import prompt_of

SKIP = "skip"
LEFT = "left"


def mark(what: str, item_id: int, session_id: int, message_id: int | None, unit: Unit) -> None:
    """Keep that an exercise was left out, or that reps left were said for it, and by which message."""
    prompt = prompt_of(session_id, unit)
    made = {
        "what": what,
        "item": item_id,
        "before": unit.sets.next_entry(session_id),
        "message": message_id,
        "card": prompt.revision,
    }
    _put([*_marks(prompt), made], prompt, unit)


def newest_skips(session_id: int, unit: Unit) -> set[int]:
    """Return the exercises left out last, in one act; none when a set was logged after it."""
    prompt = prompt_of(session_id, unit)
    standing = unit.sets.last_entry(session_id)
    entry = standing[0].entry if standing else 0
    found = [each for each in _marks(prompt) if each["what"] == SKIP and each["before"] > entry]
    return {int(each["item"]) for each in found if each["card"] == found[-1]["card"]}


def forget(item_id: int, session_id: int, unit: Unit) -> None:
    """Forget what was marked for an exercise; for one that was taken back."""
    prompt = prompt_of(session_id, unit)
    _put([each for each in _marks(prompt) if each["item"] != item_id], prompt, unit)


def from_message(message_id: int, session_id: int, unit: Unit) -> tuple[str, int] | None:
    """Return what a message did in a session, and to which exercise."""
    found = [each for each in _marks(prompt_of(session_id, unit)) if each["message"] == message_id]
    return (str(found[-1]["what"]), int(found[-1]["item"])) if found else None


def _marks(prompt: Prompt) -> list[dict[str, Any]]:
    return list(prompt.facts.get("marks", []))


def _put(marks: list[dict[str, Any]], prompt: Prompt, unit: Unit) -> None:
    unit.prompts.note(prompt.id, {**prompt.facts, "marks": marks})
