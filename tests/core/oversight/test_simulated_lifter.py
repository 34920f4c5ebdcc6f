import numpy as np
import pytest

from core.oversight.simulated_lifter import (
    MISSES,
    REPS_LEAST,
    REPS_MOST,
    simulated_lifter,
)
from core.units import Unit
from tests.core.oversight.simulated import Scripted, lifter


def test_the_client_in_the_middle_is_what_the_numbers_say() -> None:
    drawn = simulated_lifter(Scripted(), Unit.LB)

    assert (drawn.kit_kind, drawn.age_band, drawn.new) == ("bar", "18-39", False)
    assert drawn.kit.unit is Unit.LB
    assert (drawn.body_kg, drawn.strength, drawn.reps, drawn.gain) == (76.0, 1.04, 30.0, 0.0008)
    assert (drawn.side_gap, drawn.keeps) == (0, 0)
    assert drawn.misses == pytest.approx(sum(MISSES) / 2)


def test_age_and_months_of_training_bear_on_growth() -> None:
    # Kit, alone, arms, then: 60 and over, 40 to 59, new.
    old = simulated_lifter(Scripted(0.5, 0.5, 0.5, 0.1, 0.1, 0.1), Unit.KG)
    middle = simulated_lifter(Scripted(0.5, 0.5, 0.5, 0.9, 0.1, 0.9), Unit.KG)

    assert (old.age_band, old.new, old.gain) == ("60+", True, pytest.approx(0.0020 * 0.7))
    assert (middle.age_band, middle.new, middle.gain) == ("40-59", False, 0.0008)


@pytest.mark.parametrize(
    ("kind", "alone", "arms", "expected"),
    [
        ("bar", True, False, True),
        ("bar", True, True, False),
        ("bar", False, False, False),
        ("dumbbells", True, False, False),
    ],
)
def test_only_who_has_a_bar_and_nobody_and_no_arms_is_alone_under_it(
    kind: str, alone: bool, arms: bool, expected: bool
) -> None:
    kit = lifter(kind).kit.model_copy(update={"usually_alone": alone, "safety_arms": arms})

    assert lifter(kind, kit=kit).alone_under_bar is expected


def test_everybody_is_within_what_was_seen_of_lifters() -> None:
    people = [simulated_lifter(np.random.default_rng(seed), Unit.KG) for seed in range(400)]

    assert all(REPS_LEAST <= one.reps <= REPS_MOST for one in people)
    assert {one.kit_kind for one in people} == {"bar", "both", "dumbbells"}
    assert {one.age_band for one in people} == {"18-39", "40-59", "60+"}
    assert {one.keeps for one in people} == {0, 1}
    assert all(MISSES[0] <= one.misses <= MISSES[1] for one in people)
