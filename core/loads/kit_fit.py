"""What of a block can be done with a kit, and which equal stands in where it cannot."""

from collections.abc import Iterable, Mapping, Sequence

from core.loads.equipment import Kit, ladder_for
from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Basis, Exercise, Implement
from core.programme.prescription import Dose, LoadKind, Prescription
from core.value import Value


class StandIn(Value):
    """What somebody would do in place of an exercise.

    Attributes:
        client: Name.
        exercise: Key of the equal; None where her kit has nothing for any.
    """

    client: str
    exercise: str | None


class Undoable(Value):
    """An exercise that nobody's kit can load.

    Attributes:
        exercise: Key in the catalogue.
        stand_ins: For each of the coach's clients, in the order given.
    """

    exercise: str
    stand_ins: tuple[StandIn, ...]


def needs_load(exercise: Exercise, dose: Dose) -> bool:
    """Return whether something has to be loaded: never for bare bodyweight and bands."""
    if dose.load is not None and dose.load.kind is LoadKind.MASS:
        return True
    if exercise.basis is Basis.BODYWEIGHT:
        return dose.load is not None and dose.load.mass is not None
    return exercise.implement is not Implement.BAND


def not_loadable(block: Block, kit: Kit, catalogue: Mapping[str, Exercise] = CATALOGUE) -> tuple[str, ...]:
    """Return the keys of exercises of a block that need a load which a kit cannot give, in the order written.

    A kit says what is lifted, and nothing of benches and racks, so that those are taken to be there.
    """
    return tuple(
        key for key, asked in _by_exercise(block).items() if not can_be_done(catalogue[key], asked, kit)
    )


def nobody_can(
    block: Block, kits: Sequence[tuple[str, Kit]], catalogue: Mapping[str, Exercise] = CATALOGUE
) -> tuple[Undoable, ...]:
    """Return the exercises of a block that none of these people can load, with what each would do instead.

    The coach's own equals go first, then the catalogue's, as on the day itself. Nothing where there is nobody yet.

    Args:
        block: What is written.
        kits: Name and kit of each client.
        catalogue: Exercises that may be named.
    """
    if not kits:
        return ()
    lacking = [set(not_loadable(block, kit, catalogue)) for _, kit in kits]
    return tuple(
        Undoable(
            exercise=key,
            stand_ins=tuple(
                StandIn(client=name, exercise=_equal(catalogue[key], asked, kit, catalogue))
                for name, kit in kits
            ),
        )
        for key, asked in _by_exercise(block).items()
        if all(key in each for each in lacking)
    )


def _by_exercise(block: Block) -> dict[str, list[Prescription]]:
    found: dict[str, list[Prescription]] = {}
    for asked in (line.prescription for day in block.days for line in day.lines):
        found.setdefault(asked.exercise, []).append(asked)
    return found


def can_be_done(exercise: Exercise, asked: Iterable[Prescription], kit: Kit) -> bool:
    """Return whether a kit gives what is asked for of an exercise: a load, or none is needed."""
    return bool(ladder_for(exercise, kit).steps) or not any(needs_load(exercise, one.dose) for one in asked)


def _equal(
    exercise: Exercise, asked: Sequence[Prescription], kit: Kit, catalogue: Mapping[str, Exercise]
) -> str | None:
    """Return the first equal that a kit can load, counted as the exercise is: in time, or in reps."""
    own = (key for one in asked for key in one.instead)
    for key in dict.fromkeys((*own, *exercise.equals)):
        equal = catalogue.get(key)
        if equal is None or equal.timed != exercise.timed:
            continue
        if can_load(equal, kit):
            return key
    return None


def can_load(exercise: Exercise, kit: Kit) -> bool:
    """Return whether a kit has something to do an exercise with; a band is taken to be there."""
    return exercise.implement is Implement.BAND or bool(ladder_for(exercise, kit).steps)
