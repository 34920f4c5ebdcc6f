"""A stage for a story: the chat network, the program, and a clock that is moved."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from bot.assembly.house import House, Plan
from bot.assembly.story import People, Stage
from bot.clock import CountedIds, StoryClock
from bot.localchat.network import Network
from bot.localchat.server import Server
from bot.store.engine import make_engine, throw_away
from bot.store.migrate import upgrade

TOKEN = "4100:story"  # noqa: S105  (opens nothing: the network is on this machine and ends with the story)


def _make(database_url: str, *, kept: bool) -> None:
    """Make the schema; beside the loop, which may have somebody to answer."""
    engine = make_engine(database_url)
    if not kept:
        throw_away(engine)
    try:
        upgrade(engine)
    finally:
        engine.dispose()


@asynccontextmanager
async def staged(
    folder: Path, people: People, database_url: str, *, kept: bool = True, token: str = TOKEN
) -> AsyncIterator[Stage]:
    """Build a stage and take it down again.

    Args:
        folder: Of the scenario's files.
        people: The cast.
        database_url: An empty database.
        kept: False where a power cut may spoil it; it need not wait for the disk then.
        token: What opens the chat network; a secret one where others might find it.
    """
    await asyncio.to_thread(_make, database_url, kept=kept)
    clock, ids = StoryClock(people.starts), CountedIds()
    network = Network(clock, token)
    async with Server(network) as server:
        house = House(
            Plan(
                token=token,
                database_url=database_url,
                api_url=server.url,
                per_second=25,
                clock=clock,
                ids=ids,
            )
        )
        if not kept:
            throw_away(house.engine)
        await house.start()
        network.on_quiet = house.activity.changed
        stage = Stage(house, network, clock, ids, people, folder)
        stage.add_coaches()
        try:
            yield stage
        finally:
            await house.stop()
