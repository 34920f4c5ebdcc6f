"""An answer to a video becomes that client's cue, in one tap."""

from datetime import datetime

from bot.messages import Action, EditCard, Effect, Person, Rows, Tap
from bot.render import video_cue as say
from bot.store.cues import About
from bot.store.forwards import Forwarded
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import cues
from core.checkin.cues import LONGEST

KIND = "video cue"
SEEN = frozenset({"photo", "video", "video_note", "animation"})
"""What shows how an exercise is done."""


def offered(forwarded: Forwarded, text: str, card: str, person: Person, unit: Unit, now: datetime) -> Rows:
    """Offer to keep what a coach answered to a picture as a cue; nothing where it shows no exercise."""
    words = " ".join(text.split())
    if forwarded.kind not in SEEN or forwarded.item_id is None or not words:
        return ()
    exercise = unit.sessions.item(forwarded.item_id).exercise
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=forwarded.client_id,
        card_key=card,
        facts={"exercise": exercise, "text": words},
    )
    name = unit.clients.get(forwarded.client_id).name
    return say.offer(name, unit.exercises.get(exercise).name, _buttons(prompt))


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Keep it, or ask for a line that fits."""
    if person.role != "coach":
        return []
    if tap.action is Action.CANCEL:
        unit.prompts.close(prompt.id, now)
        return [EditCard(_key(prompt), prompt.chat_id, say.not_kept(_about(prompt, unit)[0]))]
    text = str(prompt.facts["text"])
    if tap.action is not Action.CONFIRM:
        return refreshed(prompt, person, unit, now)
    if len(text) > LONGEST:
        return _asked_shorter(text, prompt, unit)
    return _kept(text, prompt, person, unit, now)


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the shorter line."""
    words = " ".join(text.split())
    if len(words) > LONGEST:
        return _asked_shorter(words, prompt, unit)
    return _kept(words, prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Say what became of it, after a tap on an old button."""
    if person.role != "coach":
        return []
    if prompt.closed_at is None:
        return _asked_shorter(str(prompt.facts["text"]), prompt, unit)
    return [EditCard(_key(prompt), prompt.chat_id, say.settled())]


def _asked_shorter(text: str, prompt: Prompt, unit: Unit) -> list[Effect]:
    unit.prompts.expect_text(prompt)
    revised = unit.prompts.revise(prompt.id)
    name, exercise = _about(prompt, unit)
    message = say.shorter(name, exercise, len(text), LONGEST, _buttons(revised))
    return [EditCard(_key(prompt), prompt.chat_id, message)]


def _kept(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    unit.prompts.close(prompt.id, now)
    unit.prompts.revise(prompt.id)
    about = About(client_id=prompt.client_id, exercise=str(prompt.facts["exercise"]))
    kept = cues.kept(about, text, person, unit, now)
    return [EditCard(_key(prompt), prompt.chat_id, say.kept(*_about(prompt, unit))), *kept]


def _about(prompt: Prompt, unit: Unit) -> tuple[str, str]:
    exercise = unit.exercises.get(str(prompt.facts["exercise"])).name
    return unit.clients.get(prompt.client_id or 0).name, exercise


def _buttons(prompt: Prompt) -> say.Buttons:
    return say.Buttons(prompt.id, prompt.revision)


def _key(prompt: Prompt) -> str:
    return prompt.card_key or f"{KIND}:{prompt.id}"
