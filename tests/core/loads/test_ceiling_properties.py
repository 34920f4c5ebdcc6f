"""What must hold of every ceiling and every way up, whatever was logged, whoever lifts and with whatever kit."""

from datetime import UTC, datetime, time, timedelta
from decimal import Decimal

import pytest
from examples import examples
from hypothesis import given
from hypothesis import strategies as st

from core.checkin.pain import PainReport, flares
from core.loads.asked import asked_for
from core.loads.decision import Decision, Exposure, Inputs, Kind, next_decision, replay
from core.loads.health import Birth, Illness, IllnessKind
from core.loads.limits import Clinician, Limit, LimitKind
from core.loads.order import CoachOrder, OrderKind
from core.loads.past import MuscleSets
from core.programme.exercises import Basis, Implement, Pattern, Site
from core.programme.muscles import Muscle
from core.programme.prescription import Dose, Load, LoadKind, PercentOf, Span
from core.programme.restrictions import Restriction
from core.programme.way_cells import misfit
from core.programme.ways_up import BY_TABLE, TABLE_REPS, TABLE_SETS, WayKind, WayUp
from core.units import Mass, Unit
from tests.core.loads.lifts import TODAY
from tests.core.loads.test_properties import cases, given_mass

DAYS = st.integers(-2, 60).map(lambda ago: TODAY - timedelta(days=ago))
LATER_OR_NEVER = st.one_of(st.none(), DAYS)
MASSES = st.builds(Mass.of, st.integers(0, 150), st.sampled_from(Unit))
ILLNESSES = st.builds(
    Illness, kind=st.sampled_from(IllnessKind), since=DAYS, free_on=LATER_OR_NEVER, released_on=LATER_OR_NEVER
)
BIRTHS = st.builds(Birth, on=LATER_OR_NEVER, released_on=LATER_OR_NEVER)
KNOWN = st.builds(
    MuscleSets,
    muscle=st.sampled_from(Muscle),
    before=st.integers(1, 20).map(Decimal),
    now=st.integers(0, 20).map(Decimal),
)


@st.composite
def limits(draw: st.DrawFn, key: str) -> Limit:
    kind = draw(st.sampled_from(LimitKind))
    aims = [
        {},
        {"exercise": key},
        {"pattern": draw(st.sampled_from(Pattern))},
        {"site": draw(st.sampled_from(Site))},
    ]
    aim = {} if kind is LimitKind.RESTRICTION else draw(st.sampled_from(aims))
    return Limit.model_validate(
        {
            "row_id": draw(st.integers(1, 99)),
            "kind": kind,
            "by": draw(st.sampled_from(Clinician)),
            "since": draw(DAYS),
            "until": draw(LATER_OR_NEVER),
            "review_on": draw(LATER_OR_NEVER),
            "mass": draw(MASSES) if kind is LimitKind.MOST_LOAD else None,
            "restriction": draw(st.sampled_from(Restriction)) if kind is LimitKind.RESTRICTION else None,
            **aim,
        }
    )


@st.composite
def ways(draw: st.DrawFn, dose: Dose, found: Inputs) -> Dose:
    """The dose with a way up that fits it, a written step or a share; as it was where none does."""
    row = found.exercise
    loaded = row.basis is not Basis.BODYWEIGHT and row.implement is not Implement.BAND
    kind = draw(st.sampled_from([one for one in WayKind if one is not WayKind.VARIANTS]))
    changed: dict[str, object] = {"way": WayUp(kind=kind)}
    if kind in BY_TABLE and dose.reps is not None:
        reps = TABLE_REPS[kind]
        changed |= {"sets": TABLE_SETS, "reps": Span(low=reps, high=reps), "left": None}
    elif kind is WayKind.LAST_SET and dose.reps is not None:
        changed |= {"reps": Span(low=dose.reps.low, high=dose.reps.low), "or_more": True}
    elif kind is WayKind.AS_WRITTEN and dose.reps is not None and loaded:
        steps = [Load.share(75, PercentOf.ESTIMATE), Load.share(90, PercentOf.MAX), Load.up(Mass.of("2.5"))]
        changed |= {"load": draw(st.sampled_from([*steps, dose.load]))}
    made = dose.model_copy(update=changed)
    return made if misfit(WayUp(kind=kind), made, row.key, loaded=loaded) is None else dose


