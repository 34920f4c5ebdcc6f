from rows import each_row

from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Pattern
from core.programme.siblings import sharing, siblings


def test_what_shares_a_pattern_is_found_in_the_order_of_the_catalogue() -> None:
    assert [row.key for row in sharing(Pattern.SQUAT)] == [
        "back-squat",
        "front-squat",
        "goblet-squat",
        "leg-press",
        "box-squat",
        "bodyweight-squat",
        "sit-to-stand",
        "band-squat",
        "wall-sit",
    ]
    assert sharing(Pattern.JUMP, {}) == ()


def test_an_exercise_is_not_its_own_sibling() -> None:
    assert [row.key for row in siblings(CATALOGUE["squat-jump"])] == ["box-jump"]


@each_row("key", sorted(CATALOGUE))
def test_siblings_are_mutual(key: str) -> None:
    assert all(CATALOGUE[key] in siblings(other) for other in siblings(CATALOGUE[key]))
