"""A daily prep, in words: for the coach who sets it, and for her client."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from html import escape
from zoneinfo import ZoneInfo

from bot.messages import Action, Message
from bot.render.prepping import CAUTION, dose_of, minutes_of, places_of, step_lines
from bot.render.setting_up import Buttons
from core.checkin.zones import city_of
from core.programme.daily_prep import DailyPrep
from core.programme.drills import DRILLS
from core.programme.exercises import Site
from core.programme.prep import PrepStep

__all__ = ["Buttons"]

EXAMPLE = "hips, low back"
"""What a coach may write, where nothing is like what she wrote."""


@dataclass(frozen=True, slots=True)
class SetView:
    """A daily prep as its coach reads it.

    Attributes:
        name: Of the client.
        asked: What the coach asks for.
        steps: What it comes to now.
        left_out: Sites that hurt too much now.
        due_at: When one goes out, on a day without a session.
        zone: The client's.
        done: How many of the last seven days she has tapped as done.
        sent: How many went out in them.
        limited: Names of drills that were named and break a limit of hers.
    """

    name: str
    asked: DailyPrep
    steps: tuple[PrepStep, ...]
    left_out: tuple[Site, ...]
    due_at: datetime
    zone: str
    done: int = 0
    sent: int = 0
    limited: tuple[str, ...] = ()


def how_to() -> Message:
    """Say how a daily prep is set."""
    return Message(
        "A few minutes every day, for somebody with a history. Name the client, then places or drills:\n"
        "<code>/prep Ada: hips, low back</code>\n"
        "<code>/prep Ada: knee, 6 min</code>\n"
        "<code>/prep Ada: ankle rock, open book</code>\n"
        "<code>/prep Ada</code> shows it, <code>/prep Ada stop</code> ends it.",
        silent=True,
    )


def wanted(asked: DailyPrep) -> str:
    """Say what a coach asks for: `hip, low back, Ankle rock`."""
    drills = [DRILLS[key].name for key in asked.drills if key in DRILLS]
    return ", ".join([*(site.value for site in asked.sites), *drills])


def read_back(view: SetView) -> Message:
    """Say back what was set: the drills, when it comes, and what is left out now."""
    local = view.due_at.astimezone(ZoneInfo(view.zone))
    lines = [f"<b>{escape(view.name)}, every day</b>: {escape(wanted(view.asked))}"]
    if view.steps:
        lines.append(f"About {minutes_of(view.steps)} min:")
        lines += [f"• {escape(DRILLS[step.drill].name)}  {dose_of(step)}" for step in view.steps]
    if view.left_out:
        places = ", ".join(site.value for site in view.left_out)
        lines.append(f"Left out while it hurts 4 or more: {places}.")
    if view.limited:
        lines.append(f"Left out, for it breaks a limit that was given: {escape(', '.join(view.limited))}.")
    if not view.steps:
        lines.append("Nothing of it is left now, so nothing goes out as long as that stands.")
    lines.append(
        "On a training day it is part of the card's prep. On other days it comes by itself, without a sound, "
        f"at {local:%H:%M}, clock of {escape(city_of(view.zone))}."
    )
    if view.sent:
        lines.append(f"Tapped as done: {view.done} of {view.sent} in the last 7 days.")
    return Message("\n".join(lines), silent=True)


def undoable(message: Message, buttons: Buttons) -> Message:
    """Put a button under a message that takes it back."""
    return replace(message, rows=((buttons.one("Take it back", Action.CANCEL),),))


def stopped(name: str) -> Message:
    """Say that it has ended."""
    return Message(f"<b>{escape(name)}</b> has no daily prep any more.", silent=True)


def nothing_set(name: str) -> Message:
    """Say that there is none."""
    return Message(
        f"<b>{escape(name)}</b> has no daily prep. <code>/prep {escape(name)}: hips, low back</code> sets one.",
        silent=True,
    )


def taken_back(name: str, before: DailyPrep | None) -> Message:
    """Say that it is as before."""
    now = (
        f"every day {escape(wanted(before))}, as before" if before is not None else "no daily prep, as before"
    )
    return Message(f"Taken back. <b>{escape(name)}</b>: {now}.", silent=True)


def for_file(asked: DailyPrep, left_out: Sequence[Site]) -> str:
    """Say on a client's card which daily prep she has."""
    out = f" ({', '.join(site.value for site in left_out)} left out while it hurts)" if left_out else ""
    return f"Daily prep: {escape(wanted(asked))}{out}."


def short(steps: Sequence[PrepStep], buttons: Buttons) -> Message:
    """Tell a client of today's routine in a line."""
    return Message(
        f"Daily prep, about {minutes_of(steps)} min: {places_of(steps)}.",
        rows=((buttons.one("Step by step", Action.PREP), buttons.one("Done", Action.DONE)),),
        silent=True,
    )


def by_steps(steps: Sequence[PrepStep], clips: Mapping[str, str], buttons: Buttons) -> Message:
    """Show a client today's routine, a drill a step."""
    lines = [f"Daily prep, about {minutes_of(steps)} min. {CAUTION}", *step_lines(steps, clips)]
    rows = ((buttons.one("Done", Action.DONE), buttons.one("Back", Action.BACK)),)
    return Message("\n".join(lines), rows=rows, silent=True)


def nothing_now() -> Message:
    """Say that all of it would move what hurts."""
    return Message("Nothing of the daily prep today: all of it moves what hurts.", silent=True)


def done(steps: Sequence[PrepStep]) -> Message:
    """Say that today's routine is done."""
    return Message(f"Daily prep done: {places_of(steps)}." if steps else "Daily prep done.", silent=True)
