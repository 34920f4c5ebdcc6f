"""An alert with what its coach has done about it, and the buttons for what she can do."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from html import escape

from bot.messages import Action, Button, Message, Rows
from bot.render.exercise_names import in_sentence
from bot.render.ordering import order_line, take_up_label
from bot.render.pain import place_words
from bot.render.setting_up import Buttons
from core.loads.order import CoachOrder, OrderKind
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Site

__all__ = ["AlertView", "Button", "Buttons", "alert", "grown_since"]

OLD = "That button was from before. This is how things stand."
SHARES = (10, 20)
"""By how much a coach can ease with a button. [%] Our proposal."""
ALL = 100
"""Added to the share in a button's argument where everything is meant, not only what hurts."""


@dataclass(frozen=True, slots=True)
class AlertView:
    """An alert as it stands.

    Attributes:
        html: As it was told.
        own: Buttons that it was told with.
        name: Of the client.
        seen: True when the coach has said so.
        is_pain: True where something can be eased or paused.
        orders: What she has ordered about it and not taken back.
        screen: "" for the alert, "ease" and "pause" while she chooses.
        site: Where it hurts.
        offered: Exercises that can be paused.
        note: A line on top.
        loads: Loads that can be given, as words.
        on_hold: True where a load would be looked for there, and is not while it hurts.
        catalogue: Exercises that the coach may name.
        several: True where it tells of several clients: what is done for one of them is done by her name.
    """

    html: str
    own: Rows
    name: str
    seen: bool
    is_pain: bool
    orders: tuple[CoachOrder, ...]
    screen: str
    site: str | None
    offered: Sequence[str]
    note: str | None
    loads: Sequence[str] = ()
    on_hold: bool = False
    catalogue: Mapping[str, Exercise] = field(default_factory=lambda: CATALOGUE)
    several: bool = False


def alert(view: AlertView, buttons: Buttons) -> Message:
    """Show an alert."""
    done = [order_line(each, view.catalogue) for each in view.orders]
    if view.seen:
        done.insert(0, "Seen.")
    asked = {"ease": _ask_ease, "pause": _ask_pause, "load": _ask_exercise, "loads": _ask_load}.get(
        view.screen
    )
    question, rows = asked(view, buttons) if asked else ("", _rows(view, buttons))
    parts = [view.note or "", view.html, "\n".join(done), question]
    return Message("\n\n".join(part for part in parts if part), rows=rows)


def _rows(view: AlertView, buttons: Buttons) -> Rows:
    seen = () if view.seen else (buttons.one("Seen", Action.SEEN),)
    if view.several:
        return (*view.own, seen) if seen else view.own
    rows: list[tuple[Button, ...]] = [*view.own, (*seen, buttons.one("Write to them", Action.WRITE))]
    log = buttons.one("Show the log", Action.LOG)
    if not view.is_pain:
        return (*rows, (log,))
    eased = next((each for each in view.orders if each.kind is OrderKind.EASE), None)
    if eased is None:
        rows.append((buttons.one("Ease next session", Action.EASE),))
    else:
        rows.append((buttons.one("Do not ease", Action.CANCEL, eased.row_id),))
    rows += [
        (buttons.one(take_up_label(each, view.catalogue), Action.TAKE_UP, each.row_id),)
        for each in view.orders
        if each.kind is OrderKind.PAUSE
    ]
    if view.on_hold:
        rows.append((buttons.one("Give a load", Action.LOAD),))
    rows.append((buttons.one("Pause this exercise", Action.PAUSE), log))
    return tuple(rows)


def _ask_ease(view: AlertView, buttons: Buttons) -> tuple[str, Rows]:
    site = place_words(Site(view.site), None) if view.site else "site"
    rows = [
        tuple(buttons.one(f"{name} −{share} %", Action.PICK, more + share) for share in SHARES)
        for name, more in ((f"For the {site}", 0), ("All of it", ALL))
    ]
    question = (
        f"Ease the next session of {escape(view.name)}: what loads the {site}, or all of it? "
        "One set fewer goes with it. It never makes anything heavier."
    )
    return question, (*rows, buttons.back)


def _ask_pause(view: AlertView, buttons: Buttons) -> tuple[str, Rows]:
    names = [(number, view.catalogue[key].name) for number, key in enumerate(view.offered)]
    question = "Which exercise? It stays out until you take it up again."
    if not names:
        question = f"Nothing in the block of {escape(view.name)} loads it."
    return question, (*buttons.picks(names, 1), buttons.back)


def _ask_exercise(view: AlertView, buttons: Buttons) -> tuple[str, Rows]:
    names = [(number, view.catalogue[key].name) for number, key in enumerate(view.offered)]
    question = "No load is looked for in these while it hurts. Which one do you give a load for?"
    return question, (*buttons.picks(names, 1), buttons.back)


def _ask_load(view: AlertView, buttons: Buttons) -> tuple[str, Rows]:
    name = view.catalogue[view.offered[0]].name
    question = (
        f"{escape(name)}: which load? It is read back, with what it comes to, before it holds. "
        "No load of yours goes past pain of 4 and over. "
        f"Or reply to this with another, like <code>{escape(in_sentence(name))} {escape(view.loads[0])}</code>."
        if view.loads
        else f"Nothing in the kit of {escape(view.name)} makes a load for {escape(name)}."
    )
    return question, (*buttons.picks(list(enumerate(view.loads)), 3), buttons.back)


def grown_since(html: str) -> Message:
    """Say of an alert that it was told anew since."""
    return Message(f"{html}\n\nThere is newer word of this further down, with its own buttons.")
