"""People, chats and messages as the service writes them in JSON."""

from datetime import datetime
from typing import TYPE_CHECKING

from bot.localchat.answers import Body
from bot.localchat.screen import Shown

if TYPE_CHECKING:
    from bot.localchat.phone import Phone


def seconds(instant: datetime) -> int:
    """Return an instant as the service writes it: whole seconds since 1970. [s]"""
    return int(instant.timestamp())


def person(phone: "Phone") -> Body:
    """Return whose phone it is."""
    return {
        "id": phone.user_id,
        "is_bot": False,
        "first_name": phone.name,
        "language_code": phone.language,
    }


def chat(phone: "Phone") -> Body:
    """Return the private chat with somebody."""
    return {"id": phone.chat_id, "type": "private", "first_name": phone.name}


def message(phone: "Phone", shown: Shown, *, with_answered: bool = True) -> Body:
    """Return a message as it stands now."""
    body: Body = {
        "message_id": shown.message_id,
        "date": seconds(shown.at),
        "chat": chat(phone),
        "from": person(phone) if shown.mine else phone.network.me(),
        **shown.content,
    }
    if shown.edited_at is not None:
        body["edit_date"] = seconds(shown.edited_at)
    if shown.markup.rows:
        body["reply_markup"] = {"inline_keyboard": [list(row) for row in shown.markup.rows]}
    answered = phone.shown(shown.reply_to) if with_answered else None
    if answered is not None:
        body["reply_to_message"] = message(phone, answered, with_answered=False)
    return body


def inaccessible(phone: "Phone", message_id: int) -> Body:
    """Return a message that the bot can no longer see, as it comes with a tap on it."""
    return {"message_id": message_id, "date": 0, "chat": chat(phone)}
