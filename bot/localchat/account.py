"""Methods about the bot itself: who it is, its updates, taps, files, commands, webhook."""

import re
from typing import Any

from bot.localchat.answers import Body, Call, Pending, Refused, bad_request
from bot.localchat.parameters import required
from bot.localchat.updates import MOST

LONGEST_POLL_S = 50
COMMANDS = 100
TAP_ANSWER = 200
DESCRIPTION = 256
SECRET = re.compile(r"[A-Za-z0-9_-]{1,256}")
PLAIN_SCOPES = frozenset({"default", "all_private_chats", "all_group_chats", "all_chat_administrators"})
FETCHING_REFUSED = (
    "Conflict: can't use getUpdates method while webhook is active; "
    "use deleteWebhook to delete the webhook first"
)


def get_me(call: Call) -> Body:
    """Answer who the bot is."""
    return call.network.me()


def get_updates(call: Call) -> list[Body] | Pending:
    """Give what waits; an offset confirms what is before it.

    Raises:
        Refused: A webhook is set.
    """
    network, params = call.network, call.params
    if network.webhook:
        raise Refused(409, FETCHING_REFUSED)
    network.updates.allow(params.get("allowed_updates"))
    if params.get("offset"):
        network.updates.confirm(params["offset"])
    limit = max(1, min(params.get("limit", MOST), MOST))
    return network.updates.waiting(limit) or Pending()


def patience_s(asked_s: int) -> int:
    """Return how long a call of getUpdates waits when there is nothing. [s]"""
    return max(0, min(asked_s, LONGEST_POLL_S))


def answer_tap(call: Call) -> bool:
    """Stop the spinner of a tap.

    Raises:
        Refused: There was no such tap, it is too long ago, or it has its answer.
    """
    if len(call.params.get("text", "")) > TAP_ANSWER:
        raise bad_request("MESSAGE_TOO_LONG")
    if not call.network.taps.answer(required(call.params, "callback_query_id")):
        raise bad_request("query is too old and response timeout expired or query ID is invalid")
    call.network.on_shown()
    return True


def get_file(call: Call) -> Body:
    """Say where a file can be fetched."""
    return call.network.uploads.link(required(call.params, "file_id"))


def _scope(call: Call) -> tuple[str, str]:
    """Return whom commands are for: a scope and a language."""
    scope = call.params.get("scope", {"type": "default"})
    language = call.params.get("language_code", "")
    if language and not re.fullmatch("[a-z]{2}", language):
        raise bad_request("invalid language code specified")
    kind = scope.get("type")
    if kind in PLAIN_SCOPES and set(scope) == {"type"}:
        return kind, language
    if kind != "chat" or set(scope) != {"type", "chat_id"}:
        raise bad_request("can't parse BotCommandScope: unsupported type specified")
    if call.network.chat(scope["chat_id"]) is None:
        raise bad_request("chat not found")
    return f"chat {scope['chat_id']}", language


def set_commands(call: Call) -> bool:
    """Register commands for a scope and a language."""
    commands = required(call.params, "commands")
    if len(commands) > COMMANDS:
        raise bad_request("BOT_COMMANDS_TOO_MUCH")
    call.network.commands[_scope(call)] = [_command(each) for each in commands]
    return True


def _command(given: Any) -> Body:
    if not isinstance(given, dict) or set(given) != {"command", "description"}:
        raise bad_request("can't parse BotCommand: command and description expected")
    if not re.fullmatch("[a-z0-9_]{1,32}", given["command"]):
        raise bad_request("BOT_COMMAND_INVALID")
    if not 1 <= len(given["description"]) <= DESCRIPTION:
        raise bad_request("BOT_COMMAND_DESCRIPTION_INVALID")
    return dict(given)


def get_commands(call: Call) -> list[Body]:
    """Answer the commands of exactly one scope and language."""
    return call.network.commands.get(_scope(call), [])


def delete_commands(call: Call) -> bool:
    """Forget the commands of one scope and language."""
    call.network.commands.pop(_scope(call), None)
    return True


def set_webhook(call: Call) -> bool:
    """Register a webhook; nothing is delivered to it here, but fetching is refused as long as it is set."""
    url = required(call.params, "url")
    if url and not url.startswith("https://"):
        raise bad_request("bad webhook: An HTTPS URL must be provided for webhook")
    secret = call.params.get("secret_token")
    if secret and not SECRET.fullmatch(secret):
        raise bad_request("secret token contains unallowed characters")
    call.network.updates.allow(call.params.get("allowed_updates"))
    call.network.webhook = url
    return _dropped(call)


def delete_webhook(call: Call) -> bool:
    """Forget the webhook."""
    call.network.webhook = ""
    return _dropped(call)


def _dropped(call: Call) -> bool:
    if call.params.get("drop_pending_updates"):
        call.network.updates.clear()
    return True


def webhook_info(call: Call) -> Body:
    """Answer which webhook is set, and how much waits."""
    network = call.network
    return {
        "url": network.webhook,
        "has_custom_certificate": False,
        "pending_update_count": len(network.updates),
        "allowed_updates": network.updates.allowed,
    }
