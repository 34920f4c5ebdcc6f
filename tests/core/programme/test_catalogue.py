from collections import Counter
from decimal import Decimal

import pytest

from core.programme.catalogue import CATALOGUE, exercise, named, suggestions
from core.programme.exercises import Basis, Exercise, Implement, Pattern, Region, Site
from core.programme.folding import folded

ROWS = list(CATALOGUE.values())


@pytest.fixture(params=ROWS, ids=[row.key for row in ROWS])
def row(request: pytest.FixtureRequest) -> Exercise:
    return request.param


def test_the_catalogue_has_at_least_forty_exercises() -> None:
    assert len(CATALOGUE) >= 40


def test_every_name_and_alias_is_unique_after_folding() -> None:
    names = Counter(
        name for row in ROWS for name in {folded(text) for text in (row.name, *row.aliases, row.key)}
    )

    assert [name for name, count in names.items() if count > 1] == []


def test_an_exercise_has_equals_that_exist_and_at_least_one_in_other_kit(row: Exercise) -> None:
    others = [CATALOGUE[key] for key in row.equals]

    assert len(set(row.equals)) >= 2
    assert row.key not in row.equals
    assert any(other.implement is not row.implement for other in others) or row.pattern in {
        Pattern.TRUNK,
        Pattern.CARRY,
    }


def test_an_exercise_has_a_short_cue_and_sites(row: Exercise) -> None:
    assert 10 <= len(row.cue) <= 100
    assert row.cue.endswith(".")
    assert row.loads_sites


# Which implement can be counted how: common practice, no source.
BASES = {
    Implement.BARBELL: {Basis.TOTAL},
    Implement.DUMBBELL: {Basis.PER_HAND, Basis.TOTAL},
    Implement.KETTLEBELL: {Basis.TOTAL, Basis.PER_HAND},
    Implement.STACK: {Basis.STACK},
    Implement.BAND: {Basis.TOTAL},
    Implement.BODYWEIGHT: {Basis.BODYWEIGHT},
}


def test_a_load_is_counted_as_its_implement_allows(row: Exercise) -> None:
    assert row.basis in BASES[row.implement]


# Which sites a pattern loads, after the coach's review: our proposal. Loads held in the hands and bars on the
# back add to it.
SITES = {
    Pattern.SQUAT: {Site.KNEE, Site.HIP, Site.GROIN},
    Pattern.LUNGE: {Site.KNEE, Site.HIP, Site.GROIN, Site.ANKLE, Site.CALF},
    Pattern.STEP: {Site.KNEE},
    Pattern.KNEE_EXTENSION: {Site.KNEE},
    Pattern.HINGE: {Site.LOW_BACK, Site.HIP, Site.GROIN},
    Pattern.CALF: {Site.ANKLE, Site.CALF},
    Pattern.HORIZONTAL_PRESS: {Site.SHOULDER, Site.WRIST, Site.ELBOW},
    Pattern.VERTICAL_PRESS: {Site.SHOULDER, Site.WRIST, Site.ELBOW, Site.NECK, Site.LOW_BACK},
    Pattern.DIP: {Site.SHOULDER, Site.WRIST, Site.ELBOW},
    Pattern.VERTICAL_PULL: {Site.SHOULDER},
    Pattern.CURL: {Site.WRIST, Site.ELBOW},
    Pattern.CARRY: {Site.LOW_BACK, Site.NECK, Site.HAND},
    Pattern.SWING: {Site.LOW_BACK},
}


def test_an_exercise_loads_the_sites_of_its_pattern(row: Exercise) -> None:
    assert SITES.get(row.pattern, set()) - row.loads_sites == set()


def test_safeties_are_asked_for_under_a_bar_alone() -> None:
    needing = {row.key for row in ROWS if row.needs_safeties}

    assert needing == {"back-squat", "front-squat", "bench-press", "overhead-press"}


def test_bodyweight_moves_in_part_or_whole_where_it_counts() -> None:
    shares = {row.key: row.body_share for row in ROWS if row.body_share is not None}

    assert shares == {"push-up": Decimal("0.69"), "dip": 1, "pull-up": 1}


def test_every_region_and_both_ways_of_counting_are_there() -> None:
    assert {row.region for row in ROWS} == set(Region)
    assert {(row.each_side, row.timed) for row in ROWS} == {
        (a, b) for a in (True, False) for b in (True, False)
    }


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Hip thrust", "hip-thrust"),
        ("HIP  THRUSTS", "hip-thrust"),
        ("hip–thrust", "hip-thrust"),
        ("Híp thrust", "hip-thrust"),
        ("pullups", "pull-up"),
        ("Farmers walk", "farmer-carry"),
        ("Farmer’s Walk", "farmer-carry"),
        ("RDL", "romanian-deadlift"),
        ("DB RDL", "romanian-deadlift-dumbbell"),
        ("bench", "bench-press"),
        ("DB bench", "dumbbell-bench-press"),
        ("one-leg-hinge", "one-leg-hinge"),
        ("Hip thurst", None),
        ("Hip", None),
        ("", None),
        ("–", None),
    ],
)
def test_a_name_is_matched_folded_and_whole_or_not_at_all(text: str, key: str | None) -> None:
    found = named(text)

    assert (found.key if found else None) == key


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("Hip thurst", "hip-thrust"),
        ("Romanain deadlift", "romanian-deadlift"),
        ("lat pull", "pulldown"),
        ("press overhead", "overhead-press"),
        ("sqaut", "back-squat"),
    ],
)
def test_what_is_near_is_suggested_likest_first(text: str, first: str) -> None:
    assert suggestions(text)[0].key == first


def test_at_most_the_asked_number_is_suggested_and_nothing_for_what_is_far() -> None:
    assert len(suggestions("dumbbell press", limit=2)) == 2
    assert suggestions("zzyzx") == ()
    assert suggestions("–") == ()


def test_a_coachs_own_exercises_are_looked_up_in_the_catalogue_that_is_given() -> None:
    own = {
        "winch-pull": ROWS[0].model_copy(update={"key": "winch-pull", "name": "Winch pull", "aliases": ()})
    }

    assert named("winch pulls", own) == own["winch-pull"]
    assert named("Hip thrust", own) is None
    assert suggestions("winch pul", catalogue=own) == (own["winch-pull"],)
    assert exercise("winch-pull", own) == own["winch-pull"]
    assert exercise("dip") == CATALOGUE["dip"]
