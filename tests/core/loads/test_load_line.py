"""The load line as a whole: what each ceiling says, from which day it is counted, and what stands first."""

from core.loads.decision import Decision
from core.loads.health_line import HealthLine
from core.loads.load_line import Standing
from core.loads.pain_line import PainLine
from core.programme.exercises import Site
from tests.core.loads.lifts import brief, codes, decide, done, dose, hurt


def ceiling(decision: Decision, code: str) -> dict[str, str]:
    """The facts of one ceiling, with the mass that it allows."""
    found = next(one for one in decision.line.ceilings if one.reason.code == code)
    return {**found.reason.facts, "allows": str(found.mass)}


def test_of_four_weeks_the_day_that_is_28_days_ago_counts() -> None:
    rising = ((35, "90"), (28, "100"), (21, "100"), (14, "100"), (7, "105"))
    history = [done(ago, dose(3, "8-12", load), "8 8 8", left=2) for ago, load in rising]
    decision = decide("back-squat", dose(3, "8-12", "105"), *history)

    assert ceiling(decision, "cap four weeks") == {
        "load": "105 kg", "percent": "10", "cap": "110 kg", "date": "2026-03-17", "allows": "110 kg",
    }  # fmt: skip


def test_of_a_week_the_day_that_is_six_days_ago_counts() -> None:
    rising = ((13, "60"), (6, "62.5"), (2, "62.5"))
    history = [done(ago, dose(3, "8-12", load), "8 8 8", left=2) for ago, load in rising]
    decision = decide("bench-press", dose(3, "8-12", "62.5"), *history)

    assert ceiling(decision, "cap week") == {
        "load": "62.5 kg", "percent": "5", "cap": "65.62 kg", "date": "2026-04-08", "allows": "65.625 kg",
    }  # fmt: skip


def test_the_log_says_last_and_first_what_it_would_tell() -> None:
    asked = dose(3, "8-12", "12")
    decision = decide("curl", asked, done(2, asked, "12 12 12"))

    assert codes(decision) == ["add a rep", "cap"]
    assert decision.line.ceilings[-1].reason == decision.reasons[0]


def test_where_nothing_stands_but_the_log_nothing_holds() -> None:
    assert not Standing(pain=PainLine(), back=None, deload=False, health=HealthLine()).holds


def test_a_cap_tells_the_next_step_and_how_much_more_it_is() -> None:
    asked = dose(3, "8-12", "12")
    decision = decide("curl", asked, done(2, asked, "12 12 12"))

    assert ceiling(decision, "cap") == {
        "load": "12 kg", "cap": "12.6 kg", "next": "14 kg", "percent": "16.7", "allows": "12.6 kg",
    }  # fmt: skip


def test_on_the_way_back_from_pain_a_step_that_was_earned_is_not_let_through() -> None:
    asked = dose(3, "8-12", "12")
    calm = [done(ago, asked, "15 15 15", left=2) for ago in (12, 9, 7)]
    flare = hurt(13, Site.ELBOW, 4, exercise="curl")

    assert brief(decide("curl", asked, *calm)) == "raise 14 kg 3x8 left 2: raise earned"
    slow = decide("curl", asked, *calm, pain=(flare,))
    assert str(slow.load) == "12 kg"
    assert ceiling(slow, "cap")["cap"] == "12.3 kg"
    assert ceiling(slow, "cap week")["cap"] == "12.3 kg"


def test_a_load_that_was_missed_is_not_what_a_cap_is_counted_from() -> None:
    rising = ((35, "100", "8 8 8"), (30, "110", "8 8 6"), (21, "100", "8 8 8"), (14, "100", "8 8 8"))
    history = [done(ago, dose(3, "8-12", load), counts, left=2) for ago, load, counts in rising]
    decision = decide(
        "back-squat", dose(3, "8-12", "100"), *history, done(7, dose(3, "8-12", "100"), "8 8 8")
    )

    assert ceiling(decision, "cap four weeks")["cap"] == "110 kg"


def test_after_an_eased_session_a_cap_is_told_beside_the_load_from_before_it() -> None:
    asked = dose(3, "8-12", "100")
    full = [done(ago, asked, "9 9 9", left=2) for ago in (12, 8)]
    eased = done(4, dose(2, "8-12", "80"), "9 9", left=3).model_copy(update={"eased": True})
    decision = decide("back-squat", asked, *full, eased)

    assert ceiling(decision, "cap four weeks")["load"] == "100 kg"
    assert ceiling(decision, "cap week")["load"] == "100 kg"


def test_where_taps_alone_hold_a_load_no_cap_gives_way() -> None:
    rising = ((37, "10"), *((ago, "12") for ago in (30, 23, 16, 9, 2)))
    history = [done(ago, dose(3, "8-12", load), "15 15 15", tap=True) for ago, load in rising]
    decision = decide("curl", dose(3, "8-12", "12"), *history)

    assert codes(decision) == ["taps alone"]
    assert ceiling(decision, "cap four weeks")["cap"] == "13.2 kg"
