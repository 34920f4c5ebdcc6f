"""A coach's own settings, in words."""

from datetime import time

from bot.messages import Action, Button, Message, Tap, encode
from bot.render.dates import DAYS, WEEKDAYS
from core.policy import Policy
from core.programme.replanning import Style

NAMES = {Style.CALENDAR: "By calendar", Style.IN_LINE: "Next in line"}
EXPLAINED = {
    Style.CALENDAR: (
        "Days keep their dates. A session that is not done slides within its week, gives its main lift to the next "
        "one, or is left out. The block ends on its date."
    ),
    Style.IN_LINE: (
        "What was not done comes next, on the next training day, and all behind it moves on. "
        "Nothing is lost, and the block ends later."
    ),
}
ORDER = (Style.CALENDAR, Style.IN_LINE)
SET = "Set."
NOT_READ = (
    "I could not read that. Tap, or type <code>by calendar</code>, <code>next in line</code>, "
    "<code>check-in friday</code> or <code>plan sunday</code>."
)
AT = Policy().week_asked_at
ASKS = ("The check-in", "The plan of the week")
"""What is asked once a week, in the order of its buttons."""


def menu(
    prompt_id: int,
    revision: int,
    style: Style,
    days: tuple[int, int] = (6, 6),
    note: str | None = None,
    at: time = AT,
) -> Message:
    """Show how missed sessions go on and when the week's questions come, with a button for each choice.

    Args:
        prompt_id: Of the card.
        revision: Of the card.
        style: How missed sessions go on.
        days: Weekdays of the check-in and of the plan, 0 for Monday.
        note: What was just done.
        at: Hour of the week's questions, as it holds for all.
    """
    said = [f"{note}\n"] if note else []
    lines = [
        *said,
        "<b>Your settings</b>",
        f"Sessions that are not done: <b>{NAMES[style].lower()}</b>",
        f"{ASKS[0]}: <b>{WEEKDAYS[days[0]]}</b>, {at:%H:%M}",
        f"{ASKS[1]}: <b>{WEEKDAYS[days[1]]}</b>, {at:%H:%M}",
        "",
        *(f"{NAMES[each]}: {EXPLAINED[each]}" for each in ORDER),
        "",
        "A change holds for all your clients, from their next session that is not done.",
        "On one day the check-in and the plan come as one message, on the client's own clock.",
    ]
    buttons = tuple(
        Button(NAMES[each], encode(Tap(prompt_id, revision, Action.PICK, place)))
        for place, each in enumerate(ORDER)
    )
    asks = (
        Button("Check-in day", encode(Tap(prompt_id, revision, Action.CHANGE, 0))),
        Button("Plan day", encode(Tap(prompt_id, revision, Action.CHANGE, 1))),
    )
    return Message("\n".join(lines), rows=(buttons, asks), silent=True)


def which_day(prompt_id: int, revision: int, what: int, at: time = AT) -> Message:
    """Ask on which day of the week something is asked."""
    buttons = [
        Button(day, encode(Tap(prompt_id, revision, Action.MOVE, what * len(DAYS) + place)))
        for place, day in enumerate(DAYS)
    ]
    back = Button("Back", encode(Tap(prompt_id, revision, Action.BACK)))
    text = f"<b>{ASKS[what]}</b>\n\nOn which day of the week, at {at:%H:%M} on each client's own clock?"
    return Message(text, rows=(tuple(buttons[:4]), tuple(buttons[4:]), (back,)), silent=True)


def closed() -> Message:
    """Say that this card is over."""
    return Message("These settings are from before. /settings shows them as they are now.", silent=True)
