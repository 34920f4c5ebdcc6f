"""Another program fetches with the same token: a container that somebody forgot.

1. Each of the two is sent away in turn. What the other one leaves unconfirmed is answered here, once.
2. The log names it. When it stays, this program ends with that reason; what came meanwhile waits for the next start.
"""

import asyncio
import logging
from typing import Any

import httpx
import pytest
from faults.crew import (
    ADA,
    ADAS,
    ALL_LOGGED,
    BEN,
    MARIT,
    ORLA,
    TOKEN,
    TYPED,
    both_sides_once,
    go_on,
    idle,
    open_house,
)
from sqlalchemy import select

from bot.assembly.watch import FetchingDied, Watch, watched
from bot.inbound import poll
from bot.localchat.faults import Fault, Kind
from bot.store.heartbeat import Heartbeat
from bot.store.tables import inbox

HELP = "In a session\n"


@pytest.fixture(autouse=True)
def soon(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is tried again is tried soon."""
    monkeypatch.setattr(poll, "FIRST_RETRY_S", 0.01)
    monkeypatch.setattr(poll, "SLOWEST_RETRY_S", 0.02)


class Another:
    """Another program. It fetches again whenever it is sent away, and confirms nothing."""

    def __init__(self, url: str, fetches: int) -> None:
        self.url, self.left = f"{url}/bot{TOKEN}/getUpdates", fetches
        self.statuses: list[int] = []
        self.sent_away = asyncio.Event()

    async def run(self) -> None:
        async with httpx.AsyncClient(timeout=30) as client:
            while self.left:
                self.left -= 1
                answer = await client.post(self.url, json={"timeout": 50})
                self.statuses.append(answer.status_code)
                if answer.status_code == httpx.codes.CONFLICT:
                    self.sent_away.set()


@pytest.mark.parametrize("fetches", [1, 4, 9])
async def test_while_two_programs_fetch_nothing_is_lost_or_answered_twice(place, caplog, fetches):
    async with open_house(place) as house:
        await idle(place, house)
        other = Another(place.api_url, fetches)
        running = asyncio.create_task(other.run())
        await other.sent_away.wait()
        for text in TYPED[:3]:
            place.phone(ADA).type(text)
            await go_on(place, house)
        place.phone(ADA).type("/help")
        await go_on(place, house)
        await running
        await go_on(place, house)

    assert len(other.statuses) == fetches
    assert both_sides_once(place.logged()) == [each for each in ALL_LOGGED if each[0] == ADAS]
    assert place.rows(select(inbox.c.state, inbox.c.attempts)) == [("done", 0)] * 4
    assert sum(text.startswith(HELP) for text in place.texts(ADA)) == 1
    named = [each for each in caplog.records if each.message == "another_program_fetches"]
    assert len(named) >= 1
    assert {each.levelno for each in named} == {logging.WARNING}


async def test_another_program_that_stays_ends_this_one_with_its_reason_and_nothing_is_lost(place):
    place.network.faults.plan(Fault(Kind.CONFLICT, method="getUpdates", times=100_000))
    seconds = iter(range(0, 100_000, 15))
    async with open_house(place) as house:
        fetch, asked = house.way_in._fetch, [0]

        async def counted(offset: Any) -> Any:
            asked[0] += 1
            return await fetch(offset)

        house.way_in._fetch = counted  # type: ignore[method-assign]

        async def look_again(_: float) -> None:
            """Fifteen seconds go by with one more fetch."""
            before = asked[0]
            while asked[0] == before:
                await house.write(lambda: None)

        for user_id in (ADA, BEN):
            place.phone(user_id).type(TYPED[0])
        watch = Watch(house, Heartbeat(place.url), 120, time=lambda: float(next(seconds)), sleep=look_again)
        with pytest.raises(FetchingDied) as ended:
            await watched(house, Heartbeat(place.url), watch)

    assert "Another program fetches with the same token: stop it" in str(ended.value)
    told = [text.splitlines()[0] for text in (*place.texts(MARIT), *place.texts(ORLA))]
    assert told == ["Plimsoll stops: it gets no messages any more."] * 2
    assert place.network.unfetched == 2
    place.network.faults.planned.clear()
    async with open_house(place) as house:
        await go_on(place, house)
    assert len(place.logged()) == 8
    assert place.rows(select(inbox.c.state)) == [("done",)] * 2
