"""A clinician's limit as a coach types it: what is read, and what is asked about instead."""

from datetime import date
from typing import Any

import pytest
from rows import each_row

from core.loads.clinician_words import clinician_first, clinician_named
from core.loads.limit_words import limit_read
from core.loads.limits import Clinician, Limit, LimitKind
from core.programme.exercises import Pattern, Site
from core.programme.restrictions import Restriction
from core.units import Mass, Unit

TODAY = date(2026, 4, 6)
NO, MOST, RULE = LimitKind.FORBIDDEN, LimitKind.MOST_LOAD, LimitKind.RESTRICTION
OVERHEAD = {"kind": RULE, "restriction": Restriction.OVERHEAD}
PHYSIO, DOCTOR = {"by": Clinician.PHYSIOTHERAPIST}, {"by": Clinician.DOCTOR}


def limit(**fields: Any) -> Limit:
    return Limit.model_validate({"row_id": 0, "since": TODAY, **fields})


@each_row(
    ("text", "fields"),
    [
        ("no overhead until 1 June, by physiotherapist", OVERHEAD | PHYSIO | {"until": date(2026, 6, 1)}),
        ("No arms overhead, says the physio.", OVERHEAD | PHYSIO),
        ("no overhead for 10 days", OVERHEAD | {"until": date(2026, 4, 15)}),
        ("no overhead from 3 May by her GP", OVERHEAD | DOCTOR | {"since": date(2026, 5, 3)}),
        (
            "no overhead since 1 March; midwife",
            OVERHEAD | {"since": date(2026, 3, 1), "by": Clinician.MIDWIFE},
        ),
        ("no overhead, review in 3 weeks", OVERHEAD | {"review_on": date(2026, 4, 27)}),
        (
            "deadlift at most 60 kg, doctor, review 10 May",
            {"kind": MOST, "exercise": "deadlift", "mass": Mass.of(60), "review_on": date(2026, 5, 10)}
            | DOCTOR,
        ),
        ("hinges at most 62,5 kg", {"kind": MOST, "pattern": Pattern.HINGE, "mass": Mass.of("62.5")}),
        (
            "at most 135 lb on bench press",
            {"kind": MOST, "exercise": "bench-press", "mass": Mass.of(135, Unit.LB)},
        ),
        ("at most 20 kg for deadlift", {"kind": MOST, "exercise": "deadlift", "mass": Mass.of(20)}),
        ("nothing heavier than 20 kg", {"kind": MOST, "mass": Mass.of(20)}),
        ("curls at most 8 kg a hand", {"kind": MOST, "pattern": Pattern.CURL, "mass": Mass.of(16)}),
        ("nothing that loads the left knee", {"kind": NO, "site": Site.KNEE}),
        ("no knee loading", {"kind": NO, "site": Site.KNEE}),
        ("nothing with the right shoulder", {"kind": NO, "site": Site.SHOULDER}),
        ("no squats", {"kind": NO, "pattern": Pattern.SQUAT}),
        ("avoid any deadlift", {"kind": NO, "exercise": "deadlift"}),
        ("no training until 2026-04-20, doctor", {"kind": NO, "until": date(2026, 4, 20)} | DOCTOR),
    ],
)
def test_a_line_is_read_as_one_limit(text: str, fields: dict[str, Any]) -> None:
    assert limit_read(text, TODAY).limits == (limit(**fields),)


def test_several_limits_share_the_practitioner_and_the_days() -> None:
    read = limit_read("no overhead, no deep knee bend until 1 June, by her doctor", TODAY)
    assert [(each.restriction, each.by, each.until) for each in read.limits] == [
        (Restriction.OVERHEAD, Clinician.DOCTOR, date(2026, 6, 1)),
        (Restriction.DEEP_KNEE, Clinician.DOCTOR, date(2026, 6, 1)),
    ]


def test_a_word_that_means_two_patterns_limits_both() -> None:
    read = limit_read("no pressing", TODAY)
    assert [each.pattern for each in read.limits] == [Pattern.HORIZONTAL_PRESS, Pattern.VERTICAL_PRESS]


@pytest.mark.parametrize(
    ("text", "unread"),
    [
        ("no flumbo", ("no flumbo",)),
        ("no overhead until 31 blurb", ("no overhead until 31 blurb",)),
        ("no overhead until further notice", ("no overhead until further notice",)),
        ("no overhead, until she is well", ("until she is well",)),
        ("no overhead by Dr Somebody", ("no overhead by Dr Somebody",)),
        ("no overhead for now", ("no overhead for now",)),
        ("no overhead, review when it is better", ("review when it is better",)),
        ("no back loading", ("no back loading",)),
        ("knee is sore", ("knee is sore",)),
        ("flumbo at most 20 kg", ("flumbo at most 20 kg",)),
        ("by doctor", ()),
        ("", ()),
    ],
)
def test_what_is_not_read_in_full_keeps_nothing_of_the_line(text: str, unread: tuple[str, ...]) -> None:
    read = limit_read(text, TODAY)
    assert (read.limits, read.unread) == ((), unread)


def test_near_names_are_offered() -> None:
    assert "Trap-bar deadlift" in limit_read("no deadlift with bands", TODAY).near


def test_a_load_without_a_unit_is_asked_about() -> None:
    read = limit_read("deadlift at most 60", TODAY)
    assert (read.limits, read.no_unit) == ((), True)


def test_a_limit_that_ends_before_it_begins_is_told() -> None:
    read = limit_read("no overhead from 3 May until 1 May", TODAY)
    assert (read.limits, read.backwards) == ((), True)


@pytest.mark.parametrize(
    ("text", "clinician"),
    [
        ("by her physio", Clinician.PHYSIOTHERAPIST),
        ("the GP", Clinician.DOCTOR),
        ("Midwife.", Clinician.MIDWIFE),
        ("other", Clinician.OTHER),
        ("her neighbour", None),
    ],
)
def test_practitioners_have_many_names(text: str, clinician: Clinician | None) -> None:
    assert clinician_named(text) is clinician


def test_whom_and_why_stand_on_both_sides_of_a_colon() -> None:
    assert clinician_first("physio:  left knee ") == (Clinician.PHYSIOTHERAPIST, "left knee")
    assert clinician_first("left knee") == (None, "left knee")
