"""Sets over a distance, told as people tell them."""

import pytest

from core.checkin.reading import Context
from core.checkin.replies import read_reply
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Dose, Load, Span

CARRY = Context(
    exercise=CATALOGUE["farmer-carry"],
    dose=Dose(sets=2, metres=Span(low=40, high=40), load=Load.of(24)),
    last_loads=("24",),
)


@pytest.mark.parametrize(
    ("text", "loads", "metres"),
    [
        ("24 40m 40m", ["24", "24"], [40, 40]),
        ("24 kg 40 m 30 metres", ["24", "24"], [40, 30]),
        ("40 M, 35 meters", ["24", "24"], [40, 35]),
        ("24 kg 40 40", ["24", "24"], [40, 40]),
        ("26kg 40m 30m", ["26", "26"], [40, 30]),
    ],
)
def test_metres_are_read_where_they_were_asked_for(text: str, loads: list[str], metres: list[int]) -> None:
    read = read_reply(text, CARRY)

    assert ([each.load for each in read.sets], [each.reps for each in read.sets]) == (loads, metres)


def test_words_that_begin_with_m_stay_words() -> None:
    assert not read_reply("40 more please", CARRY).sets


def test_metres_have_no_reps_to_put_in_for_one_set_of_two() -> None:
    assert not read_reply("1 set done", CARRY).sets


STEPS = Context(
    exercise=CATALOGUE["leg-extension"],
    dose=Dose.model_validate(
        {
            "sets": 1,
            "reps": {"low": 10, "high": 10},
            "load": Load.of(40),
            "style": {"kind": "descending", "steps": 2},
        }
    ),
    last_loads=("40",),
)


def test_steps_down_are_no_more_sets_than_were_asked() -> None:
    read = read_reply("40 10, 32 12, 26 14", STEPS)

    assert not read.ask
    assert [(each.load, each.reps) for each in read.sets] == [("40", 10), ("32", 12), ("26", 14)]


@pytest.mark.parametrize("load", [Load.banded("light"), Load.share(80, "max"), Load.up(Load.of(5).mass)])
def test_what_is_no_number_is_no_planned_load(load: Load) -> None:
    asked = Dose(sets=2, reps=Span(low=15, high=15), load=load)
    read = read_reply("15 14", Context(exercise=CATALOGUE["band-pull-apart"], dose=asked))

    assert [(each.load, each.reps) for each in read.sets] == [(None, 15), (None, 14)]
