"""What waits to be fetched: kept until it is confirmed, for a time at most."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bot.clock import Clock
from bot.localchat.answers import Body, bad_request
from bot.localchat.faults import Faults, Kind

TAP_LASTS = timedelta(seconds=150)
MESSAGE_LASTS = timedelta(hours=24)
MOST = 100
FIRST_ID = 1000

KINDS = frozenset(
    {
        "message",
        "edited_message",
        "callback_query",
        "my_chat_member",
        "chat_member",
        "message_reaction",
        "message_reaction_count",
        "channel_post",
        "edited_channel_post",
        "inline_query",
        "chosen_inline_result",
        "shipping_query",
        "pre_checkout_query",
        "poll",
        "poll_answer",
        "chat_join_request",
    }
)
UNASKED = frozenset({"chat_member", "message_reaction", "message_reaction_count"})
"""Kinds that a bot gets only when it names them."""

NONSENSE: Body = {"message": {"message_id": "not a number", "chat": None}}


@dataclass
class Update:
    """An update that waits to be fetched.

    Attributes:
        update_id: Rises by one.
        body: As the service writes it in JSON.
        expires_at: Instant from which it is lost.
        extra: True for one that comes once more: what was confirmed before does not count for it.
    """

    update_id: int
    body: Body
    expires_at: datetime
    extra: bool = False


@dataclass
class Updates:
    """The queue of a bot.

    Attributes:
        on_offer: Called when one is queued.
        on_confirm: Called when some are confirmed.
    """

    clock: Clock
    faults: Faults
    on_offer: Callable[[], None] = lambda: None
    on_confirm: Callable[[], None] = lambda: None
    _queue: list[Update] = field(default_factory=list)
    _newest: Update | None = None
    _next_id: int = FIRST_ID
    _allowed: frozenset[str] = KINDS - UNASKED

    def allow(self, kinds: list[object] | None) -> None:
        """Remember which kinds the bot wants from now on; None leaves it, an empty list is the usual ones.

        Raises:
            Refused: A kind that there is not; the service passes over it.
        """
        if kinds is None:
            return
        strange = [kind for kind in kinds if kind not in KINDS]
        if strange:
            raise bad_request(f"unknown kinds of updates {strange}")
        self._allowed = frozenset(map(str, kinds)) or KINDS - UNASKED

    @property
    def allowed(self) -> list[str]:
        """Kinds that the bot wants."""
        return sorted(self._allowed)

    def offer(self, kind: str, body: Body, chat_id: int) -> None:
        """Offer an update, with what is planned to go wrong with it; kinds that are not wanted are lost."""
        if kind not in self._allowed:
            return
        fault = self.faults.next_of_update(chat_id)
        planned = None if fault is None else fault.kind
        if planned is Kind.MALFORMED:
            self._put(NONSENSE, MESSAGE_LASTS)
        self._put({kind: body}, TAP_LASTS if kind == "callback_query" else MESSAGE_LASTS)
        if planned in (Kind.AGAIN, Kind.AGAIN_NEW_ID):
            self._repeat(new_id=planned is Kind.AGAIN_NEW_ID)
        if planned is Kind.SWAPPED:
            self._queue[-2:] = self._queue[:-3:-1]
        self.on_offer()

    def offer_raw(self, body: Body) -> None:
        """Offer an update as it stands, odd or not."""
        self._put(body, MESSAGE_LASTS)
        self.on_offer()

    def offer_again(self, *, new_id: bool) -> None:
        """Offer the newest update once more, confirmed or not.

        Raises:
            LookupError: There was none yet.
        """
        self._repeat(new_id=new_id)
        self.on_offer()

    def confirm(self, offset: int) -> None:
        """Forget updates before an offset: the bot has them. A negative one keeps only the last so many."""
        if offset < 0:
            self._queue = self._alive()[offset:]
        else:
            self._queue = [each for each in self._queue if each.update_id >= offset or each.extra]
        self.on_confirm()

    def clear(self) -> None:
        """Forget whatever waits."""
        self._queue.clear()
        self.on_confirm()

    def waiting(self, most: int = MOST) -> list[Body]:
        """Return the earliest updates that are not confirmed."""
        given = self._alive()[:most]
        for each in given:
            each.extra = False
        return [each.body for each in given]

    def __len__(self) -> int:
        return len(self._alive())

    def _alive(self) -> list[Update]:
        now = self.clock.now()
        self._queue = [each for each in self._queue if each.expires_at > now]
        return self._queue

    def _put(self, body: Body, lasts: timedelta) -> None:
        update_id = self._new_id()
        self._newest = Update(update_id, {"update_id": update_id} | body, self.clock.now() + lasts)
        self._queue.append(self._newest)

    def _repeat(self, *, new_id: bool) -> None:
        if self._newest is None:
            raise LookupError("no update was offered yet")
        update_id = self._new_id() if new_id else self._newest.update_id
        body = self._newest.body | {"update_id": update_id}
        self._queue.append(Update(update_id, body, self._newest.expires_at, extra=True))

    def _new_id(self) -> int:
        self._next_id += 1
        return self._next_id - 1
