"""Updates are brought by a platform that comes again until it is told 200, and then once too often.

It brings what is said in one chat in order, and other chats beside it. The store takes nothing now and then.
"""

import asyncio
import functools
from typing import Any

import httpx
from faults.crew import ADA, ALL_LOGGED, GROUPS, Street, both_sides_once, go_on
from sqlalchemy import select

from bot.assembly.house import House
from bot.inbound.webhook import Hook, Webhook
from bot.store.tables import inbox

HOOK = Hook("https://quay.example/in", "low-water-at-the-slipway")
HEADERS = {"X-Telegram-Bot-Api-Secret-Token": HOOK.secret}


async def brought(client: httpx.AsyncClient, bodies: list[Any]) -> list[int]:
    """What is answered as updates of one chat are brought, the next after the one before is confirmed."""
    statuses = []
    for body in (each for once in bodies for each in (once, once)):
        is_kept = False
        while not is_kept:
            statuses.append((await client.post("/in", json=body)).status_code)
            is_kept = statuses[-1] == httpx.codes.OK
    return statuses


async def bring(place: Street, house: House) -> list[int]:
    waiting = place.network.updates.waiting()
    chats: dict[int, list[Any]] = {}
    for body in waiting:
        chats.setdefault(body["message"]["chat"]["id"], []).append(body)
    root = f"http://127.0.0.1:{house.way_in.port}"
    async with httpx.AsyncClient(trust_env=False, headers=HEADERS, base_url=root) as client:
        answers = await asyncio.gather(*(brought(client, each) for each in chats.values()))
    place.network.updates.confirm(waiting[-1]["update_id"] + 1)
    return [status for each in answers for status in each]


def failing_each_third(house: House) -> None:
    write, calls = house.way_in._write, [0]

    async def stumbling(work: Any, priority: Any) -> Any:
        calls[0] += 1
        if calls[0] % 3 == 0:
            raise RuntimeError("away")
        return await write(work, priority)

    house.way_in._write = stumbling


async def test_what_is_brought_is_answered_once_and_in_order(place: Street) -> None:
    place.way_in = functools.partial(Webhook, HOOK)
    house = place.house()
    place.network.on_quiet = house.activity.changed
    house.way_in.fetched_before(place.clock.now())  # or cards would be posted anew
    house.way_in.open()
    failing_each_third(house)
    await house.start()
    statuses = []
    for group in GROUPS:
        for user_id, text in group:
            place.phone(user_id).type(text)
        statuses += await bring(place, house)
        await go_on(place, house)
    await house.stop()

    assert (statuses.count(200), statuses.count(503)) == (12, 5)
    assert both_sides_once(place.logged()) == ALL_LOGGED
    assert place.rows(select(inbox.c.state, inbox.c.attempts)) == [("done", 0)] * 6
    assert sum(text.startswith("In a session") for text in place.texts(ADA)) == 1
    assert place.network.webhook == HOOK.url
