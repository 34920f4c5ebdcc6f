"""A coach's reminders to herself, in words."""

from collections.abc import Sequence
from datetime import date
from html import escape

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.setting_up import Buttons

HOW = (
    "<code>/remind Ada 3 weeks: ask about the hip</code>\n<code>/remind friday: order bands</code>\n"
    "The day stands before the colon."
)


def how_to() -> Message:
    """Say how a reminder is put."""
    return Message(
        f"I could not read a day and what to remind you of. Nothing was kept.\n\n{HOW}", silent=True
    )


def about(name: str | None, text: str) -> str:
    """Write what a reminder says, as HTML."""
    return f"<b>{escape(name)}</b>: {escape(text)}" if name else escape(text)


def kept(name: str | None, text: str, on: date, buttons: Buttons) -> Message:
    """Say a reminder back."""
    return Message(
        f"I remind you {day_words(on)}: {about(name, text)}",
        rows=((buttons.one("Undo", Action.UNDO),),),
        silent=True,
    )


def reminder(name: str | None, text: str, buttons: Buttons, note: str = "") -> Message:
    """Remind."""
    lines = f"Reminder. {about(name, text)}"
    return Message(
        f"{lines}\n{note}" if note else lines,
        rows=(
            (
                buttons.one("Done", Action.DONE),
                buttons.one("Tomorrow", Action.LATER, 1),
                buttons.one("Next week", Action.LATER, 7),
            ),
        ),
    )


def settled(name: str | None, text: str, what: str) -> Message:
    """Say what became of a reminder."""
    return Message(f"{about(name, text)}\n{what}", silent=True)


def listed(reminders: Sequence[tuple[str | None, str, date]]) -> Message:
    """List what waits, the earliest first."""
    lines = [f"{day_words(on)}: {about(name, text)}" for name, text, on in reminders]
    return Message("\n".join(["<b>Reminders</b>", *(lines or ["None waits."]), "", HOW]), silent=True)


def put_off(on: date) -> str:
    """Say when it comes again."""
    return f"Comes again {day_words(on)}."


DONE = "Done."
UNDONE = "Taken back."
