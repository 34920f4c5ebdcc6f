"""A small, strict stand-in for the chat service: a state machine on a clock, without sockets.

It refuses what the real service refuses, and more where it is not certain what that takes: what passes here passes
there. Message ids count for each chat and file ids come from content, so that the order of chats never shows.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from bot.clock import Clock
from bot.localchat.answers import Answer, Body, Call, Pending, Refused, UploadedFile, refusal
from bot.localchat.faults import Faults
from bot.localchat.methods import METHODS
from bot.localchat.parameters import read
from bot.localchat.phone import Phone
from bot.localchat.records import Recorded, as_jsonl
from bot.localchat.taps import Taps
from bot.localchat.updates import Updates
from bot.localchat.uploads import Uploads


@dataclass
class Network:
    """The chat service: people's phones on one side, the bot's calls on the other.

    Attributes:
        clock: Its time.
        token: The bot's.
        bot_name: The bot's user name.
        faults: What is to go wrong.
        record: Every message, edit and tap, both ways.
        on_update: Called when an update is offered; for whoever serves the network.
        on_quiet: Called when updates are confirmed; for whoever waits until all is quiet.
        on_shown: Called when something on a screen may have changed; for whoever shows one.
        commands: Commands of the bot by scope and language.
        webhook: Where the bot wants its updates sent; "" when it fetches them.
    """

    clock: Clock
    token: str
    bot_name: str = "plimsoll_story_bot"
    faults: Faults = field(default_factory=Faults)
    record: list[Recorded] = field(default_factory=list)
    on_update: Callable[[], None] = lambda: None
    on_quiet: Callable[[], None] = lambda: None
    on_shown: Callable[[], None] = lambda: None
    commands: dict[tuple[str, str], list[Body]] = field(default_factory=dict)
    webhook: str = ""

    def __post_init__(self) -> None:
        self.uploads = Uploads(self.clock)
        self.taps = Taps(self.clock)
        self.updates = Updates(self.clock, self.faults, self._offered, self._confirmed)
        self._phones: dict[int, Phone] = {}
        self._order: dict[int, int] = {}

    # --- people -----------------------------------------------------------------------------------------------

    def phone(self, user_id: int, name: str, language: str = "en") -> Phone:
        """Return somebody's phone; the same one every time."""
        if user_id not in self._phones:
            self._phones[user_id] = Phone(self, user_id, name, language)
        return self._phones[user_id]

    @property
    def unfetched(self) -> int:
        """How many updates were offered and are not confirmed yet."""
        return len(self.updates)

    def offer_again(self, *, new_id: bool) -> None:
        """Offer the newest update once more, as the service does after a lost answer."""
        self.updates.offer_again(new_id=new_id)

    def offer_raw(self, body: Body) -> None:
        """Offer an update as it stands, odd or not."""
        self.updates.offer_raw(body)

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
        self._order[chat_id] = order = self._order.get(chat_id, 0) + 1
        now = self.clock.now()
        self.record.append(
            Recorded(now, chat_id, message_id, revision, sender, kind, text, buttons, silent, order)
        )
        self.on_shown()

    def jsonl(self) -> str:
        """Return everything that was said, as JSON lines."""
        return as_jsonl(self.record)

    # --- the bot ----------------------------------------------------------------------------------------------

    def call(
        self, method: str, params: Mapping[str, Any], files: Mapping[str, UploadedFile] | None = None
    ) -> Answer | Pending:
        """Answer one call of the bot.

        Args:
            method: Name as published.
            params: Values as JSON has them, or as text from a form.
            files: Uploaded files by the name of their part.
        """
        if method not in METHODS:
            return refusal(404, "Not Found: method not found")
        try:
            call = Call(self, read(params, METHODS[method].types), files or {})
            result = METHODS[method].act(call)
        except Refused as refused:
            return refusal(refused.status, refused.words)
        return result if isinstance(result, Pending) else Answer(200, {"ok": True, "result": result})

    def chat(self, chat_id: object) -> Phone | None:
        """Return the phone of a private chat."""
        return self._phones.get(chat_id) if isinstance(chat_id, int) else None

    def me(self) -> Body:
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

    def _offered(self) -> None:
        self.on_update()

    def _confirmed(self) -> None:
        self.on_quiet()
