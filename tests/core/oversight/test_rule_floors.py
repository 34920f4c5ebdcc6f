"""No rule that a coach can set switches safety off: whatever the settings, no load rises through pain of 4 and over."""

from datetime import UTC, datetime, time
from decimal import Decimal

import pytest
from examples import examples
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.checkin.pain import PainReport, bears_on, flares, locks
from core.checkin.stop_signs import scan
from core.loads.decision import Inputs, Kind, next_decision
from core.loads.performance import performances
from core.oversight.rule import Kind as Set
from core.oversight.rule import Rule, Setting
from core.oversight.rule_words import RULES
from core.policy import Policy
from core.programme.exercises import Site
from core.units import Mass
from tests.core.loads.lifts import TODAY, decide, done, dose, hurt
from tests.core.loads.test_properties import cases, given_mass

BENCH = dose(3, "8", "60")
TWICE = (done(7, BENCH, "8 8 8", left=4), done(3, BENCH, "8 8 8", left=4))


def edges(rule: Rule) -> list[Setting]:
    """Return the utmost that a rule can be set to."""
    found: list[Setting] = [True, False] if rule.kind is Set.SWITCH else list(rule.edges)
    return [*found, None] if rule.may_be_off else found


def fitting(values: dict[str, Setting]) -> Policy:
    """Return a policy with as many of these as stand beside each other."""
    kept: dict[str, Setting] = {}
    for name, value in values.items():
        try:
            Policy.model_validate({**kept, name: value})
        except ValueError:
            continue
        kept[name] = value
    return Policy.model_validate(kept)


@st.composite
def policies(draw: st.DrawFn) -> Policy:
    return fitting({rule.field: draw(st.sampled_from(edges(rule))) for rule in RULES.values()})


EDGES = [(rule.field, edge) for rule in RULES.values() for edge in edges(rule)]


@pytest.mark.untraced
@each_row(("field", "edge"), EDGES)
@each_row("score", [4, 6, 7, 10, None])
def test_at_the_edge_of_a_rule_pain_of_four_and_over_still_raises_nothing(
    field: str, edge: Setting, score: int | None
) -> None:
    policy = fitting({field: edge})
    well = decide("bench-press", BENCH, *TWICE)
    found = decide("bench-press", BENCH, *TWICE, policy=policy, pain=(hurt(3, Site.SHOULDER, score),))

    assert well.kind is Kind.RAISE
    assert found.kind in (Kind.LOWER, Kind.PAUSE, Kind.SWAP)
    assert found.load is None or (found.load.mass or Mass.of(0)) <= Mass.of("60") * Decimal("0.9")


@examples(300)
@given(cases(), policies(), st.sampled_from([4, 6, 7, 10, None]), st.data())
def test_whatever_is_set_pain_of_four_and_over_never_raises(
    inputs: Inputs, policy: Policy, score: int | None, data: st.DataObject
) -> None:
    last = max((one.on for one in inputs.history), default=TODAY)
    site = data.draw(st.sampled_from(sorted(inputs.exercise.loads_sites)))
    on = data.draw(st.sampled_from([last, TODAY]))
    report = PainReport(row_id=99_999, site=site, score=score, on=on, at=datetime.combine(on, time(23), UTC))
    assert bears_on(report, inputs.exercise)
    assert flares(report)
    lifter = inputs.lifter.model_copy(update={"pain": (*inputs.lifter.pain, report)})
    hurting = inputs.model_copy(update={"lifter": lifter, "policy": policy})
    decision = next_decision(hurting)
    past = performances(inputs.history, inputs.exercise)

    assert decision.kind is not Kind.RAISE
    assert locks(report, inputs.exercise) <= (decision.kind is Kind.PAUSE)
    mass = given_mass(hurting, decision)
    if mass is not None and past:
        assert mass <= past[-1].load


@examples(100)
@given(cases(), policies())
def test_whatever_is_set_a_plan_on_hold_gives_nothing_and_nothing_is_over_the_load_line(
    inputs: Inputs, policy: Policy
) -> None:
    decision = next_decision(inputs.model_copy(update={"policy": policy}))
    mass = given_mass(inputs, decision)
    frozen = inputs.lifter.model_copy(update={"frozen": True})
    held = next_decision(inputs.model_copy(update={"policy": policy, "lifter": frozen}))

    assert mass is None or decision.line.mass is None or mass <= decision.line.mass
    assert held.kind is Kind.PAUSE


def test_a_stop_sign_is_found_by_its_words_alone() -> None:
    assert scan("I have pain in my chest and cannot breathe") is not None
    assert not any("stop" in each and "silent" not in each for each in Policy.model_fields)
