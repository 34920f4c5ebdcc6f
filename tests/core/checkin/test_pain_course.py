from datetime import UTC, date, datetime, time, timedelta

import pytest
from rows import each_row

from core.checkin.pain import AlertLevel, Felt, PainAction, PainReport, alert_level, flares, in_session_action
from core.checkin.pain_course import Course, asked_next_morning, course, marked, same_place
from core.checkin.sites import REGIONS
from core.programme.exercises import Side, Site

FIRST = date(2026, 4, 1)


def said(
    day: int, score: int | None, felt: Felt = Felt.DURING, site: Site = Site.KNEE, **more: object
) -> PainReport:
    """What was said on the so-and-so-manieth day: in the morning at 7, else at 18."""
    on = FIRST + timedelta(days=day)
    at = datetime.combine(on, time(7 if felt is Felt.MORNING else 18), UTC)
    return PainReport(row_id=100 + day, site=site, score=score, felt=felt, on=on, at=at, **more)


def rises(*reports: PainReport) -> list[bool]:
    return [one.rose for one in marked(reports)]


# A practising coach's review: +2 matters when it reaches 4 or comes twice running. Common practice, no source.
@pytest.mark.parametrize(
    ("scores", "matters"),
    [
        ((2, 4), True),
        ((1, 3), False),
        ((1, 3, 3), True),
        ((0, 2, 2), True),
        ((1, 3, 2), False),
        ((1, 2, 3), False),
        ((3, 4), False),
        ((4, 6), True),
        ((2, 2, 2), False),
        ((3, 3), False),
        ((3,), False),
        ((9,), False),
    ],
)
def test_a_rise_of_two_matters_when_it_reaches_four_or_comes_twice_running(
    scores: tuple[int, ...], matters: bool
) -> None:
    assert rises(*(said(3 * place, score) for place, score in enumerate(scores)))[-1] is matters


def test_the_usual_is_the_worst_of_the_last_day_and_not_of_today() -> None:
    day = [said(0, 1), said(0, 2).model_copy(update={"row_id": 999})]
    assert not any(rises(*day, said(3, 3)))
    twice_today = [said(0, 1), said(3, 3), said(3, 3).model_copy(update={"row_id": 999})]
    assert not any(rises(*twice_today))


def test_without_a_number_it_is_compared_as_four_and_rises_by_nothing() -> None:
    assert rises(said(0, None), said(3, 5)) == [False, False]
    assert rises(said(0, 1), said(3, None)) == [False, False]
    assert rises(said(0, None), said(3, 6)) == [False, True]


# The same review: a morning matters when it is 2 or more above before the session.
@pytest.mark.parametrize(
    ("before", "morning", "matters"),
    [
        (0, 2, True),
        (1, 3, True),
        (1, 2, False),
        (2, 2, False),
        (3, 5, True),
        (None, 3, True),
        (None, 1, False),
    ],
)
def test_a_morning_two_over_before_the_session_matters(
    before: int | None, morning: int, matters: bool
) -> None:
    reports = (said(0, before, Felt.BEFORE), said(0, 3), said(1, morning, Felt.MORNING))
    assert rises(*reports)[-1] is matters


def test_a_morning_with_nothing_said_before_the_session_is_compared_with_nothing() -> None:
    assert rises(said(0, 1), said(1, 3, Felt.MORNING)) == [False, False]
    assert rises(said(0, 0, Felt.BEFORE), said(2, 3, Felt.MORNING)) == [False, False]


def test_a_side_that_was_not_said_may_be_either() -> None:
    left, right = said(0, 1, side=Side.LEFT), said(0, 1, side=Side.RIGHT)
    assert not same_place(left, right)
    assert same_place(left, said(0, 1))
    assert same_place(said(0, 1), right)
    assert not same_place(left, said(0, 1, site=Site.HIP, side=Side.LEFT))
    assert rises(said(0, 1, side=Side.LEFT), said(3, 4, side=Side.RIGHT)) == [False, False]


