"""Doses and sets on a card: every form that a coach can write."""

from decimal import Decimal

from rows import each_row

from bot.render.loads import dose_words, load_words, sets_words
from core.checkin.training_log import LoggedSet
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Dose, Load, PercentOf, Span
from core.programme.set_styles import SetStyle, StyleKind
from core.units import Mass

EIGHT, TEN = Span(low=8, high=8), Span(low=10, high=10)
UP, DOWN = SetStyle(kind=StyleKind.ASCENDING), SetStyle(kind=StyleKind.DESCENDING, steps=2)


def dose(**fields: object) -> Dose:
    return Dose.model_validate({"sets": 3, "reps": EIGHT, **fields})


DOSES = [
    ("bench-press", dose(load=Load.of(60)), "3 × 8 at <b>60 kg</b>"),
    ("bench-press", dose(load=Load.share("72.5", PercentOf.ESTIMATE)), "3 × 8 at <b>72.5 % of estimate</b>"),
    ("bench-press", dose(load=Load.up(Mass.of("2.5"))), "3 × 8, 2.5 kg more than last time"),
    ("bench-press", dose(load=Load.find()), "3 × 8, find the load"),
    ("bench-press", dose(load=Load.of(60), or_more=True), "3 × 8, the last set 8 or more at <b>60 kg</b>"),
    ("bench-press", dose(load=Load.of(60), style=UP), "3 × 8, heavier each set up to <b>60 kg</b>"),
    ("push-up", dose(style=UP), "3 × 8, heavier each set"),
    (
        "curl",
        dose(sets=1, load=Load.of(14), style=DOWN),
        "1 × 8 at <b>14 kg a hand</b>, then 2 steps down without a rest, 20–25 % lighter each",
    ),
    (
        "curl",
        dose(sets=1, style=SetStyle(kind=StyleKind.DESCENDING, steps=1, drop=Decimal("12.5"))),
        "1 × 8, then 1 step down without a rest, 12.5 % lighter each",
    ),
    (
        "curl",
        dose(sets=1, reps=TEN, style=SetStyle(kind=StyleKind.REST_PAUSE, pause_s=20)),
        "1 × 10, with pauses of 20 s in the set",
    ),
    (
        "deadlift",
        dose(load=Load.of(100), style=SetStyle(kind=StyleKind.CLUSTER, parts=(3, 3, 2))),
        "3 × (3 + 3 + 2) at <b>100 kg</b>, 15 s between the parts",
    ),
    ("bench-press", dose(reps=None, to_left=True, left=2), "3 sets to 2 left"),
    ("bench-press", dose(sets=1, reps=None, to_left=True, left=1, left_high=2), "1 set to 1-2 left"),
    ("split-squat", dose(reps=TEN, portion=5, each_side=True), "3 × 10 a side in 5s"),
    (
        "farmer-carry",
        dose(reps=None, metres=Span(low=40, high=40), load=Load.of(24)),
        "3 × 40 m at <b>24 kg a hand</b>",
    ),
    ("plank", dose(reps=None, seconds=Span(low=30, high=30)), "3 × 30 s"),
    ("band-pull-apart", dose(load=Load.banded("light")), "3 × 8 with a <b>light band</b>"),
]


@each_row(("key", "asked", "expected"), DOSES)
def test_every_form_stands_on_the_card(key: str, asked: Dose, expected: str) -> None:
    assert dose_words(asked, CATALOGUE[key]) == expected


def test_a_name_that_a_coach_gave_is_only_text() -> None:
    asked = dose(load=Load.banded("a&b"))

    assert dose_words(asked, CATALOGUE["band-pull-apart"]) == "3 × 8 with a <b>a&amp;b band</b>"
    assert load_words(None) == ""


def test_metres_are_said_as_metres() -> None:
    sets = [
        LoggedSet(number, 1, number, "", Load.of(24), None, None, None, False, 1, None, metres=metres)
        for number, metres in enumerate((40, 30), 1)
    ]

    assert sets_words(sets) == "24 kg × 40 m 30 m"
