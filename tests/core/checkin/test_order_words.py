"""Orders as a coach types them, read over the exercises that a client runs."""

from collections.abc import Callable
from datetime import date

import pytest
from rows import each_row

from core.checkin.order_words import (
    Names,
    Ordered,
    OrderSaid,
    exercises_meant,
    likest,
    load_said,
    order_said,
)
from core.programme.catalogue import CATALOGUE
from core.programme.restrictions import Restriction
from core.units import Mass, Unit

TUESDAY = date(2026, 4, 7)
KEYS = (
    "back-squat",
    "front-squat",
    "step-down",
    "back-extension",
    "hip-thrust",
    "calf-raise",
    "bench-press",
    "push-up",
    "dumbbell-overhead-press",
)
NAMES = Names(
    {key: CATALOGUE[key] for key in KEYS}, CATALOGUE, {"B1": ("step-down",), "C": ("push-up", "calf-raise")}
)


def load(key: str, mass: str, **more: object) -> OrderSaid:
    return OrderSaid(what=Ordered.LOAD, exercise=key, mass=Mass.of(mass), **more)


@each_row(
    ("text", "expected"),
    [
        ("hip thrust 90 from next week", load("hip-thrust", "90", first=date(2026, 4, 13))),
        ("Hip thrust at 92,5 kg.", load("hip-thrust", "92.5")),
        ("hipthrust 90 from now until 1 May", load("hip-thrust", "90", first=TUESDAY, last=date(2026, 5, 1))),
        ("hip thrst 90 from 4 May", load("hip-thrust", "90", first=date(2026, 5, 4))),
        ("bench 60 once", load("bench-press", "60", once=True)),
        ("push-up bw+5", load("push-up", "5", added=True)),
        ("bench 60 for two weeks", load("bench-press", "60", first=TUESDAY, last=date(2026, 4, 20))),
        ("bench 60 this week", load("bench-press", "60", first=TUESDAY, last=date(2026, 4, 12))),
        (
            "hip thrust 185 lb",
            OrderSaid(what=Ordered.LOAD, exercise="hip-thrust", mass=Mass.of(185, Unit.LB)),
        ),
        (
            "bench up 2.5 next session",
            OrderSaid(what=Ordered.STEP, exercise="bench-press", mass=Mass.of("2.5"), once=True),
        ),
        (
            "bench down by 5 from monday until friday",
            OrderSaid(
                what=Ordered.STEP,
                exercise="bench-press",
                mass=Mass.of(-5),
                first=date(2026, 4, 13),
                last=date(2026, 4, 17),
            ),
        ),
        (
            "no overhead until 1 May",
            OrderSaid(what=Ordered.RESTRICT, restrictions=(Restriction.OVERHEAD,), last=date(2026, 5, 1)),
        ),
        ("swap B1 for step-ups", OrderSaid(what=Ordered.SWAP, exercise="step-down", instead="step-up")),
        (
            "swap b1 for press up",
            OrderSaid(what=Ordered.SWAP, exercise="step-down", instead="push-up"),
        ),
        ("rest Friday", OrderSaid(what=Ordered.REST, first=date(2026, 4, 10))),
        ("day off on 10.4.", OrderSaid(what=Ordered.REST, first=date(2026, 4, 10))),
        ("rest", OrderSaid(what=Ordered.REST)),
        (
            "lighter next week",
            OrderSaid(what=Ordered.LIGHTER, first=date(2026, 4, 13), last=date(2026, 4, 19)),
        ),
        ("an easier week", None),
        ("a lighter week", OrderSaid(what=Ordered.LIGHTER)),
        ("no lighter week", OrderSaid(what=Ordered.FULL)),
        ("full week until Friday", OrderSaid(what=Ordered.FULL, last=date(2026, 4, 10))),
        ("skip the deload", OrderSaid(what=Ordered.FULL)),
        ("no raises until Monday", OrderSaid(what=Ordered.HOLD, last=date(2026, 4, 13))),
        ("hold bench", OrderSaid(what=Ordered.HOLD, exercise="bench-press")),
        ("nothing heavier", OrderSaid(what=Ordered.HOLD)),
        ("pause squats", OrderSaid(what=Ordered.PAUSE, exercise="back-squat")),
        ("let squats go on", OrderSaid(what=Ordered.TAKE_UP, exercise="back-squat")),
        ("resume bench", OrderSaid(what=Ordered.TAKE_UP, exercise="bench-press")),
        ("bench again", OrderSaid(what=Ordered.TAKE_UP, exercise="bench-press")),
        ("pause C", OrderSaid(what=Ordered.PAUSE, offered=("push-up", "calf-raise"))),
        ("pause everything", None),
        ("no raises for tango", None),
        ("swap tango for push-up", None),
        ("swap bench for xqzw", None),
        ("no dancing", None),
        ("rest whenever", None),
        ("bench up from someday 2", None),
        ("bench 60 until the cows come home", None),
        ("tango 90", None),
        ("tango up 5", None),
        ("thanks, see you Friday", None),
        ("great work on the squats", None),
        ("sleep 8 hours", None),
        ("for what", None),
        ("bench 60 2026", None),
        ("bench 1001", None),
        ("", None),
        ("hip thrust " + "really " * 30 + "90", None),
    ],
)
def test_a_line_is_read_whole_or_not_at_all(text: str, expected: OrderSaid | None) -> None:
    assert order_said(text, NAMES, TUESDAY) == expected


def test_a_name_that_is_only_like_others_is_asked_about() -> None:
    asked = order_said("pause press", NAMES, TUESDAY)

    assert asked is not None
    assert asked.exercise is None
    assert set(asked.offered) >= {"bench-press", "dumbbell-overhead-press"}


def test_what_stands_in_is_asked_about_where_it_is_not_clear() -> None:
    asked = order_said("swap bench for row", NAMES, TUESDAY)

    assert asked is not None
    assert asked.instead is None
    assert len(asked.instead_offered) > 1


def test_an_exercise_that_is_no_longer_given_is_not_meant() -> None:
    gone = {"hip-thrust": CATALOGUE["hip-thrust"].model_copy(update={"retired": True})}

    assert likest("hip thrust", gone) == ()


def test_a_number_is_in_the_unit_of_the_client() -> None:
    said = order_said("bench 135", NAMES._replace(unit=Unit.LB), TUESDAY)

    assert said is not None
    assert said.mass == Mass.of(135, Unit.LB)


def test_a_place_in_the_block_means_what_stands_there() -> None:
    assert exercises_meant("b 1", NAMES) == ("step-down",)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("82.5", (Mass.of("82.5"), False)),
        ("bw+5", (Mass.of(5), True)),
        ("180 lb", (Mass.of(180, Unit.LB), False)),
        ("heavier", None),
    ],
)
def test_a_load_that_stands_alone_is_read(text: str, expected: tuple[Mass, bool] | None) -> None:
    assert load_said(text, Unit.KG) == expected


@pytest.mark.untraced
@pytest.mark.parametrize("form", [str.lower, str.upper, lambda name: name.replace("-", " ").lower()])
def test_each_name_of_the_catalogue_is_known_in_any_case(form: Callable[[str], str]) -> None:
    names = Names(CATALOGUE, CATALOGUE, {})
    written = [(row.key, name) for row in CATALOGUE.values() for name in (row.name, *row.aliases)]

    assert [
        name for key, name in written if order_said(f"{form(name)} 30", names, TUESDAY) != load(key, "30")
    ] == ["Push-up from the knees"]
