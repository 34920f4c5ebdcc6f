from datetime import date, timedelta

import numpy as np
from rows import each_row

from core.checkin.pain import Felt, loads_site
from core.loads.looking_back import PAIN_BEARS
from core.oversight.simulated_pain import SimulatedPain
from core.programme.catalogue import exercise
from core.programme.exercises import Side, Site
from tests.core.oversight.simulated import Scripted

MONDAY = date(2024, 1, 1)
SQUAT, BENCH, LEG_CURL = exercise("back-squat"), exercise("bench-press"), exercise("leg-curl")
NEVER, ALWAYS = 0.999, 0.0


def day(number: int) -> date:
    return MONDAY + timedelta(days=number)


def hurting(*begun: float, then: tuple[float, ...] = (), today: int = 0) -> SimulatedPain:
    """Something begins in the bench press: `begun` draws site, score and the rest, `then` what comes after."""
    pain = SimulatedPain(Scripted(ALWAYS, 0.99, *begun, *then))
    pain.plan([SQUAT, BENCH])
    assert pain.felt_in(SQUAT, day(today)) is None
    assert pain.felt_in(BENCH, day(today)) is not None
    return pain


# Site, band of the score, side, score in it, settles, spreads, days to the coach's look;
# the exercise is named, sudden, without a number, the morning is told of.
SHOULDER_5 = (0.5, 0.7, 0.0, 0.5, ALWAYS, NEVER, ALWAYS, ALWAYS, NEVER, NEVER, NEVER)
SHOULDER_8 = (0.5, 0.99, 0.0, 0.9, ALWAYS, NEVER, ALWAYS, ALWAYS, NEVER, NEVER, NEVER)


def test_something_begins_to_hurt_in_the_exercise_that_was_drawn() -> None:
    pain = hurting(*SHOULDER_5)

    (told,) = pain.told
    assert (told.site, told.side, told.score) == (Site.SHOULDER, Side.LEFT, 5)
    assert (told.exercise, told.felt, told.on) == ("bench-press", Felt.DURING, MONDAY)
    assert loads_site(BENCH, told.site)
    assert pain.felt_in(BENCH, MONDAY) is None
    assert not pain.locks(BENCH)


def test_nothing_begins_in_most_sessions_nor_in_an_empty_one() -> None:
    pain = SimulatedPain(Scripted(NEVER, 0.5, ALWAYS, 0.5))

    pain.plan([BENCH])
    assert pain.felt_in(BENCH, MONDAY) is None
    pain.plan([])
    assert pain.felt_in(BENCH, MONDAY) is None
    pain.wake(day(1))
    assert pain.known(day(1)) == ()


def test_nothing_else_begins_while_something_hurts() -> None:
    pain = hurting(*SHOULDER_5, then=(0.0, ALWAYS, 0.0))

    pain.wake(day(3))
    pain.plan([SQUAT, BENCH])
    assert pain.felt_in(LEG_CURL, day(3)) is None


def test_it_is_told_again_until_it_is_over() -> None:
    # Each day: it falls by one or two; it is told, the exercise is named, sudden, no number, the morning.
    pain = hurting(*SHOULDER_5, then=(0.9, ALWAYS, NEVER, NEVER, NEVER, NEVER, 0.9, NEVER, 0.9))

    pain.wake(day(3))
    assert pain.felt_in(LEG_CURL, day(3)) is None
    told = pain.felt_in(BENCH, day(3))
    assert told is not None
    assert (told.score, told.exercise) == (3, None)
    pain.wake(day(7))
    assert pain.felt_in(BENCH, day(7)) is None, "not told this time"
    pain.wake(day(10))
    assert pain.felt_in(BENCH, day(10)) is None, "over"
    assert [one.score for one in pain.told] == [5, 3]


def test_what_settles_not_goes_up_and_down() -> None:
    lingers = (*SHOULDER_5[:4], NEVER, *SHOULDER_5[5:])
    pain = hurting(*lingers, then=(0.9, ALWAYS, ALWAYS, NEVER, NEVER, NEVER, 0.0))

    pain.wake(day(1))
    told = pain.felt_in(BENCH, day(1))
    assert told is not None
    assert told.score == 6
    pain.wake(day(2))
    again = pain.felt_in(BENCH, day(2))
    assert again is not None
    assert again.score == 5


