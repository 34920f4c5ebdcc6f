"""The training log: sessions, their exercises, and the sets that were done."""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from core.programme.prescription import Dose, Load, Prescription


@dataclass(frozen=True, slots=True)
class Session:
    """A day of a block on a date.

    Attributes:
        attempt: Rises each time that the same day of the same week comes again.
        date_chosen: True when its date is not the calendar's, but was chosen for it.
        moved_to: The session that comes in its place, or takes its main lift in.
        left_reason: Why it was left out, missed or moved, where that was said.
        place: Where it is done, a place of the client's; None for the usual one, until sets are kept.
    """

    id: int
    client_id: int
    assignment_id: int
    week_no: int
    day_key: str
    local_on: date
    due_at: datetime
    state: str
    late: bool
    cursor_item_id: int | None
    revision: int
    effort: int | None
    sent_at: datetime | None
    closed_at: datetime | None
    attempt: int = 1
    date_chosen: bool = False
    moved_to: int | None = None
    left_reason: str | None = None
    place: str | None = None


@dataclass(frozen=True, slots=True)
class Item:
    """One exercise in a session.

    Attributes:
        prescription: As the coach wrote it.
        given: What she was given that day: load decided, one rep target, sets.
        left_last: Reps left in the last set, when she gave a number; 4 is four or more.
    """

    id: int
    session_id: int
    position: int
    exercise: str
    prescription: Prescription
    given: Dose
    decision_id: int | None
    state: str
    cause: str | None
    left_last: int | None


@dataclass(frozen=True, slots=True)
class LoggedSet:
    """One set as logged and not taken back."""

    id: int
    item_id: int
    set_no: int
    side: str
    load: Load | None
    reps: int | None
    seconds: int | None
    rir: int | None
    by_tap: bool
    entry: int
    message_id: int | None
    metres: int | None = None
    rpe: Decimal | None = None


@dataclass(frozen=True, slots=True)
class NewSet:
    """One set to be kept."""

    set_no: int
    side: str
    load: Load | None
    basis: str
    reps: int | None
    seconds: int | None
    rir: int | None = None
    rpe: Decimal | None = None
    by_tap: bool = False
    metres: int | None = None