@st.composite
def wider(draw: st.DrawFn) -> Inputs:
    """Cases with ways up, marked sessions and two sides beside what other cases have."""
    found = draw(cases())
    dose = draw(ways(found.dose, found))
    usual = dose if draw(st.integers(0, 3)) else found.dose
    history = tuple(_asked_so(draw, one, usual) for one in found.history)
    return found.model_copy(update={"dose": dose, "history": history})


def _asked_so(draw: st.DrawFn, past: Exposure, usual: Dose) -> Exposure:
    known = (
        past.dose.load if past.dose.load is not None and past.dose.load.kind is LoadKind.MASS else usual.load
    )
    asked = usual.model_copy(update={"load": known if usual.way is not None else past.dose.load})
    if draw(st.booleans()):
        return past
    fits = asked.seconds is None or all(one.seconds is not None for one in past.sets)
    marks = {"eased": draw(st.integers(0, 5)) == 0, "merged": draw(st.integers(0, 5)) == 0}
    return past.model_copy(update={"dose": asked, **marks} if fits else marks)


@examples(150)
@given(wider(), st.data())
def test_nothing_is_over_a_ceiling_and_nothing_cannot_be_loaded_by_any_way_up(
    inputs: Inputs, data: st.DataObject
) -> None:
    more = {"limits": tuple(data.draw(st.lists(limits(inputs.exercise.key), max_size=2)))}
    inputs = inputs.model_copy(update=more)
    decision = next_decision(inputs)
    mass, steps = given_mass(inputs, decision), asked_for(inputs).ladder.steps
    if mass is not None:
        assert mass in steps
        assert all(one.mass is not None and mass <= one.mass for one in decision.line.ceilings)
    if decision.plan is not None:
        planned = [*decision.plan.sets, *decision.plan.last]
        highest = max(one.load.mass for one in planned if one.load.mass is not None)
        assert all(one.load.mass in steps for one in planned)
        # The last set may be over the log's own proposal, which is the last ceiling, and over no other.
        assert all(one.mass is not None and highest <= one.mass for one in decision.line.ceilings[:-1])
        assert decision.sets == TABLE_SETS
        assert decision.plan.last[0].reps_from == 0
    assert 1 <= decision.sets <= inputs.dose.sets
    assert replay(inputs.model_dump_json()) == decision.model_dump_json()


def load_or_none(inputs: Inputs, decision: Decision) -> Mass | None:
    """What is on the bar; None where nothing is to be lifted, and where a load is only looked for."""
    looked_for = decision.load is not None and decision.load.kind is LoadKind.FIND
    return None if looked_for else given_mass(inputs, decision)


@st.composite
def held(draw: st.DrawFn, inputs: Inputs) -> Inputs:
    """The same with one thing more that asks for caution."""
    lifter = inputs.lifter
    kind = draw(
        st.sampled_from(["limit", "ill", "pregnant", "birth", "pressure", "sets", "merged", "ease", "60"])
    )
    match kind:
        case "limit":
            return inputs.model_copy(update={"limits": (*inputs.limits, draw(limits(inputs.exercise.key)))})
        case "ill":
            return _with(inputs, ill=(*lifter.ill, draw(ILLNESSES)))
        case "pregnant":
            return _with(inputs, pregnant=True)
        case "birth":
            return _with(inputs, birth=draw(BIRTHS))
        case "pressure":
            return _with(inputs, pressure_untreated=True)
        case "sets":
            return inputs.model_copy(update={"week_sets": (draw(KNOWN),)})
        case "merged":
            return inputs.model_copy(update={"moment": inputs.moment.model_copy(update={"merged": True})})
        case "ease":
            order = CoachOrder(row_id=1, kind=OrderKind.EASE, percent=draw(st.integers(0, 20)))
            return inputs.model_copy(update={"orders": (order,)})
        case _:
            return _with(inputs, age_band="60+")


