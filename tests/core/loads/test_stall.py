from datetime import timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.loads.one_rep_max import Formula
from core.loads.stall import Fall, NotFalling, NotStalled, Stall, fall, is_falling, is_stalled, stall
from core.policy import Policy
from core.units import Mass
from tests.core.loads.worked import MONDAY, changed, estimates

POLICY = Policy()
FALLING = "100 97 94"
STUCK = "100 98 99 100 97"


def why_not_falling(masses: str, **facts: object) -> NotFalling | None:
    return fall(estimates(masses, **facts), POLICY).why_not


@pytest.mark.parametrize(
    ("masses", "why"),
    [
        (FALLING, None),  # exactly 6 %
        ("100 97 94.01", NotFalling.LITTLE),
        ("100 99.99 90", None),
        ("120 100 97 94", None),
        ("100 100 94", NotFalling.NOT_EACH),
        ("100 94 94", NotFalling.NOT_EACH),
        ("100 90 94", NotFalling.NOT_EACH),
        ("94 97 100", NotFalling.NOT_EACH),
        ("100 94", NotFalling.FEW),
        ("", NotFalling.FEW),
    ],
)
def test_a_lift_falls_by_six_percent_over_three_sessions(masses: str, why: NotFalling | None) -> None:
    # Our proposal after a practising coach's review.
    assert why_not_falling(masses) is why
    assert is_falling(estimates(masses), POLICY) is (why is None)


def test_a_fall_says_how_much_and_when() -> None:
    dates = tuple(MONDAY + timedelta(days=7 * place) for place in range(3))

    assert fall(estimates(FALLING), POLICY) == Fall(why_not=None, dates=dates, by=Decimal("0.06"))
    assert fall(estimates("94 97 100"), POLICY).by == 1 - Decimal(100) / 94
    assert fall([], POLICY) == Fall(why_not=NotFalling.FEW, dates=(), by=None)


@each_row("place", [0, 1, 2])
@each_row(
    ("facts", "why"),
    [
        ({"deload": True}, NotFalling.DELOAD),
        ({"comeback": True}, NotFalling.COMEBACK),
        ({"held_back": True}, NotFalling.HELD_BACK),
        ({"kit": "home"}, NotFalling.KIT),
        ({"effort": None}, NotFalling.EFFORT_UNKNOWN),
        ({"total": Decimal(13)}, NotFalling.FEW),
    ],
)
def test_a_fall_that_has_another_reason_is_none(
    place: int, facts: dict[str, object], why: NotFalling
) -> None:
    points = changed(estimates(FALLING), place, **facts)

    assert fall(points, POLICY).why_not is why


def test_a_deload_before_the_last_three_is_over() -> None:
    points = changed(estimates(f"70 {FALLING}"), 0, deload=True)

    assert is_falling(points, POLICY)


@pytest.mark.parametrize(
    ("efforts", "lefts", "why"),
    [
        ((3, 3, 3), (None, None, None), None),
        ((3, 4, 5), (None, None, None), None),
        ((3, 3, 2), (None, None, None), NotFalling.LESS_EFFORT),
        ((3, 2, 4), (None, None, None), NotFalling.LESS_EFFORT),
        ((None, 3, 3), (None, None, None), NotFalling.EFFORT_UNKNOWN),
        ((None, None, None), (2, 2, 2), None),
        ((None, None, None), (2, 1, 0), None),
        ((None, None, None), (2, 2, 3), NotFalling.LESS_EFFORT),
        ((None, None, None), (2, None, 2), NotFalling.EFFORT_UNKNOWN),
        ((3, 3, 3), (2, 2, 4), NotFalling.LESS_EFFORT),
        ((3, 3, 1), (2, 2, 2), NotFalling.LESS_EFFORT),
        ((3, 3, None), (2, 2, 2), None),
        ((3, 3, 3), (2, None, 4), None),
    ],
)
def test_effort_must_be_known_and_no_lower(
    efforts: tuple[int | None, ...], lefts: tuple[int | None, ...], why: NotFalling | None
) -> None:
    points = [
        one.model_copy(update={"effort": effort, "left": left})
        for one, effort, left in zip(estimates(FALLING), efforts, lefts, strict=True)
    ]

    assert fall(points, POLICY).why_not is why


def test_a_coach_may_call_more_or_less_a_fall() -> None:
    assert is_falling(estimates("100 98 96"), Policy(fall_share=Decimal("0.04")))
    assert not is_falling(estimates(FALLING), Policy(fall_share=Decimal("0.07")))


def test_pounds_fall_like_kilograms() -> None:
    points = changed(estimates("100 97 94"), 2, mass=Mass.of(207, "lb"))

    assert is_falling(points, POLICY)
    assert not is_falling(changed(points, 2, mass=Mass.of(208, "lb")), POLICY)


