"""Short lines that a session card says on top."""

from html import escape

from bot.messages import Message
from core.programme.exercises import Exercise
from core.units import Mass

OLD_BUTTON = "That button was from before. This is how things stand."
WAS_AWAY = "I was away for a while, and a tap may have been lost. This is how things stand."
TYPE_INSTEAD = "There is no load to repeat yet. Type what you did, like <code>{example}</code>."
TYPE_EACH_SET = "Here the sets differ from day to day. Type what you did, like <code>{example}</code>."
ALL_OR_ONE = (
    "All of it, or one exercise? Tap a button, or type <code>all done</code> or <code>start</code>. "
    "Nothing is stored yet."
)
NOTHING_LOGGED = "Nothing was logged for it."
NOT_CARRIED = "Nothing is carried over."
NOT_COUNTED = "I was not there for you all that time, so this one does not count as missed."
WAS_GONE = "You were away, so this one does not count as missed."
WAS_HOLIDAY = "It was a holiday, so this one does not count as missed."
TAKEN_BACK = "Taken back."
OPEN_AGAIN = "Taken back. The session is open again."
TAKEN_UP = "Taken up again."
NO_SUCH_STEP = "There is no such step in your kit."
TYPE_THE_LOAD = "Type the load with your sets."

LEFT_OUT = {
    "time": "Left out: no time. Nothing is carried over, and no load goes down for it.",
    "ill": "Left out: ill. Get well first. With fever or chest symptoms, no training until they are gone.",
    "pain": "Left out: pain. Nothing is carried over.",
    "away": "Left out: away. Nothing is carried over.",
}


def skipped(exercise: Exercise) -> str:
    """Say what was left out."""
    return f"Left out: {escape(exercise.name)}."


def nothing_to_undo() -> str:
    """Say that there is nothing to take back."""
    return "There is nothing to take back here."


def nothing_open_to_undo() -> Message:
    """Say that no session of today can be taken up again."""
    return Message(
        "There is no session of today to take anything back from. "
        "To correct a number, edit the message that you sent.",
        silent=True,
    )


def stays_closed() -> Message:
    """Say that a session that pain has ended is not taken up again."""
    return Message(
        "This session was ended because of pain, so it stays closed. "
        "To correct a number, edit the message that you sent.",
        silent=True,
    )


def over_the_line(line: Mass) -> str:
    """Say why a heavier step is not offered."""
    return f"More than {line} is over your load line today. The reason stands under Why."
