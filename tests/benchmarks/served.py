"""The whole program in a process of its own, as `plimsoll serve` builds it, on a clock that goes on from a date.

On PostgreSQL several may serve one database.

Unlike `plimsoll serve` it may send faster than the platform lets anybody, so that the program's own pace is seen.
"""

import asyncio
import signal
import sys
from datetime import datetime

from benchmarks.going_on import GoingOn

from bot.assembly.house import House, Plan
from bot.clock import RandomIds
from bot.logs import configure
from bot.outbound import limits
from bot.schedule.clockwork import Clockwork
from bot.store.neighbours import is_shared
from bot.store.tether import Spans


async def main(
    token: str, api_url: str, url: str, per_second: str, tick_s: str, start: str, since: str
) -> None:
    stop = asyncio.Event()
    asyncio.get_running_loop().add_signal_handler(signal.SIGTERM, stop.set)
    limits.CEILING = max(limits.CEILING, float(per_second))  # type: ignore[misc]
    clock = GoingOn(datetime.fromisoformat(start), datetime.fromisoformat(since))
    beside = Spans() if is_shared(url) else None
    house = House(Plan(token, url, api_url, float(per_second), clock, RandomIds(), beside=beside))
    house.tick.rounds.attend(lambda: house.way_in.last_good, None)
    house.led.fired = clockwork = Clockwork(house.tick, float(tick_s))
    await house.start()
    await asyncio.wait(
        {asyncio.ensure_future(stop.wait()), house.failed}, return_when=asyncio.FIRST_COMPLETED
    )
    clockwork.stop()
    await house.stop()


configure("json")
asyncio.run(main(*sys.argv[1:]))
