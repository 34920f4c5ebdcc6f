"""A small, strict stand-in for the chat service: a state machine on a clock, without sockets.

It refuses what the real service refuses (and parameters that it does not know, which the real one ignores), so that
what passes here passes there. Message ids count for each chat, so that the order of chats never shows.
"""

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from bot.clock import Clock
from bot.localchat.answers import Answer, Pending, Refused, UploadedFile
from bot.localchat.faults import Faults
from bot.localchat.methods import METHODS
from bot.localchat.phone import Phone
from bot.localchat.records import Recorded, as_jsonl

TAP_LASTS = timedelta(seconds=150)
MESSAGE_LASTS = timedelta(hours=24)


@dataclass
class Update:
    """An update that waits to be fetched."""

    update_id: int
    body: dict[str, Any]
    expires_at: datetime


@dataclass
class Network:
    """The chat service: people's phones on one side, the bot's calls on the other."""

    clock: Clock
    token: str
    bot_name: str = "plimsoll_story_bot"
    faults: Faults = field(default_factory=Faults)
    record: list[Recorded] = field(default_factory=list)
    on_update: Callable[[], None] = lambda: None
    on_quiet: Callable[[], None] = lambda: None

    def __post_init__(self) -> None:
        self._phones: dict[int, Phone] = {}
        self._updates: list[Update] = []
        self._next_update = 1000
        self._taps: dict[str, datetime] = {}
        self._files: dict[str, UploadedFile] = {}
        self._order: dict[int, int] = {}
        self.commands: dict[str, list[dict[str, Any]]] = {}

    # --- people -----------------------------------------------------------------------------------------------

    def phone(self, user_id: int, name: str, language: str = "en") -> Phone:
        """Return somebody's phone; the same one every time."""
        if user_id not in self._phones:
            self._phones[user_id] = Phone(self, user_id, name, language)
        return self._phones[user_id]

    @property
    def unfetched(self) -> int:
        """How many updates were offered and are not confirmed yet."""
        self._expire()
        return len(self._updates)

    def offer(self, kind: str, body: dict[str, Any], lasts: timedelta = MESSAGE_LASTS) -> int:
        """Offer an update to the bot."""
        update_id, self._next_update = self._next_update, self._next_update + 1
        whole = {"update_id": update_id, kind: body}
        self._updates.append(Update(update_id, whole, self.clock.now() + lasts))
        self.on_update()
        return update_id

    def offer_again(self, *, new_id: bool) -> None:
        """Offer the newest update once more, as the service does after a lost answer."""
        newest = self._updates[-1]
        update_id = newest.update_id
        if new_id:
            update_id, self._next_update = self._next_update, self._next_update + 1
        self._updates.append(Update(update_id, newest.body | {"update_id": update_id}, newest.expires_at))
        self.on_update()

    def offer_raw(self, body: dict[str, Any]) -> None:
        """Offer an update as it stands, odd or not."""
        update_id, self._next_update = self._next_update, self._next_update + 1
        self._updates.append(
            Update(update_id, {"update_id": update_id} | body, self.clock.now() + MESSAGE_LASTS)
        )
        self.on_update()

    def new_tap(self) -> str:
        """Return the id of a tap, which can be answered for a while."""
        tap = f"tap{len(self._taps) + 1}"
        self._taps[tap] = self.clock.now() + TAP_LASTS
        return tap

    def keep_file(self, name: str, content: bytes) -> str:
        """Keep a file and return its id."""
        file_id = f"file-{hashlib.sha256(content + name.encode()).hexdigest()[:24]}"
        self._files[file_id] = UploadedFile(name, content)
        return file_id

    def file(self, file_id: str) -> UploadedFile | None:
        """Return a file."""
        return self._files.get(file_id)

    def note(
        self,
        chat_id: int,
        message_id: int,
        sender: str,
        kind: str,
        text: str,
        *,
        revision: int = 0,
        buttons: tuple[tuple[str, ...], ...] = (),
        silent: bool = False,
    ) -> None:
        """Record something that was said."""
        self._order[chat_id] = self._order.get(chat_id, 0) + 1
        self.record.append(
            Recorded(
                self.clock.now(),
                chat_id,
                message_id,
                revision,
                sender,
                kind,
                text,
                buttons,
                silent,
                self._order[chat_id],
            )
        )

    def jsonl(self) -> str:
        """Return everything that was said."""
        return as_jsonl(self.record)

    # --- the bot ----------------------------------------------------------------------------------------------

    def call(
        self, method: str, params: Mapping[str, Any], files: Mapping[str, UploadedFile] | None = None
    ) -> Answer | Pending:
        """Answer one call of the bot."""
        handler = METHODS.get(method)
        if handler is None:
            return _refusal(Refused(404, "Not Found"))
        allowed, act = handler
        try:
            strange = set(params) - allowed
            if strange:
                raise Refused(400, f"Bad Request: unknown parameters {sorted(strange)}")
            result = act(self, dict(params), files or {})
        except Refused as refused:
            return _refusal(refused)
        return result if isinstance(result, Pending) else Answer(200, {"ok": True, "result": result})

    def confirm(self, offset: int) -> None:
        """Forget updates before an offset: the bot has them."""
        self._updates = [each for each in self._updates if each.update_id >= offset]
        self.on_quiet()

    def waiting(self, most: int) -> list[dict[str, Any]]:
        """Return the earliest updates that are not confirmed."""
        self._expire()
        return [each.body for each in self._updates[:most]]

    def tap_is_good(self, tap: str) -> bool:
        """Return whether a tap can still be answered."""
        until = self._taps.get(tap)
        return until is not None and until >= self.clock.now()

    def chat(self, chat_id: int) -> Phone | None:
        """Return the phone of a private chat."""
        return self._phones.get(chat_id)

    def _expire(self) -> None:
        now = self.clock.now()
        self._updates = [each for each in self._updates if each.expires_at > now]

    def me(self) -> dict[str, Any]:
        """Return the bot as a user."""
        return {
            "id": int(self.token.split(":")[0]),
            "is_bot": True,
            "first_name": "Plimsoll",
            "username": self.bot_name,
            "can_join_groups": False,
            "can_read_all_group_messages": False,
            "supports_inline_queries": False,
        }


def _refusal(refused: Refused) -> Answer:
    body: dict[str, Any] = {"ok": False, "error_code": refused.status, "description": refused.words}
    if refused.parameters:
        body["parameters"] = dict(refused.parameters)
    return Answer(refused.status, body)
