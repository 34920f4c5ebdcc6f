"""Bars, collars, discs, dumbbells, kettlebells and units: [Pound1959], [IWF], [IPF]; gym sets are common practice, no
source."""

from decimal import Decimal

import pytest

from core.loads.bars import bar_load
from core.loads.equipment import Bar, Handles, Kit, Plates, Run, default_kit, ladder_for
from core.loads.hands import discs_an_end
from core.loads.lifted import Lifted
from core.loads.warmup import lies_low
from core.programme.catalogue import exercise
from core.programme.exercises import Basis
from core.sources import SOURCES, Mark
from core.units import Mass, Unit

DISCS = ("25", "20", "15", "10", "5", "2.5", "2", "1.5", "1", "0.5")
"""Discs of a competition set, each in a pair. [kg] Source: [IWF], secondary."""


def competition(*, bar: str = "20", pairs: int = 1) -> Kit:
    return Kit(
        place="platform",
        unit=Unit.KG,
        bar=Mass.of(bar),
        plates=tuple(Plates(mass=Mass.of(each), pairs=pairs) for each in DISCS),
        collars=Mass.of(5),
        full_size=tuple(Mass.of(each) for each in DISCS[:4]),
    )


def test_the_rules_of_both_federations_are_known_second_hand() -> None:
    assert SOURCES["IWF"].mark is SOURCES["IPF"].mark is SOURCES["Pound1959"].mark is Mark.SECONDARY


@pytest.mark.parametrize(
    ("pounds", "kilograms"),
    [
        ("1", "0.45359237"),
        ("5", "2.26796185"),
        ("35", "15.87573295"),
        ("45", "20.41165665"),
        ("225", "102.05828325"),
    ],
)
def test_pounds_in_kilograms(pounds: str, kilograms: str) -> None:
    assert Mass.of(pounds, "lb").kg == Decimal(kilograms)


def test_a_hundred_kilograms_in_pounds() -> None:
    assert Mass.of(100).to(Unit.LB).value.quantize(Decimal("0.000001")) == Decimal("220.462262")


@pytest.mark.parametrize("pounds", ["1", "2.5", "35", "45", "102.5", "225", "1145"])
def test_a_library_of_units_gives_the_same_kilograms(pounds: str) -> None:
    import pint

    units = pint.UnitRegistry(non_int_type=Decimal)
    found = units.Quantity(Decimal(pounds), "pound").to("kilogram").magnitude

    assert found == Mass.of(pounds, "lb").kg


def test_there_and_back_by_what_is_shown_is_another_load() -> None:
    # 102.5 kg are 225.97 lb; shown as 225 lb they come back as 102.06 kg.
    pounds = Mass.of("102.5").to(Unit.LB).value

    assert pounds.quantize(Decimal("0.01")) == Decimal("225.97")
    assert Mass.of(225, "lb").kg.quantize(Decimal("0.01")) == Decimal("102.06")


def test_a_bar_of_45_pounds_is_no_bar_of_20_kilograms() -> None:
    assert (Mass.of(45, "lb") - Mass.of(20)).kg.quantize(Decimal("0.01")) == Decimal("0.41")


@pytest.mark.parametrize(("bar", "closed"), [("20", "25"), ("15", "20")])
def test_a_competition_bar_with_its_collars(bar: str, closed: str) -> None:
    # Bars of 20 and 15 kg [IWF], two collars of 2.5 kg [IPF].
    steps = ladder_for(exercise("back-squat"), competition(bar=bar)).steps

    assert [str(step) for step in steps[:3]] == [f"{bar} kg", f"{closed} kg", f"{int(closed) + 1} kg"]


def test_one_pair_of_each_competition_disc_makes_every_kilogram_up_to_all_of_them() -> None:
    # 0.5 kg is the lightest, so that the smallest step is 1 kg; the discs of one side are 82.5 kg in all.
    steps = ladder_for(exercise("back-squat"), competition()).steps

    assert [step.value for step in steps[1:]] == list(range(25, 191))


@pytest.mark.parametrize(
    ("load", "side"), [("100", "25 10 2.5"), ("101", "25 10 2.5 0.5"), ("190", " ".join(DISCS)), ("27", "1")]
)
def test_the_discs_of_a_competition_load(load: str, side: str) -> None:
    made = bar_load(Mass.of(load), exercise("deadlift"), competition())

    assert made is not None
    assert (made.bar, made.collars) == (Mass.of(20), Mass.of(5))
    assert made.side == tuple(Mass.of(each) for each in side.split())


@pytest.mark.parametrize(
    ("load", "low"), [("20", True), ("35", True), ("43", True), ("45", False), ("65", False)]
)
def test_rubber_discs_are_of_full_size_from_ten_kilograms_on(load: str, low: bool) -> None:
    # 450 mm from 10 kg on: [IWF], secondary. 43 kg with collars is 9 kg a side.
    assert lies_low(Mass.of(load), exercise("deadlift"), competition(pairs=2)) is low


