"""Show me: the coach's clip of an exercise."""

from html import escape

from bot.messages import Button
from bot.render.session_views import ItemView


def clip_of(each: ItemView) -> str | None:
    """Return the address of the coach's clip: that of the block shows the exercise as written, not one in its place."""
    return (None if each.stands_in else each.item.prescription.link) or each.exercise.link


def clip_buttons(each: ItemView) -> tuple[Button, ...]:
    """Return the button that opens the clip; nothing where there is none."""
    clip = clip_of(each)
    return (Button("Show me", url=clip),) if clip else ()


def cue_of(each: ItemView) -> str:
    """Return the cue of an exercise: the coach's for this client, then the block's, hers for all, and ours.

    What the block says is of the exercise as written, not of one in its place.
    """
    of_block = None if each.stands_in else each.item.prescription.cue
    return each.own_cue or of_block or each.coach_cue or each.exercise.cue


def how_it_is_done(each: ItemView | None) -> str | None:
    """Say where the clip is; the cue stands on the card."""
    clip = clip_of(each) if each is not None else None
    return escape(clip) if clip else "There is no clip of it."
