"""A coach's correction of what a client logged, in words."""

from collections.abc import Sequence
from datetime import date
from html import escape

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.examples import typed_example
from bot.render.loads import sets_words
from bot.render.session_lines import item_line
from bot.render.session_views import ItemView
from bot.render.setting_up import Buttons
from core.checkin.training_log import LoggedSet
from core.programme.exercises import Exercise

__all__ = ["Buttons"]


def ask_item(name: str, items: Sequence[ItemView], on: date, buttons: Buttons) -> Message:
    """Ask which exercise is to be corrected."""
    lines = [
        f"<b>{escape(name)}</b>, {day_words(on)}: which exercise?",
        "",
        *(item_line(each) for each in items),
    ]
    options = [(each.item.id, f"{each.item.prescription.order} {each.exercise.name}") for each in items]
    rows = (*buttons.picks(options, 1), (buttons.one("Leave it", Action.CANCEL),))
    return Message("\n".join(lines), rows=rows, silent=True)


def ask_sets(name: str, each: ItemView, on: date, buttons: Buttons, note: str | None) -> Message:
    """Ask for the sets as the client would type them."""
    lines = [
        f"<b>{escape(name)}</b>, {day_words(on)}",
        item_line(each),
        (
            f"Type what was done, like <code>{escape(typed_example(each))}</code>. It takes the place of what is "
            "kept, what comes next is decided anew, and the client is told."
        ),
    ]
    text = "\n".join(lines)
    return Message(
        f"{note}\n\n{text}" if note else text,
        rows=((buttons.one("Leave it", Action.CANCEL),), buttons.back),
        silent=True,
    )


def unclear(text: str) -> str:
    """Say that what was typed could not be used."""
    return f"“{escape(text[:100])}” I cannot use beyond doubt, so nothing is changed."


def corrected(name: str, exercise: Exercise, sets: Sequence[LoggedSet], on: date) -> Message:
    """Say back to the coach what is kept now."""
    return Message(
        f"Corrected for <b>{escape(name)}</b>, {day_words(on)}: {escape(exercise.name)} {sets_words(sets)}. "
        "What comes next is decided anew.",
        silent=True,
    )


def told_client(
    coach: str, exercise: Exercise, sets: Sequence[LoggedSet], on: date, gone: Sequence[str] = ()
) -> Message:
    """Tell the client in one line, and in one for each best that was told and is none any more."""
    line = f"{escape(coach)} corrected {day_words(on)}: {escape(exercise.name)} {sets_words(sets)}."
    return Message("\n".join([line, *gone]), silent=True)


def left_alone() -> Message:
    """Say that nothing was changed."""
    return Message("All right, nothing was changed.", silent=True)


def settled() -> Message:
    """Say that the question is over."""
    return Message("This is settled. /client asks anew.", silent=True)
