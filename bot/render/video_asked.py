"""A video that a coach asks for: read back to her, and shown on the client's card."""

from collections.abc import Sequence
from datetime import date
from html import escape

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.exercise_names import in_sentence
from bot.render.setting_up import Buttons

__all__ = ["Buttons"]

EXAMPLE = "<code>/video Ada hip thrust set 3 from the side</code>"

MOST_LISTED = 20


def what(exercise: str, set_no: int | None, side: str | None) -> str:
    """Say what is to be seen: `hip thrust, set 3, from the side`."""
    parts = [in_sentence(exercise), f"set {set_no}" if set_no is not None else "", side or ""]
    return escape(", ".join(part for part in parts if part))


def how_to() -> Message:
    """Say how a video is asked for."""
    return Message(
        f"Whom do you ask, and for what? {EXAMPLE}\nThe set and the side can be left out. Nothing was asked.",
        silent=True,
    )


def whom(written: str) -> Message:
    """Say that it is not clear who is meant."""
    return Message(
        f"I cannot tell whom “{escape(written[:60])}” means. Name first, then the exercise: {EXAMPLE}\n"
        "Nothing was asked.",
        silent=True,
    )


def which_exercise(name: str, written: str, near: Sequence[str]) -> Message:
    """Say that it is not clear which exercise is meant."""
    like = f" Did you mean {escape(' or '.join(near))}?" if near else ""
    return Message(
        f"Which exercise of <b>{escape(name)}</b>? I do not know “{escape(written[:60])}”.{like} {EXAMPLE}\n"
        "Nothing was asked.",
        silent=True,
    )


def pick(name: str, exercises: Sequence[tuple[int, str]], buttons: Buttons) -> Message:
    """Ask which exercise is to be seen."""
    if not exercises:
        return Message(
            f"<b>{escape(name)}</b> has no session planned. With words it can be asked all the same: {EXAMPLE}",
            silent=True,
        )
    return Message(
        f"A video of which exercise of <b>{escape(name)}</b>? With set and side it is one line: {EXAMPLE}",
        rows=(*buttons.picks(exercises, 2), (buttons.one("Never mind", Action.CANCEL),)),
        silent=True,
    )


def asked(name: str, wanted: str, on: date | None, coach: str, buttons: Buttons) -> Message:
    """Read back what is asked for, and when it is seen."""
    when = (
        f"It stands on the card of {day_words(on)}."
        if on is not None
        else ("No session with it is planned now. It stands on the next card that has it.")
    )
    return Message(
        f"I ask <b>{escape(name)}</b> for a video: {wanted}. {when} No message of its own goes out.\n"
        f"The card says: {line(coach, wanted)}",
        rows=((buttons.one("Undo", Action.UNDO),),),
        silent=True,
    )


def line(coach: str, wanted: str) -> str:
    """Say on a card what its client's coach would like to see; `wanted` is escaped."""
    return f"{escape(coach)} asks for a video: {wanted}."


def not_asked() -> Message:
    """Say that nothing is asked for."""
    return Message("All right, nothing is asked for.", silent=True)


def taken_back(name: str, wanted: str) -> Message:
    """Say that it is not asked for any more."""
    return Message(f"Taken back. <b>{escape(name)}</b> is not asked for a video: {wanted}.", silent=True)


def settled(name: str, wanted: str, *, came: bool) -> Message:
    """Say what became of it, after a tap on an old button."""
    end = "It has come." if came else "It is not asked for any more."
    return Message(f"A video of <b>{escape(name)}</b>: {wanted}. {end}", silent=True)


def came(wanted: str) -> str:
    """Say over a video that it was asked for."""
    return f"You asked for: {wanted}."


def waiting(asks: Sequence[tuple[str, str, date]]) -> str:
    """List the videos that were asked for and have not come: name, what, since when; escaped words."""
    if not asks:
        return ""
    lines = [f"{escape(name)}: {wanted}, asked {day_words(on)}" for name, wanted, on in asks[:MOST_LISTED]]
    if len(asks) > MOST_LISTED:
        lines.append(f"and {len(asks) - MOST_LISTED} more")
    return "\n".join(["<b>Videos you asked for that have not come</b>", *lines])
