"""The methods of the service that the bot uses, as strict as the real ones."""

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from bot.localchat.answers import Pending, Refused, UploadedFile
from bot.localchat.markup import BadMarkup, text_of
from bot.localchat.phone import Phone, Shown

if TYPE_CHECKING:
    from bot.localchat.network import Network

TEXT_LIMIT = 4096
CAPTION_LIMIT = 1024
FILES = {"sendPhoto": "photo", "sendDocument": "document", "sendVoice": "voice", "sendVideo": "video"}

Params = dict[str, Any]
Uploads = Mapping[str, UploadedFile]
Keys = tuple[tuple[tuple[str, str | None], ...], ...]


def get_me(network: "Network", params: Params, files: Uploads) -> Any:
    """Answer who the bot is."""
    return network.me()


def get_updates(network: "Network", params: Params, files: Uploads) -> Any:
    """Give what waits; an offset confirms what is before it."""
    offset = params.get("offset")
    if offset is not None and offset > 0:
        network.confirm(offset)
    return network.waiting(max(1, min(params.get("limit") or 100, 100))) or Pending()


def _chat(network: "Network", params: Params) -> Phone:
    phone = network.chat(params.get("chat_id", 0))
    if phone is None:
        raise Refused(400, "Bad Request: chat not found")
    if phone.blocked:
        raise Refused(403, "Forbidden: bot was blocked by the user")
    if not phone.started:
        raise Refused(403, "Forbidden: bot can't initiate conversation with a user")
    return phone


def _text(raw: str, parse_mode: str | None, limit: int) -> str:
    if len(raw.encode()) > 32768:
        raise Refused(400, "Bad Request: text is too long")
    if parse_mode not in (None, "HTML"):
        raise Refused(400, "Bad Request: unsupported parse_mode")
    try:
        text = text_of(raw) if parse_mode else raw
    except BadMarkup as bad:
        raise Refused(400, f"Bad Request: can't parse entities: {bad}") from bad
    if len(text.encode("utf-16-le")) // 2 > limit:
        raise Refused(400, "Bad Request: message is too long")
    return text.strip()


def _keys(markup: Any) -> Keys:
    if not isinstance(markup, dict) or "inline_keyboard" not in markup:
        return ()
    rows = markup["inline_keyboard"]
    if sum(len(row) for row in rows) > 100:
        raise Refused(400, "Bad Request: too many inline keyboard buttons")
    return tuple(tuple(_key(button) for button in row) for row in rows)


def _key(button: dict[str, Any]) -> tuple[str, str | None]:
    label, data = button.get("text"), button.get("callback_data")
    if not label:
        raise Refused(400, "Bad Request: inline keyboard button text must be non-empty")
    if (data is None) == (button.get("url") is None):
        raise Refused(400, "Bad Request: inline keyboard button must have exactly one action")
    if data is not None and not 1 <= len(data.encode()) <= 64:
        raise Refused(400, "Bad Request: BUTTON_DATA_INVALID")
    return label, data


def _as_message(network: "Network", phone: Phone, shown: Shown, content: Params) -> Params:
    body = {
        "message_id": shown.message_id,
        "date": int(shown.at.timestamp()),
        "chat": {"id": phone.chat_id, "type": "private", "first_name": phone.name},
        "from": network.me(),
    }
    if shown.keys:
        body["reply_markup"] = {
            "inline_keyboard": [
                [{"text": label, "callback_data": data or "-"} for label, data in row] for row in shown.keys
            ]
        }
    return body | content


def _show(network: "Network", phone: Phone, shown: Shown) -> None:
    phone.screen.append(shown)
    phone.notified += not shown.silent
    network.note(
        phone.chat_id,
        shown.message_id,
        "bot",
        shown.kind,
        shown.text,
        buttons=shown.buttons,
        silent=shown.silent,
    )


def send_message(network: "Network", params: Params, files: Uploads) -> Any:
    """Send a text."""
    phone = _chat(network, params)
    raw = str(params.get("text", ""))
    text = _text(raw, params.get("parse_mode"), TEXT_LIMIT)
    if not text:
        raise Refused(400, "Bad Request: message text is empty")
    keys = _keys(params.get("reply_markup"))
    silent = bool(params.get("disable_notification"))
    shown = Shown(phone.next_id(), False, text, raw, network.clock.now(), keys=keys, silent=silent)
    _show(network, phone, shown)
    return _as_message(network, phone, shown, {"text": text})


