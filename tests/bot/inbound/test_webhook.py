import asyncio
import json
import socket
import threading
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime
from types import SimpleNamespace
from typing import Any

import httpx
import pytest
from sqlalchemy import select
from telegram.error import BadRequest, InvalidToken, NetworkError, RetryAfter

from bot.clock import Activity, StoryClock, Wake
from bot.inbound import webhook as hooks
from bot.inbound import webhook_door
from bot.inbound.intake import ALLOWED_UPDATES
from bot.inbound.way_in import Trouble
from bot.inbound.webhook import Hook, Webhook
from bot.inbound.webhook_door import LARGEST, SECRET_HEADER
from bot.store.tables import inbox
from bot.store.units import Units
from bot.usecases.writer import Writer

NOW = datetime.fromisoformat("2026-04-13T17:00:00+00:00")
URL = "https://quay.example/in/here"
SECRET = "low-water-at-the-slipway"
ADA = {"id": 7, "is_bot": False, "first_name": "Ada"}
GOOD = {SECRET_HEADER: SECRET, "Content-Type": "application/json"}


def message(update_id: int, chat_id: int = 7, kind: str = "private", text: str = "8 8 8") -> dict[str, Any]:
    chat = {"id": chat_id, "type": kind}
    sender = ADA | {"id": chat_id}
    return {"update_id": update_id, "message": {"message_id": 1, "chat": chat, "from": sender, "text": text}}


def tap(update_id: int) -> dict[str, Any]:
    return {"update_id": update_id, "callback_query": {"id": f"tap{update_id}", "from": ADA, "data": "x"}}


class Ended(BaseException):
    """Nothing more is planned."""


class Platform:
    """Takes a webhook, and says of it what is planned: how many wait, where it is set, or something to raise."""

    def __init__(self) -> None:
        self.set: list[tuple[str, dict[str, Any]]] = []
        self.plan: list[Any] = []
        self.acknowledged: list[str] = []

    async def set_webhook(self, url: str, **asked: Any) -> bool:
        self._raise_planned()
        self.set.append((url, asked))
        return True

    async def get_webhook_info(self) -> SimpleNamespace:
        self._raise_planned()
        found = self.plan.pop(0) if self.plan else 0
        waiting, url = (found, URL) if isinstance(found, int) else (0, found)
        return SimpleNamespace(url=url, pending_update_count=waiting)

    def _raise_planned(self) -> None:
        if self.plan and isinstance(self.plan[0], BaseException):
            raise self.plan.pop(0)

    async def answer_callback_query(self, tap_id: str, **_: Any) -> bool:
        self.acknowledged.append(tap_id)
        return True


class Rig:
    """A webhook on loopback, and what it did."""

    def __init__(self, units: Units) -> None:
        self.units, self.bot, self.write, self.wake = units, Platform(), Writer(), Wake()
        self.activity = Activity()
        self.outages = 0
        self.aloud: list[list[int]] = []
        self.hook = Webhook(
            Hook(URL, SECRET),
            self.bot,
            units,
            self.write,
            StoryClock(NOW),
            inbox_wake=self.wake,
            activity=self.activity,
            after_outage=self._outage,
            aloud=self,
        )

    def watch(self, *_: Any) -> None:
        """What is kept is watched over elsewhere."""

    def begin(self, rows: Any) -> None:
        """Note what would be said without a row, should it be a stop sign."""
        self.aloud.append([row.update_id for row in rows])

    async def _outage(self) -> None:
        self.outages += 1

    @asynccontextmanager
    async def open(self) -> AsyncIterator[httpx.AsyncClient]:
        self.hook.open()
        self.running = asyncio.create_task(self.hook.run())
        root = f"http://127.0.0.1:{self.hook.port}"
        async with httpx.AsyncClient(base_url=root, trust_env=False) as client:
            yield client
        self.running.cancel()
        await asyncio.gather(self.running, return_exceptions=True)

    def kept(self) -> list[tuple[int, str]]:
        with self.units.engine.connect() as connection:
            query = select(inbox.c.update_id, inbox.c.state).order_by(inbox.c.update_id)
            return [tuple(row) for row in connection.execute(query)]


