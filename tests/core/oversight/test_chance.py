from math import e

import numpy as np
import pytest

from core.oversight.chance import Chance, bell, between, by_share, chosen, factor, happens, whole
from tests.core.oversight.simulated import Scripted


def test_a_generator_of_numpy_is_a_stream_of_chance() -> None:
    stream: Chance = np.random.default_rng(1)

    first, second = stream.spawn(2)

    assert 0 <= first.random() < 1
    assert first.random() != second.random()


@pytest.mark.parametrize(
    ("drawn", "share", "does"), [(0.0, 0.0, False), (0.29, 0.3, True), (0.3, 0.3, False)]
)
def test_what_happens_at_a_share_does_so_under_it(drawn: float, share: float, does: bool) -> None:
    assert happens(Scripted(drawn), share) is does


def test_numbers_are_drawn_within_their_bounds() -> None:
    assert between(Scripted(0.25), 2, 6) == 3
    assert [whole(Scripted(drawn), 1, 3) for drawn in (0.0, 0.34, 0.999)] == [1, 2, 3]
    assert [chosen(Scripted(drawn), "abc") for drawn in (0.0, 0.34, 0.999)] == ["a", "b", "c"]


def test_a_bell_curve_has_its_middle_at_nothing_and_its_spread_as_a_standard_deviation() -> None:
    assert bell(Scripted(0.5), 3) == 0
    assert bell(Scripted(0.8413447460685429), 3) == pytest.approx(3)
    assert bell(Scripted(0.0), 1) < -8
    assert factor(Scripted(0.5), 0.4) == 1
    assert factor(Scripted(0.8413447460685429), 1) == pytest.approx(e)


@pytest.mark.parametrize(("drawn", "thing"), [(0.0, "a"), (0.19, "a"), (0.2, "b"), (0.5, "c"), (0.99, "c")])
def test_things_are_drawn_by_their_share_and_the_last_takes_what_is_left(drawn: float, thing: str) -> None:
    assert by_share(Scripted(drawn), (("a", 0.2), ("b", 0.3), ("c", 0.1))) == thing
