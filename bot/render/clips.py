"""A coach's clips of prep drills, in words."""

from collections.abc import Mapping
from html import escape

from bot.messages import Message
from bot.render.exercise_names import in_sentence
from bot.render.setting_up import pages
from core.programme.drill import Drill
from core.programme.drills import DRILLS


def listed(clips: Mapping[str, str]) -> list[Message]:
    """List the drills that have a clip, and say how one is kept."""
    head = (
        "Your clip of a prep drill is shown with it, step by step. Write the drill and the address:\n"
        "<code>/clip ankle rock https://clips.example/ankle-rock</code>\n"
        "<code>/clip ankle rock stop</code> takes it away."
    )
    lines = [f"\n{escape(DRILLS[key].name)}: {escape(link)}" for key, link in sorted(clips.items())]
    return pages(head + ("\n\n<b>Kept</b>" if lines else ""), lines)


def clip_of(drill: Drill, link: str | None) -> Message:
    """Say where a drill is shown, and how it is done."""
    where = f"Your clip: {escape(link)}" if link else "There is no clip of it."
    return Message(f"<b>{escape(drill.name)}</b>\n{escape(drill.cue)}\n{where}", silent=True)


def kept(drill: Drill, link: str) -> Message:
    """Say what was kept."""
    return Message(
        f"Kept: <b>{escape(drill.name)}</b> is shown at {escape(link)}. "
        f"<code>/clip {escape(in_sentence(drill.name))} stop</code> takes it away.",
        silent=True,
    )


def taken_away(drill: Drill) -> Message:
    """Say that a drill has no clip any more."""
    return Message(f"<b>{escape(drill.name)}</b> has no clip any more.", silent=True)
