"""A coach's own settings, in words."""

from bot.messages import Action, Button, Message, Tap, encode
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
NOT_READ = "I could not read that. Tap, or type <code>by calendar</code> or <code>next in line</code>."


def menu(prompt_id: int, revision: int, style: Style, note: str | None = None) -> Message:
    """Show how missed sessions go on, with a button for each way."""
    said = [f"{note}\n"] if note else []
    lines = [
        *said,
        "<b>Your settings</b>",
        f"Sessions that are not done: <b>{NAMES[style].lower()}</b>",
        "",
        *(f"{NAMES[each]}: {EXPLAINED[each]}" for each in ORDER),
        "",
        "A change holds for all your clients, from their next session that is not done.",
    ]
    buttons = tuple(
        Button(NAMES[each], encode(Tap(prompt_id, revision, Action.PICK, place)))
        for place, each in enumerate(ORDER)
    )
    return Message("\n".join(lines), rows=(buttons,), silent=True)


def closed() -> Message:
    """Say that this card is over."""
    return Message("These settings are from before. /settings shows them as they are now.", silent=True)
