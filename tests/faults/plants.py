"""Faults of the program's own, planted in a life, so that each invariant is seen to fail: `--plant NAME`."""

import asyncio
import os
import threading
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from typing import Any

from bot.messages import Lane, Message, Send
from bot.outbound import sender
from bot.outbound.telegram import TelegramTransport
from bot.schedule.tick import Tick
from bot.store import outbox as queue
from bot.store.inbox import Inbox
from bot.store.outbox_turns import FREE, turns
from bot.store.tables import outbox

HELP = "In a session"
NIGHT = 22
"""From this hour in UTC on. [h]"""


async def _while(seconds: float) -> None:
    with suppress(TimeoutError):
        await asyncio.wait_for(asyncio.Event().wait(), seconds)


def lost() -> None:
    """What says "gym?" is never kept."""
    right = Inbox.add
    Inbox.add = lambda self, rows: right(self, [each for each in rows if "gym?" not in (each.payload or "")])


def _put(changed: Callable[[Any, Any, Send, Any], Any]) -> None:
    right = queue.Outbox.put
    queue.Outbox.put = lambda self, coach_id, effect, now: changed(
        lambda sent: right(self, coach_id, sent, now), coach_id, effect, now
    )


def twice() -> None:
    """Each call for help is answered twice."""

    def put(right: Any, _: Any, effect: Send, __: Any) -> Any:
        if effect.key.startswith("help:"):
            right(replace(effect, key=f"{effect.key}:again"))
        return right(effect)

    _put(put)


def no_thursday() -> None:
    """No session of a Thursday goes out."""
    right = queue.Outbox.add

    def add(self: Any, coach_id: Any, chat_id: Any, key: Any, now: Any, **facts: Any) -> Any:
        if "Thu 9 April" in str(facts.get("body") or ""):
            facts["not_after"] = now
        return right(self, coach_id, chat_id, key, now, **facts)

    queue.Outbox.add = add


def _deliver(changed: Callable[[Any, Any], Any]) -> None:
    right = TelegramTransport.deliver

    async def deliver(self: Any, row: Any) -> Any:
        return await changed(lambda: right(self, row), row)

    TelegramTransport.deliver = deliver


def sent_twice() -> None:
    """Help goes out twice, with nobody killed."""

    async def deliver(right: Any, row: Any) -> Any:
        if row.body is not None and HELP in row.body.html:
            await right()
        return await right()

    _deliver(deliver)


def never_settled() -> None:
    """Whatever goes out is written down seconds later, in many lanes."""
    sender.WIDTHS[Lane.TALK] = 20

    async def deliver(right: Any, _: Any) -> Any:
        outcome = await right()
        await _while(2.5)
        return outcome

    _deliver(deliver)


def safety_last() -> None:
    """What is urgent waits six seconds."""

    async def deliver(right: Any, row: Any) -> Any:
        if row.lane is Lane.SAFETY:
            await _while(6)
        return await right()

    _deliver(deliver)


def newest_first() -> None:
    """In a chat the newest goes first."""
    queue.NEXT = turns(FREE, order=(outbox.c.id.desc(),))
    queue.in_turn = lambda row: -row.id


def at_night() -> None:
    """Everybody is wished a good night, late."""
    right = Tick.run

    async def run(self: Any) -> None:
        await right(self)
        now = self._runner.clock.now()
        if now.hour >= NIGHT:
            with self._units.open(None) as house:
                for chat_id in (101, 102, 103, 901, 902, 903):
                    house.outbox.put(None, Send(chat_id, Message("Good night!"), key=f"night:{chat_id}"), now)
            self._runner.outbox_wake.set()

    Tick.run = run


def dies() -> None:
    """It ends by itself."""
    threading.Timer(1.0, os._exit, (7,)).start()


PLANTS: dict[str, Callable[[], None]] = {
    each.__name__: each
    for each in (
        lost,
        twice,
        no_thursday,
        sent_twice,
        never_settled,
        safety_last,
        newest_first,
        at_night,
        dies,
    )
}
