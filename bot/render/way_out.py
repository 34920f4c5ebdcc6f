"""Words about raises at a place that hurts a little and stays so: asked of the coach, and what she has answered."""

from collections.abc import Sequence
from html import escape

from bot.messages import Action, Button, Message, Tap, encode
from bot.render.pain import HasRevision


def _button(prompt: HasRevision, label: str, action: Action) -> Button:
    return Button(label, encode(Tap(prompt.id, prompt.revision, action)))


def ask(prompt: HasRevision, name: str, place: str, score: int) -> Message:
    """Ask the coach whether raises go on."""
    return Message(
        f"<b>{escape(name)}</b>: {place}, steady at {score} of 10 or less, and no worse in the morning.\n"
        "Loads at this place are held. Shall raises go on there?\n"
        "I ask once. Without an answer they stay held. The first report above "
        f"{score} ends it, and nothing rises at 4 and over.",
        rows=(
            (
                _button(prompt, "Raises go on", Action.AGREE),
                _button(prompt, "Keep holding", Action.DECLINE),
            ),
        ),
    )


def answered(prompt: HasRevision, name: str, place: str, score: int, *, allowed: bool) -> Message:
    """Say what the coach has decided, with a button for the other."""
    head = f"<b>{escape(name)}</b>, {place}: "
    if allowed:
        said = f"raises go on, from the next card, until a report above {score}. You take the responsibility, not I."
        other = _button(prompt, "Keep holding", Action.DECLINE)
    else:
        said = "loads stay held while it hurts."
        other = _button(prompt, "Raises go on", Action.AGREE)
    return Message(head + said, rows=((other,),), silent=True)


def over(name: str) -> Message:
    """Say that the question no longer stands."""
    return Message(
        f"<b>{escape(name)}</b> has told of more pain since. Loads are held, and nothing is to be decided here.",
        silent=True,
    )


def which(named: Sequence[tuple[str, str]]) -> Message:
    """Ask which question about raises is meant, or say that none is open."""
    if not named:
        return Message(
            "No question about raises is open. I ask when a place stays steady at 1 to 3.", silent=True
        )
    lines = [f"<code>{escape(name)}: raises go on, {escape(place)}</code>" for name, place in named]
    return Message(
        "Which one? Nothing is changed yet. Type it with the name:\n" + "\n".join(lines), silent=True
    )