@pytest.mark.parametrize(("load", "low"), [("40", True), ("50", True), ("60", False), ("100", False)])
def test_iron_discs_are_of_full_size_from_twenty_kilograms_on(load: str, low: bool) -> None:
    # Common practice, no source.
    assert lies_low(Mass.of(load), exercise("deadlift"), default_kit("bar", Unit.KG)) is low


@pytest.mark.parametrize(
    ("key", "name", "bar", "lightest"),
    [
        ("barbell-curl", "curl bar", "10", "10"),  # 8 to 12 kg
        ("trap-bar-deadlift", "trap bar", "25", "25"),  # 20 to 30 kg
        ("back-squat", "women's bar", "15", "15"),  # [IWF]
    ],
)
def test_a_bar_of_its_own_begins_lower_or_higher(key: str, name: str, bar: str, lightest: str) -> None:
    own = (key,) if key != "back-squat" else ()
    kit = competition().model_copy(update={"bars": (Bar(name=name, mass=Mass.of(bar), exercises=own),)})

    made = bar_load(Mass.of(lightest), exercise(key), kit)

    assert made is not None
    assert (made.name, made.side) == (name, ())


@pytest.mark.parametrize(
    ("key", "steps", "now", "percent"),
    [
        ("curl", ("4", "5"), "4", "25.0"),
        ("curl", ("8", "10"), "8", "25.0"),
        ("curl", ("10", "12"), "10", "20.0"),
        ("curl", ("12", "14"), "12", "16.7"),
        ("curl", ("20", "22.5"), "20", "12.5"),
        ("curl", ("30", "32.5"), "30", "8.3"),
        ("kettlebell-swing", ("8", "12"), "8", "50.0"),
        ("kettlebell-swing", ("12", "16"), "12", "33.3"),
        ("kettlebell-swing", ("16", "20"), "16", "25.0"),
        ("kettlebell-swing", ("24", "28"), "24", "16.7"),
        ("kettlebell-swing", ("28", "32"), "28", "14.3"),
    ],
)
def test_the_jump_to_the_next_one(key: str, steps: tuple[str, ...], now: str, percent: str) -> None:
    masses = tuple(Mass.of(each) for each in steps)
    kit = Kit(place="home", unit=Unit.KG, dumbbells=masses, kettlebells=masses)
    jump = ladder_for(exercise(key), kit).jump(Mass.of(now))
    assert jump is not None
    assert (jump * 100).quantize(Decimal("0.1")) == Decimal(percent)


def test_competition_kettlebells_are_four_kilograms_apart_and_a_pood_is_none_of_them() -> None:
    run = Run(first=Mass.of(8), last=Mass.of(48), step=Mass.of(4))

    assert run.masses == tuple(Mass.of(each) for each in (8, 12, 16, 20, 24, 28, 32, 36, 40, 44, 48))
    assert Mass.of("16.38") not in run.masses


@pytest.mark.parametrize(
    ("unit", "first", "last", "step", "count"),
    [("kg", "1", "10", "1", 10), ("kg", "10", "30", "2", 11), ("lb", "5", "100", "5", 20)],
)
def test_a_rack_of_dumbbells(unit: str, first: str, last: str, step: str, count: int) -> None:
    run = Run(first=Mass.of(first, unit), last=Mass.of(last, unit), step=Mass.of(step, unit))
    kit = Kit(place="gym", unit=Unit(unit), dumbbell_runs=(run,))

    steps = ladder_for(exercise("curl"), kit).steps

    assert (len(steps), steps[0], steps[-1]) == (count, run.first, run.last)


def test_two_dumbbells_share_the_discs_that_one_has_to_itself() -> None:
    # Handles of 2 kg; four pairs of 1.25, two of 2.5, two of 5: one dumbbell can have them all, two have half.
    plates = tuple(
        Plates(mass=Mass.of(mass), pairs=pairs) for mass, pairs in (("1.25", 4), ("2.5", 2), ("5", 2))
    )
    kit = Kit(place="home", unit=Unit.KG, handles=Handles(mass=Mass.of(2), plates=plates))

    assert ladder_for(exercise("goblet-squat"), kit).steps[-1] == Mass.of(2 + 2 * 20)
    assert ladder_for(exercise("curl"), kit).steps[-1] == Mass.of(2 + 2 * 10)
    assert discs_an_end(Mass.of("19.5"), exercise("curl"), kit) == tuple(map(Mass.of, ("5", "2.5", "1.25")))


def test_two_dumbbells_of_twenty_are_forty_for_tonnage_and_twenty_a_hand() -> None:
    hand = Lifted(mass=Mass.of(20), basis=Basis.PER_HAND)

    assert 3 * 8 * hand.whole().value == 960
