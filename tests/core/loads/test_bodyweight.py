from datetime import date

from core.loads.decision import Exposure, Inputs, Kind, Moment, SetDone, next_decision
from core.loads.equipment import default_kit
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Dose, Load, Span
from core.units import Mass, Unit


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


def test_a_load_that_the_kit_cannot_add_is_not_given_and_the_reason_says_so():
    bare = Load.bodyweight()
    kit = default_kit("bodyweight", Unit.KG).model_copy(update={"bodyweight_step": None})
    dose = Dose(sets=1, seconds=Span(low=15, high=15), load=Load.bodyweight(Mass.of(5)))
    before = dose.model_copy(update={"load": bare})
    exposure = Exposure(
        session_id=1,
        on=date(2026, 4, 13),
        week_no=1,
        dose=before,
        sets=(SetDone(row_id=1, set_no=1, load=bare, seconds=15),),
        written=bare,
    )
    inputs = Inputs(
        exercise=CATALOGUE["plank"],
        dose=dose,
        history=(exposure,),
        kit=kit,
        moment=Moment(today=date(2026, 4, 20), week_no=2),
    )

    decision = next_decision(inputs)

    assert decision.load == bare
    assert [reason.code for reason in decision.reasons] == ["top of the kit"]
