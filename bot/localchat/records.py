"""What was said, both ways, in an order that does not depend on chance."""

import json
from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Recorded:
    """One message, edit or tap.

    Attributes:
        at: Instant.
        chat_id: Chat.
        message_id: Message in that chat.
        revision: 0 when new, counted up by edits.
        sender: "bot" or "person".
        kind: "text", "photo", "document", "voice", "video", "tap", "edit" or "blocked".
        text: Text without markup.
        buttons: Labels by row.
        silent: True when it does not notify.
        order: Order of arrival in the chat.
    """

    at: datetime
    chat_id: int
    message_id: int
    revision: int
    sender: str
    kind: str
    text: str
    buttons: tuple[tuple[str, ...], ...]
    silent: bool
    order: int


def as_jsonl(record: list[Recorded]) -> str:
    """Write a record as JSON lines: by second, chat, order in the chat.

    Seconds are whole, as the platform's own dates are: which of several chats goes first within one is chance.
    """
    lines = [
        json.dumps(
            {
                "at": each.at.isoformat(timespec="seconds"),
                "chat": each.chat_id,
                "from": each.sender,
                "message": each.message_id,
                "revision": each.revision,
                "kind": each.kind,
                "text": each.text,
                "buttons": [list(row) for row in each.buttons],
                "silent": each.silent,
            },
            ensure_ascii=False,
            sort_keys=True,
        )
        for each in sorted(record, key=lambda one: (one.at.replace(microsecond=0), one.chat_id, one.order))
    ]
    return "".join(f"{line}\n" for line in lines)
