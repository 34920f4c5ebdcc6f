"""What a coach's orders are called, for her and for the client."""

from collections.abc import Mapping
from datetime import date
from html import escape

from bot.render.dates import day_words
from bot.render.exercise_names import in_sentence
from bot.render.loads import load_words
from bot.render.pain import place_words
from core.checkin.pain import loads_site
from core.loads.asked import as_load
from core.loads.order import CoachOrder, OrderKind
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.lighter_weeks import DELOAD_LEFT, DELOAD_LOAD
from core.units import Mass

LIGHTER_WEEK = f"Loads at {DELOAD_LOAD * 100:.0f} %, about half the sets, {DELOAD_LEFT} more left in each"
"""What a lighter week is."""
FULL_WEEK = "All sets, with the load of now and no more"
"""What a week is that a coach has taken the lighter week out of."""


def paused_now(exercise: Exercise) -> str:
    """Tell a client in the middle of a session what was taken out of it."""
    return f"Your coach has paused {escape(in_sentence(exercise.name))}."


def order_line(order: CoachOrder, catalogue: Mapping[str, Exercise] = CATALOGUE) -> str:
    """Say an order back to the coach."""
    if order.kind is OrderKind.PAUSE:
        until = "you take it up again" if order.until is None else day_words(order.until)
        return f"Paused until {until}: {escape(_exercise(order, catalogue))}."
    if order.kind is not OrderKind.EASE:
        return _of_a_load(order, catalogue)
    if order.deload:
        return f"Lighter{days_words(order.from_on, order.until)}. {LIGHTER_WEEK}."
    what = f"what loads the {place_words(order.site, None)}" if order.site else "everything"
    if order.site and order.exercise and not loads_site(catalogue[order.exercise], order.site):
        what += f" and {escape(in_sentence(_exercise(order, catalogue)))}"
    when = "Next session eased" if order.until is None else f"Eased{days_words(order.from_on, order.until)}"
    return f"{when}: {order.percent} % less and one set fewer, for {what}."


def _of_a_load(order: CoachOrder, catalogue: Mapping[str, Exercise]) -> str:
    """Say an order on a load, on raises, or what was agreed to."""
    name, when = escape(_exercise(order, catalogue)), days_words(order.from_on, order.until)
    if order.kind is OrderKind.HOLD:
        return f"No raises{when}: {name}."
    if order.kind is OrderKind.FULL:
        return f"No lighter week{when}. {FULL_WEEK}."
    load = mass_words(order.mass, catalogue[order.exercise]) if order.mass and order.exercise else ""
    if order.kind is OrderKind.AGREED:
        return f"Raise agreed up to {load}: {name}."
    return f"Your load{when}: {name} {load}."


def mass_words(mass: Mass, exercise: Exercise) -> str:
    """Write a load as it is counted in an exercise: `90 kg`, `16 kg a hand`, `bw+5 kg`."""
    return load_words(as_load(mass, exercise), exercise.basis)


def days_words(first: date | None, last: date | None) -> str:
    """Write from when until when, with a space before it; nothing where neither is known."""
    begins = f" from {day_words(first)}" if first is not None else ""
    return begins + (f" until {day_words(last)}" if last is not None else "")


def take_up_label(order: CoachOrder, catalogue: Mapping[str, Exercise] = CATALOGUE) -> str:
    """Name the button that takes a paused exercise up again."""
    return f"Take up {in_sentence(_exercise(order, catalogue))} again"


def _exercise(order: CoachOrder, catalogue: Mapping[str, Exercise]) -> str:
    return catalogue[order.exercise].name if order.exercise else "everything"
