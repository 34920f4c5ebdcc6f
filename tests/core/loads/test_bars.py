from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.bars import BarLoad, bar_load, plates_for
from core.loads.discs import discs_of
from core.loads.equipment import Bar, Kit, Plates, default_kit, ladder_for
from core.programme.catalogue import exercise
from core.programme.exercises import Basis
from core.units import Mass, Unit

SQUAT, PULL, CURL = exercise("back-squat"), exercise("trap-bar-deadlift"), exercise("barbell-curl")
COUNTED = st.lists(
    st.tuples(st.sampled_from(["25", "20", "15", "10", "5", "2.5", "1.25", "0.5"]), st.integers(0, 3)),
    max_size=5,
    unique_by=lambda one: one[0],
)
COLLARS = st.sampled_from([None, "0.5", "5"])


def bar_with(plates: list[tuple[str, int]], collars: str | None = None, **more: object) -> Kit:
    return Kit(
        place="boathouse",
        unit=Unit.KG,
        bar=Mass.of(20),
        plates=tuple(Plates(mass=Mass.of(mass), pairs=pairs) for mass, pairs in plates),
        collars=None if collars is None else Mass.of(collars),
        **more,
    )


def every_side(plates: list[tuple[str, int]]) -> dict[Decimal, list[tuple[Decimal, ...]]]:
    """Every sum of one side and every way to it, by trying all."""
    ways: dict[Decimal, list[tuple[Decimal, ...]]] = {}
    for counts in product(*(range(pairs + 1) for _, pairs in plates)):
        way = tuple(
            sorted(
                (
                    Decimal(mass)
                    for (mass, _), count in zip(plates, counts, strict=True)
                    for _ in range(count)
                ),
                reverse=True,
            )
        )
        ways.setdefault(sum(way, Decimal(0)), []).append(way)
    return ways


@pytest.mark.traced
@given(COUNTED, COLLARS)
def test_the_ladder_of_a_bar_is_every_sum_of_its_plates(
    plates: list[tuple[str, int]], collars: str | None
) -> None:
    steps = ladder_for(SQUAT, bar_with(plates, collars)).steps
    closed = 20 + Decimal(collars or 0)
    assert [step.value for step in steps] == sorted(
        {Decimal(20), *(closed + 2 * side for side in every_side(plates))}
    )


@given(COUNTED, COLLARS)
def test_every_step_has_its_plates_and_they_are_the_fewest_heaviest_first(
    plates: list[tuple[str, int]], collars: str | None
) -> None:
    kit, ways = bar_with(plates, collars), every_side(plates)
    for step in ladder_for(SQUAT, kit).steps:
        found = bar_load(step, SQUAT, kit)
        assert found is not None
        on = 20 if found.collars is None else 20 + found.collars.value
        side = (step.value - on) / 2
        assert tuple(each.value for each in found.side) == max(ways[side], key=lambda way: (-len(way), way))
        assert plates_for(step, kit) == found.side


@given(COUNTED, COLLARS, st.decimals(min_value=0, max_value=300, places=2))
def test_what_is_no_step_has_no_plates(
    plates: list[tuple[str, int]], collars: str | None, total: Decimal
) -> None:
    kit = bar_with(plates, collars)
    assert (plates_for(Mass.of(total), kit) is not None) == (Mass.of(total) in ladder_for(SQUAT, kit).steps)


@given(COUNTED, st.randoms())
def test_the_order_of_plates_does_not_matter(plates: list[tuple[str, int]], chance: object) -> None:
    shuffled = list(plates)
    chance.shuffle(shuffled)

    assert ladder_for(SQUAT, bar_with(shuffled)) == ladder_for(SQUAT, bar_with(plates))


@given(COUNTED, st.decimals(min_value=0, max_value=400, places=2))
def test_at_or_under_is_never_over_and_always_on_the_bar(
    plates: list[tuple[str, int]], wanted: Decimal
) -> None:
    kit = bar_with(plates)
    found = ladder_for(SQUAT, kit).at_or_under(Mass.of(wanted))
    assert (found is None) == (wanted < 20)
    if found is not None:
        assert found <= Mass.of(wanted)
        assert plates_for(found, kit) is not None


def test_plates_of_one_mass_that_are_written_twice_are_counted_together() -> None:
    once, twice = bar_with([("10", 2)]), bar_with([("10", 1), ("10", 1)])

    assert ladder_for(SQUAT, once) == ladder_for(SQUAT, twice)
    assert plates_for(Mass.of(60), twice) == (Mass.of(10), Mass.of(10))


def test_some_and_plenty_of_one_mass_are_plenty() -> None:
    plates = (Plates(mass=Mass.of(20), pairs=1), Plates(mass=Mass.of(20)), Plates(mass=Mass.of(20), pairs=2))
    kit = bar_with([]).model_copy(update={"plates": plates})

    assert plates_for(Mass.of(220), kit) == (Mass.of(20),) * 5


