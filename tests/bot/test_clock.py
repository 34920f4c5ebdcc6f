import asyncio
from datetime import UTC, datetime, timedelta

import pytest

from bot.clock import ALPHABET, Activity, CountedIds, Going, RandomIds, StoryClock, Wake, WallClock

START = datetime(2026, 4, 6, 7, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


async def settle() -> None:
    """Let everything that can go on go on."""
    for _ in range(5):
        await asyncio.sleep(0)


class Napper:
    """Tasks that note when they woke, and what time it was."""

    def __init__(self, clock: StoryClock) -> None:
        self.clock = clock
        self.woke: list[tuple[str, datetime]] = []
        self.tasks: list[asyncio.Task[None]] = []

    async def sends_to_sleep(self, name: str, until: datetime) -> "asyncio.Task[None]":
        async def nap() -> None:
            await self.clock.sleep_until(until)
            self.woke.append((name, self.clock.now()))

        task = asyncio.create_task(nap())
        self.tasks.append(task)
        await settle()
        return task


async def test_a_story_stands_still_until_it_is_moved() -> None:
    clock = StoryClock(START)
    await settle()
    before = clock.now()
    clock.move_to(START + MINUTE)

    assert (before, clock.now()) == (START, START + MINUTE)


async def test_a_story_wakes_whoever_slept_until_then_and_nobody_else() -> None:
    clock = StoryClock(START)
    napper = Napper(clock)
    await napper.sends_to_sleep("late", START + 3 * MINUTE)
    await napper.sends_to_sleep("early", START + MINUTE)
    await napper.sends_to_sleep("also early", START + MINUTE)

    clock.move_to(START + MINUTE)
    await settle()
    first = napper.woke[:]
    clock.move_to(START + 5 * MINUTE)
    await settle()

    assert first == [("early", START + MINUTE), ("also early", START + MINUTE)]
    assert napper.woke[2:] == [("late", START + 5 * MINUTE)]


async def test_sleeping_until_the_past_or_now_is_over_at_once() -> None:
    napper = Napper(StoryClock(START))
    await napper.sends_to_sleep("past", START - MINUTE)
    await napper.sends_to_sleep("now", START)

    assert [name for name, _ in napper.woke] == ["past", "now"]


async def test_the_next_waking_is_the_earliest_that_somebody_still_waits_for() -> None:
    clock = StoryClock(START)
    napper = Napper(clock)
    nobody = clock.next_waking()
    await napper.sends_to_sleep("late", START + 3 * MINUTE)
    early = await napper.sends_to_sleep("early", START + MINUTE)
    both = clock.next_waking()
    early.cancel()
    await settle()
    one = clock.next_waking()
    clock.move_to(START + 3 * MINUTE)

    assert (nobody, both, one, clock.next_waking()) == (None, START + MINUTE, START + 3 * MINUTE, None)
    await settle()


async def test_a_cancelled_sleeper_is_not_woken() -> None:
    clock = StoryClock(START)
    napper = Napper(clock)
    task = await napper.sends_to_sleep("gone", START + MINUTE)
    task.cancel()
    await settle()
    clock.move_to(START + MINUTE)
    await settle()

    assert napper.woke == []


async def test_a_story_never_goes_back() -> None:
    clock = StoryClock(START)

    with pytest.raises(ValueError, match="never goes back"):
        clock.move_to(START - MINUTE)
    assert clock.now() == START


def test_the_walls_time_is_an_instant_and_moves_on() -> None:
    clock = WallClock()
    first, second = clock.now(), clock.now()

    assert first.utcoffset() == timedelta(0)
    assert first <= second


async def test_a_wall_clock_does_not_wait_for_what_is_past() -> None:
    clock = WallClock()

    await asyncio.wait_for(clock.sleep_until(clock.now()), 1)


class SteppedClock(WallClock):
    """A wall clock that somebody sets: it shows one instant after the other."""

    def __init__(self, *shown: datetime) -> None:
        self.shown = list(shown)

    def now(self) -> datetime:
        return self.shown.pop(0)


async def test_a_clock_that_is_set_and_a_machine_that_slept_are_noticed_in_seconds(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    slept: list[float] = []

    async def note(seconds: float) -> None:
        slept.append(seconds)

    monkeypatch.setattr("bot.clock.asyncio.sleep", note)
    clock = SteppedClock(START, START + 3 * MINUTE, START + 200 * MINUTE)
    await clock.sleep_until(START + 180 * MINUTE)

    assert slept == [10, 10]
    assert clock.shown == []


@pytest.mark.parametrize("ids", [RandomIds(), CountedIds()])
@pytest.mark.parametrize("size", [1, 8, 20, 32])
def test_a_word_has_its_size_and_only_letters_that_are_told_apart(
    ids: RandomIds | CountedIds, size: int
) -> None:
    word = ids.word(size)

    assert len(word) == size
    assert set(word) <= set(ALPHABET)
    assert set("01o") & set(ALPHABET) == {"o"}


@pytest.mark.parametrize("ids", [RandomIds(), CountedIds()])
@pytest.mark.parametrize("size", [8, 20])
def test_no_word_comes_twice(ids: RandomIds | CountedIds, size: int) -> None:
    words = [ids.word(size) for _ in range(5000)]

    assert len(set(words)) == 5000


def test_counted_words_are_the_same_in_every_story() -> None:
    first, second = CountedIds(), CountedIds()

    assert [first.word(8) for _ in range(20)] == [second.word(8) for _ in range(20)]
    assert CountedIds().word(8) == first_word()


def first_word() -> str:
    """The first word, worked out by hand: 2654435761 in base 32, least digit first, then the count's own digits."""
    number, digits = 2654435761, ""
    while number:
        digits, number = digits + "abcdefghijklmnopqrstuvwxyz234567"[number % 32], number // 32
    return (digits + "iiiiiiii")[:8]


async def test_a_call_is_never_lost() -> None:
    wake = Wake()
    wake.set()
    await asyncio.wait_for(wake.wait(), 1)
    wake.clear()
    wake.set()  # while the loop is working

    assert wake.pending
    await asyncio.wait_for(wake.wait(), 1)


async def test_a_call_is_told_to_whoever_watches() -> None:
    calls: list[str] = []
    wake = Wake(lambda: calls.append("called"))
    before = wake.pending
    wake.set()

    assert (before, wake.pending, calls) == (False, True, ["called"])
    wake.clear()
    assert not wake.pending


async def test_the_wait_for_quiet_ends_when_nobody_is_busy_and_the_rest_is_quiet() -> None:
    activity, rest = Activity(), {"quiet": False}
    waiting = asyncio.create_task(activity.until(lambda: rest["quiet"]))
    await settle()
    with activity:
        with activity:
            busy = activity.busy
            rest["quiet"] = True
            activity.changed()
            await settle()
        await settle()
        done_while_busy = waiting.done()
    await settle()

    assert (busy, activity.busy, done_while_busy, waiting.done()) == (2, 0, False, True)


async def test_the_wait_for_quiet_looks_again_when_it_is_told() -> None:
    activity, rest = Activity(), {"quiet": False}
    waiting = asyncio.create_task(activity.until(lambda: rest["quiet"]))
    await settle()
    rest["quiet"] = True
    await settle()
    untold = waiting.done()
    activity.changed()
    await settle()

    assert (untold, waiting.done()) == (False, True)


async def test_quiet_at_once_needs_no_waiting() -> None:
    await asyncio.wait_for(Activity().until(lambda: True), 1)


async def test_an_error_ends_being_busy() -> None:
    activity = Activity()
    with pytest.raises(ValueError, match="broken"), activity:
        raise ValueError("broken")

    assert activity.busy == 0


def test_a_clock_that_is_set_back_is_noticed_once_and_one_that_is_kept_right_is_not() -> None:
    going = Going()
    said = [
        START,
        START + MINUTE,
        START + MINUTE - timedelta(seconds=1),
        START - MINUTE,
        START - MINUTE,
        START,
    ]

    assert [going.back_from(at) for at in said] == [None, None, None, said[2], None, None]
