"""Methods that send, edit and delete messages."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

from bot.localchat import bodies
from bot.localchat.answers import Body, Call, Refused, bad_request
from bot.localchat.keyboards import Markup, inline_only, markup_of
from bot.localchat.markup import BadMarkup, Formatted, formatted, trimmed, utf16_length
from bot.localchat.parameters import required
from bot.localchat.phone import Phone
from bot.localchat.screen import Shown
from bot.localchat.uploads import content_of

TEXT_LIMIT = 4096
CAPTION_LIMIT = 1024
RAW_BYTES = 32_768
DELETABLE = timedelta(hours=48)

ACTIONS = frozenset(
    {
        "typing",
        "upload_photo",
        "record_video",
        "upload_video",
        "record_voice",
        "upload_voice",
        "upload_document",
        "choose_sticker",
        "find_location",
        "record_video_note",
        "upload_video_note",
    }
)


def phone_of(call: Call) -> Phone:
    """Return the phone of the chat that a call is about.

    Raises:
        Refused: There is no such chat, it was never started, or the bot is blocked.
    """
    if "chat_id" not in call.params:
        raise bad_request("chat_id is empty")
    phone = call.network.chat(call.params["chat_id"])
    if phone is None:
        raise bad_request("chat not found")
    if phone.blocked:
        raise Refused(403, "Forbidden: bot was blocked by the user")
    if not phone.started:
        raise Refused(403, "Forbidden: bot can't initiate conversation with a user")
    return phone


def text_of(raw: str, parse_mode: str | None, limit: int) -> Formatted:
    """Return a text or caption as the service keeps it.

    Lengths count UTF-16 units: where the service counts otherwise it takes more, never less.

    Raises:
        Refused: It is too long, or its markup is wrong.
    """
    if len(raw.encode("utf-8", "surrogatepass")) > RAW_BYTES:
        raise bad_request("text is too long")
    if parse_mode not in (None, "", "HTML"):
        raise bad_request("unsupported parse_mode (only HTML is known here)")
    try:
        read = formatted(raw) if parse_mode else trimmed(raw, [])
    except BadMarkup as bad:
        raise bad_request(f"can't parse entities: {bad}") from bad
    if utf16_length(read.text) > limit:
        raise bad_request("message caption is too long" if limit == CAPTION_LIMIT else "message is too long")
    return read


def _content(name: str, read: Formatted) -> Body:
    if not read.text:
        return {}
    marks = "entities" if name == "text" else "caption_entities"
    return {name: read.text} | ({marks: list(read.marks)} if read.marks else {})


def _text(call: Call) -> Formatted:
    read = text_of(call.params.get("text", ""), call.params.get("parse_mode"), TEXT_LIMIT)
    if not read.text:
        raise bad_request("message text is empty")
    return read


def _caption(call: Call) -> Formatted:
    return text_of(call.params.get("caption", ""), call.params.get("parse_mode"), CAPTION_LIMIT)


def _answered(call: Call, phone: Phone) -> int | None:
    given = call.params.get("reply_parameters")
    if given is None:
        return None
    if not set(given) <= {"message_id", "allow_sending_without_reply"}:
        raise bad_request("can't parse reply parameters: more than is known here")
    answered = phone.shown(given.get("message_id"))
    if answered is None and not given.get("allow_sending_without_reply"):
        raise bad_request("message to be replied not found")
    return None if answered is None else answered.message_id


def _sent(call: Call, phone: Phone, shown: Shown) -> Body:
    shown = replace(
        shown,
        markup=markup_of(call.params.get("reply_markup")),
        reply_to=_answered(call, phone),
        silent=call.params.get("disable_notification", False),
        protected=call.params.get("protect_content", False),
    )
    shown.message_id = phone.next_id()
    phone.show(shown)
    return bodies.message(phone, shown)


def send_message(call: Call) -> Body:
    """Send a text."""
    phone, read = phone_of(call), _text(call)
    now, raw = call.network.clock.now(), call.params["text"]
    return _sent(call, phone, Shown(0, False, read.text, raw, now, content=_content("text", read)))


def send_file(kind: str) -> Callable[[Call], Body]:
    """Return the method that sends a kind of file."""

    def send(call: Call) -> Body:
        phone, read = phone_of(call), _caption(call)
        given = call.params.get(kind)
        part = given.removeprefix("attach://") if given else kind
        file = call.network.uploads.sent_by_bot(kind, given, call.files.get(part))
        now, raw = call.network.clock.now(), call.params.get("caption", "")
        content = content_of(file) | _content("caption", read)
        shown = Shown(0, False, read.text, raw, now, kind, file=file.content, content=content)
        return _sent(call, phone, shown)

    return send


def _own(call: Call) -> tuple[Phone, Shown]:
    phone = phone_of(call)
    shown = phone.shown(required(call.params, "message_id"))
    if shown is None:
        raise bad_request("message to edit not found")
    if shown.mine or not shown.markup.editable:
        raise bad_request("message can't be edited")
    return phone, shown


def edit_text(call: Call) -> Body:
    """Edit a text in place."""
    phone, shown = _own(call)
    read = _text(call)
    if shown.kind != "text":
        raise bad_request("there is no text in the message to edit")
    return _edited(call, phone, shown, (read.text, call.params["text"]), _content("text", read))


def edit_caption(call: Call) -> Body:
    """Edit the caption of a file in place."""
    phone, shown = _own(call)
    read = _caption(call)
    if shown.kind == "text":
        raise bad_request("there is no caption in the message to edit")
    content = {shown.kind: shown.content[shown.kind]} | _content("caption", read)
    return _edited(call, phone, shown, (read.text, call.params.get("caption", "")), content)


def edit_markup(call: Call) -> Body:
    """Edit the buttons of a message."""
    phone, shown = _own(call)
    return _edited(call, phone, shown, (shown.text, shown.html), shown.content)


def _edited(call: Call, phone: Phone, shown: Shown, words: tuple[str, str], content: Body) -> Body:
    markup = inline_only(call.params.get("reply_markup"))
    if (content, markup) == (shown.content, shown.markup):
        raise bad_request(
            "message is not modified: specified new message content and reply markup are "
            "exactly the same as a current content and reply markup of the message"
        )
    only_lost = bool(shown.keys) and not markup.keys and content == shown.content
    shown.text, shown.html = words
    shown.content, shown.markup = content, markup
    shown.revision += 1
    shown.edited_at = call.network.clock.now()
    phone.note(shown, "buttons removed" if only_lost else "edit", silent=True)
    return bodies.message(phone, shown)


def delete(call: Call) -> bool:
    """Delete a message: the bot's or, in a private chat, the person's, for two days."""
    phone = phone_of(call)
    shown = phone.shown(required(call.params, "message_id"))
    if shown is None:
        raise bad_request("message to delete not found")
    if call.network.clock.now() - shown.at >= DELETABLE:
        raise bad_request("message can't be deleted for everyone")
    phone.screen.remove(shown)
    phone.note(replace(shown, text="", markup=Markup()), "deleted", sender="bot", silent=True)
    return True


def chat_action(call: Call) -> bool:
    """Show for some seconds what the bot is doing."""
    phone_of(call)
    if required(call.params, "action") not in ACTIONS:
        raise bad_request("wrong parameter action in request")
    return True
