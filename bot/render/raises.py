"""Raises over a coach's size, which wait for her word."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Button, Message
from bot.render.dates import day_words
from bot.render.exercise_names import in_sentence
from bot.render.loads import load_words
from bot.render.setting_up import Buttons
from core.programme.exercises import Exercise
from core.programme.prescription import Load

SHOWN = 8
"""Raises that are shown at once. Our proposal: each has a row of buttons."""


@dataclass(frozen=True, slots=True)
class Raise:
    """A raise that waits.

    Attributes:
        place: Its place in the list, from 0.
        client: Her name.
        exercise: What is lifted.
        before: The load that stays until then.
        now: The load that it would be.
        percent: How much more.
        since: When it was asked.
    """

    place: int
    client: str
    exercise: Exercise
    before: Load | None
    now: Load
    percent: str
    since: date

    @property
    def told(self) -> str:
        """The raise as a line."""
        basis = self.exercise.basis
        before = load_words(self.before, basis) or "nothing"
        name = f"{escape(self.client)}: {escape(in_sentence(self.exercise.name))}"
        return f"{name} {before} to {load_words(self.now, basis)} (+{self.percent} %)"


def waiting(raises: Sequence[Raise], buttons: Buttons, note: str = "", *, undo: bool = False) -> Message:
    """List all raises that wait, with what she can do of each; `undo` where her last answer can be taken back."""
    last = "Undo takes your last answer back." if undo else ""
    head = [note or last, ""] if note or last else []
    back = ((buttons.one("Undo", Action.UNDO),),) if undo else ()
    if not raises:
        return Message("\n".join([*head, "No raise waits for you."]), rows=back, silent=True)
    lines = [*head, "<b>Raises that wait for you</b>"]
    lines += [
        f"{number}. {each.told}, since {day_words(each.since)}."
        for number, each in enumerate(raises[:SHOWN], 1)
    ]
    if len(raises) > SHOWN:
        lines.append(f"And {len(raises) - SHOWN} more, after these.")
    lines += ["", f"Until you agree, each load stays. Tap, or type <code>{_example(raises[0])}</code>."]
    rows: list[tuple[Button, ...]] = []
    if len(raises) > 1:
        rows.append((buttons.one(f"Agree to all {len(raises)}", Action.CONFIRM),))
    rows += [
        (
            buttons.one(f"Agree {number}", Action.AGREE, each.place),
            buttons.one(f"Change {number}", Action.CHANGE, each.place),
            buttons.one(f"Hold {number}", Action.DECLINE, each.place),
        )
        for number, each in enumerate(raises[:SHOWN], 1)
    ]
    return Message("\n".join(lines), rows=(*rows, *back), silent=True)


def _example(one: Raise) -> str:
    name = escape(one.client)
    return f"agree {name}</code> or <code>hold {name} {escape(in_sentence(one.exercise.name))}"


def agreed(told: Sequence[str]) -> str:
    """Say what was agreed to."""
    agreed_to = [f"Agreed. {each}." for each in told]
    return "\n".join(
        [*agreed_to, "It holds from the next card on; one that is out and not begun is changed now."]
    )


def held(told: str) -> str:
    """Say that a load stays."""
    return f"Held. {told}: it stays until it is earned again."


def undone(*, stays: bool) -> str:
    """Say that the last answer was taken back, or that a session was begun with it."""
    return "A session has been begun with it, so that stays." if stays else "Taken back."


def nothing_to_undo() -> str:
    """Say that no answer can be taken back."""
    return "There is nothing to take back here."


def none_waits(name: str) -> Message:
    """Say that a client has no raise that waits."""
    return Message(
        f"No such raise of <b>{escape(name)}</b> waits for you. <code>/raises</code> shows all.", silent=True
    )


def no_such_number(count: int) -> Message:
    """Say that a number is none of the list."""
    known = "The only number is 1." if count == 1 else f"The numbers are 1 to {count}."
    there = known if count else "No raise waits for you."
    return Message(f"Nothing was changed. {there}", silent=True)


def ask_load(told: str, buttons: Buttons) -> Message:
    """Ask for another load."""
    return Message(
        f"{told}\nWhich load for the next session? Type it, like <code>82.5</code>.",
        rows=((buttons.one("Back", Action.BACK),),),
        silent=True,
    )


def unread_load() -> Message:
    """Say that a typed load was not understood."""
    return Message("A load, please, like <code>82.5</code> or <code>bw+5</code>.", silent=True)


def newer() -> Message:
    """Say of an older list that there is a newer one."""
    return Message("There is a newer list. /raises shows it.", silent=True)
