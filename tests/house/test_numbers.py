"""Every number that a rule uses stands in a table of DEVELOPERS.md, with value, unit, source and what changes it."""

from house.numbers import PAPER, numbers, table, written

from core.policy import Policy


def test_the_table_is_fresh() -> None:
    assert written(PAPER.read_text(encoding="utf-8")) == table()


def test_every_setting_of_a_coach_that_is_a_number_is_in_it() -> None:
    named = {one.where for one in numbers()}
    assert {name for name in Policy.model_fields if f"`Policy.{name}`" not in named} == set()


def test_every_number_says_where_it_comes_from() -> None:
    assert [one.name for one in numbers() if not one.source] == []
