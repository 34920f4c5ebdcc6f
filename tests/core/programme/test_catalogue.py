from collections import Counter
from decimal import Decimal

import pytest
from rows import each_row

from core.programme.catalogue import CATALOGUE
from core.programme.exercises import (
    Basis,
    Exercise,
    Implement,
    Level,
    Pattern,
    Region,
    Site,
    SpinalLoad,
    Station,
)
from core.programme.folding import folded
from core.programme.muscles import Muscle
from core.programme.restrictions import Restriction
from core.programme.sisters import sisters

ROWS = list(CATALOGUE.values())


def test_the_catalogue_has_a_hundred_and_twenty_exercises() -> None:
    assert len(CATALOGUE) == 120
    assert [key for key, row in CATALOGUE.items() if key != row.key] == []


def test_every_name_and_alias_is_unique_after_folding() -> None:
    names = Counter(
        name for row in ROWS for name in {folded(text) for text in (row.name, *row.aliases, row.key)}
    )

    assert [name for name, count in names.items() if count > 1] == []


@each_row("row", ROWS)
def test_equals_exist_are_of_the_same_or_a_sister_pattern_and_need_other_kit(row: Exercise) -> None:
    others = [CATALOGUE[key] for key in row.equals]

    assert len(set(row.equals)) == len(row.equals) >= 2
    assert [other.key for other in others if other.pattern not in (row.pattern, *sisters(row.pattern))] == []
    assert [
        other.key for other in others if (other.implement, other.needs) == (row.implement, row.needs)
    ] == []


@each_row("row", ROWS)
def test_an_exercise_from_the_first_month_names_equals_of_that_level_first(row: Exercise) -> None:
    levels = [CATALOGUE[key].level for key in row.equals]

    if row.level is Level.FIRST_MONTH:
        assert levels.count(Level.FIRST_MONTH) >= 2
        assert levels == sorted(levels, key=list(Level).index)


@each_row("row", ROWS)
def test_equals_reach_at_least_two_other_implements(row: Exercise) -> None:
    assert len({CATALOGUE[key].implement for key in row.equals} - {row.implement}) >= 2


# Four places to train at: what is lifted, and what else stands there. The floor, a bench or seat and a step or stair
# are in each but the one with dumbbells alone, which has no bench. Our proposal.
KITS = {
    "bar and plates": ({Implement.BARBELL}, {Station.RACK, Station.BENCH, Station.STEP}),
    "dumbbells alone": ({Implement.DUMBBELL}, {Station.STEP}),
    "bands": ({Implement.BAND}, {Station.ANCHOR, Station.BENCH, Station.STEP}),
    "machines": ({Implement.STACK}, {Station.MACHINE, Station.CABLE, Station.BENCH, Station.STEP}),
}


def fits(row: Exercise, place: str) -> bool:
    implements, stations = KITS[place]
    return row.implement in implements | {Implement.BODYWEIGHT} and row.needs <= stations


@each_row("place", KITS)
@each_row("row", ROWS)
def test_every_place_has_an_equal_two_steps_away_at_most(row: Exercise, place: str) -> None:
    one = [row, *(CATALOGUE[key] for key in row.equals)]
    two = [*one, *(CATALOGUE[key] for each in one for key in each.equals)]

    assert [each.key for each in two if fits(each, place)]


def test_one_kit_alone_trains_every_muscle_but_these() -> None:
    trained = {
        place: {muscle for row in ROWS if fits(row, place) for muscle in row.direct | row.indirect}
        for place in KITS
    }

    assert {place: set(Muscle) - muscles for place, muscles in trained.items()} == {
        "bar and plates": set(),
        "dumbbells alone": set(),
        "bands": set(),
        "machines": set(),
    }


@each_row("row", ROWS)
def test_what_a_row_must_say_is_said(row: Exercise) -> None:
    assert {"direct", "spinal_load", "level"} <= row.model_fields_set
    assert row.direct
    assert not row.direct & row.indirect


def test_every_muscle_is_trained_by_something_in_full() -> None:
    assert set(Muscle) - {muscle for row in ROWS for muscle in row.direct} == set()


