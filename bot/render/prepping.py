"""The prep before a session: one line on the card, and step by step on request."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from html import escape

from bot.messages import Action, Message, Rows
from bot.render.exercise_names import in_sentence
from bot.render.session_lines import head
from bot.render.session_views import SessionView
from core.programme.drills import DRILLS
from core.programme.prep import PrepStep

PLACES = 3
"""Sites that the line names: those that most drills serve."""
CAUTION = "Easy, and without pain: leave out what hurts."


PREP_DONE = "Prep done."
PREP_LEFT = "Prep left out. Tap Prep, and it goes on where you were."


def prep_line(steps: Sequence[PrepStep], prepped: Collection[str] = ()) -> str:
    """Say in one line how long the prep takes and what it loosens, or how far it is done."""
    done = sum(step.drill in prepped for step in steps)
    if steps and done == len(steps):
        return "Prep: done"
    if done:
        return f"Prep: {done} of {len(steps)} done"
    return f"Prep {minutes_of(steps)} min: {places_of(steps)}"


def prep_label(view: SessionView) -> str:
    """Say on the button of the prep whether it begins, goes on or begins anew."""
    done = sum(step.drill in view.prepped for step in view.prep)
    return "Prep again" if done == len(view.prep) else "Go on with prep" if done else "Prep"


def prep_screen(view: SessionView) -> Message:
    """Show the drill that is next, with its dose and cue, the coach's clip where there is one, and what follows."""
    left = [step for step in view.prep if step.drill not in view.prepped]
    if not left:
        return Message(f"{head(view)}\n\n{PREP_DONE}", rows=((view.button("Back", Action.BACK),),))
    step, *others = left
    drill, number = DRILLS[step.drill], len(view.prep) - len(others)
    minutes = minutes_of(left)
    lines = [
        head(view),
        "",
        f"Prep {number} of {len(view.prep)}, about {minutes} min to go",
        f"<b>{escape(drill.name)}</b>  {dose_of(step)}",
        escape(drill.cue),
    ]
    if number == 1:
        lines.append(CAUTION)
    if step.drill in view.clips:
        lines.append(f"See it: {escape(view.clips[step.drill])}")
    if others:
        more = f" and {len(others) - 1} more" if len(others) > 1 else ""
        lines += ["", f"Then: {escape(in_sentence(DRILLS[others[0].drill].name))}{more}"]
    rows: Rows = ((view.button("Next" if others else "Prep done", Action.NEXT),),)
    last = (view.button("Back", Action.BACK), view.button("Skip the rest", Action.PREP_OVER))
    return Message("\n".join(lines), rows=(*rows, last))


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
