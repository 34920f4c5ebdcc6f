"""Messages, buttons and effects: what a use-case gives back. Values only."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import IntEnum, StrEnum
from typing import Any


@dataclass(frozen=True, slots=True)
class Button:
    """A button under a message.

    Attributes:
        label: What it says, 1-40 characters.
        data: Callback data from `bot.messages.taps.encode`; None for a link.
        url: Address it opens; None for a tap.
    """

    label: str
    data: str | None = None
    url: str | None = None


Rows = tuple[tuple[Button, ...], ...]


@dataclass(frozen=True, slots=True)
class Message:
    """One message as it goes out.

    Attributes:
        html: Text in the platform's HTML; everything a person typed is escaped before it comes here.
        rows: Inline buttons by row.
        silent: True for answers: no notification.
        protect: True when it should not be forwarded.
        media_kind: What goes with it, in the platform's word: "photo", "voice", "video_note" and so on; None for text.
        file_id: The platform's id of a file that it already has.
        picture_id: Row of a picture of ours.
        expects_text: True when the client app should open a reply field.
    """

    html: str
    rows: Rows = ()
    silent: bool = False
    protect: bool = False
    media_kind: str | None = None
    file_id: str | None = None
    picture_id: int | None = None
    expects_text: bool = False


class Lane(StrEnum):
    """How a message queues: safety passes everything, talk passes bulk."""

    SAFETY = "safety"
    TALK = "talk"
    BULK = "bulk"


class Level(IntEnum):
    """How soon a coach must hear of something."""

    DIGEST = 1
    TODAY = 2
    NOW = 3


@dataclass(frozen=True, slots=True)
class Send:
    """Queue a new message.

    Attributes:
        chat_id: To whom.
        message: What.
        key: Unique for the coach: the same key is never queued twice.
        lane: How it queues.
        due_at: Not before; None for at once.
        not_after: Expires then; None for never.
        card: Key of the card that this message becomes.
        client_id: Client it is about, so that it can be cancelled with her cards.
        unasked: True when nobody asked for it: of such a day has few (`bot.usecases.unasked`).
    """

    chat_id: int
    message: Message
    key: str
    lane: Lane = Lane.TALK
    due_at: datetime | None = None
    not_after: datetime | None = None
    card: str | None = None
    client_id: int | None = None
    unasked: bool = False


@dataclass(frozen=True, slots=True)
class EditCard:
    """Show a card's new content: edited in place, or moved down when it has scrolled away.

    Attributes:
        card: Key of the card.
        chat_id: Its chat.
        message: Its new content.
        moved: True after a typed reply: a silent new message, the old one losing its buttons.
        client_id: Client whose card it is.
    """

    card: str
    chat_id: int
    message: Message
    moved: bool = False
    client_id: int | None = None


@dataclass(frozen=True, slots=True)
class Cancel:
    """Cancel what is queued for a client and not yet sent, safety excepted."""

    client_id: int


@dataclass(frozen=True, slots=True)
class Tell:
    """Tell the coach of a matter, once, and again only when it has grown.

    Attributes:
        client_id: Whom it is about.
        key: The matter, such as `pain:7:knee:L`.
        grown: Rises when the matter has grown; told again only then.
        level: How soon. DIGEST is only kept.
        message: What the coach reads; its buttons hold the alert's id where `alert_data` made them.
        facts: What the digest says of it, where it is for the digest.
        stands: True for what the digest tells: the same is no new matter, however long it goes on.
        waits_s: How long more of the same may join it before it goes out, unless it is urgent. [s]
    """

    client_id: int
    key: str
    grown: int
    level: Level
    message: Message
    facts: Mapping[str, Any] | None = None
    stands: bool = False
    waits_s: int = 0


Effect = Send | EditCard | Cancel | Tell


@dataclass(frozen=True, slots=True)
class Arrival:
    """Where a command came from.

    Attributes:
        update_id: Row in the inbox.
        user_id: Who.
        chat_id: Where to answer.
        message_id: Message it came with; None for a tap on a message we no longer know.
        reply_to: Message it answers, if any.
    """

    update_id: int
    user_id: int
    chat_id: int
    message_id: int | None = None
    reply_to: int | None = None


@dataclass(frozen=True, slots=True)
class Person:
    """Who is speaking, as the store knows them.

    Attributes:
        user_id: The platform's id.
        chat_id: Their private chat.
        coach_id: Tenant; None for a stranger.
        role: "coach", "client", "invited", "stranger", or "clock" for what fell due by itself.
        client_id: For a client.
        invite_id: For somebody who comes with a good code.
        arrival: What came; None for "clock".
    """

    user_id: int
    chat_id: int
    coach_id: int | None = None
    role: str = "stranger"
    client_id: int | None = None
    invite_id: int | None = None
    arrival: Arrival | None = None


class Action(StrEnum):
    """What a tap asks for; the code is what travels, so it never changes its meaning."""

    ALL_DONE = "a"
    START = "s"
    DONE = "d"
    CHANGE = "c"
    LAST_LESS = "m"
    LIGHTER = "lt"
    HEAVIER = "hv"
    TYPE = "ty"
    SKIP = "k"
    JUMP = "j"
    WHY = "w"
    BACK = "b"
    UNDO = "u"
    NOT_TODAY = "n"
    LEAVE_OUT = "lo"
    NOTHING_HURTS = "o"
    HURTS = "h"
    LEFT = "l"
    LATER = "la"
    SITE = "ps"
    SIDE = "pd"
    SCORE = "pn"
    FEEL = "pf"
    WHEN = "pw"
    TOOK = "pt"
    CHOOSE = "ch"
    NOT_MEANT = "nm"
    AGREE = "ag"
    DECLINE = "de"
    PICK = "pk"
    TOGGLE = "tg"
    READY = "rd"
    RELEASE = "rl"
    CONFIRM = "ok"
    CANCEL = "no"
    SEEN = "sn"
    WRITE = "wr"
    EASE = "ea"
    PAUSE = "pa"
    LOG = "lg"
    TAKE_UP = "tu"
    CORRECT = "co"
    SWAP = "sw"
    SWAP_TO = "st"
    SHOW_ME = "sm"
    SHORT = "sh"
    TRIM = "tr"
    MOVE = "mv"
    DROP = "dr"
    PREP = "pr"
    CHART = "cg"
    NEXT = "nx"
    PREP_OVER = "po"
    PLACE = "pl"
    REST = "rs"
    VIDEO = "vd"
    LOAD = "ld"


@dataclass(frozen=True, slots=True)
class Tap:
    """Callback data, taken apart.

    Attributes:
        prompt: Row of the prompt it answers.
        revision: Revision of the prompt that the button was made for.
        action: What was tapped.
        argument: A whole number; 0 when there is none.
    """

    prompt: int
    revision: int
    action: Action
    argument: int = 0


DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"
MOST_DIGITS = 12
"""Most digits of a number in callback data: more would not fit the columns of a database (63 bits)."""


def _base36(number: int) -> str:
    if number < 0:
        raise ValueError("callback data holds no negative numbers")
    text = ""
    while True:
        number, digit = divmod(number, 36)
        text = DIGITS[digit] + text
        if not number:
            return text


def encode(tap: Tap) -> str:
    """Write callback data: `1:<prompt>:<revision>:<action>:<argument>`, base 36, at most 64 bytes."""
    return f"1:{_base36(tap.prompt)}:{_base36(tap.revision)}:{tap.action}:{_base36(tap.argument)}"


def decode(data: str) -> Tap | None:
    """Read callback data; None when it is not ours (a forged or foreign tap)."""
    parts = data.split(":")
    if len(parts) != 5 or parts[0] != "1" or parts[3] not in set(Action):
        return None
    numbers = (parts[1], parts[2], parts[4])
    if not all(0 < len(part) <= MOST_DIGITS and set(part) <= set(DIGITS) for part in numbers):
        return None
    return Tap(int(numbers[0], 36), int(numbers[1], 36), Action(parts[3]), int(numbers[2], 36))
