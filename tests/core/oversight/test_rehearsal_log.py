from datetime import date, timedelta

from core.loads.decision import Decision, Inputs, Kind, next_decision
from core.loads.looking_back import LOOK_BACK, TRAINED_BEARS
from core.loads.past import Moment
from core.oversight.rehearsal_log import Decided, RehearsalLog
from core.policy import Policy
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Site
from core.programme.prescription import Dose, Load, Prescription
from tests.core.loads.lifts import day, done, dose, hurt
from tests.core.oversight.simulated import lifter

MONDAY = date(2024, 1, 1)
MOMENT = Moment(today=MONDAY, week_no=1)


def log(kind: str = "both", decide: object = next_decision) -> RehearsalLog:
    return RehearsalLog(lifter(kind), CATALOGUE, decide, Policy())  # type: ignore[arg-type]


def asked(key: str, what: Dose, *instead: str) -> Prescription:
    return Prescription(order="A", exercise=key, dose=what, instead=instead)


def keys(made: tuple[Decided, ...]) -> list[str]:
    return [f"{one.prescription.exercise} {one.decision.kind}" for one in made]


def test_a_decision_is_made_from_the_same_inputs_as_a_real_one() -> None:
    pain = (hurt(0, Site.CALF, 2),)
    (made,) = log().decided(asked("back-squat", dose(3, "5", "60")), MOMENT, pain)

    assert made.decision == next_decision(made.inputs)
    assert (made.inputs.kit, made.inputs.policy) == (lifter().kit, Policy())
    assert (made.inputs.history, made.inputs.trained_on, made.inputs.last_trained) == ((), (), None)
    assert (made.inputs.lifter.age_band, made.inputs.lifter.new, made.inputs.lifter.pain) == (
        "18-39",
        False,
        pain,
    )
    assert not made.instead


def test_the_log_looks_back_over_twelve_sessions_and_twelve_weeks() -> None:
    kept, what = log(), dose(3, "5", "60")
    for days_ago in range(30, 0, -2):
        kept.keep("back-squat", done(days_ago, what, "5 5 5"))
    for days_ago in (85, 84, 30, 0):
        kept.trained(day(days_ago))
    (made,) = kept.decided(asked("back-squat", what), Moment(today=day(0), week_no=1), ())

    assert len(made.inputs.history) == LOOK_BACK
    assert made.inputs.history[-1].on == day(2)
    assert made.inputs.trained_on == (day(0) - TRAINED_BEARS, day(30))
    assert made.inputs.last_trained == day(2)


def test_what_the_kit_cannot_load_is_swapped_for_the_nearest_that_it_can() -> None:
    own = log("dumbbells").decided(asked("bench-press", dose(3, "8", "60"), "push-up"), MOMENT, ())
    near = log("dumbbells").decided(asked("bench-press", dose(3, "8", "60")), MOMENT, ())

    assert keys(own) == ["bench-press swap", "push-up start"]
    assert keys(near) == ["bench-press swap", "dumbbell-bench-press start"]
    assert near[-1].instead
    assert near[-1].prescription.dose.load == Load.find()


def test_what_hurts_does_not_stand_in_and_another_is_looked_for() -> None:
    def refusing(inputs: Inputs) -> Decision:
        decision = next_decision(inputs)
        hurts = inputs.exercise.key in {"push-up", "dumbbell-bench-press"}
        return decision.model_copy(update={"kind": Kind.PAUSE, "load": None}) if hurts else decision

    made = log("dumbbells", refusing).decided(asked("bench-press", dose(3, "8", "60"), "push-up"), MOMENT, ())

    assert keys(made)[:3] == ["bench-press swap", "push-up pause", "dumbbell-bench-press pause"]
    assert made[-1].decision.kind not in (Kind.SWAP, Kind.PAUSE)


def test_where_nothing_can_be_done_every_try_is_returned() -> None:
    def refusing(inputs: Inputs) -> Decision:
        return next_decision(inputs).model_copy(update={"kind": Kind.SWAP, "load": None})

    made = log("both", refusing).decided(asked("curl", dose(3, "8", "10")), MOMENT, ())

    assert len(made) > 2
    assert {one.decision.kind for one in made} == {Kind.SWAP}


def test_days_of_training_count_once_they_are_over() -> None:
    kept = log()
    kept.trained(MONDAY)
    (today,) = kept.decided(asked("curl", dose(3, "8", "10")), MOMENT, ())
    (later,) = kept.decided(
        asked("curl", dose(3, "8", "10")), Moment(today=MONDAY + timedelta(days=1), week_no=1), ()
    )

    assert (today.inputs.trained_on, later.inputs.trained_on) == ((), (MONDAY,))