def _with(inputs: Inputs, **fields: object) -> Inputs:
    return inputs.model_copy(update={"lifter": inputs.lifter.model_copy(update=fields)})


@examples(300)
@given(wider(), st.data())
def test_a_reason_for_caution_never_raises_a_load_nor_sets_nor_lessens_what_is_left(
    inputs: Inputs, data: st.DataObject
) -> None:
    # What the last session was eased for is a matter of the log, and of another test.
    careful = data.draw(held(inputs))
    before, after = next_decision(inputs), next_decision(careful)
    usual, cautious = load_or_none(inputs, before), load_or_none(careful, after)
    if usual is None:
        # After a birth, once released, she starts as new: a log that came to nothing light enough is over.
        anew = careful.lifter.birth != inputs.lifter.birth and after.kind is Kind.START
        assert cautious is None or after.kind is before.kind or anew
        return
    if cautious is None:
        return
    assert cautious <= usual
    if careful.lifter.birth != inputs.lifter.birth:
        return  # She starts as new: what a break before it had cut of the sets is no matter any more.
    assert after.sets <= before.sets
    assert before.left is None or (after.left or 0) >= before.left


@examples(150)
@given(wider(), st.data())
def test_nothing_rises_in_a_pregnancy_nor_with_a_cold(inputs: Inputs, data: st.DataObject) -> None:
    cold = Illness(kind=IllnessKind.COLD, since=TODAY)
    careful = data.draw(st.sampled_from([_with(inputs, pregnant=True), _with(inputs, ill=(cold,))]))

    assert next_decision(careful).kind is not Kind.RAISE


@examples(150)
@given(wider(), st.sampled_from([4, 6, None]), st.booleans())
def test_pain_of_four_and_over_raises_by_no_way_up(inputs: Inputs, score: int | None, own: bool) -> None:
    on = max((one.on for one in inputs.history), default=TODAY)
    site = min(inputs.exercise.loads_sites)
    at = datetime.combine(on, time(23), UTC)
    named = inputs.exercise.key if own else None
    report = PainReport(row_id=99_999, site=site, score=score, on=on, at=at, exercise=named)
    hurting = _with(inputs, pain=(*inputs.lifter.pain, report))
    assert flares(report)

    decision = next_decision(hurting)
    assert decision.kind is not Kind.RAISE
    assert decision.plan is None


@examples(100)
@given(wider(), st.randoms(use_true_random=False))
def test_the_order_of_logging_does_not_matter_to_any_way_up(inputs: Inputs, random: object) -> None:
    def shuffled(items: tuple[object, ...]) -> tuple[object, ...]:
        return tuple(random.sample(items, len(items)))  # type: ignore[attr-defined]

    history = tuple(one.model_copy(update={"sets": shuffled(one.sets)}) for one in inputs.history)
    mixed = inputs.model_copy(update={"history": shuffled(history)})

    assert next_decision(mixed).model_dump_json() == next_decision(inputs).model_dump_json()


@pytest.mark.parametrize("kind", sorted(BY_TABLE))
def test_every_table_fits_a_loaded_exercise_so_that_these_cases_have_it(kind: WayKind) -> None:
    reps = TABLE_REPS[kind]
    asked = Dose(sets=TABLE_SETS, reps=Span(low=reps, high=reps), load=Load.of(60), way=WayUp(kind=kind))

    assert misfit(WayUp(kind=kind), asked, "back-squat") is None
