import pytest

from core.loads.equipment import Kit, default_kit
from core.loads.kit_fit import StandIn, Undoable, needs_load, nobody_can, not_loadable
from core.programme.block import Block, Line
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Basis, Exercise, Implement
from core.programme.prescription import Dose, Load, Span
from core.units import Mass, Unit
from tests.core.programme.written import one_day, row

REPS = Span(low=8, high=8)
BODYWEIGHT = next(each for each in CATALOGUE.values() if each.basis is Basis.BODYWEIGHT)
BAND = next(each for each in CATALOGUE.values() if each.implement is Implement.BAND)
BARBELL = CATALOGUE["back-squat"]
GYM, HANDS, NOTHING = (default_kit(kind, Unit.KG) for kind in ("both", "dumbbells", "bodyweight"))


@pytest.mark.parametrize(
    ("exercise", "load", "expected"),
    [
        (BARBELL, Load.of(60), True),
        (BARBELL, Load.find(), True),
        (BARBELL, None, True),
        (BODYWEIGHT, None, False),
        (BODYWEIGHT, Load.bodyweight(), False),
        (BODYWEIGHT, Load.bodyweight(Mass.of(5)), True),
        (BAND, None, False),
    ],
)
def test_only_what_is_loaded_needs_a_load(exercise: Exercise, load: Load | None, expected: bool) -> None:
    assert needs_load(exercise, Dose(sets=3, reps=REPS, load=load)) == expected


BLOCK = one_day(row("back-squat"), row("push-up"), row("dumbbell-bench-press"), row("band-pull-apart"))


@pytest.mark.parametrize(
    ("kit", "expected"),
    [(GYM, ()), (HANDS, ("back-squat",)), (NOTHING, ("back-squat", "dumbbell-bench-press"))],
)
def test_what_a_kit_cannot_load_is_named_in_the_order_written(kit: Kit, expected: tuple[str, ...]) -> None:
    assert not_loadable(BLOCK, kit) == expected


def found(block: Block, **kits: Kit) -> tuple[Undoable, ...]:
    return nobody_can(block, list(kits.items()))


def test_what_one_client_can_do_is_no_matter_of_the_block() -> None:
    assert found(BLOCK, Ada=NOTHING, Ben=GYM) == ()
    assert found(BLOCK) == ()


def test_what_nobody_can_do_is_told_with_what_stands_in_for_whom() -> None:
    assert found(BLOCK, Ada=HANDS, Ben=NOTHING) == (
        Undoable(
            exercise="back-squat",
            stand_ins=(
                StandIn(client="Ada", exercise="goblet-squat"),
                StandIn(client="Ben", exercise="bodyweight-squat"),
            ),
        ),
    )


def stand_in(line: Line, kit: Kit) -> str | None:
    ((only,),) = (each.stand_ins for each in found(one_day(line), Ada=kit))
    return only.exercise


def test_the_coachs_own_equals_come_before_those_of_the_catalogue() -> None:
    asked = row("back-squat")
    prescription = asked.prescription.model_copy(update={"instead": ("leg-press", "split-squat")})

    assert stand_in(asked.model_copy(update={"prescription": prescription}), HANDS) == "split-squat"


def test_an_equal_is_counted_as_the_exercise_is_and_may_not_be_there() -> None:
    equals = ("gone", "plank", "leg-press")
    catalogue = {**CATALOGUE, "back-squat": BARBELL.model_copy(update={"equals": equals})}

    (only,) = nobody_can(one_day(row("back-squat")), [("Ada", HANDS)], catalogue)

    assert only.stand_ins == (StandIn(client="Ada", exercise=None),)
