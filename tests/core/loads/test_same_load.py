import pytest

from core.loads.past import Exposure
from core.loads.same_load import SameLoad, at_same_load
from core.programme.prescription import Load
from core.programme.set_styles import SetStyle, StyleKind
from tests.core.loads.lifts import done, dose

PUSH_UPS = dose(3, "12", "bw")
BANDED = PUSH_UPS.model_copy(update={"load": Load.banded("light")})
PAUSED = PUSH_UPS.model_copy(update={"style": SetStyle(kind=StyleKind.REST_PAUSE)})
CURLS = dose(3, "15", "10")
BARE = Load.bodyweight()


@pytest.mark.parametrize(
    ("before", "after", "expected"),
    [
        (done(7, PUSH_UPS, "12 10 9"), done(3, PUSH_UPS, "14 12 9"), (BARE, 12, 14)),
        (done(7, PUSH_UPS, "20"), done(3, PUSH_UPS, "18"), (BARE, 20, 18)),
        (done(7, BANDED, "12"), done(3, BANDED, "15"), (Load.banded("light"), 12, 15)),
        # The heaviest load that both have.
        (
            done(7, CURLS, "15 15 12", loads="8 10 12"),
            done(3, CURLS, "20 16", loads="8 10"),
            (Load.of(10), 15, 16),
        ),
        (done(7, CURLS, "15", loads="10"), done(3, CURLS, "15", loads="10.0"), (Load.of(10), 15, 15)),
    ],
)
def test_the_best_sets_at_the_same_load(
    before: Exposure, after: Exposure, expected: tuple[Load, int, int]
) -> None:
    load, earlier, later = expected

    found = at_same_load(before, after)

    assert found == SameLoad(load=load, before=earlier, after=later, with_left=False)
    assert found.gained == later - earlier


def test_reps_left_count_where_every_set_says_them() -> None:
    said, silent = done(7, PUSH_UPS, "12", left=3), done(3, PUSH_UPS, "14", left=0)

    assert at_same_load(said, silent) == SameLoad(load=BARE, before=15, after=14, with_left=True)
    assert at_same_load(said, done(3, PUSH_UPS, "14")) == SameLoad(
        load=BARE, before=12, after=14, with_left=False
    )
    assert at_same_load(said, done(3, PUSH_UPS, "14 12", left=0)) == SameLoad(
        load=BARE, before=12, after=14, with_left=False
    )


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (done(7, CURLS, "15", loads="10"), done(3, CURLS, "15", loads="12")),
        (done(7, BANDED, "12"), done(3, PUSH_UPS, "12")),
        (done(7, PAUSED, "12"), done(3, PUSH_UPS, "12")),
        (done(7, PUSH_UPS, "12"), done(3, PAUSED, "12")),
        (done(7, dose(1, "30", "bw", timed=True), "30"), done(3, dose(1, "30", "bw", timed=True), "40")),
    ],
)
def test_what_has_nothing_in_common_is_not_compared(before: Exposure, after: Exposure) -> None:
    assert at_same_load(before, after) is None


def test_an_exercise_without_a_load_is_compared_by_its_reps() -> None:
    bare = dose(2, "12")

    assert at_same_load(done(7, bare, "12 12"), done(3, bare, "13 12")) == SameLoad(
        load=None, before=12, after=13, with_left=False
    )
