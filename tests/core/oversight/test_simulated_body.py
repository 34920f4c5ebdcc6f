from datetime import date, timedelta

import pytest

from core.oversight.simulated_body import SimulatedBody, first_doses, typical_kg
from core.programme.block import Block, Day, Line
from core.programme.catalogue import CATALOGUE, exercise
from core.programme.prescription import Dose, Load, PercentOf, Prescription, Span
from tests.core.loads.lifts import dose, load_of
from tests.core.oversight.simulated import block_of, lifter

MONDAY = date(2024, 1, 1)
BENCH = exercise("bench-press")
WRITTEN = block_of(("bench-press", dose(3, "8", "60")), ("pull-up", dose(3, "5", "bw")))


def body(block: Block = WRITTEN, **more: object) -> SimulatedBody:
    return SimulatedBody(lifter(**more), block, CATALOGUE)


def test_the_written_load_fits_at_its_own_reps_and_reps_left() -> None:
    assert body().maximum(BENCH) == pytest.approx(80)
    assert body().most(BENCH, dose(3, "8"), load_of("60"), 1.0) == 10
    assert body(strength=1.1).maximum(BENCH) == pytest.approx(88)


@pytest.mark.parametrize(("load", "reps"), [("75", 2), ("79", 1), ("80", 1), ("80.5", 0), ("40", 30)])
def test_reps_fall_with_the_load_by_the_common_line(load: str, reps: int) -> None:
    assert body().most(BENCH, dose(3, "8"), load_of(load), 1.0) == reps


@pytest.mark.parametrize(("factor", "reps"), [(15.0, 10), (30.0, 10), (60.0, 10)])
def test_whoever_has_another_line_still_fits_the_written_load(factor: float, reps: int) -> None:
    assert body(reps=factor).most(BENCH, dose(3, "8"), load_of("60"), 1.0) == reps


def test_another_line_shows_at_other_loads() -> None:
    few, many = body(reps=15.0), body(reps=60.0)

    assert few.most(BENCH, dose(3, "8"), load_of("50"), 1.0) == 15
    assert many.most(BENCH, dose(3, "8"), load_of("50"), 1.0) == 24


def test_a_worse_day_leaves_fewer_reps() -> None:
    assert body().most(BENCH, dose(3, "8"), load_of("60"), 0.95) == 8


def test_the_body_itself_is_part_of_what_a_pull_up_moves() -> None:
    pull_up = exercise("pull-up")

    assert body().maximum(pull_up) == pytest.approx(80 * 37 / 30)
    assert body().most(pull_up, dose(3, "5"), load_of("bw"), 1.0) == 7
    assert body().most(pull_up, dose(3, "5"), load_of("bw+10"), 1.0) == 2
    assert body().most(pull_up, dose(3, "5"), load_of("bw-80"), 1.0) > 100


def test_the_load_for_reps_is_the_inverse_of_the_reps_for_a_load() -> None:
    assert body().load_kg(BENCH, 10, 1.0) == pytest.approx(60)
    assert body().load_kg(exercise("pull-up"), 7, 1.0) == pytest.approx(0)
    assert body().load_kg(exercise("pull-up"), 7, 0.9) < 0


def test_without_a_written_load_the_table_is_scaled_by_what_the_block_does_write() -> None:
    level = 80 / typical_kg(BENCH)

    assert body().maximum(exercise("dumbbell-bench-press")) == pytest.approx(75 * 0.37 * level)
    assert body().maximum(exercise("goblet-squat")) == pytest.approx(100 * 0.45 * level)
    assert body().maximum(exercise("leg-curl")) == pytest.approx(50 * level)
    assert body().maximum(exercise("push-up")) == pytest.approx(80 * 0.69 * 1.33)
    assert body().maximum(exercise("inverted-row")) == pytest.approx(80 * 0.5 * 1.33)


def test_one_leg_on_a_machine_has_half_the_table() -> None:
    assert typical_kg(exercise("leg-curl").model_copy(update={"each_side": True})) == 25


def test_a_block_without_a_load_has_the_table_at_the_strength_of_the_client() -> None:
    found = body(block_of(("back-squat", dose(3, "5", "find"))), strength=1.2)

    assert found.maximum(exercise("back-squat")) == pytest.approx(120)


def test_training_makes_stronger_and_tires_until_it_is_slept_off() -> None:
    found = body(gain=0.001)
    found.wake(MONDAY)
    found.train(BENCH, 10)

    assert found.maximum(BENCH) == pytest.approx(80 * 1.01 * 0.985)
    found.wake(MONDAY + timedelta(days=2))
    assert found.maximum(BENCH) == pytest.approx(80 * 1.01 * 0.9925)
    found.wake(MONDAY + timedelta(days=60))
    assert found.maximum(BENCH) == pytest.approx(80 * 1.01)
    assert found.maximum(exercise("pull-up")) == pytest.approx(80 * 37 / 30)


def test_time_is_spare_of_what_is_asked_first_and_stays_so() -> None:
    plank = exercise("plank")
    found = body(block_of(("plank", dose(2, "30-45", timed=True))))

    assert found.most(plank, dose(2, "30-45", timed=True), None, 1.0) == 39
    assert found.most(plank, dose(2, "60", timed=True), None, 1.0) == 39
    assert body().most(plank, dose(2, "40", timed=True), None, 1.0) == 52
    assert body(strength=1.1).most(plank, dose(2, "30", timed=True), None, 1.0) == 51


def test_a_way_gets_shorter_with_more_in_the_hands() -> None:
    carry = exercise("farmer-carry")
    asked = Dose(sets=3, metres=Span(low=30, high=30), load=load_of("24"))
    found = body(block_of(("farmer-carry", asked)))

    assert found.most(carry, asked, load_of("24"), 1.0) == 39
    assert found.most(carry, asked, load_of("30"), 1.0) == 19
    # A time is asked for where a way was: it is counted from what is asked now.
    assert found.most(carry, dose(3, "20", "24", timed=True), load_of("24"), 1.0) == 26


def test_reps_with_a_band_are_those_asked_for_and_those_left() -> None:
    band = exercise("band-pull-apart")

    assert (
        body(block_of(("band-pull-apart", dose(2, "15", left=3)))).most(band, dose(2, "15"), None, 1.0) == 18
    )
    assert body().most(band, dose(2, "15", left=None), None, 1.0) == 17


def test_a_written_load_of_a_later_row_counts_before_an_open_one() -> None:
    def line(weeks: set[int], asked: Dose) -> Line:
        return Line(
            weeks=frozenset(weeks), prescription=Prescription(order="A", exercise="back-squat", dose=asked)
        )

    first, second = dose(3, "8", "60"), dose(3, "5", "70")
    lines = (line({1}, dose(3, "8", "find")), line({4}, second), line({2, 3}, first))
    block = Block(name="x", weeks=4, days=(Day(key="a", name="A", lines=lines),))

    assert first_doses(block) == {"back-squat": first}


@pytest.mark.parametrize("load", [Load.share(75, PercentOf.MAX), Load.find(), None])
def test_what_is_no_load_says_nothing_of_a_maximum(load: Load | None) -> None:
    asked = dose(3, "8").model_copy(update={"load": load})

    assert body(block_of(("bench-press", asked))).maximum(BENCH) == pytest.approx(75)


def test_a_load_for_time_says_nothing_of_a_maximum() -> None:
    found = body(block_of(("farmer-carry", dose(3, "30", "24", timed=True))))

    assert found.maximum(exercise("farmer-carry")) == pytest.approx(130 * 0.37)
