"""Ways up by the reps of all sets together, once a week, and by the open last set, where loads lie between steps.

Double progression, strict and total, and the weekly step: common practice, no source. The last set: [NSCA].
"""

import pytest

from core.loads.decision import Exposure
from core.programme.prescription import Dose
from core.programme.ways_up import WayKind, WayUp
from tests.core.loads.lifts import brief, codes, decide, done, dose


def by(kind: WayKind, asked: Dose, **more: object) -> Dose:
    return asked.model_copy(update={"way": WayUp(kind=kind), **more})


TOTAL = by(WayKind.TOTAL_REPS, dose(3, "8-12", "60"))
STRICT = by(WayKind.ADD_REPS, dose(3, "8-12", "60"))


@pytest.mark.parametrize(
    ("counts", "in_all", "strict"),
    [
        # The worked example of the trade: 8-12 in three sets, a step of 2.5 kg.
        ("12 12 12", "raise 62.5 kg 3x8 left 2: raise total", "raise 62.5 kg 3x8 left 2: raise top"),
        ("12 12 11", "hold 60 kg 3x12 left 2: add a rep", "hold 60 kg 3x12 left 2: add a rep"),
        ("13 12 11", "raise 62.5 kg 3x8 left 2: raise total", "hold 60 kg 3x12 left 2: add a rep"),
        ("14 12 9", "hold 60 kg 3x10 left 2: add a rep", "hold 60 kg 3x10 left 2: add a rep"),
        ("15 13 8", "raise 62.5 kg 3x8 left 2: raise total", "hold 60 kg 3x9 left 2: add a rep"),
        # A set over the ones asked for counts for nothing; one under the range is a miss.
        ("11 11 11 9", "hold 60 kg 3x12 left 2: add a rep", "hold 60 kg 3x12 left 2: add a rep"),
        ("16 16 7", "hold 60 kg 3x8 left 2: miss first", "hold 60 kg 3x8 left 2: miss first"),
    ],
)
def test_all_sets_together_or_each_at_the_top(counts: str, in_all: str, strict: str) -> None:
    assert brief(decide("bench-press", TOTAL, done(2, TOTAL, counts, left=2))) == in_all
    assert brief(decide("bench-press", STRICT, done(2, STRICT, counts, left=2))) == strict


def test_it_is_told_how_many_in_all() -> None:
    told = decide("bench-press", TOTAL, done(2, TOTAL, "13 12 11", left=2)).reasons[0]

    assert told.facts == {
        "load": "60 kg", "reps": "11", "sets": "3", "next": "62.5 kg", "done": "36", "goal": "36",
    }  # fmt: skip


def test_in_all_of_the_weaker_side() -> None:
    asked = by(WayKind.TOTAL_REPS, dose(2, "8-10", "30"))
    near = done(2, asked, "11 11 9 8", sides="LRLR", left=2)
    full = done(2, asked, "11 12 9 10", sides="LRLR", left=2)

    assert codes(decide("one-arm-row", asked, near)) == ["add a rep"]
    assert codes(decide("one-arm-row", asked, full)) == ["add a rep", "cap"]


def test_a_step_over_the_cap_is_earned_in_every_set_all_the_same() -> None:
    asked = by(WayKind.TOTAL_REPS, dose(3, "8-12", "12"))

    assert (
        brief(decide("curl", asked, done(2, asked, "14 12 10", left=2)))
        == "hold 12 kg 3x11 left 2: add a rep, cap"
    )
    assert (
        brief(decide("curl", asked, done(2, asked, "15 15 15", left=2)))
        == "raise 14 kg 3x8 left 2: raise earned"
    )


WEEKLY = by(WayKind.EACH_WEEK, dose(5, "10", "60"))
EIGHTS = by(WayKind.EACH_WEEK, dose(5, "8", "60"))


@pytest.mark.parametrize(
    ("asked", "history", "expected"),
    [
        # The phase goes from 10 to 8: that is the step, 5 % by the formula, and no weekly raise on top of it.
        (
            EIGHTS,
            (done(7, WEEKLY, "10 10 10 10 10", left=2),),
            "raise 62.5 kg 5x8 left 2: cap, cap week, reps changed",
        ),
        (
            EIGHTS,
            (
                done(9, WEEKLY, "10 10 10 10 10", left=2),
                done(3, EIGHTS, "8 8 8 8 8", loads=" ".join(["62.5"] * 5)),
            ),
            "hold 62.5 kg 5x8 left 2: week hold",
        ),
        # Where the kit made no step of it, the week still begins with the new reps.
        (
            EIGHTS,
            (done(9, WEEKLY, "10 10 10 10 10", left=2), done(3, EIGHTS, "8 8 8 8 8", left=2)),
            "hold 60 kg 5x8 left 2: week hold",
        ),
        (
            EIGHTS,
            (done(7, EIGHTS, "8 8 8 8 8", left=2), done(3, EIGHTS, "8 8 8 8 8", left=2)),
            "raise 62.5 kg 5x8 left 2: raise each week",
        ),
        # A load between two steps, taken meanwhile, does not begin the week anew; a step does, and so does a fall.
        (
            EIGHTS,
            (
                done(7, EIGHTS, "8 8 8 8 8", left=2),
                done(2, EIGHTS, "8 8 8 8 8", loads=" ".join(["61"] * 5), left=2),
            ),
            "raise 62.5 kg 5x8 left 2: raise each week",
        ),
        (
            EIGHTS,
            (
                done(7, EIGHTS, "8 8 8 8 8", left=2),
                done(2, EIGHTS, "8 8 8 8 8", loads=" ".join(["62.5"] * 5), left=2),
            ),
            "hold 62.5 kg 5x8 left 2: week hold",
        ),
        (
            EIGHTS,
            (
                done(7, EIGHTS, "8 8 8 8 8", loads=" ".join(["65"] * 5), left=2),
                done(2, EIGHTS, "8 8 8 8 8", left=2),
            ),
            "hold 60 kg 5x8 left 2: week hold",
        ),
    ],
)
def test_once_a_week_and_a_phase_is_a_step_of_its_own(
    asked: Dose, history: tuple[Exposure, ...], expected: str
) -> None:
    assert brief(decide("bench-press", asked, *history)) == expected


def test_the_open_last_set_counts_for_a_load_between_two_steps_as_well() -> None:
    asked = by(WayKind.LAST_SET, dose(3, "8", "100"), or_more=True)
    between = (done(4, asked, "8 8 10", left=2), done(2, asked, "8 8 10", loads="101 101 101", left=2))

    assert brief(decide("back-squat", asked, *between)) == "raise 102.5 kg 3x8 left 2: raise by the last set"
