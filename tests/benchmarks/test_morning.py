"""A morning of cards due at once among 10,000 clients, at the platform's cap, with a stop sign in the middle of it."""

import os
from collections import deque
from pathlib import Path
from time import perf_counter
from typing import Any

import pytest
from benchmarks.at_work import SENDING, TOKEN, Noted, at_work, network
from benchmarks.full_house import FIRST_USER, full_house
from benchmarks.going_on import GoingOn
from faults.crew import DUE, MARIT, TYPED

from bot.localchat.answers import refusal

pytestmark = pytest.mark.benchmark

CLIENTS = 10_000
CARDS = int(os.environ.get("TEST_MORNING_CARDS", "300"))
"""Due at once; 1800 for the whole morning, which takes minutes where a core is shared."""
CAP = 30
"""Messages a second, as the platform has it."""
TARGET = 0.95
"""Share of the cap."""
ALERT_S, MEMORY_MB = 1.0, 200.0
STOP = "my chest feels tight"
USERS = range(FIRST_USER, FIRST_USER + CARDS)


class Capped(Noted):
    """A network that refuses what is over the cap in any second."""

    def __post_init__(self) -> None:
        super().__post_init__()
        self.refused = 0
        self._taken: deque[float] = deque()

    def call(self, method: str, *of: Any, **facts: Any) -> Any:
        if method in SENDING:
            now = perf_counter()
            while self._taken and now - self._taken[0] >= 1:
                self._taken.popleft()
            if len(self._taken) >= CAP:
                self.refused += 1
                return refusal(429, "Too Many Requests: retry after 1", retry_after=1)
            self._taken.append(now)
        return super().call(method, *of, **facts)


async def test_a_morning_at_the_cap(sqlite_files, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    url = sqlite_files.copy(tmp_path / "morning.db")
    full_house(tmp_path / "morning.db", CLIENTS, CARDS).dispose()
    clock = GoingOn(DUE)
    served = (url, str(float(CAP)), "2", DUE.isoformat(), clock.since.isoformat())
    async with network(clock, USERS, Capped) as (chat, api):
        assert isinstance(chat, Capped)
        begun = perf_counter()
        async with at_work("served", TOKEN, api, *served, log=tmp_path / "served.log") as ours:
            await chat.until(lambda: chat.calls["getUpdates"] > 0)
            ready, at_rest = perf_counter() - begun, ours.memory()
            await chat.until(lambda: len(chat.sent_at) >= CARDS // 2)
            urgent, stop_at = USERS[0], perf_counter()
            chat.typed(urgent, STOP)
            heard = len(chat.phone(MARIT, "").screen)
            await chat.until(lambda: not chat.waiting)
            safety = perf_counter() - stop_at
            await chat.until(lambda: len(chat.phone(MARIT, "").screen) > heard)
            alert = perf_counter() - stop_at
            told = chat.phone(MARIT, "").last.text
            await chat.until(lambda: len(chat.sent_at) >= CARDS + 4)
            sent, most = list(chat.sent_at), chat.most
            for user_id in USERS[1:101]:
                chat.typed(user_id, TYPED[0])
            await chat.until(lambda: not chat.waiting)
            spent, top = ours.cpu_s, ours.memory("VmHWM")

    share = (len(sent) - 1) / (sent[-1] - sent[0]) / CAP
    lines = [
        f"{CLIENTS} clients, {CARDS} cards due at once, at most {CAP} a second:",
        (
            f"  out in {sent[-1] - sent[0]:.1f} s, {share:.1%} of the cap"
            f" (target {TARGET:.0%}: {'held' if share >= TARGET else 'missed'}); most in a second {most},"
            f" refused {chat.refused}"
        ),
        (
            f"  a stop sign half way: its text after {safety * 1000:.0f} ms, the coach's alert after"
            f" {alert * 1000:.0f} ms (target {ALERT_S:.0f} s: {'held' if alert < ALERT_S else 'missed'})"
        ),
        (
            f"  ready after {ready:.1f} s with {at_rest:.0f} MB; most held, with 100 replies after it, {top:.0f} MB"
            f" (target {MEMORY_MB:.0f} MB: {'held' if top < MEMORY_MB else 'missed'}); processor {spent:.1f} s"
        ),
    ]
    with capsys.disabled():
        print("", *lines, sep="\n")  # noqa: T201
    assert "Client 0" in told
    assert safety < ALERT_S
    assert alert < ALERT_S
    assert top < MEMORY_MB
    assert chat.refused == 0
    assert len(sent) >= CARDS + 2
