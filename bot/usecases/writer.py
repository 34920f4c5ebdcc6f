"""The threads that hold the store's transactions: one on SQLite, several on PostgreSQL."""

import asyncio
import itertools
import queue
import threading
from collections.abc import Callable
from enum import IntEnum
from typing import Any, TypeVar

T = TypeVar("T")


class Priority(IntEnum):
    """Who goes first when several wait."""

    SAFETY = 0
    REPLY = 1
    DELIVERY = REPLY
    """In turn with replies: where more comes in than can be worked on, what is ready, safety too, must still go out."""
    DUE = 2


Job = tuple[int, int, Callable[[], Any] | None, "asyncio.Future[Any] | None"]


class Writer:
    """Runs store functions off the event loop, most pressing first, first come first served among equals."""

    def __init__(self, threads: int = 1) -> None:
        self._jobs: queue.PriorityQueue[Job] = queue.PriorityQueue()
        self._order = itertools.count()
        self._loop = asyncio.get_running_loop()
        self._threads = [
            threading.Thread(target=self._work, name=f"writer-{number}", daemon=True)
            for number in range(threads)
        ]
        for thread in self._threads:
            thread.start()

    async def __call__(self, work: Callable[[], T], priority: int = Priority.REPLY) -> T:
        """Run `work` in a writer thread and return what it returns; its exceptions come back too."""
        answer: asyncio.Future[T] = self._loop.create_future()
        self._jobs.put((priority, next(self._order), work, answer))
        return await answer

    def close(self) -> None:
        """Let what is queued end, then end the threads."""
        for _ in self._threads:
            self._jobs.put((99, next(self._order), None, None))
        for thread in self._threads:
            thread.join()

    def _work(self) -> None:
        while True:
            _, _, work, answer = self._jobs.get()
            if work is None or answer is None:
                return
            try:
                result, error = work(), None
            except BaseException as caught:  # noqa: BLE001  (handed to whoever asked)
                result, error = None, caught
            self._loop.call_soon_threadsafe(_settle, answer, result, error)


def _settle(answer: "asyncio.Future[Any]", result: Any, error: BaseException | None) -> None:
    if answer.cancelled():
        return
    if error is None:
        answer.set_result(result)
    else:
        answer.set_exception(error)
