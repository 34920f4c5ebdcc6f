from decimal import Decimal
from itertools import permutations

import pytest
from rows import each_row

from core.loads.lifted import BasesMixed, Lifted
from core.loads.one_rep_max import Formula, estimate, estimate_of
from core.programme.exercises import Basis
from core.units import Mass


def lifted(mass: str, basis: Basis) -> Lifted:
    return Lifted(mass=Mass.of(mass), basis=basis)


@each_row(("one", "other"), list(permutations(Basis, 2)))
def test_loads_that_are_counted_in_two_ways_are_never_held_against_each_other(
    one: Basis, other: Basis
) -> None:
    left, right = lifted("20", one), lifted("20", other)

    assert left != right
    for compared in (
        lambda: left < right,
        lambda: left <= right,
        lambda: left > right,
        lambda: left >= right,
        lambda: left - right,
        lambda: left.ratio(right),
        lambda: max(left, right),
    ):
        with pytest.raises(BasesMixed, match=f"{one}|{other}"):
            compared()


@pytest.mark.parametrize("basis", Basis)
def test_loads_of_one_basis_compare_by_their_mass(basis: Basis) -> None:
    light, heavy = lifted("20", basis), lifted("25", basis)

    assert light < heavy
    assert light <= heavy
    assert not light > heavy
    assert max(light, heavy) == heavy
    assert heavy - light == Mass.of(5)
    assert heavy.ratio(light) == Decimal("1.25")


@pytest.mark.parametrize(
    ("basis", "bar", "hands", "whole"),
    [
        (Basis.TOTAL, None, 2, "20"),
        (Basis.STACK, None, 2, "20"),
        (Basis.PER_HAND, None, 2, "40"),
        (Basis.PER_HAND, None, 1, "20"),
        (Basis.PER_SIDE, "20", 2, "60"),
    ],
)
def test_all_that_is_moved(basis: Basis, bar: str | None, hands: int, whole: str) -> None:
    found = lifted("20", basis).whole(None if bar is None else Mass.of(bar), hands=hands)

    assert found == Mass.of(whole)


@pytest.mark.parametrize("basis", [Basis.PER_SIDE, Basis.BODYWEIGHT])
def test_what_is_only_part_of_what_is_moved_is_refused(basis: Basis) -> None:
    with pytest.raises(ValueError, match="only part"):
        lifted("20", basis).whole()


@pytest.mark.parametrize("basis", Basis)
def test_an_estimate_keeps_the_basis_of_its_load(basis: Basis) -> None:
    found = estimate_of(lifted("20", basis), 5, 1)

    assert found == estimate(Mass.of(20), 5, 1, basis=basis)
    assert found is not None
    assert found.basis is basis


def test_reps_left_that_are_not_said_are_none() -> None:
    assert estimate_of(lifted("20", Basis.TOTAL), 5) == estimate(Mass.of(20), 5, 0, basis=Basis.TOTAL)


def test_no_estimate_has_no_basis() -> None:
    assert estimate_of(lifted("20", Basis.TOTAL), 0) is None


def test_estimates_of_two_bases_are_never_held_against_each_other() -> None:
    hand, both = (estimate_of(lifted("20", basis), 5) for basis in (Basis.PER_HAND, Basis.TOTAL))
    unsaid = estimate(Mass.of(20), 5)
    assert hand is not None
    assert both is not None
    assert unsaid is not None

    with pytest.raises(BasesMixed, match="per hand and total"):
        hand.change_from(both)
    with pytest.raises(BasesMixed, match="not said and total"):
        unsaid.change_from(both)


def test_estimates_of_two_formulas_are_never_held_against_each_other() -> None:
    epley, brzycki = (estimate(Mass.of(20), 5, 0, formula) for formula in (Formula.EPLEY, Formula.BRZYCKI))
    assert epley is not None
    assert brzycki is not None

    with pytest.raises(ValueError, match="Epley and Brzycki"):
        epley.change_from(brzycki)


def test_a_change_is_a_fraction_of_the_earlier_estimate() -> None:
    before, after = estimate(Mass.of(100), 5), estimate(Mass.of(105), 5)
    assert before is not None
    assert after is not None

    assert after.change_from(before).quantize(Decimal("0.0001")) == Decimal("0.05")
    assert before.change_from(after) < 0
