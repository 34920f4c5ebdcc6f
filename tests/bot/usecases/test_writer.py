import asyncio
import threading

import pytest

from bot.usecases.writer import Priority, Writer


@pytest.fixture
async def writer():
    found = Writer()
    yield found
    found.close()


async def test_it_works_off_the_loop_and_gives_back_what_is_returned(writer):
    assert await writer(threading.current_thread) is not threading.current_thread()
    assert await writer(lambda: 42) == 42


@pytest.mark.parametrize("error", [ValueError("no"), KeyboardInterrupt(), SystemExit(3)])
async def test_what_is_raised_comes_back_to_whoever_asked_and_the_thread_lives_on(writer, error):
    def fails() -> None:
        raise error

    answer = writer(fails)
    caught = None
    try:
        await answer
    except BaseException as raised:  # noqa: BLE001  (that it comes at all is what is tested)
        caught = raised

    assert caught is error
    assert await writer(lambda: "alive") == "alive"


async def test_the_most_pressing_goes_first_and_among_equals_who_came_first(writer):
    began, done = threading.Event(), threading.Event()
    order: list[str] = []

    def holds() -> None:
        began.set()
        done.wait(10)

    first = asyncio.create_task(writer(holds))
    await asyncio.to_thread(began.wait, 10)
    asked = [
        asyncio.create_task(writer(lambda name=name: order.append(name), priority))
        for name, priority in (
            ("due", Priority.DUE),
            ("reply 1", Priority.REPLY),
            ("delivery", Priority.DELIVERY),
            ("reply 2", Priority.REPLY),
            ("safety", Priority.SAFETY),
        )
    ]
    await asyncio.sleep(0)
    done.set()
    await asyncio.gather(first, *asked)

    assert order == ["safety", "reply 1", "delivery", "reply 2", "due"]


async def test_closing_lets_what_is_queued_end():
    writer, done = Writer(2), []
    asked = [asyncio.create_task(writer(lambda number=number: done.append(number))) for number in range(20)]
    await asyncio.sleep(0)

    await asyncio.to_thread(writer.close)
    await asyncio.gather(*asked)

    assert sorted(done) == list(range(20))
    assert not any(thread.is_alive() for thread in writer._threads)


async def test_whoever_no_longer_waits_is_not_answered(writer):
    began, done = threading.Event(), threading.Event()

    def holds() -> None:
        began.set()
        done.wait(10)

    asked = asyncio.create_task(writer(holds))
    await asyncio.to_thread(began.wait, 10)
    asked.cancel()
    with pytest.raises(asyncio.CancelledError):
        await asked
    done.set()

    assert await writer(lambda: "alive") == "alive"
