"""Short lines that a session card says on top."""

from core.units import Mass

OLD_BUTTON = "That button was from before. This is how things stand."
WAS_AWAY = "I was away for a while, and a tap may have been lost. This is how things stand."
TYPE_INSTEAD = "There is no load to repeat yet. Type what you did, like <code>{example}</code>."

LEFT_OUT = {
    "time": "Left out: no time. Nothing is carried over, and no load goes down for it.",
    "ill": "Left out: ill. Get well first. With fever or chest symptoms, no training until they are gone.",
    "pain": "Left out: pain.",
    "away": "Left out: away.",
}


def nothing_to_undo() -> str:
    """Say that there is nothing to take back."""
    return "There is nothing to take back here."


def over_the_line(line: Mass) -> str:
    """Say why a heavier step is not offered."""
    return f"More than {line} is over your load line today. The reason stands under Why."
