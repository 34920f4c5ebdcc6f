"""Takes rows of the inbox one at a time a chat, other chats beside it, and hands them to the handlers."""

import asyncio
import contextlib
import functools
import json
import logging
from collections.abc import Collection
from datetime import datetime
from typing import Any, Protocol

from telegram import Update
from telegram.ext import Application

from bot.clock import Going, Wake
from bot.inbound.aloud import SAY_FOR_ANOTHER_S, Aloud
from bot.messages import Arrival
from bot.store.inbox import InboxRow, chat_of
from bot.store.set_back import inbox_set_back
from bot.store.tether import Taken
from bot.usecases.runner import Runner
from bot.usecases.writer import Priority

log = logging.getLogger(__name__)

AT_ONCE = 16
"""Chats worked on side by side; what takes long (a download) must not hold up the others."""

BREATH_S = 1.0

STOP_GRACE_S = 5.0
"""How long a stop waits for what is being worked on; what is cut off is taken up again at the next start."""


class Shared(Protocol):
    """An inbox that several processes work on, each chat in one of them at a time."""

    again_s: float
    """After so long what was held elsewhere is looked at again: its process may have died. [s]"""

    async def take(self, now: datetime, busy: Collection[int], ended: Collection[int]) -> Taken:
        """Take the next row, and its chat, letting go of the chats that have ended."""
        ...


