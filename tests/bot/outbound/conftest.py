from collections.abc import AsyncIterator

import pytest
from mailroom import NOW, Post, Rig, populate
from sqlalchemy import Engine

from bot.clock import StoryClock


@pytest.fixture
async def rig(engine: Engine) -> AsyncIterator[Rig]:
    populate(engine)
    clock = StoryClock(NOW)
    rig = Rig(engine, clock, Post(clock))
    yield rig
    await rig.stop()
