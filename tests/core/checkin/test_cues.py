"""Which cue of a coach's is shown with an exercise, and which is said when something hurts a little."""

from datetime import UTC, date, datetime
from typing import Any

import pytest
from rows import each_row

from core.checkin.cues import BodyPlace, Cue, cue_at, exercise_cue, place_named
from core.checkin.pain import PainReport
from core.programme.exercises import Side, Site

ROWS = iter(range(1, 10_000))


def cue(text: str, exercise: str | None = None, site: Site | None = None, **more: Any) -> Cue:
    return Cue.model_validate(
        {"row_id": next(ROWS), "for_one": False, "exercise": exercise, "site": site, "text": text, **more}
    )


def pain(score: int | None = 2, exercise: str | None = "hip-thrust", **more: Any) -> PainReport:
    return PainReport.model_validate(
        {
            "row_id": 1,
            "site": Site.KNEE,
            "side": Side.LEFT,
            "score": score,
            "on": date(2026, 4, 7),
            "at": datetime(2026, 4, 7, 8, tzinfo=UTC),
            "exercise": exercise,
            **more,
        }
    )


def test_the_newest_cue_of_an_exercise_counts_for_one_and_for_all_apart() -> None:
    cues = [
        cue("old", "hip-thrust"),
        cue("all", "hip-thrust"),
        cue("hers", "hip-thrust", for_one=True),
        cue("other", "back-squat"),
        cue("site", "hip-thrust", Site.KNEE),
    ]

    assert exercise_cue(cues, "hip-thrust", for_one=False) == "all"
    assert exercise_cue(cues, "hip-thrust", for_one=True) == "hers"
    assert exercise_cue(cues, "back-squat", for_one=True) is None
    assert exercise_cue((), "hip-thrust", for_one=False) is None


NEARER = [
    cue("all, knee", None, Site.KNEE),
    cue("all, left knee", None, Site.KNEE, side=Side.LEFT),
    cue("all, thrust, knee", "hip-thrust", Site.KNEE),
    cue("hers, knee", None, Site.KNEE, for_one=True),
    cue("hers, thrust, knee", "hip-thrust", Site.KNEE, for_one=True),
    cue("hers, thrust, left knee", "hip-thrust", Site.KNEE, for_one=True, side=Side.LEFT),
    cue("hers, thrust, left knee, newer", "hip-thrust", Site.KNEE, for_one=True, side=Side.LEFT),
]


def test_what_is_nearer_to_the_report_is_said() -> None:
    said = [cue_at(NEARER[:count], pain()) for count in range(1, len(NEARER) + 1)]

    assert said == [one.text for one in NEARER]
    assert [cue_at(NEARER[count:], pain()) for count in range(len(NEARER))] == [NEARER[-1].text] * len(NEARER)


@each_row(
    ("report", "said"),
    [
        (pain(1), True),
        (pain(3), True),
        (pain(side=None), True),
        (pain(0), False),
        (pain(4), False),
        (pain(7), False),
        (pain(10), False),
        (pain(None), False),
        (pain(1, sudden=True), False),
        (pain(1, spreading=True), False),
        (pain(3, painkiller=True), False),
        (pain(side=Side.RIGHT), False),
        (pain(site=Site.HIP), False),
        (pain(exercise="back-squat"), False),
        (pain(exercise=None), False),
    ],
)
def test_a_cue_is_said_at_1_to_3_alone_at_its_place_in_its_exercise(report: PainReport, said: bool) -> None:
    cues = [cue("Push the floor apart.", "hip-thrust", Site.KNEE, side=Side.LEFT), cue("shown", "hip-thrust")]

    assert cue_at(cues, report) == ("Push the floor apart." if said else None)


def test_a_cue_for_a_place_alone_is_said_in_every_exercise_and_outside() -> None:
    cues = [cue("Slower.", None, Site.KNEE)]

    assert [cue_at(cues, pain(exercise=each)) for each in ("back-squat", None)] == ["Slower.", "Slower."]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("left knee", BodyPlace(site=Site.KNEE, side=Side.LEFT)),
        ("Knee RIGHT", BodyPlace(site=Site.KNEE, side=Side.RIGHT)),
        ("both knees", BodyPlace(site=Site.KNEE)),
        ("lower back", BodyPlace(site=Site.LOW_BACK)),
        ("chest muscle", BodyPlace(site=Site.CHEST)),
        ("back", None),
        ("left right knee", None),
        ("left", None),
        ("hip thrust", None),
        ("", None),
    ],
)
def test_a_place_is_named_as_people_call_it_and_never_guessed(text: str, place: BodyPlace | None) -> None:
    assert place_named(text) == place
