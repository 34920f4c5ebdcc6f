"""Replies that fit an exercise, as examples."""

from bot.render.loads import load_words
from bot.render.session_views import ItemView
from bot.render.set_plans import plan_example
from core.programme.prescription import Load, LoadKind
from core.programme.set_styles import StyleKind
from core.units import plain


def typed_example(each: ItemView) -> str:
    """Return a reply that fits the exercise: its load and one set shorter at the end."""
    given = each.item.given
    if each.plan is not None:
        return plan_example(each.plan)
    span = given.span
    low = span.low if span else 8
    tail = [str(low)] * (given.sets - 1) + [str(max(low - 1, 1))]
    if (
        given.style is not None
        and given.style.kind is StyleKind.ASCENDING
        and (rising := _rising(given.load, low))
    ):
        return rising
    if given.seconds is not None:
        tail = [f"{number}s" for number in tail]
    return " ".join([*_head(given.load, each), *tail])


def _rising(load: Load | None, reps: int) -> str:
    """Return sets of rising loads up to the one asked for; empty where no mass is."""
    if load is None or load.kind is not LoadKind.MASS or load.mass is None:
        return ""
    lighter = max(int(load.mass.value * 4 / 5), 1)
    return f"{lighter}x{reps}, {plain(load.mass.value)}x{reps}"


def _head(load: Load | None, each: ItemView) -> list[str]:
    if load is None or load.kind is LoadKind.BAND:
        return []
    if load.kind is LoadKind.FIND:
        return each.search.get("first", "20").split(" ")[:1]
    if load.kind is LoadKind.BODYWEIGHT and load.mass is None:
        return ["bw"]
    return load_words(load).split(" ")[:1]
