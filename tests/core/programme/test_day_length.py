"""Which days take longer than a client has."""

from core.programme.block import Block, Day, Line
from core.programme.catalogue import CATALOGUE
from core.programme.day_length import DayLength, longer_days
from core.programme.prescription import Dose, Prescription, Span


def line(exercise: str, order: str, sets: int, weeks: frozenset[int]) -> Line:
    dose = Dose(sets=sets, reps=Span(low=10, high=10))
    prescription = Prescription(order=order, exercise=exercise, dose=dose, rest_s=80)
    return Line(weeks=weeks, prescription=prescription)


BOTH, SECOND = frozenset({1, 2}), frozenset({2})
LOWER = Day(
    key="lower", name="Lower", lines=(line("back-squat", "A", 10, BOTH), line("plank", "B", 5, SECOND))
)
ONE_LEG = Day(key="one-leg", name="One leg", lines=(line("step-down", "A", 10, BOTH),))
BLOCK = Block(name="Two weeks", weeks=2, days=(LOWER, ONE_LEG))
"""Warm-up 5 min; a set of ten takes 40 s a side, and 80 s of rest: ten sets 20 min, five more 10, a side each 26:40."""


def test_the_longest_week_of_a_day_counts_with_its_warm_up() -> None:
    assert longer_days(BLOCK, 30, CATALOGUE) == (
        DayLength(day="Lower", minutes=35),
        DayLength(day="One leg", minutes=31),
    )


def test_a_day_that_fits_to_the_minute_is_not_longer() -> None:
    assert longer_days(BLOCK, 31, CATALOGUE) == (DayLength(day="Lower", minutes=35),)
    assert longer_days(BLOCK, 35, CATALOGUE) == ()
