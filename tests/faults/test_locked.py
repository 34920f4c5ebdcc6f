"""Another program holds the lock of the database: the text of a stop sign does not wait for it."""

import asyncio
import sqlite3
from contextlib import closing
from typing import Any

import pytest
from faults.crew import ADA, ADAS, MARIT, Street, go_on, idle, open_house
from sqlalchemy import select

from bot.inbound import way_in
from bot.store.tables import client

WITHIN_S = 5
"""What is promised of the text of a stop sign; the store itself waits for the lock for three times as long."""


async def hear_from_the_bot(place: Street, user_id: int, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Wait until somebody hears something, and return what."""
    before, said, note = len(place.texts(user_id)), asyncio.Event(), place.network.note

    def noted(*of: Any, **facts: Any) -> None:
        note(*of, **facts)
        said.set()

    with monkeypatch.context() as patch:
        patch.setattr(place.network, "note", noted)
        place.phone(user_id).type("my chest feels tight")
        async with asyncio.timeout(WITHIN_S):
            while len(place.texts(user_id)) == before:
                said.clear()
                await said.wait()
    return place.texts(user_id)[before:]


async def test_a_stop_sign_gets_its_text_while_another_program_holds_the_lock(place, monkeypatch):
    monkeypatch.setattr(way_in, "SAY_WITHOUT_S", 0.05)
    path = place.url.removeprefix("sqlite:///")
    async with open_house(place) as house:
        await idle(place, house)
        with closing(sqlite3.connect(path, isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            (at_once,) = await hear_from_the_bot(place, ADA, monkeypatch)
            held = other.in_transaction
            other.execute("ROLLBACK")
        await go_on(place, house)

    assert held
    assert at_once.startswith("Stop now. This may be an emergency.")
    # What could not be done before is done once the lock is gone.
    assert place.rows(select(client.c.frozen_for).where(client.c.id == ADAS)) == [("emergency now",)]
    assert sum("stop sign" in text for text in place.texts(MARIT)) == 1