@pytest.mark.parametrize(
    ("masses", "every", "why", "exposures", "days"),
    [
        (STUCK, 7, None, 4, 28),
        ("100 100 100 100 100", 7, None, 4, 28),
        ("95 100 98 99 100 97", 7, None, 4, 28),
        ("100 98 99 100", 14, NotStalled.GAIN, 3, 42),
        ("100 98 99 100 100.5", 7, NotStalled.GAIN, 0, 0),
        ("100 98 99 101 97 98", 7, NotStalled.GAIN, 2, 14),
        (STUCK, 6, NotStalled.SOON, 4, 24),
        ("100 99 98 97 96 95 94 93", 3, NotStalled.SOON, 7, 21),
        ("90 100 99 98 97 96 95 94 93 92", 4, None, 8, 32),
        ("100", 7, NotStalled.GAIN, 0, 0),
    ],
)
def test_a_stall_is_four_exposures_and_four_weeks_without_a_gain(
    masses: str, every: int, why: NotStalled | None, exposures: int, days: int
) -> None:
    # Our proposal after a practising coach's review.
    points = estimates(masses, every=every)
    found = stall(points, POLICY)

    assert (found.why_not, found.exposures, found.days) == (why, exposures, days)
    assert is_stalled(points, POLICY) is (why is None)


def test_a_stall_says_since_when() -> None:
    since = MONDAY + timedelta(days=7)

    assert stall(estimates(f"95 {STUCK}"), POLICY) == Stall(why_not=None, best_on=since, exposures=4, days=28)
    assert stall([], POLICY) == Stall(why_not=NotStalled.NONE, best_on=None, exposures=0, days=0)


@pytest.mark.parametrize("facts", [{"deload": True}, {"held_back": True}, {"total": Decimal(13)}])
@pytest.mark.parametrize("mass", ["60", "130"])
def test_what_shows_no_strength_is_neither_an_exposure_nor_a_gain(
    facts: dict[str, object], mass: str
) -> None:
    points = changed(estimates("100 98 99 100 97 99"), 4, mass=Mass.of(mass), **facts)

    assert stall(points, POLICY) == Stall(why_not=None, best_on=MONDAY, exposures=4, days=35)


def test_what_was_lifted_before_a_break_is_no_mark_for_what_comes_after() -> None:
    points = changed(estimates("120 100 98 99 100 97"), 1, comeback=True)

    assert stall(points, POLICY).best_on == MONDAY + timedelta(days=28)
    assert not is_stalled(points, POLICY)


def test_on_the_way_back_there_is_nothing_to_count_from() -> None:
    points = changed(estimates(STUCK), -1, comeback=True)

    assert stall(points, POLICY).why_not is NotStalled.NONE


def test_another_kit_begins_anew() -> None:
    points = changed(estimates(f"{STUCK} 60"), -1, kit="home")

    assert stall(points, POLICY).why_not is NotStalled.GAIN


def test_when_the_newest_is_a_deload_on_another_kit_there_is_nothing_to_count_from() -> None:
    points = changed(estimates(f"{STUCK} 60"), -1, kit="home", deload=True)

    assert stall(points, POLICY).why_not is NotStalled.NONE


def test_a_best_of_long_ago_is_not_looked_back_to() -> None:
    old = estimates("130 100 101 102 103", every=21)
    near = estimates("130 100 101 102 103", every=20)

    assert stall(old, POLICY).exposures == 4
    assert stall(changed(old, 0, on=MONDAY - timedelta(days=1)), POLICY).exposures == 0
    assert stall(near, POLICY).best_on == MONDAY


@pytest.mark.parametrize(
    ("policy", "is_it"),
    [
        (Policy(stall_exposures=5), False),
        (Policy(stall_days=35), False),
        (Policy(stall_exposures=3, stall_days=14), True),
    ],
)
def test_a_coach_may_wait_longer_or_less(policy: Policy, is_it: bool) -> None:
    assert is_stalled(estimates(STUCK), policy) is is_it


@pytest.mark.parametrize("judge", [fall, stall, is_falling, is_stalled])
def test_two_formulas_are_two_histories(judge: object) -> None:
    points = changed(estimates(STUCK), 3, formula=Formula.BRZYCKI)

    with pytest.raises(ValueError, match="one formula"):
        judge(points, POLICY)  # type: ignore[operator]


MASSES = st.lists(st.integers(160, 240), min_size=1, max_size=12)


@given(MASSES, st.sampled_from([3, 7, 10]), st.randoms(use_true_random=False))
def test_the_order_of_estimates_does_not_matter(halves: list[int], every: int, random: object) -> None:
    points = estimates(" ".join(str(Decimal(each) / 2) for each in halves), every=every)
    mixed = random.sample(points, len(points))  # type: ignore[attr-defined]

    assert (fall(mixed, POLICY), stall(mixed, POLICY)) == (fall(points, POLICY), stall(points, POLICY))


@given(MASSES, st.integers(2, 9))
def test_loads_so_many_times_as_heavy_are_judged_alike(masses: list[int], times: int) -> None:
    once = estimates(" ".join(str(each) for each in masses))
    more = estimates(" ".join(str(each * times) for each in masses))

    assert fall(more, POLICY).why_not is fall(once, POLICY).why_not
    assert stall(more, POLICY) == stall(once, POLICY)


@given(MASSES)
def test_a_new_best_is_never_a_stall_and_never_a_fall(masses: list[int]) -> None:
    points = estimates(" ".join(str(each) for each in [*masses, 241]))

    assert not is_stalled(points, POLICY)
    assert not is_falling(points, POLICY)
