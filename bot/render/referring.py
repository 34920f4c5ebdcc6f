"""Referrals in words: what the coach keeps, what a client is told. Refer, and never diagnose."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Message
from bot.render.clinicians import BY
from bot.render.dates import day_words
from bot.render.setting_up import Buttons
from core.loads.limits import Clinician

HOW = (
    "<code>/refer Ada physiotherapist: left knee since March</code>\n"
    "To whom: doctor, physiotherapist, midwife or other."
)
TYPED = (
    "Or type: <code>seen 3 May: what came of it</code>, <code>outcome: in your words</code>, "
    "<code>review 10 May</code>, <code>close</code>."
)
STALE = "That button was from before. This is how it stands."
REVIEWS: Mapping[int, str] = {1: "Review in a week", 2: "Review in 2 weeks", 4: "Review in 4 weeks"}
"""Weeks until a review, and their buttons. Our proposal."""
MOST_LISTED = 8
"""Buttons on a list."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A referral as its words need it.

    Attributes:
        client: Her name.
        to: To whom.
        why: As typed.
        on: When it was noted, on the coach's calendar.
        told_on: When the client was told.
        seen_on: When she was seen.
        outcome: What came of it.
        review_on: When it is looked at again.
        closed: True where it is closed.
    """

    client: str
    to: Clinician
    why: str
    on: date
    told_on: date | None = None
    seen_on: date | None = None
    outcome: str | None = None
    review_on: date | None = None
    closed: bool = False


def how_to() -> Message:
    """Say how somebody is sent on."""
    return Message(f"Whom do you send on, to whom, and why?\n{HOW}", silent=True)


def told(coach: str, to: Clinician, why: str) -> str:
    """Tell a client: who asks, whom to see, and why in the coach's own words."""
    return (
        f"{escape(coach)} has a request for you.\nPlease see {BY[to]} about this: {escape(why)}.\n"
        "I am a program and cannot judge it. Write here how it went. "
        "If it gets worse quickly, do not wait for the appointment: call a doctor."
    )


def referral_line(shown: Shown) -> str:
    """Write a referral in short sentences, as plain text without the last full stop."""
    seen = f"seen {day_words(shown.seen_on)}" if shown.seen_on is not None else "not seen yet"
    only_noted = "only noted, not told here, " if shown.told_on is None else ""
    parts = [
        f"{shown.to.value}, {shown.why.rstrip('.')}",
        f"Sent on {day_words(shown.on)}, {only_noted}{seen}",
    ]
    if shown.outcome:
        parts.append(f"Outcome: {shown.outcome.rstrip('.')}")
    if shown.review_on is not None:
        parts.append(f"Review {day_words(shown.review_on)}")
    return ". ".join([*parts, "Closed"] if shown.closed else parts)


def ask_telling(shown: Shown, coach: str, buttons: Buttons) -> Message:
    """Ask whether the client is told, with what she would read."""
    name = escape(shown.client)
    return Message(
        f"Kept for <b>{name}</b>: {escape(shown.to.value)}, {escape(shown.why)}.\n\n"
        f"{name} has not been told. {name} would read:\n“{told(coach, shown.to, shown.why)}”",
        rows=(
            (buttons.one(f"Tell {shown.client}", Action.WRITE), buttons.one("Only note it", Action.CANCEL)),
        ),
        silent=True,
    )


def card(shown: Shown, buttons: Buttons, note: str = "", *, asks_outcome: bool = False) -> Message:
    """Show a referral, with what can be done about it."""
    lines = [f"<b>{escape(shown.client)}</b>: {escape(referral_line(shown))}."]
    if note:
        lines.append(escape(note))
    if asks_outcome:
        lines.append("What came of it? Type it in your words, or leave it.")
    if shown.closed:
        return Message("\n\n".join(lines), silent=True)
    lines.append(TYPED)
    rows = (
        (() if shown.seen_on is not None else (buttons.one("Seen", Action.SEEN),))
        + (buttons.one("Close", Action.DONE),),
        tuple(buttons.one(label, Action.LATER, weeks) for weeks, label in REVIEWS.items()),
    )
    return Message("\n\n".join(lines), rows=rows, silent=True)


def listed(referrals: Sequence[tuple[int, Shown]], buttons: Buttons, today: date) -> Message:
    """List referrals: those due for review first."""
    if not referrals:
        return Message(f"Nobody is sent on.\n\n{HOW}", silent=True)
    ordered = sorted(referrals, key=lambda each: (not is_due(each[1], today), each[0]))
    lines = [
        f"<b>{escape(shown.client)}</b>{' (review is due)' if is_due(shown, today) else ''}: "
        f"{escape(referral_line(shown))}."
        for _, shown in ordered
    ]
    open_ones = [(row, shown) for row, shown in ordered if not shown.closed][:MOST_LISTED]
    rows = tuple(
        (buttons.one(f"{shown.client}: {shown.to.value}", Action.PICK, row),) for row, shown in open_ones
    )
    return Message("\n".join(["<b>Referrals</b>", *lines]), rows=rows, silent=True)


def is_due(shown: Shown, today: date) -> bool:
    """Return whether a referral is to be looked at again."""
    return not shown.closed and shown.review_on is not None and shown.review_on <= today


def not_read(text: str) -> str:
    """Say that a day was not read."""
    return f"I could not read the day in “{text[:40]}”. Nothing was changed."


TOLD = "Told."
NOT_TOLD = "Noted, not told."
CANNOT_TELL = "Not told: no chat reaches them now."
SEEN = "Noted: seen."
OUTCOME = "Noted."
REVIEW = "Noted: review."
CLOSED = "Closed."
