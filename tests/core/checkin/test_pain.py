import json
from datetime import UTC, date, datetime

import pytest
from rows import each_row

from core.checkin.pain import (
    AlertLevel,
    Band,
    PainAction,
    PainReport,
    alert_level,
    band,
    bears_on,
    flares,
    in_session_action,
    is_locking,
    loads_site,
    locks,
    patterns_loaded_by,
)
from core.programme.catalogue import CATALOGUE, exercise
from core.programme.exercises import Pattern, Site

NOON = datetime(2026, 4, 14, 12, tzinfo=UTC)


def report(score: int | None, site: Site = Site.KNEE, **more: object) -> PainReport:
    return PainReport(row_id=1, site=site, score=score, on=date(2026, 4, 14), at=NOON, **more)


@pytest.mark.parametrize(
    ("score", "plain", "with_painkiller"),
    [
        (0, Band.NONE, Band.LOW),
        (1, Band.LOW, Band.MIDDLE),
        (3, Band.LOW, Band.MIDDLE),
        (4, Band.MIDDLE, Band.HIGH),
        (6, Band.MIDDLE, Band.HIGH),
        (7, Band.HIGH, Band.HIGH),
        (10, Band.HIGH, Band.HIGH),
        (None, Band.MIDDLE, Band.HIGH),
    ],
)
def test_a_score_has_its_band_and_a_painkiller_lifts_it(
    score: int | None, plain: Band, with_painkiller: Band
) -> None:
    assert band(report(score)) is plain
    assert band(report(score, painkiller=True)) is with_painkiller


def test_sudden_pain_is_in_the_highest_band_at_any_score() -> None:
    assert band(report(1, sudden=True)) is Band.HIGH


# The table of a practising coach's review, common practice, no source.
@pytest.mark.parametrize(
    ("site", "patterns"),
    [
        (Site.KNEE, {"squat", "lunge", "step", "knee extension", "jump"}),
        (Site.LOW_BACK, {"hinge", "squat", "horizontal pull", "carry", "swing", "vertical press"}),
        (Site.SHOULDER, {"horizontal press", "vertical press", "dip", "vertical pull"}),
        (Site.WRIST, {"horizontal press", "vertical press", "squat", "curl", "carry", "swing"}),
        (Site.ELBOW, {"horizontal press", "vertical press", "squat", "curl", "carry", "swing"}),
        (Site.HIP, {"squat", "lunge", "hinge"}),
        (Site.GROIN, {"squat", "lunge", "hinge"}),
        (Site.ANKLE, {"calf", "jump", "lunge"}),
        (Site.CALF, {"calf", "jump", "lunge"}),
        (Site.NECK, {"vertical press", "shrug", "carry", "squat"}),
    ],
)
def test_a_site_is_loaded_by_its_patterns(site: Site, patterns: set[str]) -> None:
    assert {pattern.value for pattern in patterns_loaded_by(site)} == patterns


def test_every_site_is_loaded_by_something() -> None:
    assert [site for site in Site if not patterns_loaded_by(site)] == []


@pytest.mark.parametrize(
    ("key", "site", "loaded"),
    [
        ("barbell-row", Site.LOW_BACK, True),
        ("chest-supported-row", Site.LOW_BACK, False),
        ("front-squat", Site.WRIST, True),
        ("leg-press", Site.WRIST, False),
        ("back-squat", Site.NECK, True),
        ("goblet-squat", Site.NECK, False),
        ("leg-press", Site.LOW_BACK, True),
        ("leg-curl", Site.KNEE, True),
        ("curl", Site.KNEE, False),
    ],
)
def test_of_some_patterns_only_some_exercises_load_a_site(key: str, site: Site, loaded: bool) -> None:
    assert loads_site(exercise(key), site) is loaded


@each_row("row", CATALOGUE.values())
def test_every_site_that_the_catalogue_names_counts(row: object) -> None:
    assert all(loads_site(row, site) for site in row.loads_sites)


def test_a_report_bears_on_the_exercise_it_came_with_and_on_what_loads_the_site() -> None:
    assert bears_on(report(3, exercise="curl"), exercise("curl"))
    assert bears_on(report(3), exercise("split-squat"))
    assert not bears_on(report(3), exercise("curl"))


@pytest.mark.parametrize(
    ("given", "locked"),
    [
        (report(6), False),
        (report(7), True),
        (report(6, painkiller=True), True),
        (report(2, sudden=True), True),
        (report(1, spreading=True), True),
        (report(9, released_at=NOON), False),
        (report(9, site=Site.WRIST), True),
        (report(9, site=Site.NECK), True),
        (report(9, site=Site.ELBOW, exercise="back-squat"), True),
        (report(9, site=Site.SHIN), False),
    ],
)
def test_what_locks_a_back_squat(given: PainReport, locked: bool) -> None:
    row = exercise("front-squat") if given.site is Site.WRIST else exercise("back-squat")
    assert locks(given, row) is locked


