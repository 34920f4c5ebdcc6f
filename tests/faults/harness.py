"""Runs the real program as a process, breaks things by a plan drawn from a seed, and looks at what must hold.

    PYTHONPATH=.:tests python -m faults.harness --seed 1 --kills 200 --database postgres --processes 2

Kills come ten to a played week, each week on a database of its own: all train, at night some write, days later the
next session is due, and at last the program comes up late; in every second week somebody's clocks change in the night
between. It prints the plan, the counts, and every broken
invariant with what led to it; exit status 1 then.
"""

import argparse
import asyncio
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

from faults.breaking import PER_WEEK, WeekPlan, week_of
from faults.calendars import APRIL
from faults.people import CLIENTS
from faults.stores import SHELVES, Shelf
from faults.week import Result, Week

LEAST = len(APRIL.phases)


def say(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def plans(seed: int, kills: int, more_kinds: Sequence[str] = ()) -> Iterator[WeekPlan]:
    """Draw as many weeks as the kills need, about ten in each."""
    weeks = -(-kills // PER_WEEK)
    for number in range(weeks):
        share = kills * (number + 1) // weeks - kills * number // weeks
        yield week_of(seed, number, share, CLIENTS, more_kinds)


def played(
    plan: WeekPlan, shelf: Shelf, folder: Path, *, processes: int = 1, plant: str | None = None
) -> Week:
    """Play a week in a folder of its own, from a database in which everybody waits."""
    folder.mkdir()
    with shelf.week(folder, plan.calendar) as store:
        week = Week(folder, plan, store, processes=processes, plant=plant)
        asyncio.run(week.play())
    return week


def show(plan: WeekPlan) -> None:
    """Print a plan."""
    for phase, lives in zip(plan.calendar.phases, plan.lives, strict=True):
        say(f"  {phase.name}")
        for each in lives:
            say(f"    {each}")


def report(result: Result) -> None:
    """Print what a week came to."""
    say("  " + ", ".join(f"{name} {count}" for name, count in sorted(result.counts.items())))
    for each in result.broken:
        say(f"  BROKEN {each}")
    if result.broken:
        say("  what led to it:\n    " + "\n    ".join(result.led_to))


def asked_for() -> argparse.Namespace:
    """Read the command line."""
    asked = argparse.ArgumentParser(prog="python -m faults.harness", description=__doc__)
    asked.add_argument("--seed", type=int, required=True)
    asked.add_argument("--kills", type=int, default=PER_WEEK, help=f"at least {LEAST}")
    asked.add_argument("--database", choices=SHELVES, default="sqlite")
    asked.add_argument(
        "--processes", type=int, default=1, help="on one database; more than one on PostgreSQL"
    )
    asked.add_argument("--plant", help="a fault of the program's own, to see an invariant fail")
    given = asked.parse_args()
    if given.kills < LEAST:
        asked.error(f"a week takes at least {LEAST} kills")
    if given.processes > 1 and given.database == "sqlite":
        asked.error("a file of SQLite is served by one process")
    return given


def play(given: argparse.Namespace) -> list[Result]:
    """Play every week, and print what each came to."""
    results = []
    with tempfile.TemporaryDirectory(prefix="plimsoll-harness-") as name:
        folder = Path(name)
        with SHELVES[given.database](folder) as shelf:
            for number, plan in enumerate(plans(given.seed, given.kills, shelf.kinds), 1):
                say(f"week {number} of seed {given.seed}, {plan.calendar.name}: {plan.kills} kills")
                show(plan)
                week = played(
                    plan, shelf, folder / f"week-{number}", processes=given.processes, plant=given.plant
                )
                report(week.result)
                results.append(week.result)
    return results


def main() -> int:
    """Run it; 1 where an invariant was broken."""
    given, begun = asked_for(), time.monotonic()
    results = play(given)
    counts = sum((each.counts for each in results), Counter())
    waits = [wait for each in results for wait in each.safety_s]
    broken = sum(len(each.broken) for each in results)
    say(f"in all: {', '.join(f'{name} {count}' for name, count in sorted(counts.items()))}")
    say(f"{len(waits)} safety texts, the slowest after {max(waits, default=0):.2f} s")
    if later := [wait for each in results for wait in each.taken_over_s]:
        say(f"{len(later)} more as the process that led had died, the slowest after {max(later):.2f} s")
    say(f"{broken} broken invariants, seed {given.seed}, {time.monotonic() - begun:.0f} s")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
