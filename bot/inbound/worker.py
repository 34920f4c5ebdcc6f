"""Takes rows of the inbox one at a time a chat, other chats beside it, and hands them to the handlers."""

import asyncio
import functools
import json
import logging
from datetime import datetime
from typing import Any

from telegram import Update
from telegram.ext import Application

from bot.clock import Wake
from bot.store.inbox import InboxRow
from bot.usecases.runner import Runner
from bot.usecases.writer import Priority

log = logging.getLogger(__name__)

AT_ONCE = 16
"""Chats worked on side by side; what takes long (a download) must not hold up the others."""

BREATH_S = 1.0


class Worker:
    """The loop between the inbox and the handlers."""

    def __init__(
        self, application: "Application[Any, Any, Any, Any, Any, Any]", runner: Runner, wake: Wake
    ) -> None:
        self._application = application
        self._runner = runner
        self._wake = wake
        self._busy: dict[int, asyncio.Task[None]] = {}
        self.stumbled: set[int] = set()
        """Updates whose handler raised past the runner; they wait a moment before they are taken up again."""

    @property
    def quiet(self) -> bool:
        """True when nothing is being worked on and nobody called."""
        return not self._busy and not self._wake.pending

    async def run(self) -> None:
        """Work until cancelled."""
        self._wake.set()
        while True:
            await self._wake.wait()
            with self._runner.activity:
                self._wake.clear()
                while len(self._busy) < AT_ONCE:
                    row = await self._head()
                    if row is None:
                        break
                    key = row.chat_id if row.chat_id is not None else -row.update_id
                    task = asyncio.create_task(self._work(row))
                    self._busy[key] = task
                    task.add_done_callback(functools.partial(self._ended, key))

    def _ended(self, key: int, task: asyncio.Task[None]) -> None:
        del self._busy[key]
        if not task.cancelled() and (error := task.exception()) is not None:
            log.error("worker_stumbled", exc_info=error)
        self._wake.set()

    async def _head(self) -> InboxRow | None:
        now = self._runner.clock.now()
        busy = tuple(self._busy)

        def look() -> tuple[InboxRow | None, datetime | None]:
            with self._runner.units.read(None) as house:
                row = house.inbox.head(now, busy)
                return row, None if row else house.inbox.next_due(now)

        try:
            row, due = await self._runner.write(look, Priority.REPLY)
        except Exception:
            log.exception("inbox_unreadable")
            await asyncio.sleep(BREATH_S)
            self._wake.set()
            return None
        if due is not None:
            self._rouse_at(due)
        return row

    def _rouse_at(self, due: datetime) -> None:
        task = asyncio.create_task(self._rouse(due))
        self._rousing = task

    async def _rouse(self, due: datetime) -> None:
        await self._runner.clock.sleep_until(due)
        self._wake.set()

    async def _work(self, row: InboxRow) -> None:
        try:
            update = Update.de_json(json.loads(row.payload or "null"), self._application.bot)
        except Exception:
            log.exception("update_quarantined", extra={"update_id": row.update_id})
            await self._quarantine(row)
            return
        await self._application.process_update(update)
        if row.update_id in self.stumbled:
            self.stumbled.discard(row.update_id)
            await asyncio.sleep(BREATH_S)

    async def _quarantine(self, row: InboxRow) -> None:
        reference = self._runner.ids.word(8)

        def fail() -> None:
            with self._runner.units.open(None) as house:
                house.inbox.fail(row.update_id, reference, self._runner.clock.now())

        await self._runner.write(fail, Priority.REPLY)
