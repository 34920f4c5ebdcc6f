"""The prep before a session: one line on the card, and step by step on request."""

from collections import Counter
from collections.abc import Mapping, Sequence
from html import escape

from bot.messages import Action, Message
from bot.render.session_lines import head
from bot.render.session_views import SessionView
from core.programme.drills import DRILLS
from core.programme.prep import PrepStep

PLACES = 3
"""Sites that the line names: those that most drills serve."""
CAUTION = "Easy, and without pain: leave out what hurts."


def prep_line(steps: Sequence[PrepStep]) -> str:
    """Say in one line how long the prep takes and what it loosens."""
    return f"Prep {minutes_of(steps)} min: {places_of(steps)}"


def prep_screen(view: SessionView) -> Message:
    """Show the routine, a drill a step, with its dose and cue, and where the coach shows it."""
    lines = [head(view), "", f"Prep, about {minutes_of(view.prep)} min. {CAUTION}"]
    lines += step_lines(view.prep, view.clips)
    return Message("\n".join(lines), rows=((view.button("Back", Action.BACK),),))


def step_lines(steps: Sequence[PrepStep], clips: Mapping[str, str]) -> list[str]:
    """Write a routine as HTML, a drill each.

    Args:
        steps: In order.
        clips: Where the coach shows a drill, by its key.
    """
    lines = []
    for number, step in enumerate(steps, 1):
        drill = DRILLS[step.drill]
        clip = f"\nSee it: {escape(clips[step.drill])}" if step.drill in clips else ""
        lines.append(f"\n<b>{number}  {escape(drill.name)}</b>  {dose_of(step)}\n{escape(drill.cue)}{clip}")
    return lines


def places_of(steps: Sequence[PrepStep]) -> str:
    """Name the sites that a routine serves most."""
    served = Counter(site.value for step in steps for site in sorted(DRILLS[step.drill].sites))
    return ", ".join(place for place, _ in served.most_common(PLACES))


def minutes_of(steps: Sequence[PrepStep]) -> int:
    """Return how long a routine takes, at least one. [min]"""
    return max(1, round(sum(step.takes_s for step in steps) / 60))


def dose_of(step: PrepStep) -> str:
    """Write how often or how long: `8 times a side`, `30 s`."""
    side = " a side" if step.each_side else ""
    return f"{step.reps} times{side}" if step.reps is not None else f"{step.seconds} s{side}"
