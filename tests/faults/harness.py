"""Runs the real program as a process, breaks things by a plan drawn from a seed, and looks at what must hold.

    PYTHONPATH=.:tests python -m faults.harness --seed 1 --kills 200

Kills come ten to a played week, each week on a database of its own: on Tuesday all train, at night some write, on
Thursday the next session is due, on Friday the program comes up late. It prints the plan, the counts, and every broken
invariant with what led to it; exit status 1 then.
"""

import argparse
import asyncio
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from faults.breaking import PER_WEEK, PHASES, WeekPlan, week_of
from faults.crew import settle_down
from faults.people import CLIENTS, CREWS
from faults.week import Result, Week

from bot.store.engine import make_engine
from bot.store.migrate import upgrade
from bot.store.units import Units


def say(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def set_up(path: Path) -> None:
    """Make a database in which everybody waits for the first session."""
    engine = make_engine(f"sqlite:///{path}")
    upgrade(engine)
    settle_down(Units(engine), CREWS)
    engine.dispose()


def plans(seed: int, kills: int) -> Iterator[WeekPlan]:
    """Draw as many weeks as the kills need, about ten in each."""
    weeks = -(-kills // PER_WEEK)
    for number in range(weeks):
        share = kills * (number + 1) // weeks - kills * number // weeks
        yield week_of(seed, number, share, CLIENTS)


def played(plan: WeekPlan, joined: Path, folder: Path, plant: str | None = None) -> Week:
    """Play a week in a folder of its own, from a database in which everybody waits."""
    folder.mkdir()
    (folder / "plimsoll.db").write_bytes(joined.read_bytes())
    week = Week(folder, plan, plant)
    asyncio.run(week.play())
    return week


def show(plan: WeekPlan) -> None:
    """Print a plan."""
    for (name, *_), lives in zip(PHASES, plan.lives, strict=True):
        say(f"  {name}")
        for each in lives:
            say(f"    {each}")


def report(result: Result) -> None:
    """Print what a week came to."""
    say("  " + ", ".join(f"{name} {count}" for name, count in sorted(result.counts.items())))
    for each in result.broken:
        say(f"  BROKEN {each}")
    if result.broken:
        say("  what led to it:\n    " + "\n    ".join(result.led_to))


def main() -> int:
    """Run it; 1 where an invariant was broken."""
    asked = argparse.ArgumentParser(prog="python -m faults.harness", description=__doc__)
    asked.add_argument("--seed", type=int, required=True)
    asked.add_argument("--kills", type=int, default=PER_WEEK, help="at least 4")
    asked.add_argument("--plant", help="a fault of the program's own, to see an invariant fail")
    given = asked.parse_args()
    if given.kills < len(PHASES):
        asked.error(f"a week takes at least {len(PHASES)} kills")
    begun, results = time.monotonic(), []
    with tempfile.TemporaryDirectory(prefix="plimsoll-harness-") as name:
        folder = Path(name)
        set_up(folder / "joined.db")
        for number, plan in enumerate(plans(given.seed, given.kills), 1):
            say(f"week {number} of seed {given.seed}: {plan.kills} kills")
            show(plan)
            week = played(plan, folder / "joined.db", folder / f"week-{number}", given.plant)
            report(week.result)
            results.append(week.result)
    counts = sum((each.counts for each in results), Counter())
    waits = [wait for each in results for wait in each.safety_s]
    broken = sum(len(each.broken) for each in results)
    say(f"in all: {', '.join(f'{name} {count}' for name, count in sorted(counts.items()))}")
    say(f"{len(waits)} safety texts, the slowest after {max(waits, default=0):.2f} s")
    say(f"{broken} broken invariants, seed {given.seed}, {time.monotonic() - begun:.0f} s")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
