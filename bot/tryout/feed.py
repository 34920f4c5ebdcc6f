"""What changes, told to every browser that listens, as server-sent events."""

import asyncio
import json
from collections.abc import AsyncIterator
from typing import Any

from bot.tryout import views
from bot.tryout.trial import Trial

MOST = 12
"""Browsers that may listen at once."""

APART_S = 0.1
"""What changes within this is told together. [s]"""

WHILE_MOVING_S = 0.2
"""How often is looked for what nobody tells of: the clock. [s]"""

ALIVE_S = 15.0
"""How often something is said when nothing changes, so that a dead connection is noticed. [s]"""

AGAIN_MS = 1000
"""When a browser that lost the feed comes back. [ms]"""

Version = tuple[int, tuple[str, ...]]
"""How often a message was edited, and which of its buttons wait for an answer."""


class Feed:
    """Tells every listener what is new to it. It holds no queue: what is new is seen when it is told."""

    def __init__(self) -> None:
        self._listeners: set[asyncio.Event] = set()
        self._ended = False

    @property
    def is_full(self) -> bool:
        """Whether nobody more can listen."""
        return len(self._listeners) >= MOST

    def changed(self) -> None:
        """Have everybody look."""
        for each in self._listeners:
            each.set()

    def end(self) -> None:
        """Send everybody away."""
        self._ended = True
        self.changed()

    async def of(self, trial: Trial) -> AsyncIterator[str]:
        """Tell one listener, as long as it listens."""
        event = asyncio.Event()
        self._listeners.add(event)
        teller = _Teller(trial)
        try:
            yield f"retry: {AGAIN_MS}\n\n"
            while not self._ended:
                event.clear()
                for said in teller.news():
                    yield said
                await asyncio.sleep(APART_S)
                await self._waited(event, WHILE_MOVING_S if trial.moving else ALIVE_S)
                if not trial.moving and not event.is_set():
                    yield ": still here\n\n"
        finally:
            self._listeners.discard(event)

    async def _waited(self, event: asyncio.Event, at_most_s: float) -> None:
        try:
            async with asyncio.timeout(at_most_s):
                await event.wait()
        except TimeoutError:
            pass


class _Teller:
    """Knows what one listener was told."""

    def __init__(self, trial: Trial) -> None:
        self._trial = trial
        self._number = 0
        self._state = ""
        self._known = {each.key: self._versions(each.key) for each in trial.people}

    def news(self) -> list[str]:
        """Return what is new since it was asked last; the state last, so that all is told when the clock stands."""
        said = []
        for key, before in self._known.items():
            now = self._known[key] = self._versions(key)
            changed = {number for number, version in now.items() if before.get(number) != version}
            gone = sorted(before.keys() - now.keys())
            if changed or gone:
                there = [each for each in views.messages(self._trial, key) if each["id"] in changed]
                said.append(self._event("messages", {"who": key, "changed": there, "gone": gone}))
        state = views.state(self._trial)
        written = json.dumps(state, sort_keys=True)
        if written != self._state:
            self._state = written
            said.append(self._event("state", state))
        return said

    def _versions(self, key: str) -> dict[int, Version]:
        phone = self._trial.phone(key)
        if phone is None:
            return {}
        spinning = phone.network.taps.spinning_by_message(phone.chat_id)
        return {each.message_id: (each.revision, spinning.get(each.message_id, ())) for each in phone.screen}

    def _event(self, name: str, data: dict[str, Any]) -> str:
        self._number += 1
        return f"id: {self._number}\nevent: {name}\ndata: {json.dumps(data, ensure_ascii=False)}\n\n"
