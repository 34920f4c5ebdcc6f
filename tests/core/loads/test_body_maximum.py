from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.body_maximum import PARTS, added_maximum, moved, moves_whole_body
from core.loads.one_rep_max import Formula, Trust
from core.programme.catalogue import CATALOGUE, exercise
from core.programme.exercises import Basis
from core.units import Mass

BODY, NONE = Mass.of(80), Mass.of(0)


def test_bodyweight_counts_as_load_only_where_all_of_it_hangs_or_is_dipped() -> None:
    assert sorted(key for key, row in CATALOGUE.items() if moves_whole_body(row)) == [
        "chin-up",
        "dip",
        "pull-up",
    ]


@pytest.mark.parametrize(
    ("key", "added", "least", "most"),
    [
        ("pull-up", "10", "90", "90"),
        ("dip", "-30", "50", "50"),
        ("push-up", "0", "55.2", "60"),  # 69 to 75 % of 80 kg
        ("push-up", "10", "65.2", "70"),
        ("knee-push-up", "0", "43.2", "49.6"),  # 54 to 62 %
    ],
)
def test_how_much_moves(key: str, added: str, least: str, most: str) -> None:
    # The shares are from memory; measured means lie around their lower ends: [Mier2014].
    assert moved(exercise(key), BODY, Mass.of(added)) == (Mass.of(least), Mass.of(most))


@pytest.mark.parametrize("key", ["incline-push-up", "bodyweight-squat", "plank"])
def test_where_nobody_knows_the_share_nothing_is_said(key: str) -> None:
    assert moved(exercise(key), BODY, NONE) is None


def test_the_catalogue_takes_the_lower_end_of_each_share() -> None:
    assert {key: CATALOGUE[key].body_share for key in PARTS} == {
        key: shares.least for key, shares in PARTS.items()
    }


@pytest.mark.parametrize(
    ("added", "reps", "left", "best"),
    [
        ("10", 5, 0, "25.00"),  # 90 x 35 / 30 = 105, without the body
        ("-30", 6, 0, "-20.00"),  # 50 x 36 / 30 = 60: not yet one without help
        ("0", 6, 2, "21.33"),  # 80 x 38 / 30 = 101.33
        ("20", 1, 0, "20.00"),
    ],
)
def test_the_most_that_could_be_added_once(added: str, reps: int, left: int, best: str) -> None:
    found = added_maximum(exercise("pull-up"), BODY, Mass.of(added), reps, left)

    assert found is not None
    assert found.mass.value.quantize(Decimal("0.01")) == Decimal(best)
    assert (found.basis, found.trust) == (Basis.BODYWEIGHT, Trust.GOOD)


@pytest.mark.parametrize(
    ("key", "added", "reps"),
    [("push-up", "0", 5), ("pull-up", "0", 16), ("pull-up", "-80", 5), ("pull-up", "0", 0)],
)
def test_where_there_is_no_telling_nothing_is_told(key: str, added: str, reps: int) -> None:
    assert added_maximum(exercise(key), BODY, Mass.of(added), reps) is None


@given(st.integers(50, 120), st.integers(50, 120), st.integers(2, 12), st.sampled_from(Formula))
def test_who_weighs_more_has_done_more_with_as_much_added(
    one: int, other: int, reps: int, formula: Formula
) -> None:
    light, heavy = (
        added_maximum(exercise("chin-up"), Mass.of(body), NONE, reps, 0, formula)
        for body in sorted((one, other))
    )
    assert light is not None
    assert heavy is not None
    assert light.mass <= heavy.mass
