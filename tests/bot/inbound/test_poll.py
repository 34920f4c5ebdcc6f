import asyncio
from datetime import datetime, timedelta
from typing import Any

import pytest
from sqlalchemy import select
from telegram.error import Conflict, InvalidToken, NetworkError, RetryAfter, TimedOut

from bot.clock import Activity, StoryClock, Wake
from bot.inbound import poll as polling
from bot.inbound.intake import ALLOWED_UPDATES
from bot.inbound.poll import Poll
from bot.store.tables import inbox
from bot.store.units import Units
from bot.usecases.writer import Writer

NOW = datetime.fromisoformat("2026-04-13T17:00:00+00:00")
ADA = {"id": 7, "is_bot": False, "first_name": "Ada"}


def message(update_id: int, text: str = "8 8 8") -> dict[str, Any]:
    chat = {"id": 7, "type": "private"}
    return {"update_id": update_id, "message": {"message_id": 1, "chat": chat, "from": ADA, "text": text}}


def tap(update_id: int) -> dict[str, Any]:
    return {"update_id": update_id, "callback_query": {"id": f"tap{update_id}", "from": ADA, "data": "x"}}


class Ended(BaseException):
    """Nothing more is planned."""


class Answering:
    """Answers each fetch with what is next on its plan: a list of updates, or something to raise."""

    def __init__(self, *plan: Any) -> None:
        self.plan, self.asked, self.acknowledged = list(plan), [], []
        self.refuses_acks = False
        self.removed = self.refuses_removals = 0

    async def raw_updates(self, asked: dict[str, Any], *, read_timeout: float) -> Any:
        assert read_timeout > asked["timeout"]
        self.asked.append(dict(asked))
        await asyncio.sleep(0)
        if not self.plan:
            raise Ended
        found = self.plan.pop(0)
        if isinstance(found, BaseException):
            raise found
        return found

    async def delete_webhook(self, *, drop_pending_updates: bool) -> bool:
        assert not drop_pending_updates
        self.removed += 1
        if self.removed <= self.refuses_removals:
            raise TimedOut
        return True

    async def answer_callback_query(self, tap_id: str, **_: Any) -> bool:
        self.acknowledged.append(tap_id)
        if self.refuses_acks:
            raise TimedOut
        return True

    @property
    def offsets(self) -> list[int | None]:
        return [each.get("offset") for each in self.asked]


class Rig:
    """A poll, what it waited for, and how often it called for open cards."""

    def __init__(self, units: Units, patch: pytest.MonkeyPatch, *plan: Any) -> None:
        self.units, self.bot, self.write = units, Answering(*plan), Writer()
        self.waits: list[float] = []
        self.outages = 0
        self.outage_fails = 0
        self.wake = Wake()
        self.aloud: list[list[int]] = []
        self.poll = Poll(
            self.bot,  # type: ignore[arg-type]
            units,
            self.write,
            StoryClock(NOW),
            inbox_wake=self.wake,
            activity=Activity(),
            after_outage=self._outage,
            aloud=self,  # type: ignore[arg-type]
        )
        real = asyncio.sleep

        async def waits(seconds: float) -> None:
            if seconds:
                self.waits.append(seconds)
            await real(0)

        patch.setattr(polling.asyncio, "sleep", waits)

    def watch(self, *_: Any) -> None:
        """What is kept is watched over elsewhere."""

    def begin(self, rows: Any) -> None:
        """Note what would be said without a row, should it be a stop sign."""
        self.aloud.append([row.update_id for row in rows])

    async def _outage(self) -> None:
        self.outages += 1
        if self.outages <= self.outage_fails:
            raise RuntimeError("the store is away")

    async def go(self) -> None:
        try:
            with pytest.raises(Ended):
                await self.poll.run()
            await asyncio.gather(*self.poll._acks)
        finally:
            self.write.close()

    def kept(self) -> list[int]:
        with self.units.engine.connect() as connection:
            return list(connection.execute(select(inbox.c.update_id).order_by(inbox.c.update_id)).scalars())


@pytest.fixture
def rig(units: Units, monkeypatch: pytest.MonkeyPatch):
    return lambda *plan: Rig(units, monkeypatch, *plan)


async def test_updates_are_kept_before_the_offset_moves_and_the_first_fetch_names_none(rig):
    made = rig([message(5), message(6)], [], [message(7)])

    await made.go()

    assert made.bot.offsets == [None, 7, 7, 8]
    assert made.bot.asked[0]["allowed_updates"] == ALLOWED_UPDATES
    assert made.kept() == [5, 6, 7]
    assert made.wake.pending
    assert made.poll.last_good == NOW


