"""How long work takes, and what goes when time is short."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.programme.block import session_order
from core.programme.duration import Timed, left_out, seconds_needed
from core.programme.prescription import Dose, Span
from core.programme.set_styles import SetStyle, StyleKind


def dose(sets: int = 3, reps: int | None = 8, seconds: int | None = None) -> Dose:
    return Dose(
        sets=sets,
        reps=Span(low=min(reps, 6), high=reps) if reps else None,
        seconds=Span(low=seconds, high=seconds) if seconds else None,
    )


def styled(kind: StyleKind, **fields: object) -> Dose:
    style = SetStyle.model_validate({"kind": kind, **fields})
    return dose().model_copy(update={"style": style})


@pytest.mark.parametrize(
    ("asked", "how", "expected"),
    [
        (dose(), {}, 3 * (8 * 4 + 90)),
        (dose(), {"rest_s": 0}, 3 * 8 * 4),
        (dose(), {"rest_s": 60, "sides": 2}, 3 * (8 * 4 * 2 + 60)),
        (dose(), {"tempo": "3110", "rest_s": 60}, 3 * (8 * 5 + 60)),
        (dose(), {"tempo": "30X1", "rest_s": 60}, 3 * (8 * 5 + 60)),
        (dose(reps=None, seconds=30), {"rest_s": 60}, 3 * (30 + 60)),
        (Dose(sets=2, metres=Span(low=20, high=40)), {"rest_s": 60}, 2 * (40 + 60)),
        (Dose(sets=2, to_left=True, left=2), {"rest_s": 60}, 2 * (12 * 4 + 60)),
        (styled(StyleKind.ASCENDING), {"rest_s": 60}, 3 * (8 * 4 + 60)),
        (styled(StyleKind.DESCENDING, steps=2), {"rest_s": 60}, 3 * (8 * 4 + 60) + 2 * 8 * 4),
        (styled(StyleKind.REST_PAUSE, pause_s=20), {"rest_s": 60}, 3 * (8 * 4 + 60 + 2 * 20)),
        (styled(StyleKind.CLUSTER, parts=(3, 3, 2)), {"rest_s": 60}, 3 * (8 * 4 + 60 + 2 * 15)),
    ],
)
def test_time_is_sets_of_work_and_rest(asked: Dose, how: dict[str, int], expected: int) -> None:
    assert seconds_needed(asked, **how) == expected


SESSION = (
    Timed(order="A", seconds=300),
    Timed(order="B1", seconds=200, main=True),
    Timed(order="B2", seconds=100),
    Timed(order="C", seconds=100),
)


@pytest.mark.parametrize(
    ("seconds", "expected"),
    [(700, ()), (699, (3,)), (600, (3,)), (599, (2, 3)), (499, (0, 2, 3)), (0, (0, 2, 3))],
)
def test_what_comes_last_goes_first_and_the_main_lift_stays(seconds: int, expected: tuple[int, ...]) -> None:
    assert left_out(SESSION, seconds) == expected


def test_without_a_main_lift_the_first_stays() -> None:
    plain = [each.model_copy(update={"main": False}) for each in SESSION]

    assert left_out(plain, 0) == (1, 2, 3)


def test_of_nothing_nothing_goes() -> None:
    assert left_out((), 0) == ()


sessions = st.lists(
    st.builds(
        Timed,
        order=st.sampled_from(("A", "B1", "B2", "B10", "C", "D")),
        seconds=st.integers(0, 2000),
        main=st.booleans(),
    ),
    min_size=1,
    unique_by=lambda each: each.order,
)


@given(asked=sessions, seconds=st.integers(-300, 6000))
def test_what_stays_fits_or_is_one_lift_and_no_more_goes_than_must(asked: list[Timed], seconds: int) -> None:
    gone = left_out(asked, seconds)
    stays = [each for place, each in enumerate(asked) if place not in gone]

    assert stays
    assert sum(each.seconds for each in stays) <= seconds or len(stays) == 1
    if gone:
        back = min((asked[place] for place in gone), key=lambda each: session_order(each.order))
        assert sum(each.seconds for each in stays) + back.seconds > seconds
