from decimal import Decimal

import pytest

from core.loads.dated_estimates import DatedEstimate
from core.loads.estimate_history import dated_estimate
from core.loads.one_rep_max import Formula
from core.loads.past import Cause, Exposure
from core.programme.catalogue import exercise
from core.programme.set_styles import SetStyle, StyleKind
from core.units import Mass
from tests.core.loads.lifts import day, done, dose

BENCH, PULL_UP, PUSH_UP = (exercise(key) for key in ("bench-press", "pull-up", "push-up"))
FIVES, HUNG = dose(3, "5", "90"), dose(3, "5", "bw+10")


def of_bench(exposure: Exposure, **more: object) -> DatedEstimate:
    found = dated_estimate(exposure, BENCH, **more)
    assert found is not None
    return found


def test_the_best_set_of_a_session_is_its_point_with_its_reps_in_all() -> None:
    # By Epley's line: 90 x (1 + 8 / 30), 6 done and 2 left.
    session = done(2, FIVES, "5 5 6", left=2, effort=4)

    assert of_bench(session, kit="gym") == DatedEstimate(
        session_id=session.session_id,
        on=day(2),
        mass=Mass.of(114),
        formula=Formula.EPLEY,
        total=Decimal(8),
        effort=4,
        left=2,
        kit="gym",
    )


def test_of_equal_sets_the_point_is_the_one_whose_reps_left_were_given() -> None:
    found = of_bench(done(2, FIVES, "5 5 5", left=0))

    assert (found.mass, found.left) == (Mass.of(105), 0)


@pytest.mark.parametrize(
    ("counts", "mass", "total"), [("7 5 4", "111", 7), ("4 5 7", "111", 7), ("5 5 13", "105", 5)]
)
def test_neither_order_nor_a_set_of_thirteen_matters(counts: str, mass: str, total: int) -> None:
    found = of_bench(done(2, FIVES, counts))

    assert (found.mass, found.total, found.left) == (Mass.of(mass), total, None)


def test_another_formula_gives_its_own_history() -> None:
    found = of_bench(done(2, FIVES, "5"), formula=Formula.BRZYCKI)

    assert (found.mass, found.formula) == (Mass.of("101.25"), Formula.BRZYCKI)


@pytest.mark.parametrize(
    "session",
    [
        done(2, FIVES, "0 0 0"),
        done(2, FIVES, "13 14"),
        done(2, dose(1, "5"), "5"),
        done(2, dose(1, "30", "20", timed=True), "30"),
        done(2, FIVES, "5").model_copy(update={"sets": ()}),
        done(2, FIVES.model_copy(update={"style": SetStyle(kind=StyleKind.REST_PAUSE)}), "5"),
    ],
)
def test_a_session_without_an_estimate_to_believe_has_no_point(session: Exposure) -> None:
    assert dated_estimate(session, BENCH) is None


@pytest.mark.parametrize(
    ("facts", "deload", "held_back"),
    [
        ({}, False, False),
        ({"deload": True}, True, False),
        ({"dose": FIVES.model_copy(update={"lighter": True})}, True, False),
        ({"eased": True}, False, True),
        ({"merged": True}, False, True),
        ({"cause": Cause.PAIN}, False, True),
        ({"cause": Cause.TIME}, False, True),
    ],
)
def test_what_shows_no_strength_is_marked(facts: dict[str, object], deload: bool, held_back: bool) -> None:
    found = of_bench(done(2, FIVES, "5 5 5").model_copy(update=facts))

    assert (found.deload, found.held_back, found.comeback) == (deload, held_back, False)
    assert of_bench(done(2, FIVES, "5"), comeback=True).comeback


def test_what_hangs_counts_with_the_body() -> None:
    # (80 + 10) x (1 + 5 / 30): the body is in it, as in what is lifted.
    found = dated_estimate(done(2, HUNG, "5 5 5"), PULL_UP, body=Mass.of(80))

    assert found is not None
    assert found.mass == Mass.of(105)
    assert dated_estimate(done(2, HUNG, "5 5 5"), PULL_UP) is None
    assert dated_estimate(done(2, dose(1, "8", "bw"), "8"), PUSH_UP, body=Mass.of(80)) is None
    assert of_bench(done(2, FIVES, "5"), body=Mass.of(80)).mass == Mass.of(105)
