import pytest

from core.loads.equipment import Kit, Plates, Stack, ladder_for
from core.programme.catalogue import exercise
from core.units import Mass, Unit

PULL_UP, PUSH_UP = exercise("pull-up"), exercise("push-up")
MACHINE = Stack(start=Mass.of(10), step=Mass.of(20), top=Mass.of(50), adds=(Mass.of(5),))


def kit(**more: object) -> Kit:
    return Kit(place="park", unit=Unit.KG, **more)


def masses(text: str) -> tuple[Mass, ...]:
    return tuple(Mass.of(each) for each in text.split())


def test_with_nothing_to_add_the_body_is_the_load() -> None:
    assert ladder_for(PULL_UP, kit()).steps == (Mass.of(0),)


def test_a_vest_is_added_as_it_is() -> None:
    assert ladder_for(PUSH_UP, kit(added=masses("10 5"))).steps == masses("0 5 10")


def test_a_belt_takes_the_discs_one_by_one() -> None:
    # A pair on a bar is two discs on a belt.
    plates = (Plates(mass=Mass.of(5), pairs=1), Plates(mass=Mass.of("1.25"), pairs=1))

    assert ladder_for(PULL_UP, kit(belt=True, plates=plates)).steps == masses(
        "0 1.25 2.5 5 6.25 7.5 10 11.25 12.5"
    )
    assert ladder_for(PULL_UP, kit(plates=plates)).steps == masses("0")


def test_a_belt_is_reckoned_no_further_than_anybody_hangs_on_it() -> None:
    assert ladder_for(PULL_UP, kit(belt=True, plates=(Plates(mass=Mass.of(20)),))).steps == masses(
        "0 20 40 60 80 100"
    )


def test_discs_in_pounds_hang_from_a_belt_by_their_kilograms() -> None:
    steps = ladder_for(PULL_UP, kit(belt=True, plates=(Plates(mass=Mass.of(10, "lb"), pairs=1),))).steps

    assert [str(step) for step in steps] == ["0 kg", "4.5359237 kg", "9.0718474 kg"]


@pytest.mark.parametrize(
    ("key", "steps"),
    [("pull-up", "-55 -50 -35 -30 -15 -10 0 2 4"), ("push-up", "0 2 4")],
)
def test_an_assisting_machine_takes_off_what_its_pins_say_where_the_whole_body_hangs(
    key: str, steps: str
) -> None:
    found = ladder_for(exercise(key), kit(assistance=MACHINE, added=masses("2 4"))).steps

    assert found == masses(steps)


def test_the_pins_of_an_assisting_machine_take_the_place_of_the_usual_step() -> None:
    gym = kit(assistance=MACHINE, stack_step=Mass.of(5), bodyweight_step=Mass.of(50))

    assert ladder_for(PULL_UP, gym).steps == masses("-55 -50 -35 -30 -15 -10 0 50 100")


def test_what_is_taken_off_is_found_at_or_under_as_more_of_it() -> None:
    ladder = ladder_for(PULL_UP, kit(assistance=MACHINE))

    assert ladder.at_or_under(Mass.of(-20)) == Mass.of(-30)
    assert ladder.over(Mass.of(-20)) == Mass.of(-15)
    assert ladder.at_or_under(Mass.of(-60)) is None


@pytest.mark.parametrize(("unit", "lightest", "heaviest"), [(Unit.KG, -60, 100), (Unit.LB, -130, 220)])
def test_where_only_the_step_is_known_it_goes_as_far_as_hardly_anybody_needs(
    unit: Unit, lightest: int, heaviest: int
) -> None:
    one = Mass.of(1, unit)
    steps = ladder_for(PULL_UP, Kit(place="park", unit=unit, bodyweight_step=one, stack_step=one)).steps

    assert (steps[0], steps[-1]) == (Mass.of(lightest, unit), Mass.of(heaviest, unit))
