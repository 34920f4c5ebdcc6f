"""Words about being away: asked, said back before it holds, and about coming back."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from html import escape

from bot.messages import Action, Button, Message, Rows, Tap, encode
from bot.render.dates import day_words
from core.checkin.zones import city_of
from core.local_time import zone_named

KIT_LABELS = {
    "bar": "Gym with bar and plates",
    "dumbbells": "Dumbbells",
    "both": "Gym with bar and dumbbells",
    "bodyweight": "Bodyweight only",
}
KIT_WORDS = {
    "bar": "a gym with bar and plates",
    "dumbbells": "dumbbells",
    "both": "a gym with bar and dumbbells",
    "bodyweight": "bodyweight only",
}
NOT_READ_DATES = (
    "I could not read the dates. Type them like <code>3-10 May</code> or <code>until Sunday</code>."
)
NOT_READ = "I did not get that. Tap a button, or type what stands on one."
TOO_LONG = "That is a long time. Your coach should hear that from you: write it here. Nothing was noted."
OVER = "Those days are over. Type the days that are to come."


@dataclass(frozen=True, slots=True)
class Buttons:
    """Makes the buttons of a question as it now stands."""

    prompt_id: int
    revision: int

    def row(self, *buttons: tuple[str, Action, int]) -> tuple[Button, ...]:
        """One row."""
        return tuple(
            Button(label, encode(Tap(self.prompt_id, self.revision, action, number)))
            for label, action, number in buttons
        )


@dataclass(frozen=True, slots=True)
class AwayView:
    """An absence as it is said back.

    Attributes:
        first: First day.
        last: Last day.
        training: Whether she trains there.
        kit: Kind of what there is to lift there; None where a place of hers is meant, or none.
        place: Place of hers that is meant.
        sessions: How many sessions that are laid out fall into it.
        in_line: True where the plan waits for her, and nothing is left out.
        zone: Clock of the city that was named, where it is another than hers.
        own_zone: Her own clock.
        instead: Absences whose place it takes, first and last day.
        clock: True where the clock of the city is to hold.
    """

    first: date
    last: date
    training: bool
    kit: str | None = None
    place: str | None = None
    sessions: int = 0
    in_line: bool = False
    zone: str | None = None
    own_zone: str = "UTC"
    instead: tuple[tuple[date, date], ...] = ()
    clock: bool = False


def ask_until(buttons: Buttons, note: str = "") -> Message:
    """Ask until when."""
    return Message(
        f"{_above(note)}Until when are you away? Tap, or type the dates, like <code>3-10 May</code>.",
        rows=(
            buttons.row(
                ("Until Sunday", Action.PICK, 1), ("A week", Action.PICK, 2), ("Two weeks", Action.PICK, 3)
            ),
            buttons.row(("I am not away", Action.CANCEL, 0)),
        ),
        silent=True,
    )


def ask_training(buttons: Buttons, first: date, last: date, note: str = "") -> Message:
    """Ask whether she trains there."""
    return Message(
        f"{_above(note)}Away {_span(first, last)}. Do you train there?",
        rows=(
            buttons.row(("No training", Action.PICK, 0), ("Train there", Action.PICK, 1)),
            buttons.row(("Other dates", Action.BACK, 0), ("I am not away", Action.CANCEL, 0)),
        ),
        silent=True,
    )


def ask_kit(buttons: Buttons, kinds: Sequence[str], places: Sequence[str], note: str = "") -> Message:
    """Ask what there is to lift there."""
    rows = [buttons.row((KIT_LABELS[kind], Action.PICK, number)) for number, kind in enumerate(kinds)]
    rows += [
        buttons.row((f"As at: {place}"[:40], Action.PICK, len(kinds) + number))
        for number, place in enumerate(places)
    ]
    return Message(
        f"{_above(note)}What is there to lift?",
        rows=(*rows, buttons.row(("No training", Action.SKIP, 0), ("Other dates", Action.BACK, 0))),
        silent=True,
    )


def ask_right(buttons: Buttons, view: AwayView, note: str = "") -> Message:
    """Say back what was understood, and ask whether it is right."""
    yes: Rows
    if view.zone is None:
        yes = (buttons.row(("Yes, note it", Action.CONFIRM, 0)),)
    else:
        city = city_of(view.zone)
        yes = (
            buttons.row((f"Use the clock of {city} while away"[:40], Action.CONFIRM, 1)),
            buttons.row(("Note it, my clock stays", Action.CONFIRM, 0)),
        )
    asked = "Is that right?" if view.zone is None else "Whose clock shall your sessions go by?"
    return Message(
        "\n".join([f"{_above(note)}Away {_span(view.first, view.last)}.", *_what(view), asked]),
        rows=(*yes, buttons.row(("Other dates", Action.BACK, 0), ("I am not away", Action.CANCEL, 0))),
        silent=True,
    )


def held(buttons: Buttons, view: AwayView, coming: str) -> Message:
    """Say that it is noted."""
    clock = (
        [f"Your sessions go by the clock of {escape(city_of(view.zone))} meanwhile."]
        if view.clock and view.zone
        else []
    )
    return Message(
        "\n".join(
            [
                f"Noted: away {_span(view.first, view.last)}.",
                *_what(view),
                *clock,
                coming,
                "Your coach has been told. /back when you are back sooner.",
            ]
        ),
        rows=(buttons.row(("Take it back", Action.UNDO, 0)),),
        silent=True,
    )


def offer(buttons: Buttons) -> Message:
    """Offer to note an absence that plain words tell of."""
    return Message(
        "Passed on to your coach. Shall I note it in your plan too?",
        rows=(buttons.row(("Note that I am away", Action.CONFIRM, 0), ("No", Action.CANCEL, 0)),),
        silent=True,
    )


def not_noted() -> Message:
    """Answer that she is not away."""
    return Message("Good. Nothing was noted.", silent=True)


def taken_back(coming: str) -> Message:
    """Say that it was taken back."""
    return Message(f"Taken back. You are not noted as away.\n{coming}", silent=True)


def settled() -> Message:
    """Say that this question is over."""
    return Message("That was from before. /away says it anew, /back ends it.", silent=True)


def back(coming: str, comeback: str) -> Message:
    """Welcome somebody who is back: what comes next, and what is lighter."""
    more = f"\n{comeback}" if comeback else ""
    return Message(f"Good to have you back. {coming}{more}", silent=True)


def not_away() -> Message:
    """Say that no absence is noted."""
    return Message("You are not noted as away. /away 3-10 May notes it.", silent=True)


def coming_words(day: str | None, due_at: datetime | None, zone: str, *, runs: bool = False) -> str:
    """Say what comes next, and when; where nothing is laid out yet, whether a block runs."""
    if (day is None or due_at is None) and runs:
        return "What comes after it follows in its time."
    if day is None or due_at is None:
        return "Nothing more is planned just now. Your coach sets what comes."
    at = due_at.astimezone(zone_named(zone))
    return f"Next: {escape(day)}, {day_words(at.date())}, {at:%H:%M}."


def for_coach(name: str, view: AwayView) -> Message:
    """Tell the coach of an absence."""
    return Message(
        "\n".join([f"<b>{escape(name)}</b> is away {_span(view.first, view.last)}.", *_what(view, own=False)])
    )


def back_for_coach(name: str) -> Message:
    """Tell the coach that somebody is back."""
    return Message(f"<b>{escape(name)}</b> is back sooner. Sessions come again.")


def not_away_for_coach(name: str, first: date, last: date) -> Message:
    """Tell the coach that an absence was taken back."""
    return Message(f"<b>{escape(name)}</b> is not away {_span(first, last)} after all.")


def lost_for_coach(name: str, zone: str, lost: Sequence[str]) -> Message:
    """Tell the coach which sessions find no day any more, after a change of clock."""
    names = ", ".join(escape(day) for day in lost)
    return Message(
        f"The clock of <b>{escape(name)}</b> is now that of {escape(city_of(zone))}.\n"
        f"No day is left this week for: {names}."
    )


def _what(view: AwayView, *, own: bool = True) -> list[str]:
    lines = []
    if not view.training:
        lines.append(f"No training. {_left_out(view)}")
    else:
        there = (
            KIT_WORDS[view.kit]
            if view.kit is not None
            else f"as at {escape(view.place or 'your usual place')}"
        )
        anew = " Machine loads are found anew." if own and view.kit in ("bar", "both") else ""
        lines.append(f"Training there: {there}. Exercises are fitted to that.{anew}")
    lines += [f"It takes the place of: away {_span(first, last)}." for first, last in view.instead]
    return lines


def _left_out(view: AwayView) -> str:
    if view.in_line:
        return "What comes next waits until after it, and nothing counts as missed."
    if not view.sessions:
        return "Nothing counts as missed, and the plan goes on after it."
    which = "1 session is" if view.sessions == 1 else f"{view.sessions} sessions are"
    return f"{which} left out as laid out now. Nothing counts as missed, and the plan goes on after it."


def _span(first: date, last: date) -> str:
    return f"on {day_words(first)}" if first == last else f"from {day_words(first)} to {day_words(last)}"


def _above(note: str) -> str:
    return f"{note}\n\n" if note else ""