def test_muscles_stations_and_restrictions_are_written_in_order() -> None:
    written = CATALOGUE["rear-foot-raised-split-squat"].model_dump(mode="json")

    assert written["indirect"] == ["adductors", "hamstrings"]
    assert CATALOGUE["back-squat"].model_dump(mode="json")["needs"] == ["rack"]
    assert written["breaks"] == sorted(written["breaks"])
    assert Exercise.model_validate(written) == CATALOGUE["rear-foot-raised-split-squat"]


@each_row("row", ROWS)
def test_what_loads_the_spine_breaks_that_restriction_and_nothing_else_does(row: Exercise) -> None:
    assert (Restriction.SPINE_LOAD in row.breaks) is (row.spinal_load is not SpinalLoad.NONE)


def test_a_bar_on_the_shoulders_is_a_high_load_and_a_machine_never() -> None:
    high = {row.key for row in ROWS if row.spinal_load is SpinalLoad.HIGH}

    assert high >= {
        "back-squat",
        "front-squat",
        "box-squat",
        "barbell-reverse-lunge",
        "deadlift",
        "barbell-row",
    }
    assert [key for key in high if CATALOGUE[key].implement in (Implement.STACK, Implement.BODYWEIGHT)] == []


# What follows from the rest of a row, so that no restriction is forgotten: our proposal.
@each_row("row", ROWS)
def test_restrictions_follow_from_what_an_exercise_needs_and_loads(row: Exercise) -> None:
    follows = set()
    if Station.PULL_UP_BAR in row.needs:
        follows |= {Restriction.HANGING, Restriction.GRIP, Restriction.OVERHEAD}
    if row.pattern in (Pattern.HINGE, Pattern.SWING):
        follows.add(Restriction.LOADED_HINGE)
    if row.pattern in (Pattern.VERTICAL_PRESS, Pattern.VERTICAL_PULL):
        follows.add(Restriction.OVERHEAD)
    if row.pattern is Pattern.JUMP:
        follows.add(Restriction.JUMPING)
    if row.pattern is Pattern.STEP:
        follows.add(Restriction.ONE_LEG)
    if row.pattern is Pattern.LUNGE:
        follows.add(Restriction.DEEP_KNEE)
    if row.implement in (Implement.DUMBBELL, Implement.KETTLEBELL) and row.key != "dumbbell-hip-thrust":
        follows.add(Restriction.GRIP)

    assert follows - row.breaks == set()


@pytest.mark.parametrize(
    ("key", "broken"),
    [
        ("bench-press", {"no lying flat on the back", "no loaded grip", "no wrist bent back under load"}),
        ("push-up", {"no getting down to the floor", "no wrist bent back under load"}),
        ("leg-press", set()),
        ("leg-curl", {"no lying face down"}),
        ("seated-leg-curl", set()),
        ("glute-bridge", {"no lying flat on the back", "no getting down to the floor"}),
        ("step-down", {"no balancing on one leg"}),
        (
            "crunch",
            {
                "no lying flat on the back",
                "no getting down to the floor",
                "no bending or turning of the spine",
            },
        ),
        ("box-jump", {"no jumping", "no load on the spine"}),
    ],
)
def test_which_restrictions_break_what(key: str, broken: set[str]) -> None:
    assert {each.value for each in CATALOGUE[key].breaks} == broken


def test_every_first_month_has_every_pattern_but_jumps_swings_and_dips() -> None:
    begun = {row.pattern for row in ROWS if row.level is Level.FIRST_MONTH}

    assert set(Pattern) - begun == {Pattern.JUMP, Pattern.SWING, Pattern.DIP}


# Usual steps up, counted as the load is: common practice, no source.
STEPS = {
    Implement.BARBELL: {Decimal("2.5"), Decimal(5)},
    Implement.DUMBBELL: {Decimal(1), Decimal(2)},
    Implement.KETTLEBELL: {Decimal(4)},
    Implement.STACK: {Decimal("2.5"), Decimal(5)},
    Implement.BAND: {None},
    Implement.BODYWEIGHT: {None, Decimal("2.5")},
}


