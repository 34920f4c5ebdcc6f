"""A session that takes in a lift of another day: nothing rises in it, and nothing rises from it.

Common practice, no source; that what was not done in one still counts is our proposal.
"""

from core.loads.decision import Decision, Exposure, Inputs, Kind, next_decision
from core.loads.reasons import ReasonCode
from tests.core.loads.lifts import codes, done, dose, inputs

SQUAT = dose(4, "8", "80")
RANGE = dose(3, "8-10", "80")


def merged(exposure: Exposure) -> Exposure:
    return exposure.model_copy(update={"merged": True})


def in_merged(found: Inputs) -> Decision:
    moment = found.moment.model_copy(update={"merged": True})
    return next_decision(found.model_copy(update={"moment": moment}))


TWICE = (done(8, SQUAT, "8 8 8 8", left=2), done(4, SQUAT, "8 8 8 8", left=2))


def test_a_raise_that_was_earned_waits_while_sessions_are_merged() -> None:
    found = inputs("back-squat", SQUAT, *TWICE)

    assert next_decision(found).kind is Kind.RAISE
    held = in_merged(found)
    assert (held.kind, str(held.load), held.target) == (Kind.HOLD, "80 kg", 8)
    assert codes(held) == [ReasonCode.MERGED]


def test_reps_rise_no_more_than_loads_do() -> None:
    found = inputs("back-squat", RANGE, done(4, RANGE, "8 8 8", left=2))

    assert (next_decision(found).target, in_merged(found).target) == (9, 8)


def test_a_first_time_is_as_written_in_a_merged_session_too() -> None:
    found = inputs("back-squat", SQUAT)

    assert in_merged(found) == next_decision(found)


def test_a_merged_session_is_not_one_of_the_two_that_a_raise_takes() -> None:
    found = inputs("back-squat", SQUAT, TWICE[0], merged(TWICE[1]))

    decision = next_decision(found)
    assert (decision.kind, str(decision.load)) == (Kind.HOLD, "80 kg")
    assert codes(decision) == [ReasonCode.DONE_ONCE]


def test_a_raise_that_was_earned_before_comes_after_it() -> None:
    found = inputs("back-squat", SQUAT, done(11, SQUAT, "8 8 8 8", left=2), TWICE[0], merged(TWICE[1]))

    assert next_decision(found).kind is Kind.RAISE


def test_merged_sessions_alone_raise_nothing() -> None:
    once = merged(done(4, RANGE, "10 10 10", left=2))
    decision = next_decision(inputs("back-squat", RANGE, once))

    assert (
        next_decision(inputs("back-squat", RANGE, once.model_copy(update={"merged": False}))).kind
        is Kind.RAISE
    )
    assert (decision.kind, str(decision.load)) == (Kind.HOLD, "80 kg")
    assert codes(decision) == [ReasonCode.MERGED]


def test_what_was_not_done_in_a_merged_session_counts_like_any_other() -> None:
    found = inputs("back-squat", SQUAT, TWICE[0], merged(done(4, SQUAT, "8 8 7 5", left=0)))

    assert codes(next_decision(found)) == [ReasonCode.MISS_FIRST]