def test_spreading_back_pain_forbids_every_loaded_hinge_and_all_that_presses_on_the_spine() -> None:
    spreading = report(1, site=Site.UPPER_BACK, spreading=True)
    still_free = {row.pattern for row in CATALOGUE.values() if not locks(spreading, row)}
    axial = {
        Pattern.HINGE,
        Pattern.SQUAT,
        Pattern.LUNGE,
        Pattern.CARRY,
        Pattern.SWING,
        Pattern.VERTICAL_PRESS,
    }
    assert not still_free & axial
    assert Pattern.KNEE_EXTENSION in still_free


def test_spreading_from_elsewhere_forbids_what_loads_that_site_only() -> None:
    spreading = report(1, site=Site.ELBOW, spreading=True)
    assert locks(spreading, exercise("curl"))
    assert not locks(spreading, exercise("deadlift").model_copy(update={"loads_sites": frozenset()}))


@pytest.mark.parametrize(
    ("given", "first", "then", "level"),
    [
        (report(0), PainAction.NOTE, PainAction.NOTE, AlertLevel.NONE),
        (report(3), PainAction.NOTE, PainAction.NOTE, AlertLevel.DIGEST),
        (report(4), PainAction.EASE, PainAction.SWAP, AlertLevel.TODAY),
        (report(6), PainAction.EASE, PainAction.SWAP, AlertLevel.TODAY),
        (report(None), PainAction.EASE, PainAction.SWAP, AlertLevel.TODAY),
        (report(2, painkiller=True), PainAction.EASE, PainAction.SWAP, AlertLevel.TODAY),
        (
            report(1, site=Site.NECK, spreading=True),
            PainAction.STOP_EXERCISE,
            PainAction.STOP_EXERCISE,
            AlertLevel.NOW,
        ),
        (report(7), PainAction.STOP_SESSION, PainAction.STOP_SESSION, AlertLevel.NOW),
        (report(1, sudden=True), PainAction.STOP_SESSION, PainAction.STOP_SESSION, AlertLevel.NOW),
        (report(0, weak=True), PainAction.STOP_SESSION, PainAction.STOP_SESSION, AlertLevel.NOW),
        (
            report(1, site=Site.LOW_BACK, fever=True),
            PainAction.STOP_SESSION,
            PainAction.STOP_SESSION,
            AlertLevel.NOW,
        ),
        (
            report(None, site=Site.ABDOMEN, after_birth=True),
            PainAction.STOP_EXERCISE,
            PainAction.STOP_EXERCISE,
            AlertLevel.NOW,
        ),
        (report(3, rose=True), PainAction.NOTE, PainAction.NOTE, AlertLevel.TODAY),
    ],
)
def test_what_a_report_asks_for_at_once(
    given: PainReport, first: PainAction, then: PainAction, level: AlertLevel
) -> None:
    assert in_session_action(given) is first
    assert in_session_action(given, eased=True) is then
    assert alert_level(given) is level


def test_a_flare_is_pain_of_four_and_over_or_without_a_number_or_spreading() -> None:
    assert [flares(report(score)) for score in (0, 3, 4, 9, None)] == [False, False, True, True, True]
    for more in ("spreading", "weak", "fever", "after_birth", "rose", "sudden"):
        assert flares(report(1, **{more: True})), more


@pytest.mark.parametrize("more", ["spreading", "weak", "fever"])
def test_what_reaches_down_a_limb_or_comes_with_a_fever_forbids_all_that_presses_on_the_spine(
    more: str,
) -> None:
    told = report(1, site=Site.NECK, **{more: True})
    assert locks(told, exercise("deadlift"))
    assert is_locking(told)
    assert not is_locking(told.model_copy(update={"released_at": NOON}))


def test_a_sign_after_a_birth_locks_the_exercise_it_came_with_and_what_loads_the_belly() -> None:
    told = report(None, site=Site.ABDOMEN, after_birth=True, exercise="back-squat")
    assert locks(told, exercise("back-squat"))
    assert locks(told, exercise("plank"))
    assert not locks(told, exercise("curl"))


def test_what_came_later_is_written_only_where_it_says_something() -> None:
    assert set(json.loads(report(3).model_dump_json())).isdisjoint({"weak", "fever", "after_birth", "rose"})
    assert json.loads(report(3, weak=True).model_dump_json())["weak"] is True