@each_row("row", ROWS)
def test_a_step_up_is_one_that_the_implement_has(row: Exercise) -> None:
    assert row.step_kg in STEPS[row.implement]
    assert row.implement is not Implement.BODYWEIGHT or (row.step_kg is not None) is (row.body_share == 1)


def test_only_what_is_walked_is_counted_in_metres() -> None:
    walked = {row.key for row in ROWS if row.by_distance}

    assert walked == {"farmer-carry", "suitcase-carry", "kettlebell-carry", "walking-lunge", "band-side-walk"}


# What a coach's old block names must not change under it.
def test_the_exercises_that_stored_blocks_name_are_counted_as_they_were() -> None:
    counted = {(row.key, row.basis, row.implement, row.each_side, row.timed) for row in ROWS}

    assert counted >= {
        ("goblet-squat", Basis.TOTAL, Implement.DUMBBELL, False, False),
        ("split-squat", Basis.PER_HAND, Implement.DUMBBELL, True, False),
        ("one-arm-row", Basis.PER_HAND, Implement.DUMBBELL, True, False),
        ("kettlebell-swing", Basis.TOTAL, Implement.KETTLEBELL, False, False),
        ("overhead-elbow-extension", Basis.TOTAL, Implement.DUMBBELL, False, False),
        ("side-plank", Basis.BODYWEIGHT, Implement.BODYWEIGHT, True, True),
        ("farmer-carry", Basis.PER_HAND, Implement.DUMBBELL, False, True),
    }


@each_row("row", ROWS)
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


@each_row("row", ROWS)
def test_a_load_is_counted_as_its_implement_allows(row: Exercise) -> None:
    assert row.basis in BASES[row.implement]


# Which sites a pattern loads, after the coach's review: our proposal. Loads held in the hands and bars on the
# back add to it.
SITES = {
    Pattern.SQUAT: {Site.KNEE, Site.HIP, Site.GROIN},
    Pattern.LUNGE: {Site.KNEE, Site.HIP, Site.GROIN, Site.ANKLE, Site.CALF},
    Pattern.STEP: {Site.KNEE},
    Pattern.KNEE_EXTENSION: {Site.KNEE},
    Pattern.KNEE_FLEXION: {Site.KNEE, Site.HAMSTRING},
    Pattern.HIP_ABDUCTION: {Site.HIP, Site.BUTTOCK},
    Pattern.HIP_ADDUCTION: {Site.HIP, Site.GROIN},
    Pattern.BRIDGE: {Site.HIP, Site.BUTTOCK},
    Pattern.JUMP: {Site.KNEE, Site.ANKLE, Site.CALF, Site.FOOT},
    Pattern.SHRUG: {Site.NECK, Site.UPPER_BACK},
    Pattern.TRUNK: {Site.ABDOMEN, Site.LOW_BACK},
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


@each_row("row", ROWS)
def test_an_exercise_loads_the_sites_of_its_pattern(row: Exercise) -> None:
    assert SITES.get(row.pattern, set()) - row.loads_sites == set()


def test_safeties_are_asked_for_under_a_bar_alone() -> None:
    needing = {row.key for row in ROWS if row.needs_safeties}

    assert needing == {
        "back-squat",
        "front-squat",
        "box-squat",
        "barbell-reverse-lunge",
        "bench-press",
        "incline-bench-press",
        "close-grip-bench-press",
        "overhead-press",
    }
    assert [key for key in needing if Station.RACK not in CATALOGUE[key].needs] == []


def test_bodyweight_moves_in_part_or_whole_where_it_counts() -> None:
    shares = {row.key: row.body_share for row in ROWS if row.body_share is not None}

    assert shares == {
        "push-up": Decimal("0.69"),
        "knee-push-up": Decimal("0.54"),
        "dip": 1,
        "pull-up": 1,
        "chin-up": 1,
    }


def test_every_region_and_both_ways_of_counting_are_there() -> None:
    assert {row.region for row in ROWS} == set(Region)
    assert {(row.each_side, row.timed) for row in ROWS} == {
        (a, b) for a in (True, False) for b in (True, False)
    }
