"""What must hold whatever was logged, whatever hurts and whatever there is to lift."""

from datetime import UTC, datetime, time, timedelta

from examples import examples
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.checkin.pain import Felt, PainReport, bears_on, flares, locks
from core.loads.asked import ZERO, amount, asked_for
from core.loads.decision import (
    Cause,
    Decision,
    Exposure,
    Inputs,
    Kind,
    Lifter,
    Moment,
    Outcome,
    SetDone,
    next_decision,
    replay,
)
from core.loads.equipment import Kit, Plates, default_kit
from core.loads.performance import performances
from core.policy import Policy
from core.programme.catalogue import CATALOGUE, exercise
from core.programme.exercises import Basis, Exercise, Site
from core.programme.prescription import Dose, Load, LoadKind, Span
from core.units import Mass, Unit
from tests.core.loads.lifts import TODAY, decide, done, dose

KEYS = st.sampled_from(sorted(CATALOGUE))
KITS = st.one_of(
    st.builds(
        default_kit, st.sampled_from(["bar", "dumbbells", "both", "bodyweight"]), st.sampled_from(Unit)
    ),
    st.builds(
        lambda pairs, alone: Kit(
            place="boathouse",
            unit=Unit.KG,
            bar=Mass.of(15),
            plates=tuple(Plates(mass=Mass.of(mass), pairs=count) for mass, count in pairs.items()),
            dumbbells=(Mass.of(4), Mass.of(8), Mass.of(16)),
            safety_arms=not alone,
        ),
        st.dictionaries(st.sampled_from(["20", "10", "5", "0.5"]), st.integers(0, 2)),
        st.booleans(),
    ),
)


@st.composite
def loads(draw: st.DrawFn, row: Exercise) -> Load | None:
    if row.basis is Basis.BODYWEIGHT:
        return draw(
            st.sampled_from([Load.bodyweight(), Load.bodyweight(Mass.of(5)), Load.bodyweight(Mass.of(-10))])
        )
    value = draw(st.integers(min_value=8, max_value=320))
    return draw(st.sampled_from([Load.of(str(value / 2)), Load.find(), None]))


@st.composite
def doses(draw: st.DrawFn, row: Exercise) -> Dose:
    low = draw(st.integers(min_value=3, max_value=12))
    span = Span(low=low, high=low + draw(st.sampled_from([0, 0, 2, 4])))
    load = draw(loads(row))
    sets, left = draw(st.integers(1, 5)), draw(st.sampled_from([None, 0, 1, 2, 3]))
    if row.timed:
        return Dose(sets=sets, seconds=Span(low=span.low * 5, high=span.high * 5), load=load)
    return Dose(sets=sets, reps=span, load=load, left=left)


@st.composite
def exposures(draw: st.DrawFn, row: Exercise, asked: Dose, days_ago: int) -> Exposure:
    load = draw(loads(row)) if draw(st.booleans()) else asked.load
    asked = asked.model_copy(update={"load": load})
    lifted = load if load is not None and load.kind is not LoadKind.FIND else Load.of("20")
    if row.basis is Basis.BODYWEIGHT and lifted.kind is LoadKind.MASS:
        lifted = Load.bodyweight()
    span = asked.reps or asked.seconds
    assert span is not None
    counts = draw(
        st.lists(st.integers(max(0, span.low - 2), span.high + 8), min_size=1, max_size=asked.sets + 1)
    )
    left = draw(st.sampled_from([None, None, 0, 2, 4]))
    sets = tuple(
        SetDone(
            row_id=1000 * days_ago + place,
            set_no=place + 1,
            load=draw(st.sampled_from([lifted, lifted, None])),
            reps=None if row.timed else count,
            seconds=count if row.timed else None,
            left=left if place == 0 else None,
        )
        for place, count in enumerate(counts)
    )
    return Exposure(
        session_id=500 - days_ago,
        on=TODAY - timedelta(days=days_ago),
        week_no=1,
        dose=asked,
        sets=sets,
        by_tap=draw(st.booleans()),
        outcome=draw(st.sampled_from([Outcome.DONE, Outcome.DONE, Outcome.PARTIAL, Outcome.SKIPPED])),
        cause=draw(st.sampled_from([None, None, *Cause])),
        effort=draw(st.sampled_from([None, 3, 5])),
        deload=draw(st.booleans()) and draw(st.booleans()),
        written=draw(st.sampled_from([None, load])),
    )