def test_what_rose_counts_as_four_and_over_and_the_coach_hears_of_it_today() -> None:
    risen = marked([said(0, 1), said(3, 3), said(6, 3)])[-1]
    assert (flares(risen), alert_level(risen), in_session_action(risen)) == (
        True,
        AlertLevel.TODAY,
        PainAction.NOTE,
    )


@pytest.mark.parametrize(
    ("told", "flared"),
    [
        (((0, 5),), 1),
        (((0, 5), (3, 5)), 1),
        (((0, 5), (3, 2), (6, 5)), 2),
        (((0, 5), (7, 5)), 2),
        (((0, 5), (6, 5)), 1),
        (((0, 5), (3, 2), (28, 5)), 1),
        (((0, 5), (3, 2), (27, 5)), 2),
        (((0, 5), (3, 0), (6, 4), (9, 1), (12, None)), 3),
        (((0, 5), (3, 2)), 0),
    ],
)
def test_flares_of_four_weeks_are_counted_each_once(
    told: tuple[tuple[int, int | None], ...], flared: int
) -> None:
    reports = [said(*each) for each in told]
    assert course(reports[-1], reports).flares == flared
    assert course(reports[-1], reports).suggests_physio is (flared > 1)


@pytest.mark.parametrize(
    ("told", "no_better"),
    [
        (((0, 2), (7, 2), (14, 2)), True),
        (((0, 2), (7, 2), (13, 2)), False),
        (((0, 3), (7, 2), (14, 2)), False),
        (((0, 2), (7, 2), (14, 3)), True),
        (((0, 2), (7, 0), (14, 2)), False),
        (((0, 2), (15, 2)), False),
        (((0, 2), (14, 0)), False),
        (((0, None), (14, 3)), False),
        (((0, 3), (10, 2), (20, 2), (24, 2)), True),
    ],
)
def test_two_weeks_that_make_it_no_better_are_told(
    told: tuple[tuple[int, int | None], ...], no_better: bool
) -> None:
    reports = [said(*each) for each in told]
    assert course(reports[-1], reports).no_better is no_better


def test_a_course_knows_what_rose_and_leaves_out_other_places_and_what_came_later() -> None:
    reports = [said(0, 1, Felt.BEFORE), said(1, 3, Felt.MORNING), said(2, 6), said(0, 5, site=Site.HIP)]
    assert course(reports[1], reports) == Course(rose=True, morning=True, flares=1)
    assert course(reports[0], reports) == Course()


@each_row(
    ("report", "earlier", "asked_on", "asked"),
    [
        (said(9, 4), [], [], True),
        (said(9, None), [], [], True),
        (said(9, 2), [], [], True),
        (said(9, 0), [], [], False),
        (said(9, 2), [said(2, 2)], [], True),
        (said(9, 2), [said(2, 2)], [3, 8], False),
        (said(9, 2), [said(2, 2)], [2, 8], True),
        (said(9, 3), [said(2, 1), said(5, 3)], [5, 8], True),
        (said(9, 4), [said(2, 4)], [5, 8], True),
        (said(40, 2), [said(2, 2)], [39, 38], True),
        (said(9, 2), [said(2, 0)], [5, 8], True),
        (said(9, 2), [said(2, 2, site=Site.HIP)], [5, 8], True),
        (said(9, 2, Felt.MORNING), [], [], False),
        (said(9, 4, Felt.MORNING), [], [], True),
        (said(9, 2, Felt.MORNING), [said(8, 0, Felt.BEFORE)], [], True),
        (said(9, 0, painkiller=True), [], [], False),
        (said(9, 0, sudden=True), [], [], True),
    ],
)
def test_which_mornings_are_asked_about(
    report: PainReport, earlier: list[PainReport], asked_on: list[int], asked: bool
) -> None:
    mornings = [FIRST + timedelta(days=day) for day in asked_on]
    assert asked_next_morning(report, earlier, mornings) is asked


def test_each_site_is_listed_in_one_region() -> None:
    listed = [site for region in REGIONS.values() for site in region]
    assert sorted(listed) == sorted(Site)
