"""The peer: a job for each client in a scheduler's own store, some due at once; each only counts.

Says, a line each in JSON: how long filling took, how long it took from the start until all that was due had run, the
longest that nothing else could run meanwhile, and the memory held.
"""

import asyncio
import json
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from time import perf_counter

from apscheduler.jobstores.sqlalchemy import SQLAlchemyJobStore
from apscheduler.schedulers.asyncio import AsyncIOScheduler

ran = 0
LOOK_S = 0.005
PATIENCE_S = 120


async def card(client_id: int) -> None:
    global ran  # noqa: PLW0603  (a job of a store is found by its name, and has nothing else)
    ran += 1


def scheduler(url: str) -> AsyncIOScheduler:
    return AsyncIOScheduler(
        jobstores={"default": SQLAlchemyJobStore(url)},
        timezone="UTC",
        job_defaults={"coalesce": True, "misfire_grace_time": None},
    )


async def fill(url: str, clients: int, due: int) -> None:
    now = datetime.now(UTC)  # noqa: TID251  (a peer has no clock of ours)
    jobs = scheduler(url)
    jobs.start(paused=True)
    for number in range(clients):
        at = now - timedelta(minutes=1) if number < due else now + timedelta(hours=12)
        jobs.add_job(
            "benchmarks.job_each:card", "interval", [number], days=1, next_run_time=at, id=str(number)
        )
    jobs.shutdown(wait=False)


async def morning(url: str, due: int) -> dict[str, float]:
    from benchmarks import job_each  # noqa: PLC0415  (the module that the jobs count in, which is not this one)

    begun, longest, last = perf_counter(), 0.0, perf_counter()
    jobs, loop, looked = scheduler(url), asyncio.get_running_loop(), asyncio.Event()
    jobs.start()
    async with asyncio.timeout(PATIENCE_S):
        while job_each.ran < due:
            looked.clear()
            loop.call_later(LOOK_S, looked.set)
            await looked.wait()
            now = perf_counter()
            longest, last = max(longest, now - last - LOOK_S), now
    jobs.shutdown(wait=False)
    return {"took": perf_counter() - begun, "blocked": longest}


def memory() -> float:
    status = Path("/proc/self/status").read_text("utf-8")
    [line] = [each for each in status.splitlines() if each.startswith("VmHWM:")]
    return int(line.split()[1]) * 1024 / 1e6


if __name__ == "__main__":
    what, url, clients, due = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
    begun = perf_counter()
    if what == "fill":
        asyncio.run(fill(url, clients, due))
        found = {"filled": perf_counter() - begun}
    else:
        found = asyncio.run(morning(url, due))
    print(json.dumps(found | {"memory": memory()}))  # noqa: T201
