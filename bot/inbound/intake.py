"""One raw update into one row: who, where, how urgent. Pure, and it never fails on what it cannot read."""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bot.store.inbox import NewUpdate
from core.checkin.stop_signs import scan

KINDS = ("message", "edited_message", "callback_query", "my_chat_member")
ALLOWED_UPDATES = list(KINDS)


@dataclass(frozen=True, slots=True)
class Batch:
    """What one fetch brought.

    Attributes:
        rows: To be kept.
        taps: Ids of taps to acknowledge.
        next_offset: What confirms the batch; None when nothing came.
        unreadable: How many had no id, so that they cannot even be kept.
    """

    rows: tuple[NewUpdate, ...]
    taps: tuple[str, ...]
    next_offset: int | None
    unreadable: int


def batch_of(raw: Any, now: datetime) -> Batch:
    """Take a fetched batch apart, an update at a time."""
    rows, taps, unreadable, last = [], [], 0, None
    for each in raw if isinstance(raw, list) else []:
        update_id = _whole(each.get("update_id")) if isinstance(each, dict) else None
        if update_id is None:
            unreadable += 1
            continue
        last = update_id
        row = _row(update_id, each, now)
        rows.append(row)
        if row.kind == "callback_query" and isinstance(tap := each["callback_query"].get("id"), str):
            taps.append(tap)
    return Batch(tuple(rows), tuple(taps), None if last is None else last + 1, unreadable)


def _row(update_id: int, raw: dict[str, Any], now: datetime) -> NewUpdate:
    kind = next((name for name in KINDS if isinstance(raw.get(name), dict)), "other")
    body = raw.get(kind, {})
    message = body.get("message") if kind == "callback_query" else body
    sender = _dict(body.get("from"))
    chat = _dict(_dict(message).get("chat"))
    user_id, chat_id = _whole(sender.get("id")), _whole(chat.get("id"))
    # Outside a private chat nothing is answered: a group must not read a client's plan.
    private = chat.get("type", "private") == "private"
    readable = kind != "other" and user_id is not None and private
    words = words_of(body) if kind in ("message", "edited_message") else None
    return NewUpdate(
        update_id=update_id,
        chat_id=chat_id if chat_id is not None else user_id,
        user_id=user_id,
        kind=kind,
        urgency=2 if words is not None and readable and scan(words) is not None else 0,
        payload=json.dumps(raw, ensure_ascii=False, separators=(",", ":")),
        state="new" if readable else "quarantined",
        received_at=now,
    )


def words_of(message: Any) -> str | None:
    """Return what a message says, or what stands under what it carries; None where nothing does."""
    found = _dict(message).get("text") or _dict(message).get("caption")
    return found if isinstance(found, str) else None


def _dict(value: Any) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}


def _whole(value: Any) -> int | None:
    """Return an id; None for anything else, and for numbers that no column can hold."""
    return value if isinstance(value, int) and not isinstance(value, bool) and abs(value) < 2**63 else None
