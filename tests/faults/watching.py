"""The chat network as somebody sees it who writes down when everything happened."""

import asyncio
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from bot.localchat.faults import Fault, Kind
from bot.localchat.network import Network

OTHERS = 99
"""How many updates the second poller asks for at most; by it its fetches are told from the program's."""
NEW = frozenset({"text", "photo", "document"})
"""Kinds of the record that are new messages."""


@dataclass(frozen=True)
class Met:
    """A fault that happened. [s] on the loop's clock."""

    at: float
    kind: Kind
    method: str | None
    chat_id: object
    waits_s: float


@dataclass(frozen=True)
class Came:
    """A new message of the bot on somebody's phone."""

    at: float
    story: Any
    chat_id: int
    text: str
    silent: bool


@dataclass(frozen=True)
class Said:
    """What somebody said, and what is to come of it.

    Attributes:
        kind: "sets", "help", "note", "pain" or "stop".
        count: How many sets it reports.
    """

    at: float
    story: Any
    chat_id: int
    message_id: int
    kind: str
    text: str
    count: int = 1


@dataclass
class Watched(Network):
    """Attributes:
    said: What people said.
    met: Faults that happened, of calls.
    kills: When the program was killed.
    lost_leads: When the process that led, of several, lost its line to the database and lived on.
    wakes: When it awoke after the machine had been suspended.
    births: When the program first fetched after a time in which no process of it lived.
    led_kills: Of the kills, those of a process that led while others lived.
    numbers: Updates by chat and message, without those that came a second time.
    """

    said: list[Said] = field(default_factory=list)
    came: list[Came] = field(default_factory=list)
    met: list[Met] = field(default_factory=list)
    kills: list[float] = field(default_factory=list)
    lost_leads: list[float] = field(default_factory=list)
    wakes: list[float] = field(default_factory=list)
    births: list[float] = field(default_factory=list)
    led_kills: list[float] = field(default_factory=list)
    handed: dict[tuple[int, int], float] = field(default_factory=dict)
    numbers: dict[tuple[int, int], int] = field(default_factory=dict)
    log: list[tuple[float, str]] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__post_init__()
        self.moved = asyncio.Event()
        self.born = asyncio.Event()
        self.all_dead = True
        self.fetch_lost = False
        self._next_fault = self.faults.next_for
        self.faults.next_for = self._fault  # type: ignore[method-assign]

    def _fault(self, method: str, chat_id: object) -> Fault | None:
        if method == "getUpdates" and not self.born.is_set():
            self.born.set()
            if self.all_dead:
                self.births.append(time.monotonic())
            self.all_dead = False
        fault = self._next_fault(method, chat_id)
        if method == "getUpdates":
            self.fetch_lost = fault is not None and fault.kind is Kind.DROP_AFTER
        if fault is not None:
            waits = {Kind.TOO_MANY: fault.retry_after + 0.5, Kind.SLOW_BEFORE: fault.seconds}.get(
                fault.kind, 0.0
            )
            self.met.append(Met(time.monotonic(), fault.kind, method, chat_id, waits))
            self.tell(f"fault: {fault.kind} on {method} {chat_id if chat_id is not None else ''}")
        return fault

    def tell(self, what: str) -> None:
        self.log.append((time.monotonic(), what))

    def say(self, user_id: int, kind: str, text: str, count: int = 1) -> None:
        """Have somebody say something, and write down what is to come of it."""
        message_id = self.phone(user_id, "").type(text)
        self.said.append(Said(time.monotonic(), self.clock.now(), user_id, message_id, kind, text, count))

    def note(self, chat_id: int, message_id: int, sender: str, kind: str, text: str, **facts: Any) -> None:  # type: ignore[override]
        super().note(chat_id, message_id, sender, kind, text, **facts)
        self.tell(f"{chat_id} {sender} {kind}: {text.partition(chr(10))[0][:60]}")
        if sender == "bot" and kind in NEW:
            silent = bool(facts.get("silent"))
            self.came.append(Came(time.monotonic(), self.clock.now(), chat_id, text, silent))
        self.moved.set()

    def call(self, method: str, params: Any, files: Any = None) -> Any:
        answer = super().call(method, params, files)
        if method == "getUpdates":
            # What was answered to a connection that is gone was handed to nobody.
            mine = str(params.get("limit")) != str(OTHERS) and not self.fetch_lost
            body = getattr(answer, "body", {})
            for update in body.get("result", ()) if mine and isinstance(body.get("result"), list) else ():
                self._handed(update)
        self.moved.set()
        return answer

    def _handed(self, update: Any) -> None:
        message = update.get("message") or {}
        if isinstance(message.get("chat"), dict):
            key = (message["chat"]["id"], message["message_id"])
            self.handed.setdefault(key, time.monotonic())
            self.numbers.setdefault(key, update["update_id"])

    async def until(self, holds: Callable[[], bool], seconds: float) -> bool:
        """Wait until something holds, looked at whenever something moves; False when it takes too long."""

        async def wait() -> None:
            while not holds():
                self.moved.clear()
                await self.moved.wait()

        try:
            await asyncio.wait_for(wait(), seconds)
        except TimeoutError:
            return False
        return True

    def texts(self, user_id: int) -> list[str]:
        """What the bot's messages on a phone say, as they stand."""
        return [each.text for each in self.phone(user_id, "").screen if not each.mine]
