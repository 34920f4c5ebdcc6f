"""What is done in turn: a set of each exercise of a letter, then the rest."""

from collections.abc import Sequence
from html import escape

from bot.render.loads import dose_words, rest_words
from bot.render.session_views import ItemView
from core.programme.together import Group, Grouping, groups


def in_turn_line(each: ItemView, items: Sequence[ItemView]) -> str | None:
    """Say above the first exercise of a letter that it goes in turn with others; None where it stands alone."""
    group = _group(each, items)
    if group is None or group.members[0].order != each.item.prescription.order:
        return None
    orders = [member.order for member in group.members]
    rest = f", rest {rest_words(group.rest_s)}" if group.rest_s else ""
    return f"{', '.join(orders[:-1])} and {orders[-1]} in turn{rest}:"


def in_turn_with(each: ItemView, items: Sequence[ItemView]) -> str | None:
    """Say on the open exercise what it goes in turn with; None where it stands alone."""
    group = _group(each, items)
    if group is None:
        return None
    own = each.item.prescription.order
    named = {other.item.prescription.order: _partner(other) for other in items}
    others = [named[one.order] for one in group.members if one.order != own]
    between = sorted({one.rest_s for one in group.members[:-1] if one.rest_s})
    pause = f" with {rest_words(between[-1])} between" if between and between[-1] != group.rest_s else ""
    rest = f"rest {rest_words(group.rest_s)}" if group.rest_s else "rest"
    return f"In turn with {', '.join(others)}: a set of each{pause}, then {rest}."


def _partner(other: ItemView) -> str:
    """Name what goes in turn, with what is asked for of it: nobody looks for it between two sets."""
    name = f"{other.item.prescription.order} {escape(other.exercise.name)}"
    return name if other.plan is not None else f"{name}, {dose_words(other.item.given, other.exercise)}"


def _group(each: ItemView, items: Sequence[ItemView]) -> Group | None:
    """Return what is still to be done in turn with an exercise."""
    open_ones = [
        other.item.prescription.model_copy(update={"dose": other.item.given})
        for other in items
        if other.item.state == "open"
    ]
    own = each.item.prescription.order
    found = next((one for one in groups(open_ones) if own in {member.order for member in one.members}), None)
    return None if found is None or found.grouping is Grouping.ALONE else found
