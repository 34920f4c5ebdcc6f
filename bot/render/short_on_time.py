"""Short on time, in words."""

from collections.abc import Sequence
from html import escape

from bot.messages import Action, Message
from bot.render.session_lines import head
from bot.render.session_views import SessionView
from core.programme.exercises import Exercise

TRIM = Action.TRIM
OFFERED = (20, 30, 45)
"""Minutes that have a button."""


def short_screen(view: SessionView) -> Message:
    """Ask how much time there is."""
    return Message(
        f"{head(view)}\n\nHow much time is there, with the warm-up? Tap, or type it, like <code>25 min</code>. "
        "What does not fit is left out from the end. The main lift stays, and no load goes down for it.",
        rows=(
            tuple(view.button(f"{minutes} min", TRIM, minutes) for minutes in OFFERED),
            (view.button("Back", Action.BACK),),
        ),
    )


def trimmed(dropped: Sequence[tuple[str, Exercise]], seconds: int, minutes: int, *, warm_up: bool) -> str:
    """Say what was left out, and how long the rest will take."""
    about = f"about {-(-seconds // 60)} min by my estimate"
    about += ", 5 of them to warm up" if warm_up else ""
    if not dropped:
        fits = "All of it fits" if seconds <= minutes * 60 else "There is nothing more to leave out"
        return f"{fits}: {about}."
    names = ", ".join(f"{order} {escape(exercise.name)}" for order, exercise in dropped)
    over = " That is longer than you have: end when you must." if seconds > minutes * 60 else ""
    return f"Left out today: {names}. What stays takes {about}.{over}"
