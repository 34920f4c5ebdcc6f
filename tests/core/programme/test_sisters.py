import pytest
from rows import each_row

from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Pattern
from core.programme.restrictions import Restriction
from core.programme.sisters import INSTEAD, broken, sisters


def left(restriction: Restriction, pattern: Pattern) -> list[str]:
    rows = CATALOGUE.values()
    return [row.key for row in rows if row.pattern is pattern and restriction not in row.breaks]


@each_row("pattern", Pattern)
@each_row("restriction", Restriction)
def test_a_restriction_leaves_something_of_a_pattern_or_names_its_sister(
    restriction: Restriction, pattern: Pattern
) -> None:
    instead = INSTEAD.get(restriction, {}).get(pattern)

    if instead is None:
        assert left(restriction, pattern)
    else:
        assert left(restriction, pattern) == []
        assert instead in sisters(pattern)
        assert left(restriction, instead)


@pytest.mark.parametrize("restriction", Restriction)
def test_every_restriction_forbids_something(restriction: Restriction) -> None:
    assert [row.key for row in CATALOGUE.values() if broken(row, [restriction])]


@each_row("pattern", Pattern)
def test_sisters_are_mutual_and_never_the_pattern_itself(pattern: Pattern) -> None:
    assert pattern not in sisters(pattern)
    assert [other for other in sisters(pattern) if pattern not in sisters(other)] == []


def test_nearest_sisters_come_first_and_some_patterns_have_none() -> None:
    assert sisters(Pattern.HINGE) == (Pattern.BRIDGE, Pattern.KNEE_FLEXION, Pattern.SWING)
    assert [pattern for pattern in Pattern if not sisters(pattern)] == [Pattern.HIP_ABDUCTION, Pattern.CALF]


def test_what_an_exercise_breaks_is_told_in_the_order_of_the_list() -> None:
    given = [Restriction.ONE_LEG, Restriction.JUMPING, Restriction.SPINE_LOAD]

    assert broken(CATALOGUE["step-up"], given) == (Restriction.SPINE_LOAD, Restriction.ONE_LEG)
    assert broken(CATALOGUE["leg-press"], given) == ()
    assert broken(CATALOGUE["step-up"], []) == ()
