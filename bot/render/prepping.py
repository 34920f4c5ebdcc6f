"""The prep before a session: one line on the card, and step by step on request."""

from collections import Counter
from collections.abc import Sequence
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
    served = Counter(site.value for step in steps for site in sorted(DRILLS[step.drill].sites))
    places = [place for place, _ in served.most_common(PLACES)]
    return f"Prep {_minutes(steps)} min: {', '.join(places)}"


def prep_screen(view: SessionView) -> Message:
    """Show the routine, a drill a step, with its dose and cue."""
    lines = [head(view), "", f"Prep, about {_minutes(view.prep)} min. {CAUTION}"]
    for number, step in enumerate(view.prep, 1):
        drill = DRILLS[step.drill]
        lines.append(f"\n<b>{number}  {escape(drill.name)}</b>  {_dose(step)}\n{escape(drill.cue)}")
    return Message("\n".join(lines), rows=((view.button("Back", Action.BACK),),))


def _minutes(steps: Sequence[PrepStep]) -> int:
    return max(1, round(sum(step.takes_s for step in steps) / 60))


def _dose(step: PrepStep) -> str:
    side = " a side" if step.each_side else ""
    return f"{step.reps} times{side}" if step.reps is not None else f"{step.seconds} s{side}"
