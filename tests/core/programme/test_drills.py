from collections import Counter

import pytest
from pydantic import ValidationError
from rows import each_row

from core.programme.catalogue import CATALOGUE
from core.programme.drill import Drill, Stage
from core.programme.drills import DRILLS, drills_that_fit
from core.programme.exercises import Implement, Level, Pattern, Site, Station
from core.programme.folding import folded
from core.programme.restrictions import Restriction

ROWS = list(DRILLS.values())


def test_there_are_forty_drills_with_names_of_their_own() -> None:
    names = Counter(folded(drill.name) for drill in ROWS)
    exercises = {folded(name) for row in CATALOGUE.values() for name in (row.name, *row.aliases)}

    assert len(DRILLS) == 40
    assert [name for name, count in names.items() if count > 1 or name in exercises] == []
    assert [key for key, drill in DRILLS.items() if key != drill.key] == []


@each_row("drill", ROWS)
def test_a_drill_has_a_short_cue_sites_and_patterns(drill: Drill) -> None:
    assert 10 <= len(drill.cue) <= 100
    assert drill.cue.endswith(".")
    assert drill.sites
    assert drill.prepares


# No claim is made for a drill: these words are for clinicians.
@pytest.mark.parametrize(
    "word", ["pain", "hurt", "heal", "treat", "rehab", "injur", "relie", "fix", "safe", "cure"]
)
def test_no_drill_claims_to_help_against_anything(word: str) -> None:
    assert [drill.key for drill in ROWS if word in f"{drill.name} {drill.cue}".casefold()] == []


@each_row("drill", ROWS)
def test_a_dose_is_short(drill: Drill) -> None:
    assert drill.takes_s <= 90
    assert 5 <= (drill.reps or drill.seconds or 0) <= 30


def test_only_light_things_are_used() -> None:
    assert {drill.implement for drill in ROWS} == {Implement.BODYWEIGHT, Implement.BAND}


@each_row("site", Site)
def test_every_site_is_served_by_something_that_loosens_or_wakes_up(site: Site) -> None:
    assert [drill.key for drill in ROWS if site in drill.sites and drill.stage is not Stage.REHEARSE]


@each_row("restriction", Restriction)
@each_row("pattern", Pattern)
def test_every_pattern_is_prepared_without_kit_under_any_one_restriction(
    pattern: Pattern, restriction: Restriction
) -> None:
    assert [drill for drill in drills_that_fit((), [restriction]) if pattern in drill.prepares]


@pytest.mark.parametrize("restriction", sorted(set(Restriction) - {Restriction.JUMPING}))
def test_most_restrictions_forbid_some_drill(restriction: Restriction) -> None:
    forbidding = {Restriction.PRONE, Restriction.SPINE_LOAD, Restriction.LOADED_HINGE}

    assert bool([drill for drill in ROWS if restriction in drill.breaks]) is (restriction not in forbidding)


def test_what_fits_needs_the_kit_and_breaks_no_restriction() -> None:
    bare = {drill.key for drill in drills_that_fit(())}
    banded = {drill.key for drill in drills_that_fit([Implement.BAND])}
    hung = {drill.key for drill in drills_that_fit({Station.PULL_UP_BAR})}
    kept = {drill.key for drill in drills_that_fit((), {Restriction.FLOOR})}

    assert banded - bare == {"band-side-step", "band-turn-out"}
    assert hung - bare == {"dead-hang"}
    assert "cat-camel" in bare
    assert "cat-camel" not in kept


def test_a_drill_for_the_trained_is_not_for_the_first_month() -> None:
    later = DRILLS["ankle-rock"].model_copy(update={"level": Level.TRAINED})

    assert drills_that_fit((), drills={"ankle-rock": later}) == ()
    assert drills_that_fit((), level=Level.TRAINED, drills={"ankle-rock": later}) == (later,)
    assert drills_that_fit((), level=Level.TRAINED) == drills_that_fit(())


@pytest.mark.parametrize("dose", [{"reps": None}, {"seconds": 20}])
def test_a_drill_is_counted_or_held_and_never_both(dose: dict[str, int | None]) -> None:
    with pytest.raises(ValidationError, match="reps or seconds"):
        Drill(**{**DRILLS["ankle-rock"].model_dump(), **dose})


def test_how_long_a_drill_takes_counts_both_sides_and_the_change() -> None:
    assert DRILLS["ankle-rock"].takes_s == 8 * 3 * 2 + 10
    assert DRILLS["doorway-stretch"].takes_s == 30 + 10
    assert DRILLS["wall-calf-stretch"].takes_s == 30 * 2 + 10


def test_patterns_are_written_in_order_and_a_link_is_nowhere_yet() -> None:
    written = DRILLS["ankle-circles"].model_dump(mode="json")

    assert written["prepares"] == ["calf", "jump", "step"]
    assert {drill.link for drill in ROWS} == {None}
    assert Drill.model_validate(written) == DRILLS["ankle-circles"]