def send_file(kind: str) -> Callable[["Network", Params, Uploads], Any]:
    """Return the method that sends a kind of file."""

    def send(network: "Network", params: Params, files: Uploads) -> Any:
        phone = _chat(network, params)
        caption = str(params.get("caption", ""))
        text = _text(caption, params.get("parse_mode"), CAPTION_LIMIT)
        upload = next(iter(files.values()), None)
        file_id = network.keep_file(upload.name, upload.content) if upload else str(params.get(kind))
        file = network.file(file_id)
        if file is None:
            raise Refused(400, "Bad Request: wrong file identifier/HTTP URL specified")
        shown = Shown(
            phone.next_id(),
            False,
            text,
            caption,
            network.clock.now(),
            kind,
            _keys(params.get("reply_markup")),
            file.content,
            bool(params.get("disable_notification")),
        )
        _show(network, phone, shown)
        return _as_message(network, phone, shown, {"caption": text} | _described(kind, file_id, file))

    return send


def _described(kind: str, file_id: str, file: UploadedFile) -> Params:
    about: Params = {"file_id": file_id, "file_unique_id": file_id[:16], "file_size": len(file.content)}
    if kind == "photo":
        return {"photo": [about | {"width": 90, "height": 90}]}
    if kind == "document":
        return {"document": about | {"file_name": file.name}}
    return {kind: about | {"duration": 3} | ({"width": 90, "height": 90} if kind == "video" else {})}


def _own(network: "Network", params: Params) -> tuple[Phone, Shown]:
    phone = _chat(network, params)
    shown = phone.shown(params.get("message_id", 0))
    if shown is None:
        raise Refused(400, "Bad Request: message to edit not found")
    if shown.mine:
        raise Refused(400, "Bad Request: message can't be edited")
    return phone, shown


def edit_text(network: "Network", params: Params, files: Uploads) -> Any:
    """Edit a text in place."""
    phone, shown = _own(network, params)
    raw = str(params.get("text", ""))
    text = _text(raw, params.get("parse_mode"), TEXT_LIMIT)
    if not text:
        raise Refused(400, "Bad Request: message text is empty")
    return _edited(network, phone, shown, raw, text, _keys(params.get("reply_markup")))


def edit_markup(network: "Network", params: Params, files: Uploads) -> Any:
    """Edit the buttons of a message."""
    phone, shown = _own(network, params)
    return _edited(network, phone, shown, shown.html, shown.text, _keys(params.get("reply_markup")))


def _edited(network: "Network", phone: Phone, shown: Shown, raw: str, text: str, keys: Keys) -> Any:
    if (text, keys) == (shown.text, shown.keys):
        raise Refused(
            400,
            "Bad Request: message is not modified: specified new message content and reply markup are "
            "exactly the same as a current content and reply markup of the message",
        )
    kind = "buttons removed" if shown.keys and not keys and text == shown.text else "edit"
    shown.html, shown.text, shown.keys, shown.revision = raw, text, keys, shown.revision + 1
    network.note(
        phone.chat_id,
        shown.message_id,
        "bot",
        kind,
        text,
        revision=shown.revision,
        buttons=shown.buttons,
        silent=True,
    )
    return _as_message(network, phone, shown, {"text": text})


def answer_tap(network: "Network", params: Params, files: Uploads) -> bool:
    """Stop the spinner of a tap."""
    if not network.tap_is_good(str(params.get("callback_query_id"))):
        raise Refused(
            400, "Bad Request: query is too old and response timeout expired or query ID is invalid"
        )
    return True


def get_file(network: "Network", params: Params, files: Uploads) -> Any:
    """Say where a file can be fetched."""
    file_id = str(params.get("file_id"))
    file = network.file(file_id)
    if file is None:
        raise Refused(400, "Bad Request: invalid file_id")
    return {
        "file_id": file_id,
        "file_unique_id": file_id[:16],
        "file_size": len(file.content),
        "file_path": file_id,
    }


def set_commands(network: "Network", params: Params, files: Uploads) -> bool:
    """Register commands."""
    network.commands[str(params.get("scope", "default"))] = params.get("commands", [])
    return True


SENDING = frozenset(
    {
        "chat_id",
        "parse_mode",
        "reply_markup",
        "disable_notification",
        "protect_content",
        "link_preview_options",
    }
)
Method = tuple[frozenset[str], Callable[["Network", Params, Uploads], Any]]

METHODS: dict[str, Method] = {
    "getMe": (frozenset(), get_me),
    "getUpdates": (frozenset({"offset", "limit", "timeout", "allowed_updates"}), get_updates),
    "sendMessage": (SENDING | {"text"}, send_message),
    **{name: (SENDING | {"caption", kind}, send_file(kind)) for name, kind in FILES.items()},
    "editMessageText": (
        frozenset({"chat_id", "message_id", "text", "parse_mode", "reply_markup", "link_preview_options"}),
        edit_text,
    ),
    "editMessageReplyMarkup": (frozenset({"chat_id", "message_id", "reply_markup"}), edit_markup),
    "answerCallbackQuery": (frozenset({"callback_query_id", "text", "show_alert"}), answer_tap),
    "getFile": (frozenset({"file_id"}), get_file),
    "setMyCommands": (frozenset({"commands", "scope", "language_code"}), set_commands),
}
"""Parameters that a method takes, and what it does."""
