import asyncio
from datetime import timedelta

import pytest
from mailroom import (
    BULK,
    CHAT,
    COACH_CHAT,
    NOW,
    SAFETY,
    Post,
    Rig,
    first_time,
    populate,
    send,
    turns,
)
from sqlalchemy import select
from sqlalchemy.exc import OperationalError

from bot.clock import StoryClock
from bot.outbound import sender, turn
from bot.outbound.policy import (
    NotDelivered,
)
from bot.store.tables import chat, outbox

SECOND = timedelta(seconds=1)


async def test_what_is_queued_goes_out_at_once(rig):
    rig.queue(send("hello"))
    await rig.idle()
    assert rig.post.texts(CHAT) == ["hello"]
    assert rig.states() == {"hello": "sent"}
    assert rig.post.arrived[0].at == NOW


async def test_what_is_queued_while_it_rests_goes_out_at_once(rig):
    await rig.idle()
    assert rig.sender.quiet()
    rig.queue(send("hello"))
    assert not rig.sender.quiet()
    await rig.idle()
    assert rig.post.texts() == ["hello"]


async def test_what_is_planned_goes_out_when_it_is_due(rig):
    rig.queue(send("morning", due_at=NOW + 600 * SECOND))
    await rig.idle()
    assert rig.post.texts() == []
    assert rig.clock.next_waking() == NOW + 600 * SECOND
    await rig.go_on()
    assert [each.at for each in rig.post.arrived] == [NOW + 600 * SECOND]


async def test_the_moment_it_falls_due_it_is_no_longer_quiet(rig):
    rig.queue(send("morning", due_at=NOW + SECOND))
    await rig.idle()
    rig.clock.move_to(NOW + SECOND)
    assert not rig.sender.quiet()


async def test_safety_goes_first_whatever_the_queue(rig):
    rig.queue(*[send(f"bulk {number}", 1000 + number, lane=BULK) for number in range(40)])
    rig.queue(send("stop sign", lane=SAFETY))
    await rig.go_on()
    assert rig.post.texts()[0] == "stop sign"
    assert len(rig.post.texts()) == 41


async def test_safety_passes_a_call_that_hangs_in_the_same_chat(rig):
    rig.post.gates["slow"] = asyncio.Event()
    rig.queue(send("slow"), send("later"))
    rig.start()
    await rig.post.begun(1)
    rig.queue(send("stop sign", lane=SAFETY))
    await rig.post.begun(2)
    await turns(10)
    assert rig.post.texts() == ["stop sign"]
    assert not rig.sender.quiet()
    rig.post.gates["slow"].set()
    await rig.idle()
    assert rig.post.texts() == ["stop sign", "slow", "later"]


async def test_at_most_two_talk_two_bulk_and_one_safety_are_in_flight(rig):
    for lane, base in ((BULK, 1000), ("talk", 2000), (SAFETY, 3000)):
        texts = [f"{lane} {number}" for number in range(4)]
        rig.queue(*[send(text, base + number, lane=type(SAFETY)(lane)) for number, text in enumerate(texts)])
        rig.post.gates |= {text: asyncio.Event() for text in texts}
    rig.start()
    await rig.post.begun(5)
    await turns(50)
    assert [row.lane for row in rig.post.calls] == ["safety", "talk", "talk", "bulk", "bulk"]
    for gate in rig.post.gates.values():
        gate.set()
    await rig.go_on()
    assert rig.post.most_at_once == 5
    assert len(rig.post.texts()) == 12


async def test_a_chat_gets_three_at_once_and_then_one_a_second(rig):
    rig.queue(*[send(str(number)) for number in range(6)])
    await rig.go_on()
    assert rig.post.texts(CHAT) == ["0", "1", "2", "3", "4", "5"]
    assert [(each.at - NOW).total_seconds() for each in rig.post.arrived] == [0, 0, 0, 1, 2, 3]


async def test_safety_does_not_wait_for_the_pace_of_its_chat(rig):
    rig.queue(*[send(str(number)) for number in range(5)])
    await rig.idle()
    rig.queue(send("stop sign", lane=SAFETY))
    await rig.idle()
    assert rig.post.texts(CHAT) == ["0", "1", "2", "stop sign"]
    await rig.go_on()
    assert rig.post.texts(CHAT)[4:] == ["3", "4"]


async def test_a_morning_goes_out_at_the_pace_overall(rig):
    rig.queue(*[send(f"card {number}", 1000 + number) for number in range(60)])
    await rig.go_on()
    times = [(each.at - NOW).total_seconds() for each in rig.post.arrived]
    assert len(times) == 60
    assert times[-1] == pytest.approx((60 - 5) / 25)
    assert max(sum(start <= at < start + 1 for at in times) for start in times) <= 30


async def test_a_stop_lets_the_call_in_flight_end_and_begins_no_other(rig):
    rig.post.gates["one"] = asyncio.Event()
    rig.queue(send("one"), send("two"))
    rig.start()
    await rig.post.begun(1)
    stopping = asyncio.create_task(rig.stop())
    await turns(20)
    rig.post.gates["one"].set()
    await stopping
    assert rig.running is not None
    assert rig.running.cancelled()
    assert rig.states() == {"one": "sent", "two": "queued"}


async def test_a_stop_between_claim_and_call_gives_the_row_back(rig):
    ended = asyncio.Event()
    write = rig.sender._write

    async def slow(work, priority=0):
        result = await write(work, priority)
        if not ended.is_set() and rig.states().get("one") == "sending":
            ended.set()
            await turns(10)
        return result

    rig.sender._write = slow
    rig.queue(send("one"))
    rig.start()
    await ended.wait()
    await rig.stop()
    assert rig.post.calls == []
    with rig.engine.connect() as connection:
        found = connection.execute(select(outbox.c.state, outbox.c.attempts, outbox.c.doubts)).one()
    assert tuple(found) == ("queued", 0, 0)


