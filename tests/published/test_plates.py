"""Which plates make a load: worked loads of common sets, an integer solver, and the greedy way.

The loads are arithmetic on plates that gyms have: common practice, no source.
"""

from decimal import Decimal

import numpy as np
import pytest
from examples import examples
from hypothesis import given
from hypothesis import strategies as st

from core.loads.discs import discs_of, making
from core.loads.equipment import Kit, Plates, default_kit, ladder_for, plates_for
from core.programme.catalogue import exercise
from core.units import Mass, Unit

Counted = list[tuple[str, int]]
SETS = st.lists(
    st.tuples(st.sampled_from(["25", "20", "15", "10", "5", "2.5", "2", "1.25", "0.5"]), st.integers(0, 4)),
    max_size=6,
    unique_by=lambda one: one[0],
)
SIDES = st.integers(0, 320).map(lambda quarters: Decimal(quarters) / 4)


def limited(plates: Counted) -> tuple[Plates, ...]:
    return tuple(Plates(mass=Mass.of(mass), pairs=pairs) for mass, pairs in plates)


@pytest.mark.parametrize(
    ("unit", "total", "side"),
    [
        (Unit.KG, "20", []),
        (Unit.KG, "60", ["20"]),
        (Unit.KG, "62.5", ["20", "1.25"]),
        (Unit.KG, "100", ["25", "15"]),
        (Unit.KG, "142.5", ["25", "25", "10", "1.25"]),
        (Unit.KG, "57.5", ["15", "2.5", "1.25"]),
        (Unit.LB, "135", ["45"]),
        (Unit.LB, "185", ["45", "25"]),
        (Unit.LB, "225", ["45", "45"]),
        (Unit.LB, "315", ["45", "45", "45"]),
    ],
)
def test_with_plenty_of_plates(unit: Unit, total: str, side: list[str]) -> None:
    found = plates_for(Mass.of(total, unit), default_kit("bar", unit))
    assert found == tuple(Mass.of(each, unit) for each in side)


@pytest.mark.parametrize(("unit", "total"), [(Unit.KG, "101"), (Unit.LB, "187")])
def test_what_cannot_be_loaded(unit: Unit, total: str) -> None:
    kit = default_kit("bar", unit)
    assert plates_for(Mass.of(total, unit), kit) is None
    assert Mass.of(total, unit) not in ladder_for(exercise("deadlift"), kit).steps


@pytest.mark.parametrize(
    ("plates", "side", "short", "exact"),
    [
        ([("25", 1), ("15", 2)], "30", "5", ["15", "15"]),
        ([("25", 1), ("20", 2)], "40", "15", ["20", "20"]),
    ],
)
def test_with_limited_plates_the_greedy_way_stops_short_and_the_exact_one_does_not(
    plates: Counted, side: str, short: str, exact: list[str]
) -> None:
    assert Decimal(side) - sum(greedy(Decimal(side), plates)) == Decimal(short)

    kit = Kit(place="boathouse", unit=Unit.KG, bar=Mass.of(20), plates=limited(plates))
    total = Mass.of(20 + 2 * Decimal(side))
    assert plates_for(total, kit) == tuple(Mass.of(each) for each in exact)
    assert total in ladder_for(exercise("deadlift"), kit).steps


@pytest.mark.parametrize(
    ("smallest", "unit", "step"),
    [("1.25", "kg", "2.5"), ("0.5", "kg", "1"), ("2.5", "lb", "5"), ("1.25", "lb", "2.5")],
)
def test_the_smallest_step_is_two_of_the_smallest_plate(smallest: str, unit: str, step: str) -> None:
    kit = Kit(
        place="gym", unit=Unit(unit), bar=Mass.of(20, unit), plates=(Plates(mass=Mass.of(smallest, unit)),)
    )
    ladder = ladder_for(exercise("deadlift"), kit)
    assert ladder.steps[1] - ladder.steps[0] == Mass.of(step, unit)


def greedy(side: Decimal, plates: Counted) -> list[Decimal]:
    """The heaviest that still fits, again and again."""
    on: list[Decimal] = []
    for mass, pairs in sorted(((Decimal(mass), pairs) for mass, pairs in plates), reverse=True):
        count = min(pairs, int((side - sum(on)) // mass))
        on += [mass] * count
    return on


@given(SETS, SIDES)
def test_the_greedy_way_is_never_better(plates: Counted, side: Decimal) -> None:
    taken = greedy(side, plates)
    ours = making(side, discs_of(limited(plates), Unit.KG))
    if sum(taken, Decimal(0)) == side:
        assert ours is not None
        assert len(ours) <= len(taken)


def fewest(side: Decimal, plates: Counted) -> int | None:
    """Fewest plates by an integer solver, in quarters of a kilogram; None where none make it."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    if not plates:
        return 0 if side == 0 else None
    quarters = np.array([float(Decimal(mass) * 4) for mass, _ in plates])
    found = milp(
        np.ones(len(plates)),
        integrality=np.ones(len(plates)),
        bounds=Bounds(0, [pairs for _, pairs in plates]),
        constraints=LinearConstraint(quarters[np.newaxis, :], float(side * 4), float(side * 4)),
    )
    return round(found.fun) if found.success else None


@examples(150)
@given(SETS, SIDES)
def test_an_integer_solver_needs_as_many_plates_or_finds_none_either(plates: Counted, side: Decimal) -> None:
    ours = making(side, discs_of(limited(plates), Unit.KG))

    assert (None if ours is None else len(ours)) == fewest(side, plates)


@given(SETS, SIDES, st.randoms())
def test_the_order_in_which_plates_are_written_does_not_matter(
    plates: Counted, side: Decimal, chance: object
) -> None:
    shuffled = list(plates)
    chance.shuffle(shuffled)

    assert making(side, discs_of(limited(shuffled), Unit.KG)) == making(
        side, discs_of(limited(plates), Unit.KG)
    )