@st.composite
def reports(draw: st.DrawFn, key: str) -> PainReport:
    on = TODAY - timedelta(days=draw(st.integers(0, 40)))
    at = datetime.combine(on, time(draw(st.integers(5, 22))), UTC)
    return PainReport(
        row_id=draw(st.integers(1, 10_000)),
        site=draw(st.sampled_from(Site)),
        score=draw(st.one_of(st.none(), st.integers(0, 10))),
        felt=draw(st.sampled_from(Felt)),
        on=on,
        at=at,
        exercise=draw(st.sampled_from([None, key, "leg-press"])),
        sudden=draw(st.integers(0, 9)) == 0,
        spreading=draw(st.integers(0, 9)) == 0,
        painkiller=draw(st.integers(0, 5)) == 0,
        released_at=draw(st.sampled_from([None, at])),
    )


@st.composite
def cases(draw: st.DrawFn) -> Inputs:
    row = exercise(draw(KEYS))
    asked = draw(doses(row))
    days = sorted(draw(st.lists(st.integers(1, 90), max_size=6, unique=True)), reverse=True)
    before = draw(doses(row)) if draw(st.booleans()) else asked
    return Inputs(
        exercise=row,
        dose=asked,
        history=tuple(draw(exposures(row, before if draw(st.booleans()) else asked, each)) for each in days),
        kit=draw(KITS),
        policy=Policy(),
        lifter=Lifter(
            age_band=draw(st.sampled_from(["18-39", "60+"])),
            new=draw(st.booleans()),
            frozen=draw(st.integers(0, 20)) == 0,
            pain=tuple(draw(st.lists(reports(row.key), max_size=3, unique_by=lambda one: one.row_id))),
        ),
        moment=Moment(today=TODAY, week_no=3, deload=draw(st.integers(0, 5)) == 0),
        last_trained=draw(st.sampled_from([None, TODAY - timedelta(days=3)])),
        comeback_set_on=draw(st.sampled_from([None, TODAY - timedelta(days=10)])),
    )


def given_mass(inputs: Inputs, decision: Decision) -> Mass | None:
    return amount(decision.load, inputs.exercise) if decision.load is not None else None


@examples(400)
@given(cases())
def test_nothing_is_over_the_load_line_and_nothing_cannot_be_loaded(inputs: Inputs) -> None:
    decision = next_decision(inputs)
    mass = given_mass(inputs, decision)
    if mass is not None:
        assert mass in asked_for(inputs).ladder.steps
        assert decision.line.mass is None or mass <= decision.line.mass
        assert all(one.mass is not None and mass <= one.mass for one in decision.line.ceilings)
    assert decision.reasons
    assert decision.target >= 1
    assert 1 <= decision.sets <= inputs.dose.sets
    assert (decision.kind in (Kind.PAUSE, Kind.SWAP)) <= (decision.load is None)


@examples(400)
@given(cases(), st.sampled_from([4, 6, 7, 10, None]), st.data())
def test_pain_of_four_and_over_never_raises(inputs: Inputs, score: int | None, data: st.DataObject) -> None:
    last = max((one.on for one in inputs.history), default=TODAY)
    site = data.draw(st.sampled_from(sorted(inputs.exercise.loads_sites)))
    on = data.draw(st.sampled_from([last, TODAY]))
    report = PainReport(row_id=99_999, site=site, score=score, on=on, at=datetime.combine(on, time(23), UTC))
    assert bears_on(report, inputs.exercise)
    assert flares(report)
    lifter = inputs.lifter.model_copy(update={"pain": (*inputs.lifter.pain, report)})
    hurting = inputs.model_copy(update={"lifter": lifter})
    decision = next_decision(hurting)
    past = performances(inputs.history, inputs.exercise)
    assert decision.kind is not Kind.RAISE
    assert locks(report, inputs.exercise) <= (decision.kind is Kind.PAUSE)
    mass = given_mass(hurting, decision)
    if mass is not None and past:
        assert mass <= past[-1].load
        if mass == past[-1].load and past[-1].span == asked_for(inputs).span:
            assert decision.target <= max(past[-1].fewest, past[-1].span.low)


