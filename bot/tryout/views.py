"""What the page is told, as JSON: the state of all of it, and people's messages."""

from collections.abc import Sequence
from html import escape
from mimetypes import guess_type
from typing import Any

from bot.assembly.story import PersonCast
from bot.localchat.network import Network
from bot.localchat.phone import Phone
from bot.localchat.screen import Shown
from bot.localchat.uploads import PNG
from bot.render import tried_out as say
from bot.tryout.clean import SCHEMES, clean
from bot.tryout.trial import Trial

Json = dict[str, Any]

KINDS = {
    "text": "text",
    "photo": "photo",
    "sticker": "photo",
    "document": "document",
    "voice": "voice",
    "audio": "voice",
    "video": "video",
    "video_note": "video",
    "animation": "video",
    "location": "location",
    "contact": "contact",
}
"""The page's word for a kind of message."""

PICTURES = ((PNG, "image/png"), (b"\xff\xd8\xff", "image/jpeg"), (b"GIF8", "image/gif"))
PLAIN = "application/octet-stream"
INERT = {
    "application/pdf",
    "application/zip",
    "image/gif",
    "image/jpeg",
    "image/png",
    "text/csv",
    "text/plain",
    "application/json",
    "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
"""Types of documents that are said; others are bytes, since a browser might run them."""


def state(trial: Trial) -> Json:
    """Return the state of all of it."""
    zone = trial.people[0].zone
    return {
        "now": trial.now.isoformat(),
        "told": say.told(trial.now, zone),
        "moving": trial.moving,
        "doing": trial.doing if trial.moving else "",
        "progress": trial.progress,
        "people": [_person(trial, each) for each in trial.people],
        "places": [
            {"key": key, "label": label, "when": None if at is None else say.local(at, zone)}
            for key, label in say.PLACES.items()
            for at in (trial.coming.get(key),)
        ],
    }


def _person(trial: Trial, person: PersonCast) -> Json:
    phone, seen = trial.phone(person.key), trial.seen.get(person.key, 0)
    screen: Sequence[Shown] = phone.screen if phone else ()
    return {
        "key": person.key,
        "name": person.name,
        "role": trial.opening.role(person),
        "zone": person.zone,
        "local": say.local(trial.now, person.zone),
        "unread": sum(not each.mine and each.message_id > seen for each in screen),
        "yours": person.key in trial.hers,
        "played": any(act.who == person.key for act in trial.opening.script.acts),
        "commands": _commands(phone),
        "keyboard": [list(row) for row in phone.keyboard] if phone else [],
        "blocked": phone.blocked if phone else False,
    }


def _commands(phone: Phone | None) -> list[Json]:
    """Return the commands that a person's phone lists: of the chat, else those for everybody."""
    if phone is None:
        return []
    network: Network = phone.network
    scopes = (f"chat {phone.chat_id}", "all_private_chats", "default")
    found = next((network.commands[scope, ""] for scope in scopes if (scope, "") in network.commands), [])
    return [{"name": each["command"], "description": each["description"]} for each in found]


def messages(trial: Trial, key: str) -> list[Json]:
    """Return what is on somebody's screen.

    Raises:
        CannotBeDone: There is nobody of that name.
    """
    phone = trial.phone(key)
    if phone is None:
        return []
    spinning = phone.network.taps.spinning_by_message(phone.chat_id)
    zone = trial.person(key).zone
    return [message(key, zone, each, spinning.get(each.message_id, ())) for each in phone.screen]


def message(key: str, zone: str, shown: Shown, spinning: Sequence[str]) -> Json:
    """Return one message as it stands.

    Args:
        key: Whose screen it is on.
        zone: Theirs.
        shown: The message.
        spinning: Labels of its buttons that wait for an answer.
    """
    text = shown.text
    if shown.mine and shown.kind not in ("text", "contact"):
        text = str(shown.content.get("caption", ""))
    return {
        "id": shown.message_id,
        "mine": shown.mine,
        "html": escape(text, quote=False) if shown.mine else clean(shown.html),
        "text": text,
        "kind": KINDS.get(shown.kind, "document"),
        "file": _file(key, shown),
        "buttons": [
            [_button(label, data, (row, place), shown) for place, (label, data) in enumerate(labels)]
            for row, labels in enumerate(shown.keys)
        ],
        "spinning": list(spinning),
        "reply_to": shown.reply_to,
        "at": shown.at.isoformat(),
        "local": say.local(shown.at, zone),
        "edited": shown.edited_at is not None,
        "silent": shown.silent,
    }


def _button(label: str, data: str | None, where: tuple[int, int], shown: Shown) -> Json:
    row, place = where
    button: Json = {"label": label, "row": row, "place": place}
    if data is None:
        url = str(shown.markup.rows[row][place].get("url", ""))
        button["url"] = url if url.startswith(SCHEMES) else None
    return button


def _file(key: str, shown: Shown) -> Json | None:
    if shown.file is None:
        return None
    return {
        "name": file_name(shown),
        "url": f"/people/{key}/files/{shown.message_id}",
        "size": len(shown.file),
        "kind": KINDS.get(shown.kind, "document"),
    }


def file_name(shown: Shown) -> str:
    """Return what a message's file is called."""
    part = shown.content.get(shown.kind)
    if isinstance(part, dict) and "file_name" in part:
        return str(part["file_name"])
    endings = {"photo": "picture.png", "voice": "voice.ogg", "video": "video.mp4"}
    return endings.get(shown.kind, f"{shown.kind}.bin")


def content_type(shown: Shown) -> str:
    """Return the type of a message's file: of a picture by its bytes, of a document by its name."""
    content = shown.file or b""
    if shown.kind == "photo":
        return next((kind for begins, kind in PICTURES if content.startswith(begins)), PLAIN)
    if shown.kind in ("voice", "audio"):
        return "audio/ogg"
    if shown.kind in ("video", "video_note", "animation"):
        return "video/mp4"
    guessed = guess_type(file_name(shown))[0] or PLAIN
    return guessed if guessed in INERT else PLAIN