async def test_what_comes_twice_is_kept_once(rig):
    made = rig([message(5)], [message(5), message(6)])

    await made.go()

    assert made.kept() == [5, 6]


async def test_ids_that_begin_anew_are_followed(rig):
    made = rig([message(900)], [message(12)])

    await made.go()

    assert (made.bot.offsets, made.kept()) == ([None, 901, 13], [12, 900])


async def test_a_tap_is_acknowledged_once_it_is_kept_and_no_more_than_once(rig):
    made = rig([tap(5), message(6)])
    made.bot.refuses_acks = True

    await made.go()

    assert (made.bot.acknowledged, made.kept()) == (["tap5"], [5, 6])


async def test_the_platform_s_pause_is_kept_to_the_second_and_a_half_more(rig):
    made = rig(RetryAfter(17), [message(5)])

    await made.go()

    assert made.waits == [17.5]
    assert made.kept() == [5]


async def test_a_network_that_is_away_is_asked_less_and_less_often_until_it_is_back(rig):
    away = [NetworkError("away")] * 5 + [TimedOut(), Conflict("another")]
    made = rig(*away, [message(5)], NetworkError("again"))

    await made.go()

    assert made.waits == [1, 2, 4, 8, 16, 30, 30, 1]
    assert made.kept() == [5]


async def test_a_second_program_is_named_in_the_log(rig, caplog):
    await rig(Conflict("terminated by other getUpdates request")).go()

    assert "another_program_fetches" in [record.message for record in caplog.records]


async def test_a_webhook_that_is_set_is_removed_and_what_waited_for_it_is_fetched(rig, caplog):
    active = (
        "can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first"
    )
    made = rig(
        Conflict(active), Conflict(active), [message(5)], Conflict("terminated by other getUpdates request")
    )
    made.bot.refuses_removals = 1

    await made.go()

    assert (made.bot.removed, made.kept(), made.waits) == (2, [5], [1, 2, 1])
    told = [record.message for record in caplog.records if record.message.startswith("webhook")]
    assert told == ["webhook_not_removed", "webhook_removed"]


async def test_a_refused_token_ends_it(rig):
    made = rig(InvalidToken("refused"))

    with pytest.raises(InvalidToken):
        await made.poll.run()

    made.write.close()


async def test_updates_that_cannot_even_be_kept_are_not_fetched_over_and_over_without_a_breath(rig):
    made = rig([{"message": {}}], [message(5)])

    await made.go()

    assert (made.waits, made.kept()) == ([30], [5])


@pytest.mark.parametrize(("gap_s", "outages"), [(1, 1), (119, 1), (121, 2), (7200, 2)])
async def test_after_a_gap_open_cards_are_posted_anew(rig, gap_s, outages):
    made = rig([message(5)])
    await made.go()
    made.poll._good_at -= gap_s
    made.bot.plan, made.write = [[message(6)]], Writer()
    made.poll._write = made.write

    await made.go()

    assert made.outages == outages


@pytest.mark.parametrize(
    ("away_s", "outages"), [(None, 1), (0, 0), (2, 0), (120, 0), (121, 1), (7200, 1), (-60, 1)]
)
async def test_a_quick_restart_is_no_outage(rig, away_s, outages):
    made = rig([message(5)])
    made.poll.fetched_before(None if away_s is None else NOW - timedelta(seconds=away_s))

    await made.go()

    assert made.outages == outages


async def test_cards_that_could_not_be_posted_anew_are_tried_at_the_next_fetch_and_the_poll_lives_on(rig):
    made = rig([message(5)], [], [message(6)])
    made.outage_fails = 2

    await made.go()

    assert (made.outages, made.kept()) == (3, [5, 6])


async def test_a_store_that_is_away_holds_the_offset_back(rig, monkeypatch):
    made = rig([message(5)])
    failures = [RuntimeError("away"), RuntimeError("away")]
    write = made.poll._write

    async def stumbling(work: Any, priority: Any) -> Any:
        if failures:
            raise failures.pop()
        return await write(work, priority)

    monkeypatch.setattr(made.poll, "_write", stumbling)

    await made.go()

    assert (made.waits, made.bot.offsets, made.kept()) == ([0.05, 0.2], [None, 6], [5])
    assert made.aloud == [[5], [5]]