def test_fewer_than_no_plates_are_none() -> None:
    assert ladder_for(SQUAT, bar_with([("10", -2)])).steps == (Mass.of(20),)
    assert plates_for(Mass.of(40), bar_with([("10", -2)])) is None


def test_a_hundred_small_plates_are_as_good_as_plenty() -> None:
    many, plenty = bar_with([("1.25", 1000)]), bar_with([])
    plenty = plenty.model_copy(update={"plates": (Plates(mass=Mass.of("1.25")),)})

    assert ladder_for(SQUAT, many) == ladder_for(SQUAT, plenty)
    assert plates_for(Mass.of("519.5"), plenty) is None
    assert (
        plates_for(Mass.of("517.5"), many) == plates_for(Mass.of("517.5"), plenty) == (Mass.of("1.25"),) * 199
    )


PLENTY = st.lists(
    st.tuples(
        st.sampled_from(["20", "15", "5", "2.5", "2", "1.5"]), st.sampled_from([None, None, 0, 1, 2, 5])
    ),
    max_size=4,
    unique_by=lambda one: one[0],
)


@pytest.mark.traced
@given(PLENTY)
def test_with_plenty_of_some_and_few_of_others_nothing_is_missed(
    plates: list[tuple[str, int | None]],
) -> None:
    kit = Kit(
        place="hall",
        unit=Unit.KG,
        bar=Mass.of(20),
        plates=tuple(Plates(mass=Mass.of(mass), pairs=pairs) for mass, pairs in plates),
    )
    most = 30  # a side: what is plenty is as many as go there
    counted = [(mass, int(most // Decimal(mass)) if pairs is None else pairs) for mass, pairs in plates]
    ways = {side: way for side, way in every_side(counted).items() if side <= most}

    steps = [step.value for step in ladder_for(SQUAT, kit).steps if step.value <= 20 + 2 * most]

    assert steps == sorted(20 + 2 * side for side in ways)
    for side, way in ways.items():
        found = plates_for(Mass.of(20 + 2 * side), kit)
        assert found is not None
        assert tuple(each.value for each in found) == max(way, key=lambda one: (-len(one), one))


def test_plates_without_a_mass_are_left_out() -> None:
    kit = bar_with([("0", 5), ("5", 1)])

    assert [str(step) for step in ladder_for(SQUAT, kit).steps] == ["20 kg", "30 kg"]
    assert plates_for(Mass.of(30), kit) == (Mass.of(5),)


@pytest.mark.parametrize(("unit", "bar", "top"), [(Unit.KG, 20, 520), (Unit.LB, 45, 1145)])
def test_a_bar_is_reckoned_no_further_than_anybody_lifts(unit: Unit, bar: int, top: int) -> None:
    ones = (Plates(mass=Mass.of(1, unit)),)
    kit = Kit(place="hall", unit=unit, bar=Mass.of(bar, unit), plates=ones)

    assert ladder_for(SQUAT, kit).steps[-1] == Mass.of(top, unit)
    assert plates_for(Mass.of(top, unit), kit) == (Mass.of(1, unit),) * ((top - bar) // 2)
    assert plates_for(Mass.of(top + 2, unit), kit) is None


@pytest.mark.parametrize(
    ("pairs", "total", "count"), [(3, "23", 3), (3, "26", None), (12, "32", 12), (12, "33", None)]
)
def test_a_few_light_plates_are_not_plenty(pairs: int, total: str, count: int | None) -> None:
    found = plates_for(Mass.of(total), bar_with([("0.5", pairs)]))

    assert found == (None if count is None else (Mass.of("0.5"),) * count)


def test_the_ladder_keeps_how_the_plates_are_written() -> None:
    # 2.5 and 2.50 are equal, and one is not served from what was kept of the other.
    short, long = bar_with([("2.5", 1)]), bar_with([("2.50", 1)])

    assert [str(ladder_for(SQUAT, kit).steps[1].value) for kit in (short, long)] == ["25.0", "25.00"]


def test_a_side_of_the_bar_is_counted_without_the_bar_and_its_collars() -> None:
    a_side = exercise("barbell-row").model_copy(update={"basis": Basis.PER_SIDE})
    steps = ladder_for(a_side, bar_with([("20", 1), ("5", 1)], "5")).steps
    assert [str(step) for step in steps] == ["0 kg", "5 kg", "20 kg", "25 kg"]


def test_the_empty_bar_goes_with_its_collars_and_without() -> None:
    kit = bar_with([("10", 1)], "5")

    assert bar_load(Mass.of(20), SQUAT, kit) == BarLoad(bar=Mass.of(20), name="", side=())
    assert bar_load(Mass.of(25), SQUAT, kit) == BarLoad(bar=Mass.of(20), name="", side=(), collars=Mass.of(5))
    assert bar_load(Mass.of(45), SQUAT, kit) == BarLoad(
        bar=Mass.of(20), name="", side=(Mass.of(10),), collars=Mass.of(5)
    )
    assert bar_load(Mass.of(40), SQUAT, kit) is None


LIGHT = Bar(name="light bar", mass=Mass.of(15))
TRAP = Bar(name="trap bar", mass=Mass.of(25), exercises=("trap-bar-deadlift",))


@pytest.mark.parametrize(
    ("key", "steps"),
    [
        ("back-squat", "15 20 35 40"),
        ("barbell-curl", "15 20 35 40"),
        ("trap-bar-deadlift", "25 45"),
    ],
)
def test_a_bar_that_is_named_for_an_exercise_is_the_only_one_for_it_and_for_no_other(
    key: str, steps: str
) -> None:
    kit = bar_with([("10", 1)], bars=(LIGHT, TRAP))

    assert ladder_for(exercise(key), kit).steps == tuple(Mass.of(each) for each in steps.split())


def test_the_usual_bar_is_taken_where_it_can_be_and_another_is_named_where_it_cannot() -> None:
    kit = bar_with([("10", 1), ("2.5", 1)], bars=(LIGHT,))

    assert bar_load(Mass.of(40), SQUAT, kit) == BarLoad(bar=Mass.of(20), name="", side=(Mass.of(10),))
    assert bar_load(Mass.of(35), SQUAT, kit) == BarLoad(
        bar=Mass.of(15), name="light bar", side=(Mass.of(10),)
    )
    # Without an exercise nobody says which bar, so that it is the usual one.
    assert plates_for(Mass.of(35), kit) is None
    assert plates_for(Mass.of(35), kit, exercise=SQUAT) == (Mass.of(10),)


def test_a_kit_whose_only_bar_has_a_name_has_a_bar() -> None:
    kit = bar_with([("10", 1)], bars=(LIGHT,)).model_copy(update={"bar": None})

    assert [str(step) for step in ladder_for(SQUAT, kit).steps] == ["15 kg", "35 kg"]
    assert plates_for(Mass.of(35), kit) is None


def test_a_bar_in_pounds_with_plates_in_kilograms_is_exact() -> None:
    kit = Kit(
        place="slipway",
        unit=Unit.KG,
        bar=Mass.of(45, "lb"),
        plates=(Plates(mass=Mass.of(10), pairs=1),),
    )
    steps = ladder_for(SQUAT, kit).steps
    assert [str(step) for step in steps] == ["20.41165665 kg", "40.41165665 kg"]
    assert plates_for(steps[1], kit) == (Mass.of(10),)


def test_a_bar_in_kilograms_with_plates_in_pounds_is_exact_too_and_counted_in_kilograms() -> None:
    kit = Kit(
        place="slipway", unit=Unit.LB, bar=Mass.of(20), plates=(Plates(mass=Mass.of(45, "lb"), pairs=1),)
    )
    ladder = ladder_for(SQUAT, kit)
    assert [str(step) for step in ladder.steps] == ["20 kg", "60.8233133 kg"]
    assert ladder.at_or_under(Mass.of(20)) == Mass.of(20)
    assert [str(disc) for disc in plates_for(ladder.steps[1], kit) or ()] == ["45 lb"]


def test_without_a_bar_nothing_is_put_on() -> None:
    assert plates_for(Mass.of(60), default_kit("dumbbells", Unit.KG)) is None
    assert ladder_for(SQUAT, default_kit("dumbbells", Unit.KG)).steps == ()
    assert plates_for(Mass.of(15), default_kit("bar", Unit.KG)) is None
    assert plates_for(Mass.of(900), default_kit("bar", Unit.KG)) is None


def test_a_load_in_the_other_unit_is_made_where_it_is_the_same_load() -> None:
    pounds = default_kit("bar", Unit.LB)

    assert plates_for(Mass.of("102.05828325"), pounds) == (Mass.of(45, "lb"), Mass.of(45, "lb"))
    assert plates_for(Mass.of(102), pounds) is None


def test_fewer_than_no_pairs_take_nothing_from_the_others() -> None:
    plates = [Plates(mass=Mass.of(20), pairs=pairs) for pairs in (-1, 1, 2)]

    assert discs_of(plates, Unit.KG) == (("20", 3),)


def test_a_disc_of_no_mass_or_less_is_none() -> None:
    plates = [Plates(mass=Mass.of(mass), pairs=2) for mass in (0, -5, 5)]

    assert discs_of(plates, Unit.KG) == (("5", 2),)
