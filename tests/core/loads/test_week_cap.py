"""What a load may rise in a week. Our proposal: 5 % for the upper body, 10 % below; a week's cap is tradition."""

import json
from decimal import Decimal

from core.loads.decision import Inputs, Lifter, next_decision, replay
from core.policy import Policy
from core.programme.exercises import Site
from tests.core.loads.lifts import brief, codes, decide, done, dose, hurt, inputs

AT_60, AT_62 = dose(3, "8-12", "60"), dose(3, "8-12", "62.5")
ROSE = (done(5, AT_60, "12 12 12", left=2), done(2, AT_62, "12 12 12", left=2))


def test_a_second_raise_in_a_week_waits_for_the_next() -> None:
    held = decide("bench-press", AT_62, *ROSE)

    assert brief(held) == "hold 62.5 kg 3x12 left 2: cap week"
    assert held.reasons[0].facts == {"load": "62.5 kg", "percent": "5", "cap": "63 kg", "date": "2026-04-09"}
    later = (done(9, AT_60, "12 12 12", left=2), done(6, AT_62, "12 12 12", left=2))
    assert brief(decide("bench-press", AT_62, *later)) == "raise 65 kg 3x8 left 2: raise top"


def test_two_small_raises_of_a_heavy_squat_fit_into_a_week() -> None:
    at100, at102 = dose(3, "8-12", "100"), dose(3, "8-12", "102.5")
    twice = (done(5, at100, "12 12 12", left=2), done(2, at102, "12 12 12", left=2))

    assert str(decide("back-squat", at102, *twice).load) == "105 kg"


def test_from_sixty_on_it_is_half() -> None:
    at100, at105 = dose(3, "8-12", "100"), dose(3, "8-12", "105")
    twice = (done(5, at100, "12 12 12", left=2), done(2, at105, "12 12 12", left=2))

    assert codes(decide("back-squat", at105, *twice)) == ["raise top"]
    assert codes(decide("back-squat", at105, *twice, lifter=Lifter(age_band="60+")))[0] == "cap week"


def test_on_the_way_back_from_pain_it_is_half() -> None:
    at60 = dose(3, "8-12", "60")
    calm = [done(ago, at60, "12 12 12", left=2) for ago in (12, 9, 7)]
    decision = decide("bench-press", at60, *calm, pain=(hurt(13, Site.SHOULDER, 4, exercise="bench-press"),))
    cap = next(one for one in decision.line.ceilings if one.reason.code == "cap week")

    assert (str(cap.mass), cap.reason.facts["percent"]) == ("61.5 kg", "2.5")


def test_the_coach_may_have_no_cap_a_week() -> None:
    free = Policy(cap_week_upper=None)

    assert str(decide("bench-press", AT_62, *ROSE, policy=free).load) == "65 kg"


def test_a_load_that_came_down_meanwhile_is_counted_from_where_it_was() -> None:
    history = (done(12, AT_62, "8 8 8", left=2), done(3, AT_60, "12 12 12", left=2))

    assert str(decide("bench-press", AT_60, *history).load) == "62.5 kg"


def test_what_was_stored_before_there_was_such_a_cap_is_replayed_without_it() -> None:
    stored = json.loads(inputs("bench-press", AT_62, *ROSE).model_dump_json())
    assert (stored["policy"].pop("cap_week_upper"), stored["policy"].pop("cap_week_lower")) == (
        "0.05",
        "0.10",
    )
    older = json.dumps(stored)

    assert json.loads(replay(older))["load"]["mass"]["value"] == "65.0"
    assert Inputs.model_validate_json(older).policy.cap_week_upper is None
    assert Policy().cap_week_upper == Decimal("0.05")
    assert (
        next_decision(inputs("bench-press", AT_62, *ROSE)).load
        != next_decision(Inputs.model_validate_json(older)).load
    )
