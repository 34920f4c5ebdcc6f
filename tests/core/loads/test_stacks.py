import pytest

from core.loads.equipment import Kit, Stack, ladder_for
from core.programme.catalogue import exercise
from core.units import Mass, Unit


def stack(start: str, step: str, top: str, adds: str = "", *, exercises: tuple[str, ...] = ()) -> Stack:
    return Stack(
        start=Mass.of(start),
        step=Mass.of(step),
        top=Mass.of(top),
        adds=tuple(Mass.of(each) for each in adds.split()),
        exercises=exercises,
    )


def gym(*stacks: Stack, step: str | None = "5") -> Kit:
    return Kit(
        place="gym", unit=Unit.KG, stack_step=None if step is None else Mass.of(step), stacks=tuple(stacks)
    )


@pytest.mark.parametrize(
    ("machine", "loads"),
    [
        (stack("5", "5", "20"), "5 10 15 20"),
        (stack("7", "5", "20"), "7 12 17"),
        (stack("10", "10", "20", "2.5"), "10 12.5 20 22.5"),
        (stack("10", "10", "20", "2.5 5"), "10 12.5 15 17.5 20 22.5 25 27.5"),
        (stack("5", "5", "10", "2.5 2.5"), "5 7.5 10 12.5 15"),
    ],
)
def test_a_stack_gives_each_pin_with_each_choice_of_what_is_laid_on_top(machine: Stack, loads: str) -> None:
    steps = ladder_for(exercise("pulldown"), gym(machine)).steps

    assert steps == tuple(Mass.of(each) for each in loads.split())


def test_a_machine_that_is_named_for_an_exercise_is_the_only_one_for_it_and_for_no_other() -> None:
    kit = gym(stack("5", "5", "10"), stack("20", "20", "40", exercises=("leg-press",)))

    assert ladder_for(exercise("leg-press"), kit).steps == (Mass.of(20), Mass.of(40))
    assert ladder_for(exercise("pulldown"), kit).steps == (Mass.of(5), Mass.of(10))


def test_where_no_machine_is_described_for_an_exercise_the_usual_step_holds() -> None:
    kit = gym(stack("20", "20", "40", exercises=("leg-press",)))

    assert ladder_for(exercise("pulldown"), kit).steps[:2] == (Mass.of(5), Mass.of(10))
    assert len(ladder_for(exercise("pulldown"), kit).steps) == 60


def test_where_there_is_no_machine_there_is_no_load() -> None:
    assert ladder_for(exercise("pulldown"), gym(step=None)).steps == ()


def test_what_is_laid_on_top_may_be_marked_in_another_unit() -> None:
    kit = gym(
        Stack(start=Mass.of(10, "lb"), step=Mass.of(10, "lb"), top=Mass.of(20, "lb"), adds=(Mass.of(1),))
    )

    steps = ladder_for(exercise("pulldown"), kit).steps

    assert [str(step) for step in steps] == ["4.5359237 kg", "5.5359237 kg", "9.0718474 kg", "10.0718474 kg"]
