"""Show me: the coach's clip of an exercise."""

from html import escape

from bot.messages import Button
from bot.render.session_views import ItemView


def clip_of(each: ItemView) -> str | None:
    """Return the address of the coach's clip; it shows the exercise as written, so none for one in its place."""
    return None if each.stands_in else each.item.prescription.link


def clip_buttons(each: ItemView) -> tuple[Button, ...]:
    """Return the button that opens the clip; nothing where there is none."""
    clip = clip_of(each)
    return (Button("Show me", url=clip),) if clip else ()


def cue_of(each: ItemView) -> str:
    """Return the coach's cue, or ours for an exercise that has none of hers or stands in for another."""
    return (None if each.stands_in else each.item.prescription.cue) or each.exercise.cue


def how_it_is_done(each: ItemView | None) -> str | None:
    """Say where the clip is; the cue stands on the card."""
    clip = clip_of(each) if each is not None else None
    return escape(clip) if clip else "There is no clip of it."
