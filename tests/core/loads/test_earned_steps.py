"""Steps that were earned with reps: caps yield to one of them, and to no more. Our proposal, by [Epley1985]."""

from decimal import Decimal

import pytest

from core.loads.decision import Exposure
from core.policy import Policy
from core.programme.prescription import Dose
from core.units import Mass
from tests.core.loads.lifts import HOME, brief, decide, done, dose

TIGHT = Policy(cap_week_lower=Decimal("0.02"), cap_week_upper=Decimal("0.02"))
EIGHTS, RANGE = dose(3, "8", "100"), dose(3, "8-12", "100")
CARRY = dose(3, "30-45", "24", timed=True)


@pytest.mark.parametrize(
    ("key", "asked", "history", "load"),
    [
        # 102.5 kg takes 9 reps in every set, and the week allows 102 kg.
        ("back-squat", EIGHTS, (done(4, EIGHTS, "8 8 8"), done(2, EIGHTS, "8 8 8")), "100 kg"),
        ("back-squat", EIGHTS, (done(4, EIGHTS, "9 9 9"), done(2, EIGHTS, "9 9 9")), "102.5 kg"),
        ("back-squat", RANGE, (done(2, RANGE, "12 12 12"),), "102.5 kg"),
        # No time earns anything.
        ("farmer-carry", CARRY, (done(2, CARRY, "45 45 45"),), "24 kg"),
    ],
)
def test_the_cap_of_a_week_yields_to_a_step_that_reps_have_earned(
    key: str, asked: Dose, history: tuple[Exposure, ...], load: str
) -> None:
    assert str(decide(key, asked, *history, policy=TIGHT).load) == load


@pytest.mark.parametrize(
    ("counts", "expected"),
    [
        # 42 kg by the formula, and 42.5 kg takes 11 reps in every set.
        ("10 10 10", "hold 40 kg 3x9 left 2: reps changed, rounded down"),
        ("11 11 11", "raise 42.5 kg 3x8 left 2: reps changed"),
        ("13 12 12", "raise 42.5 kg 3x8 left 2: reps changed"),
    ],
)
def test_at_other_reps_a_step_that_was_earned_is_taken(counts: str, expected: str) -> None:
    history = (done(2, dose(3, "10", "40"), counts),)

    assert brief(decide("back-squat", dose(3, "8-9", "40"), *history)) == expected


def test_a_step_that_was_earned_at_other_reps_is_one_that_the_cap_of_a_week_yields_to() -> None:
    asked, history = dose(3, "8-9", "40"), (done(2, dose(3, "10", "40"), "11 11 11"),)

    assert str(decide("back-squat", asked, *history, policy=TIGHT).load) == "42.5 kg"


@pytest.mark.parametrize(
    ("asked", "counts", "expected"),
    [
        # With none to be left, 14 kg takes 12 reps over a range from 6, and 14 over one from 7.
        (dose(3, "6-8", "12", left=0), "12 12 12", "raise 14 kg 3x6 left 0: raise earned"),
        (dose(3, "7-9", "12", left=0), "13 13 13", "hold 12 kg 3x14 left 0: add a rep, cap"),
        # More than enough is enough.
        (dose(3, "8-12", "12"), "20 20 20", "raise 14 kg 3x8 left 2: raise earned"),
    ],
)
def test_the_reps_that_earn_a_step_over_the_cap(asked: Dose, counts: str, expected: str) -> None:
    assert brief(decide("curl", asked, done(2, asked, counts))) == expected


@pytest.mark.parametrize(
    ("heavier", "counts", "expected"),
    [
        # 13 kg takes 20 reps, and the long range ends there; 14 kg takes 24.
        (13, "20 20 20", "raise 13 kg 3x8 left 2: raise earned"),
        (14, "20 20 20", "hold 10 kg 3x20 left 2 bridge: bridge"),
        (14, "22 22 22", "hold 10 kg 3x20 left 2 bridge: bridge"),
        (None, "22 22 22", "hold 10 kg 3x20 left 2 bridge: bridge"),
    ],
)
def test_a_step_that_takes_more_reps_than_the_long_range_has_is_bridged(
    heavier: int | None, counts: str, expected: str
) -> None:
    there = (Mass.of(10),) if heavier is None else (Mass.of(10), Mass.of(heavier))
    asked, kit = dose(3, "8-12", "10"), HOME.model_copy(update={"dumbbells": there})

    assert brief(decide("curl", asked, done(2, asked, counts), kit=kit)) == expected
