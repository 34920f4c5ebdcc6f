"""Somebody's phone: what is on its screen, and what can be done with it."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from bot.localchat.network import Network

TAP_LASTS = timedelta(seconds=150)


@dataclass
class Shown:
    """One message on the screen."""

    message_id: int
    mine: bool
    text: str
    html: str
    at: datetime
    kind: str = "text"
    keys: tuple[tuple[tuple[str, str | None], ...], ...] = ()
    file: bytes | None = None
    silent: bool = False
    revision: int = 0

    @property
    def buttons(self) -> tuple[tuple[str, ...], ...]:
        """Labels by row."""
        return tuple(tuple(label for label, _ in row) for row in self.keys)


@dataclass
class Phone:
    """A person in a private chat with the bot."""

    network: "Network"
    user_id: int
    name: str
    language: str = "en"
    screen: list[Shown] = field(default_factory=list)
    started: bool = False
    blocked: bool = False
    notified: int = 0

    def __post_init__(self) -> None:
        self._last_id = 0

    @property
    def chat_id(self) -> int:
        """The private chat: the person's own id."""
        return self.user_id

    @property
    def last(self) -> Shown:
        """The newest message of the bot."""
        return next(shown for shown in reversed(self.screen) if not shown.mine)

    def shown(self, message_id: int) -> Shown | None:
        """Return a message on the screen."""
        return next((each for each in self.screen if each.message_id == message_id), None)

    def next_id(self) -> int:
        """Return the id of the next message in this chat."""
        self._last_id += 1
        return self._last_id

    # --- what a person does -----------------------------------------------------------------------------------

    def start(self, payload: str = "") -> int:
        """Open the bot, with the payload of a link."""
        return self.type(f"/start {payload}".strip())

    def type(self, text: str, reply_to: int | None = None) -> int:
        """Type a message."""
        return self._say("text", text, {"text": text} | _entities(text), reply_to=reply_to)

    def edit(self, message_id: int, text: str) -> None:
        """Edit one's own message."""
        shown = self.shown(message_id)
        if shown is None or not shown.mine:
            raise LookupError(f"no message {message_id} of one's own")
        shown.text, shown.revision = text, shown.revision + 1
        self.network.note(self.chat_id, message_id, "person", "edit", text, revision=shown.revision)
        body = self._message(message_id) | {"text": text, "edit_date": self._now()} | _entities(text)
        self.network.offer("edited_message", body)

    def tap(self, label: str, message_id: int | None = None) -> None:
        """Tap the newest button with a label, or with a label that begins so.

        Raises:
            LookupError: There is none; the words name those that there are.
        """
        choices = [each for each in self.screen if message_id in (None, each.message_id) and not each.mine]
        for exact in (True, False):
            for shown in reversed(choices):
                for row in shown.keys:
                    for text, data in row:
                        if data is not None and (text == label or (not exact and text.startswith(label))):
                            self.tap_data(data, shown.message_id, text)
                            return
        there = [text for shown in choices for row in shown.keys for text, _ in row]
        raise LookupError(f"{self.name} sees no button {label!r}; there are {there}")

    def tap_data(self, data: str, message_id: int | None = None, label: str = "") -> None:
        """Tap with data of one's own, as a forged client would."""
        shown = self.shown(message_id or 0) or self.last
        self.network.note(self.chat_id, shown.message_id, "person", "tap", label or data)
        body = {
            "id": self.network.new_tap(),
            "from": self._me(),
            "chat_instance": str(self.chat_id),
            "data": data,
            "message": self._message(shown.message_id, sender=self.network.me()) | {"text": shown.text},
        }
        self.network.offer("callback_query", body, TAP_LASTS)

    def send_document(self, name: str, content: bytes, caption: str = "") -> int:
        """Send a file."""
        file_id = self.network.keep_file(name, content)
        document = {
            "file_id": file_id,
            "file_unique_id": file_id[:16],
            "file_name": name,
            "file_size": len(content),
        }
        return self._say("document", name, {"document": document} | _captioned(caption))

    def send_photo(self, content: bytes, caption: str = "") -> int:
        """Send a photo."""
        file_id = self.network.keep_file("photo.jpg", content)
        size = {
            "file_id": file_id,
            "file_unique_id": file_id[:16],
            "width": 90,
            "height": 90,
            "file_size": len(content),
        }
        return self._say("photo", caption, {"photo": [size]} | _captioned(caption))

    def send_voice(self, content: bytes, caption: str = "") -> int:
        """Send a voice message."""
        return self._recording("voice", "voice.ogg", content, caption)

    def send_video(self, content: bytes, caption: str = "") -> int:
        """Send a video."""
        return self._recording("video", "video.mp4", content, caption, width=90, height=90)

    def _recording(self, kind: str, name: str, content: bytes, caption: str, **more: int) -> int:
        file_id = self.network.keep_file(name, content)
        file = {"file_id": file_id, "file_unique_id": file_id[:16], "duration": 3, "file_size": len(content)}
        return self._say(kind, caption, {kind: file | more} | _captioned(caption))

    def share_location(self, latitude: float, longitude: float) -> int:
        """Share where one is."""
        return self._say("location", "", {"location": {"latitude": latitude, "longitude": longitude}})

    def block(self) -> None:
        """Block the bot."""
        self._membership("member", "kicked")
        self.blocked = True

    def unblock(self) -> None:
        """Take the bot back."""
        self.blocked = False
        self._membership("kicked", "member")

    def _membership(self, before: str, after: str) -> None:
        bot = self.network.me()
        until = {"until_date": 0}
        states = [
            {"user": bot, "status": state} | (until if state == "kicked" else {}) for state in (before, after)
        ]
        self.network.note(self.chat_id, 0, "person", "blocked" if after == "kicked" else "unblocked", "")
        body = {
            "chat": self._chat(),
            "from": self._me(),
            "date": self._now(),
            "old_chat_member": states[0],
            "new_chat_member": states[1],
        }
        self.network.offer("my_chat_member", body)

    def _say(self, kind: str, text: str, content: dict[str, Any], reply_to: int | None = None) -> int:
        self.started = True
        message_id = self.next_id()
        self.screen.append(Shown(message_id, True, text, "", self.network.clock.now(), kind))
        self.network.note(self.chat_id, message_id, "person", kind, text)
        body = self._message(message_id) | content
        answered = self.shown(reply_to) if reply_to else None
        if answered is not None:
            sender = self._me() if answered.mine else self.network.me()
            body["reply_to_message"] = self._message(answered.message_id, sender) | {"text": answered.text}
        self.network.offer("message", body)
        return message_id

    def _now(self) -> int:
        return int(self.network.clock.now().timestamp())

    def _me(self) -> dict[str, Any]:
        return {
            "id": self.user_id,
            "is_bot": False,
            "first_name": self.name,
            "language_code": self.language,
        }

    def _chat(self) -> dict[str, Any]:
        return {"id": self.chat_id, "type": "private", "first_name": self.name}

    def _message(self, message_id: int, sender: dict[str, Any] | None = None) -> dict[str, Any]:
        return {
            "message_id": message_id,
            "date": self._now(),
            "chat": self._chat(),
            "from": sender or self._me(),
        }

    def transcript(self) -> str:
        """Return the screen as text."""
        lines = []
        for shown in self.screen:
            lines.append(f"{self.name if shown.mine else 'Plimsoll'}  {shown.at:%a %d %b %H:%M}")
            lines += [f"  {line}" for line in (shown.text or f"({shown.kind})").splitlines()]
            lines += ["  " + " ".join(f"[{label}]" for label in row) for row in shown.buttons]
            lines.append("")
        return "\n".join(lines)


def _captioned(caption: str) -> dict[str, Any]:
    return {"caption": caption} if caption else {}


def _entities(text: str) -> dict[str, Any]:
    if not text.startswith("/"):
        return {}
    return {"entities": [{"type": "bot_command", "offset": 0, "length": len(text.split(maxsplit=1)[0])}]}
