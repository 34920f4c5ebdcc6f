"""Swap, in words: what can be done instead of an exercise today."""

from html import escape

from bot.messages import Action, Button, Message
from bot.render.exercise_names import in_sentence
from bot.render.session_lines import item_line
from bot.render.session_views import SessionView
from core.programme.exercises import Exercise

TAKE = Action.SWAP_TO


def swap_screen(view: SessionView) -> Message:
    """Offer what can be done instead of the exercise at hand."""
    each = view.current()
    line = f"{item_line(each)}\n\n" if each is not None else ""
    rows: list[tuple[Button, ...]] = [
        (view.button(view.catalogue[key].name, TAKE, number),) for number, key in enumerate(view.swaps, 1)
    ]
    if view.swap_back:
        rows.append((view.button("Back to the written one", TAKE),))
    own = each.item.prescription.instead if each is not None else ()
    first = " What your coach would choose comes first." if {*own} & {*view.swaps} else ""
    text = (
        f"What instead, for today? Tap it, or type its name.{first}"
        if rows
        else "There is nothing here to put in its place. Skip it, or ask your coach."
    )
    return Message(f"{line}{text}", rows=(*rows, (view.button("Back", Action.BACK),)))


def swapped(exercise: Exercise, *, back: bool) -> str:
    """Say what was put in place of what."""
    if back:
        return f"Back to {escape(in_sentence(exercise.name))}."
    return f"For today: {escape(in_sentence(exercise.name))}."


def cannot(exercise: Exercise) -> str:
    """Say that an exercise can no longer be chosen."""
    return f"{escape(exercise.name)} cannot be done here today. Nothing was changed."
