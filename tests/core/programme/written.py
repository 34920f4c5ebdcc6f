"""Small blocks, as a coach might write them; a helper of tests."""

from collections.abc import Iterable

from core.programme.block import Block, Day, Line, Target
from core.programme.prescription import Dose, Load, Prescription, Span

EVERY = tuple(range(1, 53))
"""Weeks of a row that is written for the whole of any block."""


def row(
    exercise: str,
    *weeks: int,
    load: Load | None = None,
    reps: int | None = 8,
    sets: int = 3,
    left: int | None = None,
    order: str = "A",
    **dose: object,
) -> Line:
    """Return a row; without weeks it holds in all of them."""
    span = None if reps is None else Span(low=reps, high=reps)
    asked = Dose.model_validate({"sets": sets, "reps": span, "load": load, "left": left, **dose})
    return Line(
        weeks=frozenset(weeks or EVERY),
        prescription=Prescription(order=order, exercise=exercise, dose=asked),
    )


def day(name: str, *rows: Line, lighter: Iterable[int] = ()) -> Day:
    return Day(key=name.lower(), name=name, lines=rows, lighter_weeks=frozenset(lighter))


def block(*days: Day, weeks: int = 2, tests: Iterable[int] = (), targets: tuple[Target, ...] = ()) -> Block:
    return Block(name="Slipway", weeks=weeks, days=days, testing_weeks=frozenset(tests), targets=targets)


def one_day(*rows: Line, weeks: int = 2, lighter: Iterable[int] = (), tests: Iterable[int] = ()) -> Block:
    return block(day("All", *rows, lighter=lighter), weeks=weeks, tests=tests)
