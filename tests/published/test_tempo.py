"""Tempo in the notation of the trade; its first three numbers as in [BMJMil2020], table 1. Secondary beyond that."""

import pytest

from core.programme.grammar import tempo_in
from core.programme.sheets import Cell, CellKind
from core.programme.tempo import tempo_of, time_under_tension
from core.sources import SOURCES


@pytest.mark.parametrize(
    ("written", "reps", "seconds"),
    [
        ("3-1-1-0", 10, 50),
        ("4-0-X-1", 8, 48),
        ("301", 12, 48),
        ("3010", 12, 48),
        ("3-1-1", 10, 50),  # 3 s lowering, 1 s still, 1 s lifting
        ("40X0", 6, 30),
        ("2011", 10, 40),
    ],
)
def test_time_under_tension(written: str, reps: int, seconds: int) -> None:
    tempo = tempo_in(Cell(1, 1, CellKind.TEXT, written))

    assert time_under_tension(tempo, reps) == seconds


@pytest.mark.parametrize(
    ("text", "parts"),
    [("311", (3, 1, 1, 0)), ("3110", (3, 1, 1, 0)), ("40X1", (4, 0, 1, 1)), ("301", (3, 0, 1, 0))],
)
def test_lowering_comes_first_and_three_digits_have_no_last_pause(text: str, parts: tuple[int, ...]) -> None:
    assert SOURCES["BMJMil2020"].year == 2020
    assert tempo_of(text) == parts
