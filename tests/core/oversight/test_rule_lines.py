"""Lines that set a rule: how they are taken apart, which rule is meant, and to what."""

from datetime import time
from decimal import Decimal

import pytest
from rows import each_row

from core.oversight.rule_lines import Read, RuleLine, read_line, rule_meant, value_in
from core.oversight.rule_words import RULES
from core.units import Mass


@each_row(
    ("text", "line"),
    [
        ("raise cap upper 4%", RuleLine(words="raise cap upper", value="4%")),
        ("raise cap upper = 4 %", RuleLine(words="raise cap upper", value="4 %")),
        ("raise cap upper 4 percent", RuleLine(words="raise cap upper", value="4 percent")),
        ("quiet from 22:00", RuleLine(words="quiet from", value="22:00")),
        ("quiet from: 22:00", RuleLine(words="quiet from", value="22:00")),
        ("quiet from 10 pm", RuleLine(words="quiet from", value="10 pm")),
        ("quiet from 10:30 pm", RuleLine(words="quiet from", value="10:30 pm")),
        ("for Ada: pain drop 30%", RuleLine(about="Ada", words="pain drop", value="30%")),
        ("Ada: pain drop 30%", RuleLine(about="Ada", words="pain drop", value="30%")),
        ("for Ada: quiet from 22:00", RuleLine(about="Ada", words="quiet from", value="22:00")),
        ("for all: pain drop 30%", RuleLine(words="pain drop", value="30%")),
        ("for everybody: pain drop 30%", RuleLine(words="pain drop", value="30%")),
        (": pain drop 30%", RuleLine(words="pain drop", value="30%")),
        ("bench press: raise by 1,25 kg", RuleLine(about="bench press", words="raise by", value="1,25 kg")),
        (
            "for Ada, bench press: raise by 1 kg",
            RuleLine(about="Ada, bench press", words="raise by", value="1 kg"),
        ),
        ("limit from 60 on", RuleLine(words="limit from 60", value="on")),
        ("week cap upper no cap", RuleLine(words="week cap upper", value="no cap")),
        ("week cap upper off", RuleLine(words="week cap upper", value="off")),
        ("miss grace 24 hours", RuleLine(words="miss grace", value="24 hours")),
        ("pain drop", RuleLine(words="pain drop")),
        ("reset pain drop", RuleLine(words="pain drop", reset=True)),
        ("reset for Ada: pain drop", RuleLine(about="Ada", words="pain drop", reset=True)),
        ("reset limit from 60", RuleLine(words="limit from 60", reset=True)),
        ("for Ada:", RuleLine(about="Ada")),
        ("", RuleLine()),
    ],
)
def test_a_line_is_taken_apart(text: str, line: RuleLine) -> None:
    assert read_line(text) == line


@pytest.mark.parametrize(
    ("words", "value", "field"),
    [
        ("raise cap upper", "4%", "cap_upper"),
        ("raise cap upper", "2 kg", "cap_upper_mass"),
        ("Raise Caps Upper", None, "cap_upper"),
        ("four-week cap", "15 %", "cap_four_weeks_trained"),
        ("quiet from", "lots", "quiet_from"),
        ("quiet hours from", "22", "quiet_from"),
        ("more sets", "3", "sets_rise"),
        ("more sets", "30 %", "sets_rise_share"),
        ("illness drrop", "15 %", "ill_drop"),
        ("named in the digesst", "7", "digest_words"),
    ],
)
def test_a_rule_is_known_by_its_names_and_by_what_is_set(words: str, value: str | None, field: str) -> None:
    found = rule_meant(words, value)

    assert found.rule is not None
    assert found.rule.field == field


@pytest.mark.parametrize(
    ("words", "value", "fields"),
    [
        ("raise by", "4%", ["cap_upper", "cap_lower"]),
        ("raise by", "1 kg", ["cap_upper_mass", "cap_lower_mass"]),
        ("pian drop", "30%", ["pain_drop", "ill_drop"]),
        ("quite from", "10 pm", ["quiet_from"]),
        ("raise by", None, ["cap_upper", "cap_upper_mass", "cap_lower", "cap_lower_mass"]),
        ("pain in the neck", "3", []),
        ("", "3", []),
    ],
)
def test_where_several_may_be_meant_it_is_asked(words: str, value: str | None, fields: list[str]) -> None:
    found = rule_meant(words, value)

    assert (found.rule, [each.field for each in found.near]) == (None, fields)


def test_a_name_near_to_rules_of_which_none_takes_the_value_is_asked_too() -> None:
    found = rule_meant("quite from", "30 kg")

    assert "quiet_from" in [each.field for each in found.near]


def test_of_rules_that_may_be_meant_only_those_that_are_asked_among_come() -> None:
    upper = [RULES["cap_upper"], RULES["cap_upper_mass"]]
    found = rule_meant("raise by", "1 kg", upper)

    assert found.rule == RULES["cap_upper_mass"]


@each_row(
    ("field", "text", "value"),
    [
        ("cap_upper", "4%", Decimal("0.04")),
        ("cap_upper", "2,5 %", Decimal("0.025")),
        ("cap_upper", "4", Decimal("0.04")),
        ("cap_upper", "4 percent", Decimal("0.04")),
        ("cap_upper_mass", "1.25 kg", Mass.of("1.25")),
        ("cap_upper_mass", "2 lbs", Mass.of(2, "lb")),
        ("miss_grace", "24", 24),
        ("miss_grace", "24 hours", 24),
        ("miss_run", "3 session", 3),
        ("quiet_from", "22:00", time(22)),
        ("quiet_from", "22.30", time(22, 30)),
        ("quiet_from", "22", time(22)),
        ("quiet_from", "10 pm", time(22)),
        ("quiet_to", "7am", time(7)),
        ("quiet_to", "12 am", time(0)),
        ("limit_from_60", "on", True),
        ("limit_from_60", "No", False),
        ("cap_week_upper", "off", None),
        ("cap_week_upper", "no cap", None),
    ],
)
def test_a_value_is_read(field: str, text: str, value: object) -> None:
    assert value_in(text, RULES[field]) == Read(value)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("cap_upper", "0.5"),
        ("cap_upper", "4 kg"),
        ("cap_upper", "off"),
        ("cap_upper_mass", "2"),
        ("cap_upper_mass", "2 %"),
        ("miss_grace", "2.5"),
        ("miss_grace", "2 days"),
        ("miss_grace", "long"),
        ("quiet_from", "25:00"),
        ("quiet_from", "22:75"),
        ("quiet_from", "13 pm"),
        ("quiet_from", "late"),
        ("limit_from_60", "60"),
    ],
)
def test_a_value_that_cannot_be_told_is_not_guessed(field: str, text: str) -> None:
    assert value_in(text, RULES[field]) is None
