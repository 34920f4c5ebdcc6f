from decimal import Decimal

import pytest

from core.loads.one_rep_max import Formula, Trust
from core.loads.past import Exposure
from core.loads.session_maximum import best_estimate
from core.programme.catalogue import exercise
from core.programme.exercises import Basis
from core.programme.set_styles import SetStyle, StyleKind
from core.units import Mass
from tests.core.loads.lifts import done, dose

FIVES, ONES = dose(3, "5", "90"), dose(1, "1", "120")
PULL_UPS = dose(3, "5", "bw+10")


def styled(kind: StyleKind, **more: object) -> Exposure:
    style = SetStyle(kind=kind, **more)
    return done(2, FIVES.model_copy(update={"style": style}), "5 5 5")


@pytest.mark.parametrize(
    ("session", "mass", "trust"),
    [
        (done(2, FIVES, "5 5 5"), "105", Trust.GOOD),
        # The best set, not the last and not the mean: 90 x 37 / 30.
        (done(2, FIVES, "7 5 4"), "111", Trust.GOOD),
        (done(2, FIVES, "5 5 5", loads="90 96 81"), "112", Trust.GOOD),
        # Reps left of the last set are folded in once: 90 x 38 / 30.
        (done(2, FIVES, "5 5 5", left=3), "114", Trust.GOOD),
        (done(2, FIVES, "5 5 5", left=4), "117", Trust.ROUGH),
        (done(2, FIVES, "9"), "117", Trust.ROUGH),
        (done(2, ONES, "1"), "120", Trust.GOOD),
        # A set of 13 gives nothing that a rule may use; the set beside it does.
        (done(2, FIVES, "13 5"), "105", Trust.GOOD),
    ],
)
def test_a_session_shows_what_its_best_set_shows(session: Exposure, mass: str, trust: Trust) -> None:
    found = best_estimate(session)

    assert found is not None
    assert found.mass == Mass.of(mass)
    assert (found.trust, found.basis) == (trust, None)


@pytest.mark.parametrize(
    "session",
    [
        done(2, FIVES, "13 30"),
        done(2, FIVES, "0"),
        done(2, dose(1, "5"), "5"),
        done(2, dose(1, "30", "24", timed=True), "30"),
        done(2, PULL_UPS, "5"),
        styled(StyleKind.REST_PAUSE),
        styled(StyleKind.CLUSTER, parts=(3, 2)),
        styled(StyleKind.DESCENDING, steps=2),
    ],
)
def test_a_session_without_a_set_to_go_by_shows_nothing(session: Exposure) -> None:
    assert best_estimate(session) is None


def test_ascending_sets_are_sets_to_go_by() -> None:
    assert best_estimate(styled(StyleKind.ASCENDING)) == best_estimate(done(2, FIVES, "5 5 5"))


def test_one_formula_makes_all_of_a_history() -> None:
    found = best_estimate(done(2, FIVES, "5"), Formula.BRZYCKI, exercise=exercise("bench-press"))

    assert found is not None
    assert found.mass.value == Decimal("101.25")
    assert (found.formula, found.basis) == (Formula.BRZYCKI, Basis.TOTAL)


def test_what_hangs_is_estimated_with_the_body_and_told_without_it() -> None:
    # (80 + 10) x 35 / 30 = 105.
    found = best_estimate(done(2, PULL_UPS, "5 4"), exercise=exercise("pull-up"), body=Mass.of(80))
    bare = best_estimate(done(2, dose(1, "6", "bw"), "6"), exercise=exercise("pull-up"), body=Mass.of(80))

    assert found is not None
    assert (found.mass, found.basis) == (Mass.of(25), Basis.BODYWEIGHT)
    assert bare is not None
    assert bare.mass == Mass.of(16)


@pytest.mark.parametrize(("key", "body"), [("pull-up", None), ("push-up", Mass.of(80)), (None, Mass.of(80))])
def test_without_the_body_or_where_only_part_of_it_moves_nothing_is_estimated(
    key: str | None, body: Mass | None
) -> None:
    lift = None if key is None else exercise(key)

    assert best_estimate(done(2, PULL_UPS, "5"), exercise=lift, body=body) is None


@pytest.mark.parametrize(
    ("counts", "loads"),
    # 90 x 40 / 30 and 100 x 36 / 30 are both 120, of ten reps and of six.
    [("5 7 4", "90 88 94"), ("10 6", "90 100"), ("6 10", "100 90")],
)
def test_the_order_of_sets_does_not_matter(counts: str, loads: str) -> None:
    session = done(2, FIVES, counts, loads=loads)
    turned = session.model_copy(update={"sets": session.sets[::-1]})

    found = best_estimate(session)

    assert found is not None
    assert found == best_estimate(turned)
    assert found.trust is Trust.GOOD
