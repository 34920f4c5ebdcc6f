import pytest

from core.loads.decision import Inputs, next_decision, replay
from core.loads.kit import Bar, Handles, Kit, Plates, Run, Stack, Stray, kit_at, strays
from core.units import Mass, Unit
from tests.core.loads.lifts import done, dose, inputs

# What was stored of a kit before it could hold more than this.
STORED = (
    '{"place":"gym","unit":"kg","bar":{"value":"20","unit":"kg"},"plates":[{"mass":{"value":"25","unit":"kg"},'
    '"pairs":null},{"mass":{"value":"2.50","unit":"kg"},"pairs":1}],"dumbbells":[{"value":"4","unit":"kg"}],'
    '"kettlebells":[],"stack_step":{"value":"5","unit":"kg"},"bodyweight_step":null,"safety_arms":true,'
    '"usually_alone":false}'
)
KEPT = Kit.model_validate_json(STORED)
BARE = Kit(place="home", unit=Unit.KG)
FULL = Kit(
    place="garage",
    unit=Unit.KG,
    bar=Mass.of(20),
    plates=(Plates(mass=Mass.of(20), pairs=2),),
    bars=(Bar(name="trap bar", mass=Mass.of(25), exercises=("trap-bar-deadlift",)),),
    collars=Mass.of("0.5"),
    dumbbell_runs=(Run(first=Mass.of(2), last=Mass.of(10), step=Mass.of(2)),),
    lone_dumbbells=(Mass.of(14),),
    handles=Handles(mass=Mass.of(2), most=Mass.of(30)),
    lone_kettlebells=(Mass.of(16),),
    stacks=(Stack(start=Mass.of(5), step=Mass.of(5), top=Mass.of(50), adds=(Mass.of("2.5"),)),),
    assistance=Stack(start=Mass.of(10), step=Mass.of(10), top=Mass.of(60)),
    bands=("light", "strong"),
    added=(Mass.of(5),),
    belt=True,
    full_size=(Mass.of(10),),
)


def test_a_stored_kit_is_read_and_written_as_the_same_bytes() -> None:
    assert KEPT.model_dump_json() == STORED


def test_the_inputs_of_a_stored_decision_hold_the_same_bytes_of_a_kit_and_are_replayed() -> None:
    asked = dose(3, "5", "90")
    stored = inputs("back-squat", asked, done(7, asked, "5 5 5"), kit=KEPT).model_dump_json()

    assert f'"kit":{STORED}' in stored
    assert Inputs.model_validate_json(stored).model_dump_json() == stored
    assert replay(stored) == next_decision(Inputs.model_validate_json(stored)).model_dump_json()


def test_a_kit_writes_of_what_it_came_to_hold_later_only_what_says_something() -> None:
    assert sorted(BARE.model_copy(update={"belt": True}).model_dump()) == sorted([*BARE.model_dump(), "belt"])
    assert sorted(FULL.model_dump()) == sorted(Kit.model_fields)


@pytest.mark.parametrize("kit", [BARE, FULL])
def test_a_kit_comes_back_from_what_was_written(kit: Kit) -> None:
    assert Kit.model_validate_json(kit.model_dump_json()) == kit
    assert Kit.model_validate(kit.model_dump(mode="json")) == kit


@pytest.mark.parametrize(
    ("first", "last", "step", "masses"),
    [("2", "10", "2", "2 4 6 8 10"), ("2.5", "8", "2.5", "2.5 5 7.5"), ("6", "6", "1", "6")],
)
def test_a_run_holds_every_step_up_to_its_last(first: str, last: str, step: str, masses: str) -> None:
    run = Run(first=Mass.of(first), last=Mass.of(last), step=Mass.of(step))

    assert run.masses == tuple(Mass.of(each) for each in masses.split())


@pytest.mark.parametrize(
    ("first", "step", "last", "why"),
    [
        (Mass.of(2), Mass.of(2, "lb"), Mass.of(10), "one unit"),
        (Mass.of(2), Mass.of(2), Mass.of(10, "lb"), "one unit"),
        (Mass.of(0), Mass.of(2), Mass.of(10), "steps rise"),
        (Mass.of(2), Mass.of(0), Mass.of(10), "steps rise"),
        (Mass.of(-2), Mass.of(2), Mass.of(10), "steps rise"),
        (Mass.of(2), Mass.of(-2), Mass.of(10), "steps rise"),
        (Mass.of(12), Mass.of(2), Mass.of(10), "steps rise"),
        (Mass.of(1), Mass.of(1), Mass.of(201), "at most"),
        (Mass.of(1), Mass.of(1), Mass.of(300), "at most"),
    ],
)
def test_steps_that_go_nowhere_are_refused(first: Mass, step: Mass, last: Mass, why: str) -> None:
    with pytest.raises(ValueError, match=why):
        Run(first=first, step=step, last=last)
    with pytest.raises(ValueError, match=why):
        Stack(start=first, step=step, top=last)


def test_the_longest_run_has_two_hundred_steps() -> None:
    assert len(Run(first=Mass.of(1), step=Mass.of(1), last=Mass.of(200)).masses) == 200


def test_where_nobody_said_otherwise_somebody_lifts_alone_and_without_safeties() -> None:
    assert (BARE.usually_alone, BARE.safety_arms) == (True, False)


def test_handles_come_in_twos_and_never_in_none() -> None:
    assert Handles(mass=Mass.of(2)).count == 2
    assert Handles(mass=Mass.of(2), count=1).count == 1
    with pytest.raises(ValueError, match="greater than or equal to 1"):
        Handles(mass=Mass.of(2), count=0)


@pytest.mark.parametrize("add", [0, -1])
def test_what_is_laid_on_a_stack_has_a_mass(add: int) -> None:
    with pytest.raises(ValueError, match="has a mass"):
        Stack(start=Mass.of(5), step=Mass.of(5), top=Mass.of(50), adds=(Mass.of(add),))


def test_what_is_marked_in_another_unit_is_named_by_its_part() -> None:
    kit = FULL.model_copy(
        update={
            "bar": Mass.of(45, "lb"),
            "dumbbells": (Mass.of(10), Mass.of(20, "lb"), Mass.of(25, "lb")),
            "handles": Handles(mass=Mass.of(4, "lb"), plates=(Plates(mass=Mass.of(5, "lb"), pairs=4),)),
        }
    )

    assert strays(kit) == (
        Stray(part="bar", masses=(Mass.of(45, "lb"),)),
        Stray(part="dumbbells", masses=(Mass.of(20, "lb"), Mass.of(25, "lb"))),
        Stray(part="handles", masses=(Mass.of(4, "lb"), Mass.of(5, "lb"))),
    )


@pytest.mark.parametrize("kit", [BARE, FULL])
def test_a_kit_in_one_unit_has_no_strays(kit: Kit) -> None:
    assert strays(kit) == ()
    assert bool(strays(kit.model_copy(update={"unit": Unit.LB}))) is (kit is FULL)


def test_a_kit_is_found_by_its_place() -> None:
    assert kit_at(" Garage", [BARE, FULL]) is FULL
    assert kit_at("gym", [BARE, FULL]) is None
