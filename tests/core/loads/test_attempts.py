from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.attempts import FALL, MOST_SINGLES, RISE, next_single, way_to_single
from core.loads.equipment import Ladder, default_kit, ladder_for
from core.programme.catalogue import exercise
from core.programme.exercises import Region
from core.units import Mass, Unit

BAR = ladder_for(exercise("bench-press"), default_kit("bar", Unit.KG))
REGIONS = st.sampled_from(Region)
EXPECTED = st.decimals(min_value=10, max_value=300, places=1).map(Mass.of)


@pytest.mark.traced
@given(EXPECTED, REGIONS)
def test_the_way_to_a_single_rises_and_ends_at_or_under_what_is_expected(
    expected: Mass, region: Region
) -> None:
    loads = [each.load for each in way_to_single(expected, region, BAR)]

    assert loads == sorted(set(loads))
    assert all(load in BAR.steps and load <= expected for load in loads)
    assert loads[-1:] == [step for step in [BAR.at_or_under(expected)] if step is not None]


@given(EXPECTED, REGIONS)
def test_nothing_on_the_way_is_nearer_to_the_single_than_the_test_rises(
    expected: Mass, region: Region
) -> None:
    found = [each.load for each in way_to_single(expected, region, BAR)]
    for load in found[:-1]:
        assert load * (1 + RISE[region].most) <= found[-1] + Mass.of("0.0001")


def test_on_a_light_bar_the_steps_that_come_out_the_same_are_left_out() -> None:
    found = way_to_single(Mass.of(30), Region.UPPER, BAR)

    assert [(str(each.load), each.reps) for each in found] == [
        ("22.5 kg", (5, 10)),
        ("25 kg", (2, 3)),
        ("30 kg", (1, 1)),
    ]


def test_nothing_leads_to_a_single_that_the_kit_does_not_make() -> None:
    assert way_to_single(Mass.of(15), Region.UPPER, BAR) == ()
    assert way_to_single(Mass.of(100), Region.UPPER, Ladder(steps=())) == ()


def test_on_the_lightest_load_there_is_only_the_single() -> None:
    assert [each.reps for each in way_to_single(Mass.of(20), Region.LOWER, BAR)] == [(1, 1)]


@st.composite
def fates_of_singles(draw: st.DrawFn) -> tuple[Mass, Region, list[bool]]:
    return (
        draw(st.sampled_from(BAR.steps[2:80])),
        draw(REGIONS),
        draw(st.lists(st.booleans(), min_size=8, max_size=8)),
    )


@pytest.mark.traced
@given(fates_of_singles())
def test_a_test_ends_within_five_singles_and_never_repeats_one(
    said: tuple[Mass, Region, list[bool]],
) -> None:
    load, region, fates = said
    lifted: list[Mass] = []
    failed: list[Mass] = []
    following: Mass | None = load
    for went_up in fates:
        if following is None:
            break
        tried = following
        assert tried in BAR.steps
        assert tried not in lifted + failed
        (lifted if went_up else failed).append(tried)
        following = next_single(tuple(lifted), tuple(failed), region, BAR)
        if following is not None:
            assert all(following < one for one in failed)
            assert all(following > one for one in lifted)
            if failed:
                assert following <= min(failed) * (1 - FALL[region].least)
    assert following is None
    assert len(lifted) + len(failed) <= MOST_SINGLES


def test_before_any_single_there_is_no_next_one() -> None:
    assert next_single((), (), Region.UPPER, BAR) is None


def test_where_the_percentage_makes_no_step_the_pounds_do() -> None:
    coarse = Ladder(steps=tuple(Mass.of(each) for each in (40, 47, 60)))

    # 10 % of 40 kg is 4 kg; 20 lb is 9.07 kg.
    assert next_single((Mass.of(40),), (), Region.UPPER, coarse) == Mass.of(47)
    # 13 kg further is neither.
    assert next_single((Mass.of(47),), (), Region.UPPER, coarse) is None


def test_at_the_top_of_the_kit_a_test_is_over() -> None:
    assert next_single((BAR.steps[-1],), (), Region.LOWER, BAR) is None
    assert next_single((), (Mass.of(20),), Region.LOWER, BAR) is None


def test_under_the_lightest_load_of_a_kit_nothing_is_to_be_had() -> None:
    heavy = Ladder(steps=(Mass.of(100), Mass.of(200)))

    assert next_single((Mass.of(50),), (), Region.UPPER, heavy) is None


@pytest.mark.parametrize("region", Region)
def test_every_change_runs_from_less_to_more(region: Region) -> None:
    for change in (RISE[region], FALL[region]):
        assert 0 < change.least < change.most < Decimal(1)
        assert change.pounds[0] < change.pounds[1]
        assert change.kilograms[0] < change.kilograms[1]
