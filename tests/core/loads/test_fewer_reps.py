"""Pain eases by reps where the load cannot fall: a session done like that is no miss, and earns no raise either."""

import pytest

from core.checkin.pain import Felt
from core.loads.decision import Decision, Exposure, next_decision
from core.loads.performance import Verdict, performances
from core.loads.reasons import ReasonCode
from core.programme.catalogue import exercise
from core.programme.exercises import Site
from tests.core.loads.lifts import BARE, GYM, done, dose, hurt, inputs

PUSH_UP = "push-up"
WRITTEN = dose(3, "10", "bw")
HURT = hurt(5, Site.SHOULDER, 5, exercise=PUSH_UP)
MISSES = {ReasonCode.MISS_FIRST, ReasonCode.MISS_SECOND, ReasonCode.MISS_THIRD}


def eased(days_ago: int, counts: str, least: int = 8) -> Exposure:
    """A session whose card asked for fewer reps than are written."""
    return done(days_ago, WRITTEN, counts).model_copy(update={"least": least})


def decided(*history: Exposure, **facts: object) -> Decision:
    return next_decision(inputs(PUSH_UP, WRITTEN, *history, kit=BARE, **facts))


def codes(decision: Decision) -> list[str]:
    return [each.code for each in decision.reasons]


def test_what_is_given_is_fewer_reps_and_done_it_is_given_again_without_a_word_of_a_miss():
    first = decided(done(5, WRITTEN, "10 10 10"), pain=(HURT,))
    again = decided(done(5, WRITTEN, "10 10 10"), eased(3, "8 8 8"), pain=(HURT,))

    assert (first.target, again.target) == (8, 8)
    assert (codes(first), codes(again)) == ([ReasonCode.PAIN_DROP], [ReasonCode.PAIN_DROP])


def test_after_two_calm_sessions_at_fewer_reps_the_written_ones_come_back():
    decision = decided(done(5, WRITTEN, "10 10 10"), eased(3, "8 8 8"), eased(1, "8 9 8"), pain=(HURT,))

    assert decision.target == 10
    assert not MISSES & set(codes(decision))


@pytest.mark.parametrize(
    ("counts", "least", "verdict", "fewer"),
    [
        ("8 8 8", 8, Verdict.DONE, True),
        ("10 10 10", 8, Verdict.DONE, False),
        ("8 8 7", 8, Verdict.MISSED, False),
        ("9 9 9", 12, Verdict.MISSED, False),
        ("8 8", 8, Verdict.SHORT, False),
    ],
)
def test_it_counts_by_what_the_card_asked_for(counts: str, least: int, verdict: Verdict, fewer: bool):
    [found] = performances((eased(3, counts, least),), exercise(PUSH_UP))

    assert (found.verdict, found.by_fewer_reps) == (verdict, fewer)


def test_it_is_not_one_of_the_two_sessions_that_earn_a_raise():
    written = dose(3, "10", "20")
    lighter = done(4, written, "8 8 8").model_copy(update={"least": 8})
    whole = [done(days, written, "10 10 10") for days in (7, 2)]

    once = next_decision(inputs("goblet-squat", written, lighter, whole[1], kit=GYM))
    twice = next_decision(inputs("goblet-squat", written, whole[0], lighter, whole[1], kit=GYM))

    assert codes(once)[0] == ReasonCode.DONE_ONCE
    assert codes(twice)[0] == ReasonCode.RAISE_DONE_TWICE


def test_where_nothing_else_was_done_the_written_reps_come_next():
    decision = decided(eased(3, "8 8 8"))

    assert (decision.target, codes(decision)[0]) == (10, ReasonCode.ADD_REP)


def test_more_pain_after_it_is_eased_from_what_was_done_before_and_not_again_and_again():
    worse = hurt(3, Site.SHOULDER, 6, felt=Felt.DURING, row=2, exercise=PUSH_UP)
    decision = decided(done(5, WRITTEN, "10 10 10"), eased(3, "8 8 8"), pain=(HURT, worse))

    assert decision.target == 8
