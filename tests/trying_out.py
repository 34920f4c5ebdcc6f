"""A small story to try out: a coach, a client whom she invites, somebody whom nobody did; and a browser of sorts."""

import asyncio
import json
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from pathlib import Path
from typing import Any, Self

import httpx

from bot.assembly.story import Act, People, PersonCast, Script, Step
from bot.clock import RandomIds
from bot.tryout.door import TryDoor
from bot.tryout.feed import Feed
from bot.tryout.gate import HEADER
from bot.tryout.opening import Opening, stranger
from bot.tryout.trial import Trial

ZONE = "Europe/Lisbon"
STARTS = datetime(2026, 4, 6, 9, tzinfo=UTC)
PATIENCE_S = 60


def act(at: str, who: str, *steps: Step) -> Act:
    return Act(day=date(2026, 4, 6), at=time.fromisoformat(at), who=who, steps=steps)


PEOPLE = People(
    starts=STARTS,
    coaches=(PersonCast(key="orla", name="Orla", zone=ZONE, phone=4901),),
    clients=(
        PersonCast(key="ada", name="Ada", coach="orla", zone=ZONE, phone=5901),
        PersonCast(key="ben", name="Ben", coach="orla", zone=ZONE, phone=5902),
        stranger(ZONE).model_copy(update={"phone": 5909}),
    ),
)
SCRIPT = Script(
    acts=(
        act("10:05", "orla", Step(use_code=True)),
        act("10:10", "orla", Step(say="/invite Ada")),
        act("10:40", "orla", Step(say="/invite Ben")),
        act("10:50", "ben", Step(use_invite_of="orla"), Step(tap="Go on")),
        act("10:55", "orla", Step(say="/end Ada"), Step(tap="No such button"), Step(say="/help")),
        act("11:10", "orla", Step(say="/phrase"), Step(tap="No such button"), Step(say="/cues")),
    ),
    ends_on=date(2026, 4, 7),
)
OPENING = Opening(PEOPLE, SCRIPT, datetime(2026, 4, 6, 9, 30, tzinfo=UTC))


@dataclass
class Browser:
    """Asks as the page does."""

    client: httpx.AsyncClient

    async def get(self, path: str, **query: str) -> Any:
        answer = await self.client.get(path, params=query)
        assert answer.status_code == 200, answer.text
        return answer.json()

    async def post(self, path: str, **body: Any) -> httpx.Response:
        return await self.client.post(path, json=body)

    async def still(self) -> Any:
        """Wait, by the feed, until the clock stands still; returns the state then."""
        async for name, data in self.feed():
            if name == "state" and not data["moving"]:
                return data
        raise AssertionError("the feed ended while the clock moved")

    async def does(self, path: str, **body: Any) -> Any:
        """Post what must be taken, and wait until the clock stands still."""
        answer = await self.post(path, **body)
        assert answer.status_code == 204, answer.text
        return await self.still()

    async def messages(self, key: str) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = (await self.get(f"/people/{key}/messages"))["messages"]
        return found

    async def feed(self) -> AsyncIterator[tuple[str, Any]]:
        async with self.client.stream("GET", "/feed") as answer:
            name = ""
            async for line in answer.aiter_lines():
                kind, _, rest = line.partition(": ")
                if kind == "event":
                    name = rest
                elif kind == "data":
                    yield name, json.loads(rest)

    async def __aenter__(self) -> Self:
        return self

    async def __aexit__(self, *_: object) -> None:
        await self.client.aclose()


@asynccontextmanager
async def tried_out(
    folder: Path, opening: Opening = OPENING, scenario: Path = Path()
) -> AsyncIterator[tuple[Browser, Trial]]:
    """Serve an opening, and open it in a browser."""
    feed = Feed()
    trial = Trial(opening, feed.changed)
    async with TryDoor(trial, feed, RandomIds()) as door:
        running = asyncio.create_task(trial.run(scenario, f"sqlite:///{folder / 'try.db'}"))
        home = door.address.partition("/?")[0]
        try:
            async with Browser(
                httpx.AsyncClient(
                    base_url=home, headers={HEADER: "1", "Origin": home}, trust_env=False, timeout=PATIENCE_S
                )
            ) as browser:
                await browser.client.get(door.address)
                yield browser, trial
        finally:
            running.cancel()
            with suppress(asyncio.CancelledError):
                await running
