from rows import each_row

from bot.render.rule_names import NAMES, rule_name
from core.loads.reasons import ReasonCode


@each_row("code", sorted({*NAMES, *ReasonCode}))
def test_the_name_of_a_rule_fits_a_table(code: str) -> None:
    assert 0 < len(rule_name(code)) <= 32


def test_no_two_rules_have_the_same_name() -> None:
    assert len(set(NAMES.values())) == len(NAMES)


def test_a_rule_without_a_name_of_its_own_goes_by_its_code() -> None:
    assert rule_name("something new") == "something new"
