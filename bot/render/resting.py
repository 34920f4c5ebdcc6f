"""The reminder when a rest is over, in words."""

from html import escape

from bot.messages import Action, Button, Message
from bot.render.loads import rest_words
from bot.render.session_views import ItemView, SessionView
from core.programme.exercises import Exercise

NO_REMINDER = "No more reminders. Ask for one whenever you like."
HOW_LONG = "How long? Type it, like <code>rest 90</code>, or <code>rest 2 min</code>."


def reminder_buttons(view: SessionView, each: ItemView) -> tuple[Button, ...]:
    """Return what can be asked about reminders on the open exercise; nothing where no rest is given.

    One button stands beside others; where there are two, they have a row of their own.
    """
    if not each.item.prescription.rest_s:
        return ()
    if view.reminder == "every":
        return (view.button("Rest now", Action.REST, 1), view.button("No reminders", Action.REST))
    if view.reminder == "once":
        return (
            view.button("Remind me again", Action.REST, 1),
            view.button("Every rest", Action.REST, 2),
        )
    return (view.button("Rest reminder", Action.REST, 1),)


def will_remind(seconds: int, *, every: bool) -> str:
    """Say when a reminder comes; where every rest is asked for, how that goes and how it ends."""
    when = f"I write when {rest_words(seconds)} are over."
    if every:
        return (
            f"{when} After each exercise I do it by myself; after a set tap Rest now. "
            "No more: <code>no reminder</code>."
        )
    return when


def not_so_long(least: int, most: int) -> str:
    """Say which rests can be marked. [s]"""
    return (
        f"I can mark a rest of {rest_words(least)} to {rest_words(most)}. Type it, like <code>rest 90</code>."
    )


def rest_is_over(seconds: int, order: str, exercise: Exercise | None) -> Message:
    """Say that a rest is over, and what is next. It has a sound: it was asked for."""
    following = f" Next: {order} {escape(exercise.name)}." if exercise is not None else ""
    return Message(f"Rest is over, {rest_words(seconds)}.{following}", protect=True)
