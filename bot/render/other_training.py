"""Training beside the block, in words."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from bot.messages import Action, Button, Message, Rows
from bot.render.dates import day_words
from bot.render.setting_up import Buttons
from core.checkin.other_training_words import EFFORTS, Trained

LABEL = "Other training"
KINDS = tuple(Trained)
NAMES = {
    Trained.CLASS: "a class",
    Trained.WORK: "physical work",
    Trained.OTHER: "something else",
    Trained.RIDE: "a ride",
}
NAMES |= {Trained.RUN: "a run", Trained.MATCH: "a match", Trained.SWIM: "a swim", Trained.HIKE: "a hike"}
MINUTES = (20, 30, 45, 60, 90, 120)
STALE = "That button was from before. This is how it stands."
NO_DISTANCE = "I keep minutes, no distance."
TAKEN_BACK = "Taken back. Nothing is kept of it."
NOTE = "No, it is for my coach"


@dataclass(frozen=True, slots=True)
class Kept:
    """One training beside the block.

    Attributes:
        kind: What.
        on: The client's date.
        minutes: How long; None where that was not said. [min]
        effort: Place in the five words from 1; None where that was not said.
    """

    kind: Trained
    on: date
    minutes: int | None = None
    effort: int | None = None


def kept_of(kind: str, on: date, minutes: int | None, effort: int | None) -> Kept:
    """Return what is kept as its words need it."""
    return Kept(Trained(kind), on, minutes, effort)


def words(kept: Kept, *, dated: bool = True) -> str:
    """Write one: `a run, 40 min, hard, Tue 14 April`."""
    parts = [NAMES[kept.kind]]
    if kept.minutes is not None:
        parts.append(f"{kept.minutes} min")
    if kept.effort is not None:
        parts.append(EFFORTS[kept.effort - 1].lower())
    if dated:
        parts.append(day_words(kept.on))
    return ", ".join(parts)


def ask(buttons: Buttons) -> Message:
    """Ask what was done."""
    rows = buttons.picks([(place, NAMES[kind].capitalize()) for place, kind in enumerate(KINDS)], 2)
    return Message(
        "<b>Other training</b>\n\nWhat did you do today? One tap is enough. "
        "Or type it, like <code>run 40 min yesterday</code>.",
        rows=rows,
        silent=True,
    )


def kept(each: Kept, today: date, buttons: Buttons, note: str = "") -> Message:
    """Say what is kept, with what may be added and the way back."""
    rows: list[tuple[Button, ...]] = []
    if each.minutes is None:
        made = [buttons.one(f"{minutes} min", Action.TRIM, minutes) for minutes in MINUTES]
        rows += [tuple(made[:3]), tuple(made[3:])]
    if each.effort is None:
        made = [buttons.one(name, Action.FEEL, place) for place, name in enumerate(EFFORTS, 1)]
        rows += [tuple(made[:3]), tuple(made[3:])]
    last = [buttons.one("Undo", Action.UNDO)]
    if each.on == today:
        last.insert(0, buttons.one("It was yesterday", Action.MOVE))
    open_ones = [word for word, value in (("long", each.minutes), ("hard", each.effort)) if value is None]
    asks = f"How {', and how '.join(open_ones)}? Tap, type it, or leave it." if open_ones else ""
    text = "\n\n".join(part for part in (f"Kept: {words(each)}.", note, asks) if part)
    return Message(text, rows=(*rows, tuple(last)), silent=True)


def ask_whether(each: Kept, buttons: Buttons) -> Message:
    """Ask whether that is meant."""
    label = words(each)
    return Message(
        "Was that other training?",
        rows=(
            (buttons.one(label[:1].upper() + label[1:], Action.CONFIRM),),
            (buttons.one(NOTE, Action.CANCEL),),
        ),
        silent=True,
    )


def for_coach() -> Message:
    """Say that it went to the coach."""
    return Message("Passed on to your coach. Nothing else was kept.", silent=True)


def taken_back() -> Message:
    """Say that it is gone."""
    return Message(TAKEN_BACK, silent=True)


def row(buttons: Buttons) -> Rows:
    """The button on other views."""
    return ((buttons.one(LABEL, Action.START),),)


def week_line(trained: Sequence[Kept], *, dated: bool = True) -> str:
    """Write what somebody trained beside the block, and its minutes in all where those are known."""
    told = "; ".join(words(each, dated=dated) for each in trained)
    minutes = [each.minutes for each in trained if each.minutes is not None]
    if len(trained) > 1 and len(minutes) == len(trained):
        return f"{told} ({sum(minutes)} min in all)"
    return told


def edit_changes_nothing() -> Message:
    """Say that an edit does not change other training."""
    return Message(
        "What I keep as other training does not change with your edit. "
        "Use the buttons under it, or take it back there and type it anew.",
        silent=True,
    )
