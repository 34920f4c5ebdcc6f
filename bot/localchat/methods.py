"""The methods of the service that there are here, and the parameters that each takes: a part of those published."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from bot.localchat import account, sending
from bot.localchat.answers import Call
from bot.localchat.parameters import Type, Types

FILES = ("photo", "document", "voice", "video", "audio", "animation")
BARE = ("video_note", "sticker")
"""Kinds that nothing can stand under."""

WHERE: Types = {"chat_id": Type.CHAT}
WHICH: Types = WHERE | {"message_id": Type.NUMBER, "reply_markup": Type.OBJECT}
WORDS: Types = {"text": Type.TEXT, "parse_mode": Type.TEXT, "link_preview_options": Type.OBJECT}
CAPTION: Types = {"caption": Type.TEXT, "parse_mode": Type.TEXT}
SENDING: Types = WHERE | {
    "reply_markup": Type.OBJECT,
    "reply_parameters": Type.OBJECT,
    "disable_notification": Type.FLAG,
    "protect_content": Type.FLAG,
}
SCOPE: Types = {"scope": Type.OBJECT, "language_code": Type.TEXT}
DROP: Types = {"drop_pending_updates": Type.FLAG}
UPDATES: Types = {"allowed_updates": Type.LIST}
POLL: Types = UPDATES | {"offset": Type.NUMBER, "limit": Type.NUMBER, "timeout": Type.NUMBER}
TAP: Types = {
    "callback_query_id": Type.TEXT,
    "text": Type.TEXT,
    "show_alert": Type.FLAG,
    "cache_time": Type.NUMBER,
}
HOOK: Types = {"url": Type.TEXT, "secret_token": Type.TEXT, "max_connections": Type.NUMBER}


@dataclass(frozen=True, slots=True)
class Method:
    """A method: what it does, and its parameters by name."""

    act: Callable[[Call], Any]
    types: Types


METHODS: dict[str, Method] = {
    "getMe": Method(account.get_me, {}),
    "getUpdates": Method(account.get_updates, POLL),
    "sendMessage": Method(sending.send_message, SENDING | WORDS),
    **{
        f"send{kind.title()}": Method(sending.send_file(kind), SENDING | CAPTION | {kind: Type.TEXT})
        for kind in FILES
    },
    **{
        f"send{kind.title().replace('_', '')}": Method(sending.send_file(kind), SENDING | {kind: Type.TEXT})
        for kind in BARE
    },
    "sendChatAction": Method(sending.chat_action, WHERE | {"action": Type.TEXT}),
    "editMessageText": Method(sending.edit_text, WHICH | WORDS),
    "editMessageCaption": Method(sending.edit_caption, WHICH | CAPTION),
    "editMessageReplyMarkup": Method(sending.edit_markup, WHICH),
    "deleteMessage": Method(sending.delete, WHERE | {"message_id": Type.NUMBER}),
    "answerCallbackQuery": Method(account.answer_tap, TAP),
    "getFile": Method(account.get_file, {"file_id": Type.TEXT}),
    "setMyCommands": Method(account.set_commands, SCOPE | {"commands": Type.LIST}),
    "getMyCommands": Method(account.get_commands, SCOPE),
    "deleteMyCommands": Method(account.delete_commands, SCOPE),
    "setWebhook": Method(account.set_webhook, UPDATES | DROP | HOOK),
    "deleteWebhook": Method(account.delete_webhook, DROP),
    "getWebhookInfo": Method(account.webhook_info, {}),
}
