"""How a written name is looked up in the catalogue."""

import pytest
from rows import each_row

from core.programme.catalogue import CATALOGUE, exercise, named, suggestions


@each_row(
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
        ("Bulgarian", "rear-foot-raised-split-squat"),
        ("Seated leg curl", "seated-leg-curl"),
        ("Lat pulldowns", "pulldown"),
        ("Row", None),
        ("press", None),
        ("Lunges", None),
        ("Fly", None),
        ("Shrugs", None),
        ("Assisted pull-up", None),
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
        ("row", "barbell-row"),
        ("press", "bench-press"),
        ("dumbbell press", "dumbbell-bench-press"),
        ("Assisted pull-up", "band-assisted-pull-up"),
    ],
)
def test_what_is_near_is_suggested_likest_first(text: str, first: str) -> None:
    assert suggestions(text)[0].key == first


def test_a_word_that_many_names_have_suggests_several_main_lifts_first() -> None:
    assert [row.key for row in suggestions("row")] == ["barbell-row", "band-row", "chest-supported-row"]
    assert [row.key for row in suggestions("press", limit=4)] == [
        "bench-press",
        "dumbbell-bench-press",
        "incline-bench-press",
        "overhead-press",
    ]


def test_what_is_far_behind_the_likest_name_is_not_suggested_beside_it() -> None:
    assert [row.key for row in suggestions("Hip thurst")] == ["hip-thrust"]


def test_at_most_the_asked_number_is_suggested_and_nothing_for_what_is_far() -> None:
    assert len(suggestions("dumbbell press", limit=2)) == 2
    assert suggestions("zzyzx") == ()
    assert suggestions("–") == ()
    assert suggestions("row", catalogue={}) == ()


def test_a_coachs_own_exercises_are_looked_up_in_the_catalogue_that_is_given() -> None:
    own = {
        "winch-pull": CATALOGUE["back-squat"].model_copy(
            update={"key": "winch-pull", "name": "Winch pull", "aliases": ()}
        )
    }

    assert named("winch pulls", own) == own["winch-pull"]
    assert named("Hip thrust", own) is None
    assert suggestions("winch pul", catalogue=own) == (own["winch-pull"],)
    assert exercise("winch-pull", own) == own["winch-pull"]
    assert exercise("dip") == CATALOGUE["dip"]