async def test_a_stop_gives_up_on_a_call_that_hangs(rig, monkeypatch):
    monkeypatch.setattr("bot.outbound.sender.STOP_GRACE_S", 0.0)
    rig.post.gates["one"] = asyncio.Event()
    rig.queue(send("one"))
    rig.start()
    await rig.post.begun(1)
    await rig.stop()
    assert rig.states() == {"one": "sending"}


async def test_a_store_that_is_away_for_a_while_loses_nothing(rig, monkeypatch):
    monkeypatch.setattr(sender, "STORE_WAITS_S", (0.001,))
    failures = [3]
    write = rig.sender._write

    async def moody(work, priority=0):
        if rig.post.arrived and failures[0]:
            failures[0] -= 1
            raise OperationalError("UPDATE", {}, Exception("away"), connection_invalidated=True)
        return await write(work, priority)

    rig.sender._write = moody
    rig.queue(send("one"))
    await rig.idle()
    assert failures == [0]
    assert rig.post.texts() == ["one"]
    assert rig.states() == {"one": "sent"}


async def test_a_stop_does_not_wait_for_a_store_that_stays_away(rig, monkeypatch):
    monkeypatch.setattr(sender, "STORE_WAITS_S", (0.001,))
    write, tried = rig.sender._write, asyncio.Event()

    async def gone(work, priority=0):
        if rig.post.arrived:
            tried.set()
            raise OperationalError("UPDATE", {}, Exception("away"), connection_invalidated=True)
        return await write(work, priority)

    rig.sender._write = gone
    rig.queue(send("one"))
    rig.start()
    await tried.wait()
    await asyncio.wait_for(rig.stop(), 10)
    assert rig.running.cancelled()
    assert rig.states() == {"one": "sending"}


async def test_a_mistake_in_the_store_ends_the_sender_loudly(rig):
    write = rig.sender._write

    async def broken(work, priority=0):
        if rig.post.arrived:
            raise RuntimeError("a mistake of ours")
        return await write(work, priority)

    rig.sender._write = broken
    rig.queue(send("one"))
    with pytest.raises(RuntimeError, match="mistake"):
        await rig.idle()
    assert rig.states() == {"one": "sending"}


async def test_the_last_message_of_a_chat_is_noted(rig):
    rig.queue(send("a"))
    await rig.idle()
    with rig.engine.connect() as connection:
        assert connection.execute(select(chat.c.last_sent_at)).scalar() == NOW


async def test_a_stranger_is_answered_without_a_tenant(rig):
    rig.queue(send("how to be invited", 900), coach_id=None)
    await rig.idle()
    assert rig.post.texts(900) == ["how to be invited"]
    assert rig.post.calls[0].coach_id is None


async def test_the_same_story_is_told_the_same_way_twice(engine, tmp_path):
    populate(engine)
    tellings = []
    for telling in range(2):
        clock = StoryClock(NOW)
        rig = Rig(engine, clock, Post(clock, plan=first_time(NotDelivered("ConnectError"), "c3", times=2)))
        rig.queue(*[send(f"c{number}", COACH_CHAT, key=f"{telling}c{number}") for number in range(6)])
        rig.queue(*[send(f"d{number}", CHAT, key=f"{telling}d{number}", lane=BULK) for number in range(6)])
        await rig.go_on()
        await rig.stop()
        tellings.append({chat: rig.post.texts(chat) for chat in (COACH_CHAT, CHAT)})
    assert tellings[0] == tellings[1]
    assert tellings[0][COACH_CHAT] == [f"c{number}" for number in range(6)]


async def test_whoever_moves_the_clock_finds_the_sender_asleep_on_it_as_soon_as_it_is_quiet(rig):
    fill = rig.sender._fill

    async def fill_while_another_part_ends():
        due = await fill()
        rig.activity.changed()
        return due

    rig.sender._fill = fill_while_another_part_ends
    rig.queue(send("morning", due_at=NOW + SECOND))
    rig.start()
    await rig.activity.until(rig.sender.quiet)
    assert rig.clock.next_waking() == NOW + SECOND


async def test_what_landed_is_written_down_with_the_turn_that_claims_what_goes_next(rig):
    write, jobs = rig.sender._write, []

    async def counted(work, priority=0):
        jobs.append(rig.states())
        return await write(work, priority)

    rig.sender._write = counted
    rig.queue(send("one"), send("two"))
    await rig.idle()
    assert jobs == [
        {"one": "queued", "two": "queued"},  # what a dead process left
        {"one": "queued", "two": "queued"},
        {"one": "sending", "two": "queued"},
        {"one": "sent", "two": "sending"},
    ]
    assert rig.states() == {"one": "sent", "two": "sent"}


async def test_a_row_that_cannot_be_written_down_spoils_no_other_of_its_turn(rig, monkeypatch):
    settle, both = turn.settle, asyncio.Event()
    rig.post.gates |= {"one": both, "two": both}

    def spoilt(step, row, house, now):
        if row.key == "two":
            raise RuntimeError("a mistake of ours")
        return settle(step, row, house, now)

    monkeypatch.setattr(turn, "settle", spoilt)
    rig.queue(send("one"), send("two", COACH_CHAT))
    rig.start()
    await rig.post.begun(2)
    both.set()
    with pytest.raises(RuntimeError, match="mistake"):
        await rig.running
    assert rig.states() == {"one": "sent", "two": "sending"}
