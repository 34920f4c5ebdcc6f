from datetime import date

from core.loads.decision import Exposure, Inputs, Kind, Moment, SetDone, next_decision
from core.loads.equipment import default_kit
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Dose, Load, Span
from core.units import Unit


def test_a_bodyweight_exercise_without_a_written_load_never_gets_one():
    exercise = CATALOGUE["dead-bug"]
    kit = default_kit("both", Unit.KG)
    dose = Dose(sets=3, reps=Span(low=8, high=8), each_side=True)
    done = tuple(
        Exposure(
            session_id=number,
            on=date(2026, 4, 2 + 7 * number),
            week_no=number,
            dose=dose,
            sets=tuple(SetDone(row_id=10 * number + one, set_no=one, reps=8) for one in (1, 2, 3)),
        )
        for number in (1, 2)
    )
    inputs = Inputs(
        exercise=exercise, dose=dose, history=done, kit=kit, moment=Moment(today=date(2026, 4, 23), week_no=3)
    )

    decision = next_decision(inputs)

    assert decision.load in (None, Load.bodyweight())
    assert decision.kind is not Kind.RAISE