@pytest.fixture
async def rig(units: Units) -> AsyncIterator[Rig]:
    made = Rig(units)
    yield made
    made.hook.close()
    made.write.close()


async def pieces() -> AsyncIterator[bytes]:
    for _ in range(LARGEST // 65536 + 1):
        yield b" " * 65536


def without(name: str) -> dict[str, str]:
    return {key: value for key, value in GOOD.items() if key != name}


UPDATE = json.dumps(message(5)).encode()
REQUESTS: list[tuple[str, int, dict[str, Any]]] = [
    ("a look", 405, {"method": "GET", "headers": GOOD}),
    ("another address", 404, {"url": "/in", "headers": GOOD, "content": UPDATE}),
    ("an address with more", 404, {"url": "/in/here/", "headers": GOOD, "content": UPDATE}),
    ("no secret", 403, {"headers": without(SECRET_HEADER), "content": UPDATE}),
    ("an empty secret", 403, {"headers": GOOD | {SECRET_HEADER: ""}, "content": UPDATE}),
    ("half the secret", 403, {"headers": GOOD | {SECRET_HEADER: SECRET[:12]}, "content": UPDATE}),
    ("foreign letters", 403, {"headers": GOOD | {SECRET_HEADER: "ñ".encode()}, "content": UPDATE}),
    ("no secret and far too much", 403, {"headers": without(SECRET_HEADER), "content": b" " * LARGEST * 2}),
    ("no kind", 415, {"headers": without("Content-Type"), "content": UPDATE}),
    ("a form", 415, {"headers": GOOD | {"Content-Type": "text/plain"}, "content": UPDATE}),
    ("too much", 413, {"headers": GOOD, "content": b" " * (LARGEST + 1)}),
    ("too much without saying so", 413, {"headers": GOOD, "content": pieces()}),
    ("nothing", 400, {"headers": GOOD}),
    ("half of it", 400, {"headers": GOOD, "content": UPDATE[:-9]}),
    ("no text", 400, {"headers": GOOD, "content": b'{"update_id": 5, "x": "\xff"}'}),
    ("no number", 400, {"headers": GOOD, "content": b'{"update_id": NaN}'}),
    ("a pit", 400, {"headers": GOOD, "content": b"[" * 200_000}),
    ("an endless number", 400, {"headers": GOOD, "content": b"9" * 100_000}),
    ("no update", 200, {"headers": GOOD, "content": b"[7]"}),
    ("an update without an id", 200, {"headers": GOOD, "content": b'{"message": {}}'}),
    ("an id that no column holds", 200, {"headers": GOOD, "content": b'{"update_id": 9223372036854775808}'}),
    ("said in a group", 200, {"headers": GOOD, "content": json.dumps(message(6, kind="group")).encode()}),
    (
        "an update",
        200,
        {"headers": GOOD | {"Content-Type": "Application/JSON; charset=utf-8"}, "content": UPDATE},
    ),
]


async def test_only_what_the_platform_brings_is_let_in(rig: Rig, caplog: pytest.LogCaptureFixture) -> None:
    async with rig.open() as client:
        answers = {
            name: await client.request(**({"method": "POST", "url": "/in/here"} | asked))
            for name, _, asked in REQUESTS
        }

    assert {name: answer.status_code for name, answer in answers.items()} == {
        name: status for name, status, _ in REQUESTS
    }
    assert {answer.content for answer in answers.values() if answer.status_code != 405} == {b""}
    assert rig.kept() == [(5, "new"), (6, "quarantined")]
    assert [each.message for each in caplog.records].count("updates_unreadable") == 3
    assert SECRET not in caplog.text


HALF = (
    f"POST /in/here HTTP/1.1\r\nHost: x\r\n{SECRET_HEADER}: {SECRET}\r\nContent-Type: application/json\r\n"
    'Content-Length: 900\r\n\r\n{"update_id": 5'
).encode()


async def test_who_says_half_of_it_and_then_nothing_is_not_waited_for(
    rig: Rig, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(webhook_door, "BODY_WITHIN_S", 0.05)
    async with rig.open() as client:
        for is_patient in (True, False):
            reader, writer = await asyncio.open_connection("127.0.0.1", rig.hook.port)
            writer.write(HALF)
            await writer.drain()
            said = await reader.readline() if is_patient else b""
            assert said == (b"HTTP/1.1 408 Request Timeout\r\n" if is_patient else b"")
            writer.close()
            await writer.wait_closed()
        again = await client.post("/in/here", json=message(6), headers=GOOD)

    assert (again.status_code, rig.kept()) == (200, [(6, "new")])


async def test_a_door_without_a_secret_is_not_opened(rig: Rig) -> None:
    rig.hook._hook = Hook(URL, "")

    with pytest.raises(ValueError, match="without a secret"):
        await rig.hook.run()


async def test_who_comes_without_the_secret_is_counted_in_the_log(
    rig: Rig, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    monkeypatch.setattr(hooks, "LOOK_S", 0)
    async with rig.open() as client:
        for _ in range(3):
            await client.post("/in/here", json=message(5))
        while not any("count" in vars(each) for each in caplog.records):  # noqa: ASYNC110  (nobody tells of it)
            await asyncio.sleep(0)

    told = [each for each in caplog.records if each.message == "webhook_turned_away"]
    assert sum(vars(each)["count"] for each in told) <= 3
    assert told


async def test_an_update_is_kept_before_it_is_confirmed_and_twice_is_once(rig: Rig) -> None:
    async with rig.open() as client:
        statuses = []
        for body in (message(8), message(5), tap(6), tap(6), message(8)):
            statuses.append((await client.post("/in/here", json=body, headers=GOOD)).status_code)
            assert body["update_id"] in [update_id for update_id, _ in rig.kept()]
        await asyncio.gather(*rig.hook._acks)

    assert statuses == [200] * 5
    assert rig.kept() == [(5, "new"), (6, "new"), (8, "new")]
    assert rig.wake.pending
    assert (rig.hook.taken, rig.bot.acknowledged) == (5, ["tap6", "tap6"])


async def test_while_the_store_is_away_the_platform_is_to_come_again(
    rig: Rig, monkeypatch: pytest.MonkeyPatch
) -> None:
    write, failures = rig.hook._write, [RuntimeError("away"), RuntimeError("away")]

    async def stumbling(work: Any, priority: Any) -> Any:
        if failures:
            raise failures.pop()
        return await write(work, priority)

    monkeypatch.setattr(rig.hook, "_write", stumbling)
    async with rig.open() as client:
        answers = [await client.post("/in/here", json=message(5), headers=GOOD) for _ in range(3)]
        troubled = rig.hook.trouble

    assert [each.status_code for each in answers] == [503, 503, 200]
    assert [each.headers.get("Retry-After") for each in answers] == ["5", "5", None]
    assert (rig.aloud, rig.kept(), troubled) == ([[5], [5]], [(5, "new")], Trouble.STORE)


async def test_a_store_that_does_not_answer_is_away_and_a_bug_is_logged(
    rig: Rig, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    monkeypatch.setattr(hooks, "KEEP_WITHIN_S", 0.01)
    free = threading.Event()
    held = asyncio.create_task(rig.write(free.wait))
    async with rig.open() as client:
        late = await client.post("/in/here", json=message(5), headers=GOOD)
        free.set()
        await held
        monkeypatch.setattr(hooks, "batch_of", lambda *_: 1 / 0)
        failed = await client.post("/in/here", json=message(6), headers=GOOD)

    assert (late.status_code, failed.status_code) == (503, 500)
    assert (rig.aloud, rig.kept()) == ([[5]], [(5, "new")])
    assert "webhook_stumbled" in [each.message for each in caplog.records]


async def test_what_is_under_way_when_it_stops_is_kept_and_confirmed_and_nobody_else_gets_in(
    rig: Rig,
) -> None:
    free, begun = threading.Event(), asyncio.get_running_loop().time()
    held = asyncio.create_task(rig.write(free.wait))
    async with rig.open() as client:
        posting = asyncio.create_task(client.post("/in/here", json=message(5), headers=GOOD))
        while not rig.activity.busy or not rig.hook.good_at:  # noqa: ASYNC110  (the same)
            await asyncio.sleep(0)
        rig.running.cancel()
        while rig.hook._listening.fileno() != -1:  # noqa: ASYNC110  (the same)
            await asyncio.sleep(0)
        with pytest.raises(ConnectionRefusedError):
            socket.create_connection(("127.0.0.1", rig.hook.port))
        free.set()
        answer = await posting
        await asyncio.gather(held, rig.running, return_exceptions=True)

    assert (answer.status_code, rig.kept()) == (200, [(5, "new")])
    assert asyncio.get_running_loop().time() - begun < 10


async def test_the_platform_is_told_where_what_and_with_which_secret(rig: Rig) -> None:
    await rig.hook._begin()

    asked = {"secret_token": SECRET, "allowed_updates": ALLOWED_UPDATES, "drop_pending_updates": False}
    [(url, given)] = rig.bot.set
    assert (url, given) == (URL, asked | {"max_connections": hooks.CONNECTIONS})
    assert (rig.hook.last_good, rig.outages) == (NOW, 1)


@pytest.mark.parametrize(
    ("looks", "kept", "trouble", "good", "sets"),
    [
        ([0], 0, None, 1, 1),
        ([URL.upper() + "/"], 0, None, 1, 1),
        ([3], 0, None, 0, 1),
        ([3, 3], 0, Trouble.UNDELIVERED, 0, 1),
        ([3, 3], 1, None, 2, 1),
        ([3, 3, 0], 0, None, 1, 1),
        (["https://elsewhere.example/"], 0, Trouble.ANOTHER, 0, 2),
        (["", 0], 0, None, 1, 2),
    ],
)
async def test_a_webhook_is_well_where_it_is_ours_and_what_waits_gets_through(
    rig: Rig, looks: list[Any], kept: int, trouble: Trouble | None, good: int, sets: int
) -> None:
    await rig.hook._begin()
    rig.bot.plan, heard = list(looks), 0
    for _ in looks:
        rig.hook._good_at = None
        rig.hook.taken += kept
        await rig.hook._look()
        heard += rig.hook.good_at is not None

    assert (rig.hook.trouble, heard, len(rig.bot.set)) == (trouble, good, sets)


async def test_what_the_platform_does_not_take_is_asked_again_ever_less_often(
    rig: Rig, monkeypatch: pytest.MonkeyPatch
) -> None:
    waits, troubles, real = [], [], asyncio.sleep

    async def waited(seconds: float) -> None:
        if seconds >= 1:
            waits.append(seconds)
            troubles.append(rig.hook.trouble)
        await real(0)

    monkeypatch.setattr(hooks.asyncio, "sleep", waited)
    rig.bot.plan = [RetryAfter(17), BadRequest("bad webhook"), NetworkError("away"), NetworkError("away")]
    rig.bot.plan += [BadRequest("bad webhook")] * 3
    begun = rig.hook._begin

    async def then_no_more() -> None:
        await begun()
        rig.bot.plan = [0, NetworkError("away"), 0, Ended()]

    monkeypatch.setattr(rig.hook, "_begin", then_no_more)
    with pytest.raises(Ended):
        await rig.hook.run()

    assert waits == [17.5, 1, 2, 4, 8, 16, 30, 30, 30, 1, 30]
    assert troubles[1:4] == [Trouble.ADDRESS, Trouble.PLATFORM, Trouble.PLATFORM]
    assert troubles[-3:] == [None, Trouble.PLATFORM, None]


async def test_a_refused_token_ends_it(rig: Rig) -> None:
    rig.bot.plan = [InvalidToken("refused")]

    with pytest.raises(InvalidToken):
        await rig.hook.run()