class Worker:
    """The loop between the inbox and the handlers."""

    def __init__(
        self,
        application: "Application[Any, Any, Any, Any, Any, Any]",
        runner: Runner,
        wake: Wake,
        aloud: Aloud,
        shared: Shared | None = None,
    ) -> None:
        self._application = application
        self._runner = runner
        self._wake = wake
        self._aloud = aloud
        self._shared = shared
        self._let_go: set[int] = set()
        self._again: asyncio.TimerHandle | None = None
        self._rows: dict[int, InboxRow] = {}
        self._going = Going()
        runner.on_wait = self._waits
        self._busy: dict[int, asyncio.Task[bool]] = {}
        self._more: set[int] = set()
        """Chats that have, or may have, another row than the one that is worked on."""
        self._beyond = False
        """Whether more chats had rows, at the last look, than could be worked on."""
        self._rousing: asyncio.Task[None] | None = None
        self.stumbled: dict[int, BaseException] = {}
        """What handlers raised past the runner, by update."""

    @property
    def quiet(self) -> bool:
        """True when nothing is being worked on and nobody called."""
        return not self._busy and not self._wake.pending

    async def run(self) -> None:
        """Work until cancelled; then let what is begun end."""
        self._wake.set()
        try:
            while True:
                await self._wake.wait()
                with self._runner.activity:
                    self._wake.clear()
                    await self._hand_out()
        finally:
            await self._stopped()

    async def _hand_out(self) -> None:
        while (free := AT_ONCE - len(self._busy)) > 0:
            self._more = set(self._busy)  # said before the look, since a row may end while it is made
            found = await self._heads(free + 1)
            # A chat that is shared is had one at a time.
            self._beyond = bool(found) if self._shared is not None else len(found) > free
            for row in found:
                key = chat_of(row)
                if key in self._busy:
                    self._more.add(key)
                elif len(self._busy) < AT_ONCE:
                    task = asyncio.create_task(self._work(row), name=f"inbox {row.update_id}")
                    self._busy[key] = task
                    task.add_done_callback(functools.partial(self._ended, key))
            if not self._beyond:
                return

    async def _stopped(self) -> None:
        if self._rousing is not None:
            self._rousing.cancel()
        if self._again is not None:
            self._again.cancel()
        begun = set(self._busy.values())
        if begun:
            _, late = await asyncio.wait(begun, timeout=STOP_GRACE_S)
            for task in late:
                task.cancel()
                with contextlib.suppress(asyncio.CancelledError):
                    await task

    def _ended(self, key: int, task: "asyncio.Task[bool]") -> None:
        del self._busy[key]
        if self._shared is not None:
            self._let_go.add(key)
        if not task.cancelled() and (error := task.exception()) is not None:
            log.error("worker_stumbled", exc_info=error)
        is_settled = not task.cancelled() and task.exception() is None and task.result()
        if key in self._more or self._beyond or self._shared is not None or not is_settled:
            self._wake.set()
        self._runner.activity.changed()

    async def _heads(self, most: int) -> list[InboxRow]:
        now = self._runner.clock.now()
        is_back = self._going.back_from(now) is not None
        try:
            if is_back:
                await self._runner.write(lambda: inbox_set_back(self._runner.units, now), Priority.REPLY)
            rows, due = await self._looked(now, most)
        except Exception:
            log.exception("inbox_unreadable")
            await asyncio.sleep(BREATH_S)
            self._wake.set()
            return []
        if due is not None:
            self._rouse_at(due)
        return rows

    async def _looked(self, now: datetime, most: int) -> tuple[list[InboxRow], datetime | None]:
        """Return up to so many rows, or else when the next one that waits may be taken up."""
        busy = tuple(self._busy)
        if self._shared is not None:
            ended, self._let_go = self._let_go, set()
            taken = await self._shared.take(now, busy, ended)
            if taken.left_out and taken.row is None:
                self._look_again(self._shared.again_s)
            return [] if taken.row is None else [taken.row], taken.due

        def look() -> tuple[list[InboxRow], datetime | None]:
            with self._runner.units.read(None) as house:
                rows = house.inbox.heads(now, busy, most)
                return rows, house.inbox.next_due(now) if len(rows) < most else None

        return await self._runner.write(look, Priority.REPLY)

    def _look_again(self, after_s: float) -> None:
        if self._again is not None:
            self._again.cancel()
        self._again = asyncio.get_running_loop().call_later(after_s, self._wake.set)

    def _rouse_at(self, due: datetime) -> None:
        if self._rousing is not None:
            self._rousing.cancel()
        self._rousing = asyncio.create_task(self._rouse(due))

    async def _rouse(self, due: datetime) -> None:
        await self._runner.clock.sleep_until(due)
        self._wake.set()

    def _waits(self, update_id: int) -> None:
        # A stop sign that cannot be settled now must not wait for its text.
        self._aloud.begin([self._rows[update_id]] if update_id in self._rows else [])

    async def _work(self, row: InboxRow) -> bool:
        self._rows[row.update_id] = row
        self._aloud.watch([row], SAY_FOR_ANOTHER_S)
        try:
            return await self._handled(row)
        finally:
            del self._rows[row.update_id]

    async def _handled(self, row: InboxRow) -> bool:
        """Hand a row to the handlers; False when nobody knows if it was settled, so that it is looked for again."""
        try:
            update = Update.de_json(json.loads(row.payload or "null"), self._application.bot)
        except Exception:
            log.exception("update_quarantined", extra={"update_id": row.update_id})
            await self._quarantine(row)
            return False
        await self._application.process_update(update)
        error = self.stumbled.pop(row.update_id, None)
        taken = row.update_id in self._runner.taken
        self._runner.taken.discard(row.update_id)
        if error is not None:
            await self._stumbled(row, error)
        elif not taken:
            log.error("update_quarantined", extra={"update_id": row.update_id})
            await self._quarantine(row)
        return taken and error is None

    async def _stumbled(self, row: InboxRow, error: BaseException) -> None:
        """A handler raised past the runner: a bug like any other, or the store was away while it was counted."""
        user_id = row.user_id if row.user_id is not None else 0
        chat_id = row.chat_id if row.chat_id is not None else user_id
        try:
            await self._runner.broken(Arrival(row.update_id, user_id, chat_id), "handler", error)
        except Exception:
            log.exception("worker_stumbled", extra={"update_id": row.update_id})
            await asyncio.sleep(BREATH_S)

    async def _quarantine(self, row: InboxRow) -> None:
        reference = self._runner.ids.word(8)

        def fail() -> None:
            with self._runner.units.open(None) as house:
                house.inbox.fail(row.update_id, reference, self._runner.clock.now())

        await self._runner.write(fail, Priority.REPLY)
