"""What must hold of pain, whatever hurts, whatever was logged and whatever a coach has allowed."""

from datetime import UTC, datetime, time, timedelta

from examples import examples
from hypothesis import given
from hypothesis import strategies as st

from core.checkin.pain import Felt, PainReport, bears_on, flares, locks
from core.checkin.pain_course import marked
from core.loads.decision import Inputs, Kind, next_decision, replay
from core.loads.go_ahead import GoAhead
from core.loads.pain_line import CALM_SESSIONS
from core.programme.exercises import Side, Site
from tests.core.loads.lifts import TODAY
from tests.core.loads.test_ceiling_properties import load_or_none, wider

SITES = st.sampled_from(Site)
SIDES = st.sampled_from([None, *Side])
FLAGS = ("sudden", "spreading", "painkiller", "weak", "fever", "after_birth")


@st.composite
def reports(draw: st.DrawFn, inputs: Inputs) -> PainReport:
    """A report of a place that the exercise loads, or of any other, on a day of the log or near it."""
    days = [one.on for one in inputs.history] or [TODAY]
    on = draw(st.sampled_from(days)) + timedelta(days=draw(st.integers(0, 2)))
    flags = draw(st.sets(st.sampled_from(FLAGS), max_size=1)) if draw(st.integers(0, 3)) == 0 else set()
    site = draw(st.sampled_from([*sorted(inputs.exercise.loads_sites), Site.HAND]))
    return PainReport(
        row_id=draw(st.integers(10_000, 99_999)),
        site=site,
        side=draw(SIDES),
        score=draw(st.one_of(st.none(), st.integers(0, 10))),
        felt=draw(st.sampled_from(Felt)),
        on=min(on, TODAY),
        at=datetime.combine(min(on, TODAY), time(18), UTC),
        exercise=draw(st.sampled_from([None, inputs.exercise.key])),
        **dict.fromkeys(flags, True),
    )


@st.composite
def go_aheads(draw: st.DrawFn) -> GoAhead:
    at = datetime.combine(TODAY - timedelta(days=draw(st.integers(0, 40))), time(20), UTC)
    return GoAhead(row_id=1, site=draw(SITES), side=draw(SIDES), score=draw(st.integers(1, 3)), at=at)


def hurting(inputs: Inputs, told: list[PainReport], allowed: list[GoAhead]) -> Inputs:
    lifter = inputs.lifter.model_copy(update={"pain": marked((*inputs.lifter.pain, *told))})
    return inputs.model_copy(update={"lifter": lifter, "go_aheads": tuple(allowed)})


@examples(200)
@given(wider(), st.data())
def test_nothing_rises_through_pain_of_four_and_over_whatever_a_coach_allowed(
    inputs: Inputs, data: st.DataObject
) -> None:
    told = data.draw(st.lists(reports(inputs), min_size=1, max_size=4))
    found = hurting(inputs, told, data.draw(st.lists(go_aheads(), max_size=2)))
    decision = next_decision(found)

    bearing = [one for one in found.lifter.pain if bears_on(one, found.exercise) and one.on <= TODAY]
    if any(locks(one, found.exercise) for one in bearing):
        assert decision.kind is Kind.PAUSE
    since = max((one.on for one in bearing if flares(one)), default=None)
    after = sum(bool(one.sets) and since is not None and one.on > since for one in found.history)
    if since is not None and after < CALM_SESSIONS:
        assert decision.kind is not Kind.RAISE
    assert replay(found.model_dump_json()) == decision.model_dump_json()


@examples(200)
@given(wider(), st.data())
def test_a_coach_who_allows_raises_never_gives_more_than_no_pain_would(
    inputs: Inputs, data: st.DataObject
) -> None:
    told = data.draw(st.lists(reports(inputs), max_size=3))
    free = inputs.model_copy(update={"lifter": inputs.lifter.model_copy(update={"pain": ()})})
    allowed = data.draw(st.lists(go_aheads(), min_size=1, max_size=2))
    most = load_or_none(free, next_decision(free))
    given_now = load_or_none(free, next_decision(hurting(free, told, allowed)))

    assert most is None or given_now is None or given_now <= most


@examples(200)
@given(wider(), st.data())
def test_one_report_more_never_gives_more(inputs: Inputs, data: st.DataObject) -> None:
    free = inputs.model_copy(update={"lifter": inputs.lifter.model_copy(update={"pain": ()})})
    told = data.draw(st.lists(reports(free), max_size=2))
    more = data.draw(reports(free))
    before = load_or_none(free, next_decision(hurting(free, told, [])))
    after = load_or_none(free, next_decision(hurting(free, [*told, more], [])))

    assert before is None or after is None or after <= before
