"""One row of the outbox as a value, and its message as JSON."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import datetime
from typing import Any

from bot.messages import Button, Lane, Message
from bot.store.tables import outbox


def body_of(message: Message, *, revision: int = 0, plain: int = 0) -> dict[str, Any]:
    """Return a message as JSON; fields that hold what they hold anyway are left out."""
    body: dict[str, Any] = {"html": message.html}
    if message.rows:
        body["rows"] = [[[each.label, each.data, each.url] for each in row] for row in message.rows]
    for field in fields(Message):
        value = getattr(message, field.name)
        if field.name not in {"html", "rows"} and value != field.default:
            body[field.name] = value
    extra = {"revision": revision, "plain": plain}
    return body | {name: value for name, value in extra.items() if value}


def message_of(body: Mapping[str, Any]) -> Message:
    """Return the message that `body_of` wrote down.

    Raises:
        KeyError: There is no text.
        TypeError, ValueError: It was written by something else.
    """
    known = {field.name for field in fields(Message)} - {"rows"}
    rows = tuple(tuple(Button(*each) for each in row) for row in body.get("rows", ()))
    values = {name: value for name, value in body.items() if name in known}
    return Message(html=values.pop("html"), rows=rows, **values)


@dataclass(frozen=True, slots=True)
class OutboxRow:
    """One call to make.

    Attributes:
        id: Its row.
        coach_id: Tenant; None for strangers.
        client_id: Client it is about.
        chat_id: To whom.
        key: Unique for the tenant.
        op: "send", "edit", "move" (a new message in the place of a card's old one) or "strip" (buttons away).
        card_id: Card that it shows.
        message_id: Message to edit or strip.
        lane: How it queues.
        body: What it says; None for a strip, and where it cannot be read.
        due_at: Not before.
        not_after: Expires then.
        attempts: Calls begun so far.
        doubts: How often nobody could tell whether it arrived.
        revision: Of the card, as the body shows it.
        claimed_by: Who has claimed it last.
        plain: 1 when the platform refused the markup, 2 when it refused more than that: no buttons either.
    """

    id: int
    coach_id: int | None
    client_id: int | None
    chat_id: int
    key: str
    op: str
    card_id: int | None
    message_id: int | None
    lane: Lane
    body: Message | None
    due_at: datetime
    not_after: datetime | None
    attempts: int
    doubts: int
    claimed_by: str | None = None
    revision: int = 0
    plain: int = 0


COLUMNS = (
    outbox.c.id,
    outbox.c.coach_id,
    outbox.c.client_id,
    outbox.c.chat_id,
    outbox.c.key,
    outbox.c.op,
    outbox.c.card_id,
    outbox.c.message_id,
    outbox.c.lane,
    outbox.c.body,
    outbox.c.due_at,
    outbox.c.not_after,
    outbox.c.attempts,
    outbox.c.doubts,
    outbox.c.claimed_by,
)


def row_of(found: Any) -> OutboxRow:
    """Return a row of `COLUMNS` as a value."""
    body = found.body or {}
    try:
        message = message_of(body) if body else None
    except (KeyError, TypeError, ValueError):
        message = None
    values = found._asdict() | {
        "key": found.key.partition(":")[2],
        "lane": Lane(found.lane),
        "body": message,
    }
    return OutboxRow(**values, revision=body.get("revision", 0), plain=body.get("plain", 0))
