"""What became of a call, and what to do next. Values and pure functions only.

Two questions are kept apart: did it arrive (yes, no, nobody knows), and would the same call do better later.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Lane
from bot.store.outbox import OutboxRow

LONGEST_WAIT_S = 300.0
SERVER_TRIES = 100
"""Answers 500 until a message is given up: about eight hours. A network that is away never ends a message."""

STRIP_TRIES = 5
"""Buttons that stay are harmless: a tap on them is told to be stale."""

PAUSE_EXTRA = timedelta(seconds=0.5)
LONG_PAUSE_S = 60.0
"""A pause this long is about the whole bot: the platform waits out shorter ones of a chat by itself."""


@dataclass(frozen=True, slots=True)
class Delivered:
    """It arrived.

    Attributes:
        message_id: As which message.
        file_id: The platform's id of the file that went with it.
    """

    message_id: int | None
    file_id: str | None = None


@dataclass(frozen=True, slots=True)
class NotDelivered:
    """It did not arrive.

    Attributes:
        cause: Why, without any text of the message.
        permanent: The same call will never do better.
        server: The platform itself stumbled, rather than the way there.
    """

    cause: str
    permanent: bool = False
    server: bool = False


@dataclass(frozen=True, slots=True)
class InDoubt:
    """Nobody knows whether it arrived."""

    cause: str


@dataclass(frozen=True, slots=True)
class Blocked:
    """Nothing will arrive there until the person lets us in again."""

    cause: str


@dataclass(frozen=True, slots=True)
class WrongToken:
    """The platform does not know this bot."""

    cause: str


@dataclass(frozen=True, slots=True)
class TooFast:
    """The platform wants a pause. [s]"""

    seconds: float


@dataclass(frozen=True, slots=True)
class MessageGone:
    """The message to edit is not there any more."""


@dataclass(frozen=True, slots=True)
class MarkupRefused:
    """The platform could not read the markup."""


@dataclass(frozen=True, slots=True)
class FileUnknown:
    """The platform does not know the file by this id any more."""


@dataclass(frozen=True, slots=True)
class ChatMoved:
    """The chat has another number now."""

    chat_id: int


Outcome = (
    Delivered
    | NotDelivered
    | InDoubt
    | Blocked
    | WrongToken
    | TooFast
    | MessageGone
    | MarkupRefused
    | FileUnknown
    | ChatMoved
)


@dataclass(frozen=True, slots=True)
class Done:
    """Settle as arrived."""

    message_id: int | None
    file_id: str | None = None


@dataclass(frozen=True, slots=True)
class Again:
    """Try again.

    Attributes:
        due_at: When.
        cause: Why.
        pause_chat: Send nothing to this chat until then, safety included.
        pause_all: Send nothing to anybody until then, safety excepted.
        plain: Without markup (1), without buttons too (2); None as it was.
        lost: The card's message is gone: make a new one.
        forget_file: Upload the file anew.
        chat_id: To this chat instead.
    """

    due_at: datetime
    cause: str
    pause_chat: bool = False
    pause_all: bool = False
    plain: int | None = None
    lost: bool = False
    forget_file: bool = False
    chat_id: int | None = None


@dataclass(frozen=True, slots=True)
class Doubt:
    """Try once more, or give up when it was in doubt before."""

    due_at: datetime
    cause: str


@dataclass(frozen=True, slots=True)
class Dead:
    """Give it up."""

    cause: str


@dataclass(frozen=True, slots=True)
class Shut:
    """Give up everything for this chat."""

    cause: str


@dataclass(frozen=True, slots=True)
class Stop:
    """Stop sending; the row waits."""

    cause: str


Step = Done | Again | Doubt | Dead | Shut | Stop


def retry_wait(attempts: int, jitter: float) -> timedelta:
    """Return how long to wait after the given number of calls: 2, 4, 8 ... 300 s, spread by a fifth.

    Args:
        attempts: Calls made so far. [>= 1]
        jitter: Chance. [0..1)
    """
    seconds = min(LONGEST_WAIT_S, 2.0 ** min(attempts, 16))
    return timedelta(seconds=min(LONGEST_WAIT_S, seconds * (0.8 + 0.4 * jitter)))


def spread(row: OutboxRow) -> float:
    """Return the chance in a retry: even over rows and attempts, the same at every run. [0..1)"""
    return (row.id * 0.6180339887 + row.attempts * 0.7548776662) % 1.0


def next_step(
    outcome: Outcome, row: OutboxRow, now: datetime, jitter: float, *, others_paused: bool = False
) -> Step:
    """Return what to do after a call.

    Args:
        outcome: What became of it.
        row: What was to be sent; `attempts` counts this call.
        now: The instant.
        jitter: Chance. [0..1)
        others_paused: The platform wants a pause in another chat too, so that this is about the whole bot.
    """
    later = now + retry_wait(row.attempts, jitter)
    match outcome:
        case Delivered(message_id, file_id):
            return Done(message_id, file_id)
        case NotDelivered(permanent=True, cause=cause):
            return _refused(row, now, cause)
        case NotDelivered(cause=cause, server=server):
            return Dead(cause) if _is_hopeless(row, server=server) else Again(later, cause)
        case InDoubt(cause):
            hopeless = row.op == "strip" and row.attempts >= STRIP_TRIES
            return Dead(cause) if hopeless else Doubt(later, cause)
        case Blocked(cause):
            return Shut(cause)
        case WrongToken(cause):
            return Stop(cause)
        case TooFast(seconds):
            until = now + timedelta(seconds=seconds) + PAUSE_EXTRA
            everybody = others_paused or seconds >= LONG_PAUSE_S
            return Again(until, "too fast", pause_chat=True, pause_all=everybody)
        case ChatMoved(chat_id):
            return Again(now, "chat moved", chat_id=chat_id)
        case MessageGone() | MarkupRefused() | FileUnknown():
            return _mended(outcome, row, now)


def _is_hopeless(row: OutboxRow, *, server: bool) -> bool:
    if row.op == "strip":
        return row.attempts >= STRIP_TRIES
    return server and row.attempts >= SERVER_TRIES


def _refused(row: OutboxRow, now: datetime, cause: str) -> Step:
    """A safety message goes out bare rather than not at all."""
    if row.lane is Lane.SAFETY and row.op != "strip" and row.plain < 2:
        return Again(now, cause, plain=2)
    return Dead(cause)


def _mended(outcome: MessageGone | MarkupRefused | FileUnknown, row: OutboxRow, now: datetime) -> Step:
    match outcome:
        case MessageGone():
            if row.op == "strip":
                return Done(row.message_id)
            can_be_anew = row.op == "edit" and row.card_id is not None
            return Again(now, "message gone", lost=True) if can_be_anew else Dead("message gone")
        case MarkupRefused():
            return Again(now, "markup refused", plain=1) if row.plain == 0 else _refused(row, now, "markup")
        case FileUnknown():
            ours = row.body is not None and row.body.picture_id is not None and row.attempts < STRIP_TRIES
            return Again(now, "file unknown", forget_file=True) if ours else Dead("file unknown")
