"""What comes next and when, for a client who asks for today's card and has none."""

from dataclasses import dataclass
from datetime import datetime
from html import escape

from bot.messages import Message
from bot.render.dates import day_words
from bot.render.moving import MovedTo, moved_words
from core.local_time import zone_named

CLOSED_WORDS = {
    "done": "done",
    "partial": "done, in part",
    "left_out": "left out",
    "missed": "over, and nothing was logged",
    "unsent": "not sent",
    "held": "on hold",
}


@dataclass(frozen=True, slots=True)
class Coming:
    """How today stands without an open card.

    Attributes:
        closed: Day of the session of today that is over; None where there was none.
        state: Its state.
        following: Day of the next session; None where nothing is planned.
        due_at: When that one comes.
        zone: The client's own clock.
        to: Where the session of today has gone, if it has.
    """

    closed: str | None
    state: str | None
    following: str | None
    due_at: datetime | None
    zone: str
    to: MovedTo | None = None


def what_comes(coming: Coming) -> Message:
    """Say how today stands, and what comes next."""
    today = (
        f"Today: {escape(coming.closed)}, {_how(coming)}."
        if coming.closed is not None and coming.state is not None
        else "There is no session today."
    )
    if coming.following is None or coming.due_at is None:
        return Message(f"{today}\nNothing more is planned. Your coach sets what comes next.", silent=True)
    at = coming.due_at.astimezone(zone_named(coming.zone))
    return Message(
        f"{today}\nNext: {escape(coming.following)}, {day_words(at.date())}, {at:%H:%M}.", silent=True
    )


def _how(coming: Coming) -> str:
    return moved_words(coming.to) if coming.state == "moved" else CLOSED_WORDS[str(coming.state)]


def held() -> Message:
    """Say that no card goes out while the plan is on hold."""
    return Message(
        "Your plan is on hold, so there is no card now. Your coach takes it up again, nobody else.",
        silent=True,
    )
