"""How many decisions a second one core makes with half a year of history, beside a rule of one line on floats."""

import time
from collections.abc import Callable
from datetime import timedelta

import pytest

from core.loads.decision import Exposure, Inputs, Kind, next_decision
from core.programme.exercises import Site
from core.programme.prescription import Dose
from tests.core.loads.lifts import TODAY, day, done, dose, hurt, inputs

pytestmark = pytest.mark.benchmark

WEEKS, LOOK_BACK = 26, 12
GOAL, FLOOR = 5000, 2000
"""Decisions a second on one core, by the time of the processor."""
MOST_TIMES = 4000
"""How many lines on floats a decision may cost, in the same run: twice what it does."""


def half_a_year(asked: Callable[[int], Dose]) -> list[Exposure]:
    """Twenty-six weeks of two sessions each, the last one three days ago: done, missed now and then, reps left told."""
    history = []
    for place in range(2 * WEEKS):
        days_ago = 3 + (2 * WEEKS - 1 - place) * 7 // 2
        wanted = asked(place)
        reps = wanted.reps.low if wanted.reps else 8
        counts = " ".join([str(reps)] * (wanted.sets - 1) + [str(reps - 1 if place % 9 == 4 else reps)])
        history.append(
            done(days_ago, wanted, counts, left=2 if place % 3 == 0 else None, tap=place % 3 != 0, effort=3)
        )
    return history


def cases() -> dict[str, Inputs]:
    """Lifts of several kinds, each with the last twelve exposures of half a year."""

    def rising(low: float, step: float) -> Callable[[int], Dose]:
        return lambda place: dose(4, "8", str(low + step * (place // 4)))

    days = tuple(TODAY - timedelta(days=ago) for ago in range(84, 0, -2))
    squat, bench, curl, pull_up = (
        half_a_year(rising(60, 2.5)),
        half_a_year(lambda place: dose(3, "6-8", str(40 + 2.5 * (place // 6)))),
        half_a_year(lambda _: dose(3, "10-12", "12")),
        half_a_year(lambda _: dose(4, "4-6", "bw")),
    )
    more = {"trained_on": days, "last_trained": day(3)}
    pain = (hurt(10, Site.KNEE, 5), hurt(3, Site.KNEE, 2, row=2))
    return {
        "squat, fixed reps": inputs("back-squat", squat[-1].dose, *squat[-LOOK_BACK:], **more),
        "squat, a knee that hurt": inputs(
            "back-squat", squat[-1].dose, *squat[-LOOK_BACK:], pain=pain, **more
        ),
        "bench press, a range": inputs("bench-press", bench[-1].dose, *bench[-LOOK_BACK:], **more),
        "curl, a step to be earned": inputs("curl", curl[-1].dose, *curl[-LOOK_BACK:], **more),
        "pull-up": inputs("pull-up", pull_up[-1].dose, *pull_up[-LOOK_BACK:], **more),
    }


def rate(act: Callable[[], object], times: int, tries: int = 5) -> float:
    """The best of some tries. [1/s] On the time of the processor, so that what else runs counts for nothing."""
    best = 0.0
    for _ in range(tries):
        begun = time.process_time()
        for _ in range(times):
            act()
        best = max(best, times / (time.process_time() - begun))
    return best


def test_decisions_a_second(capsys: pytest.CaptureFixture[str]) -> None:
    given = cases()
    rates = {name: rate(lambda one=one: next_decision(one), 400) for name, one in given.items()}
    together = len(rates) / sum(1 / each for each in rates.values())
    load, reps, goal = 100.0, 8, 8
    bare = rate(lambda: int((load * 1.025 if reps >= goal else load) / 2.5) * 2.5, 200_000)

    times = bare / together
    held = {mark: "held" if together >= mark else "missed" for mark in (GOAL, FLOOR)}

    lines = [
        f"{WEEKS} weeks of history, looking back over {LOOK_BACK} sessions, one core, best of 5 [decisions/s]:",
        *(f"  {name:26} {each:8.0f}" for name, each in rates.items()),
        f"  {'together':26} {together:8.0f}   goal {GOAL}: {held[GOAL]}, floor {FLOOR}: {held[FLOOR]}",
        f"  one line on floats         {bare:8.0f}   {times:.0f} times that, at most {MOST_TIMES}",
    ]
    with capsys.disabled():
        print("", *lines, sep="\n")  # noqa: T201
    assert {len(one.history) for one in given.values()} == {LOOK_BACK}
    assert next_decision(given["squat, a knee that hurt"]).kind is not Kind.RAISE
    assert times < MOST_TIMES
    assert together > FLOOR
