"""Each setting of a coach in words, with its range and source; and what a button sets it to."""

from datetime import time
from decimal import Decimal

import pytest
from rows import each_row

from core.oversight.rule import Group, Kind, Reach, Rule, in_the_way, steps_from
from core.oversight.rule_lines import rule_meant
from core.oversight.rule_words import RULES, rules_of
from core.policy import IN_ORDER, Policy
from core.programme.catalogue import exercise
from core.programme.folding import folded
from core.units import Mass

EVERY = tuple(RULES.values())


def test_every_setting_of_the_policy_is_a_rule_and_nothing_else_is() -> None:
    assert list(RULES) == [each.field for each in EVERY]
    assert set(RULES) == set(Policy.model_fields)


@each_row("rule", EVERY)
def test_a_rule_has_words_a_group_a_range_that_holds_its_default_and_a_source(rule: Rule) -> None:
    assert rule.name
    assert rule.does[0].isupper()
    assert not rule.does.endswith(".")
    assert rule in rules_of(rule.group)
    assert rule.source.startswith(("Our proposal", "Our reading", "Common practice", "From memory", "Source"))
    assert rule.source.endswith(".")
    assert rule.default == getattr(Policy(), rule.field)
    assert rule.fits(rule.default)
    assert (rule.kind is Kind.COUNT) is bool(rule.unit)


@each_row("rule", EVERY)
def test_a_rule_is_found_by_its_own_name_and_by_no_other_rule_s(rule: Rule) -> None:
    assert rule_meant(rule.name, None).rule == rule
    assert [each for each in EVERY if folded(each.name) == folded(rule.name)] == [rule]


@each_row("rule", EVERY)
def test_what_a_rule_takes_the_policy_takes_and_past_its_edges_neither_does(rule: Rule) -> None:
    if rule.kind is Kind.SWITCH:
        assert [rule.fits(each) for each in (True, False, None)] == [True, True, False]
        return
    least, most = rule.edges
    free = {"quiet_to": time(5), "quiet_from": time(23, 30)}
    if rule.field == "late_latest":
        free["quiet_to"] = time(5)
    for edge in (least, most):
        assert rule.fits(edge)
        # Beside the others as they come it may not stand; alone it is in its range.
        others = {name for names in IN_ORDER if rule.field in names for name in names} - {rule.field}
        kept = {name: value for name, value in free.items() if name != rule.field and name in others}
        if in_the_way(rule.field, Policy.model_validate(kept), edge) is None:
            assert getattr(Policy.model_validate({**kept, rule.field: edge}), rule.field) == edge
    for past in _past(least, most):
        assert not rule.fits(past)
        with pytest.raises(ValueError, match=rule.field):
            Policy.model_validate({rule.field: past})


def _past(least: object, most: object) -> tuple[object, object]:
    match least, most:
        case Mass(), Mass():
            return least - Mass.of("0.3"), most + Mass.of("0.01")
        case time(), time():
            return time(least.hour - 1), time(most.hour, most.minute + 1)
        case Decimal(), _:
            return Decimal(0), Decimal(str(most)) + Decimal("0.001")
    assert isinstance(least, int)
    assert isinstance(most, int)
    return least - 1, most + 1


def test_none_is_a_value_only_where_a_cap_may_be_left_off() -> None:
    off = [each.field for each in EVERY if each.may_be_off]

    assert off == ["cap_week_upper", "cap_week_lower", "raise_asks_over"]
    assert [each.field for each in EVERY if each.fits(None)] == off


def test_rules_for_one_exercise_are_about_loads_and_pain_alone() -> None:
    groups = {each.group for each in EVERY if each.reach is Reach.EXERCISE}

    assert groups == {Group.LOADS, Group.PAIN}


def test_a_rule_of_the_upper_body_bears_on_its_exercises_and_the_trunk_goes_with_the_lower() -> None:
    bench, squat, plank = exercise("bench-press"), exercise("back-squat"), exercise("plank")
    upper, lower, both = RULES["cap_upper"], RULES["cap_lower"], RULES["pain_drop"]

    assert [upper.is_for(each) for each in (bench, squat, plank)] == [True, False, False]
    assert [lower.is_for(each) for each in (bench, squat, plank)] == [False, True, True]
    assert all(both.is_for(each) for each in (bench, squat, plank))


@pytest.mark.parametrize(
    ("field", "value", "steps"),
    [
        ("pain_drop", Decimal("0.20"), ("0.10", "0.15", "0.25", "0.30")),
        ("pain_drop", Decimal("0.5"), ("0.40", "0.45")),
        ("cap_upper_mass", Mass.of("2.5"), ("1.5 kg", "2 kg", "3 kg", "3.5 kg")),
        ("quiet_from", time(23, 30), ("22:30:00", "23:00:00")),
        ("quiet_from", time(21), ("20:00:00", "20:30:00", "21:30:00", "22:00:00")),
        ("miss_run", 2, ("3", "4")),
        ("cap_week_lower", Decimal("0.10"), ("0.08", "0.09", "None")),
        ("cap_week_lower", None, ("0.10",)),
        ("raise_asks_over", None, ("0.01", "0.05")),
        ("limit_from_60", False, ("True",)),
        ("limit_from_60", True, ("False",)),
    ],
)
def test_a_button_goes_a_step_or_two_and_stays_in_range(
    field: str, value: object, steps: tuple[str, ...]
) -> None:
    assert tuple(str(each) for each in steps_from(RULES[field], value)) == steps  # type: ignore[arg-type]


def test_an_hour_before_midnight_goes_no_further_than_the_day() -> None:
    late = RULES["quiet_from"].model_copy(update={"step": Decimal(60)})

    assert steps_from(late, time(23)) == (time(21), time(22))


@pytest.mark.parametrize(
    ("field", "value", "found"),
    [
        ("quiet_from", time(22), None),
        ("quiet_from", time(19), ("late_latest", False)),
        ("quiet_from", time(20), ("late_latest", False)),
        ("quiet_to", time(8), None),
        ("week_asked_at", time(21), ("quiet_from", True)),
        ("week_asked_at", time(20), None),
        ("late_latest", time(21), ("quiet_from", True)),
        ("muscle_sets_least", 20, ("muscle_sets_most", True)),
        ("muscle_sets_most", 10, None),
        ("pain_drop", Decimal("0.3"), None),
    ],
)
def test_what_is_sent_by_day_is_sent_outside_quiet_hours(
    field: str, value: object, found: tuple[str, bool] | None
) -> None:
    assert in_the_way(field, Policy(), value) == found  # type: ignore[arg-type]
    if found is None:
        assert getattr(Policy.model_validate({field: value}), field) == value
    else:
        with pytest.raises(ValueError, match="is not under"):
            Policy.model_validate({field: value})


def test_a_default_without_words_beside_it_would_show_no_source() -> None:
    stray = RULES["pain_drop"].model_copy(update={"field": "quiet_to"})

    assert stray.source == "Our proposal."
