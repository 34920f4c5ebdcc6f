import pytest

from core.programme.block import Block, Day, Line, Phase, session_order, weeks_text
from core.programme.prescription import Dose, Prescription, Span


def line(order: str, *weeks: int) -> Line:
    dose = Dose(sets=3, reps=Span(low=8, high=8))
    return Line(weeks=frozenset(weeks), prescription=Prescription(order=order, exercise="dip", dose=dose))


def test_a_week_asks_in_session_order_however_it_was_written() -> None:
    day = Day(
        key="push",
        name="Push",
        lines=(line("C", 1, 2), line("A", 1), line("B10", 1), line("B2", 1), line("A", 2)),
    )

    assert [asked.order for asked in day.in_week(1)] == ["A", "B2", "B10", "C"]
    assert [asked.order for asked in day.in_week(2)] == ["A", "C"]
    assert day.in_week(3) == ()


def test_a_week_has_a_phase_or_none() -> None:
    base = Phase(name="Base", weeks=frozenset({1, 2}))
    block = Block(name="Slipway", weeks=3, days=(), phases=(base,))

    assert [block.phase(week) for week in (1, 2, 3)] == [base, base, None]


def test_a_day_is_found_by_its_key() -> None:
    push = Day(key="push", name="Push", lines=())
    block = Block(name="Slipway", weeks=1, days=(push,))

    assert block.day("push") == push
    assert block.day("pull") is None


@pytest.mark.parametrize(("order", "sorts_by"), [("A", ("A", 0)), ("B1", ("B", 1)), ("B12", ("B", 12))])
def test_an_order_sorts_by_letter_then_number(order: str, sorts_by: tuple[str, int]) -> None:
    assert session_order(order) == sorts_by


@pytest.mark.parametrize(
    ("weeks", "text"),
    [([], ""), ([3], "3"), ([1, 2, 3], "1-3"), ([1, 3, 5], "1, 3, 5"), ([1, 2, 4, 5, 7], "1-2, 4-5, 7")],
)
def test_weeks_are_written_short(weeks: list[int], text: str) -> None:
    assert weeks_text(weeks) == text