@examples(200)
@given(cases(), st.randoms(use_true_random=False))
def test_the_order_of_logging_does_not_matter_and_a_replay_is_the_same(
    inputs: Inputs, random: object
) -> None:
    def shuffled(items: tuple[object, ...]) -> tuple[object, ...]:
        return tuple(random.sample(items, len(items)))  # type: ignore[attr-defined]

    history = tuple(one.model_copy(update={"sets": shuffled(one.sets)}) for one in inputs.history)
    lifter = inputs.lifter.model_copy(update={"pain": shuffled(inputs.lifter.pain)})
    mixed = inputs.model_copy(update={"history": shuffled(history), "lifter": lifter})
    assert next_decision(mixed).model_dump_json() == next_decision(inputs).model_dump_json()
    assert replay(inputs.model_dump_json()) == next_decision(inputs).model_dump_json()


def bettered(past: Exposure, place: int, more: int, heavier: Mass | None) -> Exposure:
    """The same session with `more` reps in one set, or every set heavier."""
    sets = list(past.sets)
    one = sets[place % len(sets)]
    if one.seconds is not None:
        sets[place % len(sets)] = one.model_copy(update={"seconds": one.seconds + more})
    else:
        sets[place % len(sets)] = one.model_copy(update={"reps": (one.reps or 0) + more})
    if heavier is not None:
        sets = [
            each.model_copy(update={"load": Load(each.load.kind, each.load.mass + heavier)})
            if each.load is not None and each.load.mass is not None
            else each
            for each in sets
        ]
    return past.model_copy(update={"sets": tuple(sets)})


@examples(600)
@given(cases(), st.integers(0, 5), st.integers(0, 6), st.sampled_from([None, Mass.of(1), Mass.of(5)]))
def test_a_better_performance_never_gives_a_lower_next_load(
    inputs: Inputs, place: int, more: int, heavier: Mass | None
) -> None:
    if not inputs.history:
        return
    last = inputs.history[-1]
    if any(one.load is None for one in last.sets):
        heavier = None
    better = inputs.model_copy(
        update={"history": (*inputs.history[:-1], bettered(last, place, more, heavier))}
    )
    before, after = next_decision(inputs), next_decision(better)
    worse_mass, better_mass = given_mass(inputs, before), given_mass(better, after)
    if worse_mass is not None:
        assert better_mass is not None
        assert better_mass >= worse_mass


@each_row("key", ["curl", "goblet-squat", "lateral-raise", "chest-supported-row"])
@each_row("now", ["6", "8", "10", "12", "16", "20", "30"])
@each_row("span", ["8-12", "10", "6-8"])
def test_an_earned_jump_is_reached_by_someone_who_keeps_adding_reps(key: str, now: str, span: str) -> None:
    kit = default_kit("both", Unit.KG)
    asked = dose(3, span, now)
    history: list[Exposure] = []
    target = asked.reps.low
    for _ in range(24):
        history = [
            one.model_copy(update={"on": one.on - timedelta(days=3), "session_id": one.session_id - 1})
            for one in history
        ]
        history.append(done(3, asked, " ".join([str(target)] * 3)))
        decision = decide(key, asked, *history[-12:], kit=kit)
        assert not decision.bridge
        if decision.kind is Kind.RAISE:
            break
        assert decision.kind is Kind.HOLD
        assert decision.target >= target
        target = decision.target
    assert decision.kind is Kind.RAISE
    assert target <= Policy().long_reps


@given(cases())
def test_zero_is_the_only_load_that_is_not_written_as_a_mass(inputs: Inputs) -> None:
    mass = given_mass(inputs, next_decision(inputs))
    load = next_decision(inputs).load
    if mass is not None and load is not None and load.kind is LoadKind.BODYWEIGHT:
        assert (load.mass is None) == (mass == ZERO)
