import pytest

from core.programme.restriction_words import restrictions_in
from core.programme.restrictions import Restriction


@pytest.mark.parametrize("restriction", Restriction)
def test_every_restriction_is_read_in_its_own_words(restriction: Restriction) -> None:
    assert restrictions_in(restriction.value) == (frozenset({restriction}), ())
    assert restrictions_in(restriction.value.removeprefix("no ").upper()) == (frozenset({restriction}), ())


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("no overhead, no deep knee bend", {Restriction.OVERHEAD, Restriction.DEEP_KNEE}),
        ("No jumps; hinge", {Restriction.JUMPING, Restriction.LOADED_HINGE}),
        ("not on one leg", set()),
        ("one leg\nfloor,", {Restriction.ONE_LEG, Restriction.FLOOR}),
        ("", set()),
    ],
)
def test_a_line_names_several(text: str, expected: set[Restriction]) -> None:
    assert restrictions_in(text)[0] == expected


def test_what_says_nothing_that_is_known_is_given_back_as_typed() -> None:
    assert restrictions_in("no overhead, no Running , nothing") == (
        frozenset({Restriction.OVERHEAD}),
        ("no Running", "nothing"),
    )
