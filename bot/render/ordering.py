"""What a coach's orders are called, for her and for the client."""

from collections.abc import Mapping
from html import escape

from bot.render.pain import place_words
from core.checkin.pain import loads_site
from core.loads.order import CoachOrder, OrderKind
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise


def paused_now(exercise: Exercise) -> str:
    """Tell a client in the middle of a session what was taken out of it."""
    return f"Your coach has paused {escape(exercise.name.lower())}."


def order_line(order: CoachOrder, catalogue: Mapping[str, Exercise] = CATALOGUE) -> str:
    """Say an order back to the coach."""
    if order.kind is OrderKind.PAUSE:
        return f"Paused until you take it up again: {escape(_exercise(order, catalogue))}."
    what = f"what loads the {place_words(order.site, None)}" if order.site else "everything"
    if order.site and order.exercise and not loads_site(catalogue[order.exercise], order.site):
        what += f" and {escape(_exercise(order, catalogue).lower())}"
    return f"Next session eased: {order.percent} % less and one set fewer, for {what}."


def take_up_label(order: CoachOrder, catalogue: Mapping[str, Exercise] = CATALOGUE) -> str:
    """Name the button that takes a paused exercise up again."""
    return f"Take up {_exercise(order, catalogue).lower()} again"


def _exercise(order: CoachOrder, catalogue: Mapping[str, Exercise]) -> str:
    return catalogue[order.exercise].name if order.exercise else "everything"
