"""Questions that are asked in turn on one card: the check-in, the end of a block."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Button, Message, Rows
from bot.render.dates import day_words
from bot.render.setting_up import Buttons
from core.checkin.check_in import Kind, Question

ROW = 16
"""The argument of a word's button: its row times this, and its place."""
NEAR = "I could not tell which one. Tap it, or type it once more."
NOTED = "Noted, and passed on to your coach."
HEARD = "Your voice message went to your coach."
CUT = 150
"""Letters of an answer that the coach's lists show."""


@dataclass(frozen=True, slots=True)
class View:
    """A card with one of its questions.

    Attributes:
        title: What it is.
        number: Which question, from 1.
        of: How many there are.
        question: The question.
        chosen: Places that were chosen so far, by row.
        lead: What stands before the first question.
        note: What was just taken.
    """

    title: str
    number: int
    of: int
    question: Question
    chosen: Mapping[int, int]
    lead: str = ""
    note: str = ""


def screen(view: View, buttons: Buttons) -> Message:
    """Ask one question."""
    head = f"<b>{view.title}</b> · {view.number} of {view.of}"
    chosen = [
        f"{part.name}: {part.words[view.chosen[row]].lower()}"
        for row, part in enumerate(view.question.parts)
        if row in view.chosen and part.name
    ]
    parts = [head, view.note, view.lead if view.number == 1 else "", _asked(view.question), *chosen]
    text = "\n\n".join([part for part in parts if part])
    return Message(text, rows=_rows(view, buttons), silent=True)


def _asked(question: Question) -> str:
    hint = "Type it in one line, or send a voice message." if question.kind is Kind.FREE else ""
    more = "Or type a line of your own." if question.kind is Kind.PICK else ""
    return "\n".join(each for each in (f"<b>{escape(question.text)}</b>", hint or more) if each)


def _rows(view: View, buttons: Buttons) -> Rows:
    rows: list[tuple[Button, ...]] = []
    for row, part in enumerate(view.question.parts):
        if row in view.chosen:
            continue
        before = f"{part.name} " if part.name else ""
        made = [
            buttons.one(f"{before}{word.lower() if before else word}", Action.PICK, row * ROW + place)
            for place, word in enumerate(part.words)
        ]
        rows += [tuple(made[at : at + 3]) for at in range(0, len(made), 3)]
    return (*rows, (buttons.one(view.question.none, Action.LATER),))


def waits(title: str, number: int, of: int, buttons: Buttons) -> Message:
    """Say that the rest waits while something of the body is asked."""
    head = f"<b>{title}</b> · {number} of {of}"
    return Message(
        f"{head}\n\nThis first. The rest waits here.",
        rows=((buttons.one("Go on", Action.TAKE_UP),),),
        silent=True,
    )


def over(title: str) -> Message:
    """Say of an old card that its time is over."""
    return Message(f"<b>{title}</b>\n\nThis one is over. Nothing is missing.", silent=True)


def passed_on(name: str, about: str, question: str, text: str) -> Message:
    """Show the coach a line that a client wrote in answer to a question."""
    return Message(f"<b>{escape(name)}</b>, {about}\n{escape(question)}\n{escape(text[:3000])}")


def answering(about: str, question: str) -> str:
    """Say what a voice message answers."""
    return f"{about[:1].upper()}{about[1:]}: {escape(question)}"


def said_line(said: Sequence[tuple[str, str]]) -> str:
    """Write the answers in one line, for the coach's lists."""
    return "; ".join(escape(_cut(answer)) for _, answer in said)


def _cut(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= CUT else f"{line[: CUT - 1]}…"


def ended(title: str, last: str) -> Message:
    """Say that all is answered."""
    return Message(f"<b>{title}</b>\n\n{last}", silent=True)


def no_open(next_on: date | None) -> Message:
    """Say that there is no check-in to take up."""
    coming = f" The next comes {day_words(next_on)}." if next_on is not None else ""
    return Message(f"No check-in is open.{coming}", silent=True)


def edit_passed_on() -> Message:
    """Say that an edit went to the coach, and that the answer stays."""
    return Message(
        "Your new words have gone to your coach. The answer that I kept stays as it was.", silent=True
    )
