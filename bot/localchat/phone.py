"""Somebody's phone: what is on its screen, and what can be done with it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from bot.localchat import bodies
from bot.localchat.answers import Body
from bot.localchat.screen import Shown, as_text, button_with
from bot.localchat.uploads import KeptFile, content_of

if TYPE_CHECKING:
    from bot.localchat.network import Network

TEXT_LIMIT = 4096


@dataclass
class Phone:
    """A person in a private chat with the bot.

    Attributes:
        screen: The chat as it stands: edits in place, deleted messages gone.
        keyboard: Keys in place of the keyboard, each of which types its label.
        started: Whether the bot may write: not before the person did.
        blocked: Whether the person wants to hear nothing more.
        notified: How many messages made a sound.
    """

    network: "Network"
    user_id: int
    name: str
    language: str = "en"
    screen: list[Shown] = field(default_factory=list)
    keyboard: tuple[tuple[str, ...], ...] = ()
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
        """The newest message of the bot.

        Raises:
            LookupError: There is none.
        """
        newest = next((shown for shown in reversed(self.screen) if not shown.mine), None)
        if newest is None:
            raise LookupError(f"{self.name} has no message of the bot")
        return newest

    @property
    def spinning(self) -> tuple[str, ...]:
        """Labels of the buttons that were tapped and still wait for an answer."""
        return self.network.taps.spinning(self.chat_id)

    def shown(self, message_id: int | None) -> Shown | None:
        """Return a message on the screen."""
        return next((each for each in self.screen if each.message_id == message_id), None)

    def text_of_screen(self) -> str:
        """Return the screen as text."""
        return as_text(self.screen, self.name)

    # --- what a person does -----------------------------------------------------------------------------------

    def start(self, payload: str = "") -> int:
        """Open the bot, with the payload of a link; returns the id of the message."""
        return self.type(f"/start {payload}".strip())

    def type(self, text: str, reply_to: int | None = None) -> int:
        """Type a message; returns its id.

        Raises:
            ValueError: A phone would not send that as one message.
        """
        return self._say(_typed(text), "text", _text_content(text), reply_to=reply_to)

    def edit(self, message_id: int, text: str) -> None:
        """Edit one's own message.

        Raises:
            LookupError: There is no such text of one's own.
            ValueError: A phone would not send that as one message.
        """
        shown = self.shown(message_id)
        if shown is None or not shown.mine or shown.kind != "text":
            raise LookupError(f"{self.name} has no message {message_id} of their own to edit")
        shown.text, shown.content = _typed(text), _text_content(text)
        shown.revision, shown.edited_at = shown.revision + 1, self.network.clock.now()
        self.note(shown, "edit")
        self._offer("edited_message", bodies.message(self, shown))

    def tap(self, label: str, message_id: int | None = None) -> None:
        """Tap the newest button with a label, or with a label that begins so.

        Raises:
            LookupError: There is none; the words name those that there are.
        """
        choices = [each for each in self.screen if message_id in (None, each.message_id)]
        found = button_with(label, choices)
        if found is None:
            there = [text for shown in choices for row in shown.buttons for text in row]
            raise LookupError(f"{self.name} sees no button {label!r}; there are {there}")
        shown, text, data = found
        self.tap_data(data, shown.message_id, text)

    def tap_data(self, data: str, message_id: int | None = None, label: str = "") -> None:
        """Tap with data of one's own, as a forged client would; on the newest message unless one is named.

        A message that is not there comes as one that the bot cannot see.
        """
        tapped = self.last if message_id is None else self.shown(message_id)
        where = message_id if tapped is None else tapped.message_id
        self.network.note(self.chat_id, where or 0, "person", "tap", label or data)
        body = {
            "id": self.network.taps.make(self.chat_id, label or data, where or 0),
            "from": bodies.person(self),
            "chat_instance": str(self.chat_id),
            "data": data,
            "message": bodies.inaccessible(self, where or 0)
            if tapped is None
            else bodies.message(self, tapped),
        }
        self._offer("callback_query", body)

    def send_document(self, name: str, content: bytes, caption: str = "", reply_to: int | None = None) -> int:
        """Send a file; returns the id of the message."""
        return self._send("document", name, content, caption, reply_to=reply_to)

    def send_photo(self, content: bytes, caption: str = "", reply_to: int | None = None) -> int:
        """Send a photo; returns the id of the message."""
        return self._send("photo", "photo.jpg", content, caption, reply_to=reply_to)

    def send_voice(self, content: bytes, caption: str = "", reply_to: int | None = None) -> int:
        """Send a voice message; returns its id."""
        return self._send("voice", "voice.ogg", content, caption, reply_to=reply_to)

    def send_video(self, content: bytes, caption: str = "") -> int:
        """Send a video; returns the id of the message."""
        return self._send("video", "video.mp4", content, caption)

    def send_media(self, kind: str, content: bytes, caption: str = "", album: str | None = None) -> int:
        """Send anything else that is a file, or one of an album; returns the id of the message.

        Args:
            kind: The service's word, such as "video_note".
            content: Its bytes.
            caption: What stands under it.
            album: The service's name for what is sent together.
        """
        return self._send(kind, f"{kind}.bin", content, caption, {"media_group_id": album} if album else {})

    def edit_caption(self, message_id: int, caption: str) -> None:
        """Edit what stands under one's own file.

        Raises:
            LookupError: There is no such file of one's own.
        """
        shown = self.shown(message_id)
        if shown is None or not shown.mine or shown.kind == "text":
            raise LookupError(f"{self.name} has no file {message_id} of their own to edit")
        shown.content = {key: part for key, part in shown.content.items() if key != "caption"}
        shown.content |= {"caption": caption} if caption else {}
        shown.text, shown.edited_at = caption, self.network.clock.now()
        shown.revision += 1
        self.note(shown, "edit")
        self._offer("edited_message", bodies.message(self, shown))

    def share_contact(self, name: str, number: str) -> int:
        """Share somebody's name and number; returns the id of the message."""
        return self._say(name, "contact", {"contact": {"first_name": name, "phone_number": number}})

    def share_location(self, latitude: float, longitude: float) -> int:
        """Share where one is; returns the id of the message."""
        return self._say("", "location", {"location": {"latitude": latitude, "longitude": longitude}})

    def block(self) -> None:
        """Block the bot."""
        self._membership("member", "kicked")
        self.blocked = True

    def unblock(self) -> None:
        """Take the bot back."""
        self.blocked = False
        self._membership("kicked", "member")

    # --- what the service does --------------------------------------------------------------------------------

    def next_id(self) -> int:
        """Return the id of the next message in this chat."""
        self._last_id += 1
        return self._last_id

    def show(self, shown: Shown) -> None:
        """Show a new message of the bot."""
        self.screen.append(shown)
        self.notified += not shown.silent
        if shown.markup.typed is not None:
            self.keyboard = shown.markup.typed
        self.note(shown, shown.kind, silent=shown.silent)

    def note(self, shown: Shown, kind: str, *, sender: str | None = None, silent: bool = False) -> None:
        """Record a message as it stands."""
        self.network.note(
            self.chat_id,
            shown.message_id,
            sender or ("person" if shown.mine else "bot"),
            kind,
            shown.text,
            revision=shown.revision,
            buttons=shown.buttons,
            silent=silent,
        )

    def _send(
        self,
        kind: str,
        name: str,
        content: bytes,
        caption: str,
        facts: Mapping[str, str] = MappingProxyType({}),
        *,
        reply_to: int | None = None,
    ) -> int:
        self.network.uploads.keep(kind, name, content)
        body = (
            content_of(KeptFile(kind, name, content))
            | ({"caption": caption} if caption else {})
            | dict(facts)
        )
        words = name if kind == "document" else caption
        return self._say(words, kind, body, reply_to=reply_to, file=content)

    def _say(
        self, text: str, kind: str, content: Body, *, reply_to: int | None = None, file: bytes | None = None
    ) -> int:
        if self.blocked:
            raise RuntimeError(f"{self.name} has blocked the bot")
        self.started = True
        now = self.network.clock.now()
        shown = Shown(
            self.next_id(), True, text, "", now, kind, file=file, reply_to=reply_to, content=content
        )
        self.screen.append(shown)
        self.note(shown, kind)
        self._offer("message", bodies.message(self, shown))
        return shown.message_id

    def _membership(self, before: str, after: str) -> None:
        def member(status: str) -> Body:
            until = {"until_date": 0} if status == "kicked" else {}
            return {"user": self.network.me(), "status": status} | until

        kind = "blocked" if after == "kicked" else "unblocked"
        self.network.note(self.chat_id, 0, "person", kind, "")
        body = {
            "chat": bodies.chat(self),
            "from": bodies.person(self),
            "date": bodies.seconds(self.network.clock.now()),
            "old_chat_member": member(before),
            "new_chat_member": member(after),
        }
        self._offer("my_chat_member", body)

    def _offer(self, kind: str, body: Body) -> None:
        self.network.updates.offer(kind, body, self.chat_id)


def _typed(text: str) -> str:
    if not text.strip() or len(text) > TEXT_LIMIT:
        raise ValueError("a message has 1 to 4096 characters")
    return text


def _text_content(text: str) -> Body:
    if not text.startswith("/"):
        return {"text": text}
    length = len(text.split(maxsplit=1)[0])
    return {"text": text, "entities": [{"type": "bot_command", "offset": 0, "length": length}]}
