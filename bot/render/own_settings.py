"""A client's own settings, in words: what is set, how it is changed, what follows."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from html import escape

from bot.messages import Action, Message, Rows
from bot.render.dates import day_words
from bot.render.join import NOTES as JOIN_NOTES
from bot.render.join import QUESTIONS, JoinView, day_list
from bot.render.join import not_read as joining_not_read
from core.checkin.zones import city_of
from core.local_time import zone_named

STALE = "That button was from before. This is how things stand."
NOTED = "Noted."
NOTES = JOIN_NOTES
STEPS = (
    "hour",
    "days",
    "zone",
    "unit",
    "minutes",
    "place",
    "alone",
    "experience",
    "limits",
    "pregnancy",
    "health",
    "pressure",
    "weekly",
    "consent",
)
LABELS = (
    "Hour",
    "Days",
    "Clock",
    "Unit",
    "Length",
    "Place",
    "Company",
    "Lifting",
    "Limits",
    "Pregnancy",
    "Health",
    "Blood pressure",
    "Weekly line",
    "Consent",
)
CALLED = {label.casefold(): step for step, label in zip(STEPS, LABELS, strict=True)} | {
    "zone": "zone",
    "city": "zone",
    "minutes": "minutes",
    "alone": "alone",
    "safety arms": "alone",
    "experience": "experience",
    "injuries": "limits",
    "pregnant": "pregnancy",
    "birth": "pregnancy",
    "pressure": "pressure",
    "weekly": "weekly",
}
SAID_AT_ANY_TIME = dict.fromkeys(("i am pregnant", "i'm pregnant", "im pregnant", "pregnant"), "pregnant") | {
    "i am no longer pregnant": "neither",
    "i'm no longer pregnant": "neither",
    "i am not pregnant any more": "neither",
    "i gave birth": "birth",
    "i have given birth": "birth",
}
"""What is taken as an answer about pregnancy without being asked."""
WEEKLY = {"none": "none", "short": "one short line", "full": "all of it"}


def step_called(text: str) -> str | None:
    """Return which setting is called so; None for none."""
    return CALLED.get(" ".join(text.casefold().split()))


@dataclass(frozen=True, slots=True)
class Own:
    """What a client has set."""

    hour: time | None
    days: tuple[int, ...]
    zone: str
    unit: str
    minutes: int | None = None
    place: str = "gym"
    alone: bool = True
    arms: bool = False
    experience: str = "new"
    limits: str | None = None
    pregnant: bool = False
    weekly: str = "short"


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
        f"Length: {own.minutes} min" if own.minutes else "Length: not set",
        f"Place: {escape(own.place)}. /kit shows what is there",
        f"Company: {_company(own)}",
        f"Lifting: {_lifting(own)}",
        f"Limits: {escape(own.limits) if own.limits else 'none said'}",
        *(("Pregnant: no load goes up by itself",) if own.pregnant else ()),
        f"Weekly line: {WEEKLY[own.weekly]}",
        "",
        "What would you like to change? Tap, or type it, like <code>/settings hour</code>.",
    )
    buttons = [view.button(label, Action.CHANGE, place) for place, label in enumerate(LABELS)]
    rows = tuple(tuple(buttons[at : at + 3]) for at in range(0, len(buttons), 3))
    return Message(note + "\n".join(lines), rows=rows, silent=True)


def _company(own: Own) -> str:
    return ("alone" if own.alone else "someone is there") + (", safety arms" if own.arms else "")


def _lifting(own: Own) -> str:
    return "under 3 months" if own.experience == "new" else "3 months or longer"


def _weekly(view: JoinView) -> tuple[str, Rows]:
    return (
        "Once a week I can tell you how it went. How much of it do you want?",
        view.picks(("None", "One short line", "All of it"), 3),
    )


def _consent(view: JoinView) -> tuple[str, Rows]:
    return (
        (
            "You have agreed that I keep and use health data for your training. You can take that back now.\n\n"
            "Then I use none of it any more. Without it I cannot work out loads, so no more sessions come, and "
            f"{escape(view.coach)} hears that you have stopped. What was kept stays until you ask for it to be "
            "erased: /forget does that.\n\n"
            "Tap <b>Take it back</b>, or type <code>take it back</code>."
        ),
        ((view.button("Take it back", Action.CONFIRM),),),
    )


def not_read(step: str) -> str:
    """Say that an answer was not understood, with an example."""
    if step == "weekly":
        return "I could not read that. Type <code>none</code>, <code>short</code> or <code>full</code>."
    return joining_not_read(step)


OWN_QUESTIONS = {**QUESTIONS, "weekly": _weekly, "consent": _consent}


def question(view: JoinView) -> Message:
    """Ask for one setting, as joining asks for it."""
    text, rows = OWN_QUESTIONS[view.step](view)
    note = f"{view.note}\n\n" if view.note else ""
    if view.step == "limits" and view.known:
        note += f"Now it says: {escape(view.known[0])}\nWhat you say here takes its place.\n\n"
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


def changed(step: str, own: Own) -> str:
    """Say back what was changed."""
    match step:
        case "unit":
            return f"Your unit: {own.unit}. It holds from your next card on."
        case "minutes":
            return f"Your length: {own.minutes} min. Your coach sees it."
        case "place":
            return f"Your place: {escape(own.place)}. /kit shows what I think is there, and takes what is."
        case "alone":
            return f"Your company: {_company(own)}."
        case "experience":
            return f"Your lifting: {_lifting(own)}. Your coach sees it."
        case "limits":
            said = escape(own.limits) if own.limits else "none"
            return f"Your limits: {said}. Passed on to your coach. If something hurts, stop and say so here."
        case _:
            return f"Your weekly line: {WEEKLY[own.weekly]}."


def for_coach(name: str, step: str, own: Own) -> Message:
    """Tell a coach what a client has changed of what the rules go by."""
    said = {
        "alone": f"company is now {_company(own)}",
        "experience": f"has lifted regularly {_lifting(own)}",
        "limits": f"limits and injuries, as said: {escape(own.limits) if own.limits else 'none'}",
    }[step]
    return Message(f"<b>{escape(name)}</b>, from /settings: {said}.")


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
