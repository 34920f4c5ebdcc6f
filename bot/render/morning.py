"""Words of the morning after: one question, with numbers."""

from datetime import date

from bot.messages import Action, Button, Message, Rows, Tap, encode
from bot.render.dates import day_words
from bot.render.pain import HasRevision


def ask(prompt: HasRevision, place: str, said_on: date) -> Message:
    """Ask how a place is the morning after.

    Args:
        prompt: The question.
        place: In words, such as `left knee`.
        said_on: When it was said to hurt.
    """
    return Message(
        # What a locked screen shows says nothing about her body.
        "A question for this morning.\n"
        f"{place.capitalize()}, since {day_words(said_on)}: how is it this morning, from 0 to 10?\n"
        "Tap, or reply to this message with a number.",
        rows=numbers(prompt),
    )


def numbers(prompt: HasRevision) -> Rows:
    """Return a button for each number, and one for what is gone."""
    made = [
        Button(str(score), encode(Tap(prompt.id, prompt.revision, Action.SCORE, score)))
        for score in range(11)
    ]
    gone = Button("Gone", encode(Tap(prompt.id, prompt.revision, Action.SCORE)))
    return (tuple(made[:6]), tuple(made[6:]), (gone,))
