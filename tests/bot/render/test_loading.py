"""How a bar is made up and led up to, as the card says it."""

from dataclasses import replace
from datetime import date

import pytest
from setting_out import plain_text

from bot.render.loading import made_line
from bot.render.session import session_card
from bot.render.session_views import ItemView, SessionView
from core.checkin.training_log import Item
from core.loads.bars import BarLoad, bar_load
from core.loads.kit import Kit
from core.loads.kit_words import read_kit
from core.loads.warmup import Ramp, RampSet, ramp_for
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Prescription
from core.units import Mass, Unit
from tests.core.loads.lifts import dose

SHED = "bars 20, light bar 15, 10\ncollars 2.5 each\nplates 20x2 10x2 5x2 2.5x2 1.25x2\ndumbbells 2-30 by 2"


def kit(text: str) -> Kit:
    found = read_kit(text, (Kit(place="shed", unit=Unit.KG),))
    assert found.problems == ()
    return found.kit


def shown(key: str, load: str, there: Kit, **more: object) -> list[str]:
    """The lines of the card between what is asked and its cue."""
    asked, exercise, mass = dose(3, "5", load, left=None), CATALOGUE[key], Mass.of(load)
    row = Item(
        7, 1, 0, key, Prescription(order="A", exercise=key, dose=asked), asked, None, "open", None, None
    )
    ramp = ramp_for(exercise, mass, 5, there)
    lighter = CATALOGUE[ramp.instead].name if ramp.instead is not None else None
    each = ItemView(
        row,
        exercise,
        None,
        (),
        (),
        made=bar_load(mass, exercise, there),
        bars=1 + len(there.bars),
        ramp=ramp,
        lighter=lighter,
    )
    card = session_card(
        SessionView(
            day="Lower A",
            week_no=1,
            weeks=4,
            local_on=date(2026, 4, 7),
            late=False,
            state="started",
            screen="item",
            items=(replace(each, **more),),
            cursor=7,
            prompt_id=1,
            revision=2,
        )
    )
    return plain_text(card).splitlines()[2:-1]


def test_the_card_says_the_ramp_the_plates_which_bar_and_the_collars() -> None:
    assert shown("back-squat", "80", kit(SHED)) == [
        "A  Back squat  3 × 5 at 80 kg",
        "Ramp: 30 kg × 8, 47.5 × 5, 60 × 3, 70 × 1",
        "Plates a side: 20 + 5 + 2.5 kg, on the 20 kg bar, collars on (5 kg both)",
    ]


def test_with_one_bar_and_no_collars_the_plates_are_all_there_is_to_say() -> None:
    assert shown("back-squat", "80", kit("bar 20\nplates 20x2 10x2")) == [
        "A  Back squat  3 × 5 at 80 kg",
        "Ramp: 20 kg × 8, 40 × 5, 60 × 3",
        "Plates a side: 20 + 10 kg",
    ]


def test_a_deadlift_says_which_of_its_ramp_lies_too_low() -> None:
    assert shown("deadlift", "100", kit("bar 20\nplates 20x2 10x4 5x2 2.5x2")) == [
        "A  Deadlift  3 × 5 at 100 kg",
        "Ramp: 40 kg × 8, 60 × 5, 75 × 3, 90 × 1",
        "At 40 kg the bar lies low: use full-size plates, or put it on blocks.",
        "Plates a side: 20 + 20 kg",
    ]
    assert "At 30 and 50 kg the bar lies low: use full-size plates, or put it on blocks." in shown(
        "deadlift", "85", kit("bar 20\nplates 20x2 10x4 5x2 2.5x2")
    )


def test_where_discs_of_full_size_are_light_nothing_lies_low() -> None:
    there = kit("bar 20\nplates 20x2 10x4 5x2 2.5x2\nfull size 10 20")

    assert not [line for line in shown("deadlift", "100", there) if "lies low" in line]


@pytest.mark.parametrize(
    ("there", "words"),
    [
        ("bar 20\nplates 5x2\ndumbbells 2-30 by 2", "Do dumbbell bench press instead: tap Swap."),
        ("bar 20\nplates 5x2", "Do push-up instead: tap Swap."),
    ],
)
def test_where_the_empty_bar_is_too_heavy_it_says_what_is_done_instead(there: str, words: str) -> None:
    assert shown("bench-press", "15", kit(there)) == [
        "A  Bench press  3 × 5 at 15 kg",
        f"The empty bar is too heavy for this. {words}",
    ]


def test_where_nothing_goes_lighter_the_coach_is_asked() -> None:
    assert shown("bench-press", "15", kit("bar 20"), lighter=None) == [
        "A  Bench press  3 × 5 at 15 kg",
        "The empty bar is too heavy for this. Tap Swap, or ask your coach.",
    ]


@pytest.mark.parametrize(
    ("total", "bars", "line"),
    [
        ("20", 1, ""),
        ("20", 3, "Empty: the 20 kg bar"),
        ("15", 3, "Empty: the light bar (15 kg)"),
        ("10", 3, "Empty: the 10 kg bar"),
        ("22.5", 3, "Plates a side: 1.25 kg, on the light bar (15 kg), collars on (5 kg both)"),
        ("30", 1, "Plates a side: 2.5 kg, collars on (5 kg both)"),
    ],
)
def test_the_empty_bar_is_named_where_there_are_others(total: str, bars: int, line: str) -> None:
    made = bar_load(Mass.of(total), CATALOGUE["back-squat"], kit(SHED))

    assert made is not None
    assert made_line(made, bars) == line


def test_plates_of_two_units_each_have_theirs_and_a_bar_s_name_is_escaped() -> None:
    side = (Mass.of(45, Unit.LB), Mass.of(10))

    assert made_line(BarLoad(bar=Mass.of(20), name="", side=side), 1) == "Plates a side: 45 lb + 10 kg"
    assert (
        made_line(BarLoad(bar=Mass.of(20), name="a<b", side=side[1:]), 2)
        == "Plates a side: 10 kg, on the a&lt;b (20 kg)"
    )


def test_a_ramp_without_a_bar_says_its_loads_alone() -> None:
    ramp = Ramp(sets=(RampSet(load=Mass.of(40), reps=8),))

    assert shown("back-squat", "80", kit("bar 20"), ramp=ramp, made=None) == [
        "A  Back squat  3 × 5 at 80 kg",
        "Ramp: 40 kg × 8",
    ]
