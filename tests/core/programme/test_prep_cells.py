import pytest

from core.programme.block import Block, Day
from core.programme.block_sheet import Head
from core.programme.prep import MOST
from core.programme.prep_cells import DayPrep, day_prep, preps_text
from core.programme.problems import Problem
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.sheets import Cell, CellKind, Sheet, UnreadError, rows_of

HEAD = Head(days={"lower-a": "Lower A", "push": "Push"})


@pytest.mark.parametrize(
    ("text", "day", "drills"),
    [
        ("Lower A: Ankle rock, Leg swing", "lower-a", ("ankle-rock", "leg-swing")),
        ("lower-a:ankle rocks", "lower-a", ("ankle-rock",)),
        ("Push: none", "push", ()),
        ("PUSH: Cat and camel,", "push", ("cat-camel",)),
    ],
)
def test_a_day_has_the_drills_that_are_written_for_it(text: str, day: str, drills: tuple[str, ...]) -> None:
    assert day_prep(text, HEAD) == DayPrep(day, drills)


@pytest.mark.parametrize(
    ("text", "code", "facts"),
    [
        ("Ankle rock", "prep_unreadable", {"written": "Ankle rock"}),
        ("Lower A:", "prep_unreadable", {"written": "Lower A:"}),
        ("Pull: Ankle rock", "day_unknown", {"written": "Pull", "known": "Lower A, Push"}),
        ("Push: Ankel rock", "drill_unknown", {"written": "Ankel rock", "suggestions": "Ankle rock"}),
        ("Push: none, Ankle rock", "drill_unknown", {"written": "none", "suggestions": ""}),
        ("Push: Ankle rock, ankle rocks", "drill_twice", {"written": "ankle rocks"}),
    ],
)
def test_what_is_wrong_with_a_prep_is_named(text: str, code: str, facts: dict[str, str]) -> None:
    with pytest.raises(UnreadError) as caught:
        day_prep(text, HEAD)

    assert (caught.value.code.value, caught.value.facts) == (code, facts)


def test_more_drills_than_fit_on_a_card_are_a_problem() -> None:
    names = [
        "Ankle rock",
        "Ankle circles",
        "Leg swing",
        "Open book",
        "Seated turn",
        "Wall slide",
        "Heel taps",
        "Easy squat",
    ]
    assert len(day_prep(f"Push: {', '.join(names)}", HEAD).drills) == MOST

    with pytest.raises(UnreadError) as caught:
        day_prep(f"Push: {', '.join([*names, 'Arm turns'])}", HEAD)

    assert caught.value.facts == {"day": "Push", "found": MOST + 1, "limit": MOST}


def test_a_prep_is_read_where_the_days_are_not_known() -> None:
    assert day_prep("Push: Ankle rock", Head()).day == "push"


def sheets(prep: tuple[str, ...]) -> list[Sheet]:
    lines = (
        ("Name", "Harbour"),
        ("Weeks", "1"),
        ("First day", "Mon"),
        ("Days", "Lower A, Push"),
        ("Warm-up", *prep),
    )
    table = (
        ("Day", "Order", "Exercise", "Sets", "Reps"),
        *((day, "A", "Push-up", "3", "8") for day in ("Lower A", "Push")),
    )
    return [
        Sheet(
            name,
            rows_of(
                Cell(number, column, CellKind.TEXT, text)
                for number, row in enumerate(rows, 1)
                for column, text in enumerate(row, 1)
            ),
        )
        for name, rows in (("Block", lines), ("Sessions", table))
    ]


def test_days_may_stand_in_one_cell_or_in_several_and_one_that_is_not_named_goes_by_what_it_loads() -> None:
    one = block_from_sheets(sheets(("Lower A: Ankle rock; Push: none",)))
    several = block_from_sheets(sheets(("Lower A: Ankle rock", "Push: none")))
    alone = block_from_sheets(sheets(("Push: Open book",)))

    assert isinstance(one, BlockFile)
    assert isinstance(alone, BlockFile)
    assert one == several
    assert [day.prep for day in one.block.days] == [("ankle-rock",), ()]
    assert [day.prep for day in alone.block.days] == [None, ("open-book",)]


def test_every_problem_of_the_line_is_named_with_its_cell() -> None:
    found = block_from_sheets(sheets(("Lower A: Foo; Push: none", "push: Ankle rock", "Rest")))

    assert isinstance(found, list)
    assert [(one.code, one.place.cell) for one in found if isinstance(one, Problem)] == [
        ("drill_unknown", "B5"),
        ("prep_twice", "B5"),
        ("prep_unreadable", "D5"),
    ]


def test_a_day_with_a_semicolon_in_its_name_is_written_by_its_key() -> None:
    days = (
        Day(key="a-b", name="A; B", lines=(), prep=("ankle-rock",)),
        Day(key="c", name="C", lines=()),
        Day(key="d", name="D: legs", lines=(), prep=()),
    )

    assert preps_text(Block(name="x", weeks=1, days=days)) == "a-b: Ankle rock; D: legs: none"