def test_the_coach_releases_what_is_locked_once_she_has_looked_and_it_is_calm() -> None:
    pain = hurting(*SHOULDER_8, then=(0.9, 0.9, 0.9, 0.9))

    assert pain.locks(BENCH)
    assert not pain.locks(LEG_CURL)
    pain.wake(day(1))
    assert pain.locks(BENCH), "6: too early, and too much"
    pain.wake(day(2))
    assert pain.locks(BENCH), "4: too early, and too much"
    pain.wake(day(3))
    assert pain.locks(BENCH), "2: too early"
    pain.wake(day(4))
    assert not pain.locks(BENCH), "0"
    assert [one.released_at.date() for one in pain.told if one.released_at] == [day(4)]
    pain.wake(day(5))
    pain.plan([BENCH])
    assert pain.felt_in(BENCH, day(5)) is None


def test_a_second_release_leaves_the_first_as_it_was() -> None:
    # Released at 3 on the fourth day, told again, and released again at 1 on the sixth.
    pain = hurting(*SHOULDER_8, then=(0.9, 0.9, 0.1, ALWAYS, ALWAYS, NEVER, NEVER, NEVER, 0.9))

    pain.wake(day(1))
    pain.wake(day(2))
    pain.wake(day(4))
    first = pain.told[0].released_at
    assert first is not None
    assert pain.felt_in(BENCH, day(4)) is not None
    pain.wake(day(6))
    assert pain.told[0].released_at == first
    assert pain.told[1].released_at is not None
    assert pain.told[1].released_at > first


def test_pain_in_the_middle_of_the_body_has_no_side_and_may_spread() -> None:
    low_back = sorted(SQUAT.loads_sites).index(Site.LOW_BACK) / len(SQUAT.loads_sites) + 0.01
    pain = SimulatedPain(
        Scripted(ALWAYS, 0.0, low_back, 0.0, 0.0, 0.5, 0.5, ALWAYS, 0.5, 0.5, NEVER, NEVER, NEVER)
    )
    pain.plan([SQUAT])
    told = pain.felt_in(SQUAT, MONDAY)

    assert told is not None
    assert (told.site, told.side, told.score, told.spreading) == (Site.LOW_BACK, None, 2, True)
    assert pain.locks(exercise("deadlift"))


def test_it_may_come_suddenly_be_told_without_a_number_and_of_the_next_morning() -> None:
    sudden = hurting(*SHOULDER_8[:8], ALWAYS, NEVER, NEVER)
    unnumbered = hurting(*SHOULDER_8[:8], NEVER, ALWAYS, NEVER)
    morning = hurting(*SHOULDER_5[:10], ALWAYS, 0.99, ALWAYS, NEVER)

    assert sudden.told[0].sudden
    assert (unnumbered.told[0].score, unnumbered.told[0].sudden) == (None, False)
    assert [(one.on, one.felt, one.score) for one in morning.told] == [
        (MONDAY, Felt.DURING, 5),
        (day(1), Felt.MORNING, 6),
    ]


def test_reports_bear_on_decisions_for_eight_weeks_and_longer_while_they_lock() -> None:
    mild, locking = hurting(*SHOULDER_5), hurting(*SHOULDER_8)
    last = MONDAY + PAIN_BEARS

    assert len(mild.known(last)) == 1
    assert mild.known(last + timedelta(days=1)) == ()
    assert len(locking.known(last + timedelta(days=1))) == 1
    assert locking.known(MONDAY - timedelta(days=1)) == ()


@each_row("seed", range(20))
def test_whatever_is_drawn_the_reports_are_in_range_and_numbered_in_order(seed: int) -> None:
    pain = SimulatedPain(np.random.default_rng(seed))
    for number in range(120):
        pain.wake(day(number))
        pain.plan([SQUAT, BENCH])
        for row in (SQUAT, BENCH):
            told = pain.felt_in(row, day(number))
            assert told is None or told.score is None or 1 <= told.score <= 8
    assert [one.row_id for one in pain.told] == list(range(1, len(pain.told) + 1))
