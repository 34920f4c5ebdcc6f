"""A client's own settings, in words: what is set, how it is changed, what follows."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from html import escape

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.join import NOTES as JOIN_NOTES
from bot.render.join import QUESTIONS, JoinView, day_list
from core.checkin.zones import city_of
from core.local_time import zone_named

STALE = "That button was from before. This is how things stand."
NOTES = JOIN_NOTES
LABELS = ("Hour", "Days", "Clock", "Unit")


@dataclass(frozen=True, slots=True)
class Own:
    """What a client has set."""

    hour: time | None
    days: tuple[int, ...]
    zone: str
    unit: str


@dataclass(frozen=True, slots=True)
class Plan:
    """What the plan has become.

    Attributes:
        following: Day of the next session; None where nothing is planned.
        due_at: When it comes.
        today: The client's own date.
        zone: The client's own clock.
        lost: Days of the block that no longer find a date.
    """

    following: str | None
    due_at: datetime | None
    today: date
    zone: str
    lost: tuple[str, ...]


def menu(view: JoinView, own: Own) -> Message:
    """Show what is set, with a button to change each."""
    note = f"{view.note}\n\n" if view.note else ""
    hour = f"{own.hour:%H:%M}" if own.hour else "not set"
    lines = (
        "<b>Your settings</b>",
        f"Hour: {hour}",
        f"Days: {day_list(own.days) or 'not set'}",
        f"Clock: {escape(city_of(own.zone))}",
        f"Unit: {own.unit}",
        "",
        "What would you like to change?",
    )
    buttons = [view.button(label, Action.CHANGE, place) for place, label in enumerate(LABELS)]
    return Message(note + "\n".join(lines), rows=(tuple(buttons[:2]), tuple(buttons[2:])), silent=True)


def question(view: JoinView) -> Message:
    """Ask for one setting, as joining asks for it."""
    text, rows = QUESTIONS[view.step](view)
    note = f"{view.note}\n\n" if view.note else ""
    return Message(f"{note}{text}", rows=(*rows, (view.button("Back", Action.BACK),)), silent=True)


def closed() -> Message:
    """Say that this card is over."""
    return Message("These settings are from before. /settings shows them as they are now.", silent=True)


def too_few(needed: int) -> str:
    """Say that a block asks for more days."""
    return (
        f"Your block has {needed} sessions a week, so choose {needed} days at least. Nothing was changed. "
        "If fewer suit you better, tell your coach."
    )


def unit_said(unit: str) -> str:
    """Say back the unit."""
    return f"Your unit: {unit}. It holds from your next card on."


def plan_said(plan: Plan) -> str:
    """Say what comes next now."""
    if plan.following is None or plan.due_at is None:
        return "Nothing is planned just now."
    at = plan.due_at.astimezone(zone_named(plan.zone))
    day = "today" if at.date() == plan.today else day_words(at.date())
    lost = f"\nNo day is left this week for: {_names(plan.lost)}." if plan.lost else ""
    return f"Next: {escape(plan.following)}, {day}, {at:%H:%M}.{lost}"


def lost_for_coach(name: str, own: Own, plan: Plan) -> Message:
    """Tell a coach which sessions find no day any more, after a client's change."""
    hour = f" at {own.hour:%H:%M}" if own.hour else ""
    return Message(
        f"<b>{escape(name)}</b> has changed when sessions come: {day_list(own.days)}{hour}, "
        f"clock of {escape(city_of(own.zone))}.\nNo day is left this week for: {_names(plan.lost)}.",
        silent=True,
    )


def _names(days: Sequence[str]) -> str:
    return ", ".join(escape(day) for day in days)
