import pytest

from bot.render.block_warnings import phone_lines, some_of, sources_of, undoable_line, warning_lines
from core.loads.kit_fit import StandIn, Undoable
from core.programme.problems import FACTS, Code, Place, Problem, problem


def some(code: Code) -> Problem:
    return problem(code, Place(), **dict.fromkeys(FACTS[code], "2"))


@pytest.mark.parametrize(
    ("text", "lines"), [("", 1), ("a b", 1), ("word " * 8, 1), ("word " * 9, 2), ("a\n\nb", 3)]
)
def test_a_text_takes_lines_of_forty_letters(text: str, lines: int) -> None:
    assert phone_lines(text) == lines


def test_safety_comes_first_then_what_nobody_can_do() -> None:
    warnings = [
        some(Code.LOAD_JUMP),
        some(Code.OPEN_UNDER_BAR),
        some(Code.LOAD_JUMP),
        some(Code.LIMIT_UNDER_BAR),
    ]
    undoable = Undoable(exercise="back-squat", stand_ins=(StandIn(client="Ada", exercise=None),))
    found = warning_lines(warnings, [undoable])

    assert [len(of_kind) for of_kind in found] == [1, 1, 1, 2]
    assert [of_kind[0].split()[2] for of_kind in found] == ["2", "2", "loads", "2"]
    assert "goes to 2 left" in found[0][0]
    assert found[2][0].startswith("Nobody's kit")
    assert warning_lines([], []) == []


KINDS = [["a" * 30, "b" * 30, "c" * 30], ["d" * 30], ["e" * 30, "f" * 30]]


@pytest.mark.parametrize(
    ("room", "least", "shown", "hidden"),
    [
        (6, 1, "abcdef", 0),
        (5, 1, "abdef", 1),
        (3, 1, "ade", 3),
        (2, 1, "ad", 4),
        (0, 1, "a", 5),
        (-4, 3, "ade", 3),
    ],
)
def test_one_of_each_kind_is_shown_before_a_second_of_any(
    room: int, least: int, shown: str, hidden: int
) -> None:
    lines, left = some_of(KINDS, room, least)

    assert ("".join(line[0] for line in lines), left) == (shown, hidden)


@pytest.mark.parametrize(
    ("clients", "said"),
    [
        ("Ada", "Goblet squat for Ada"),
        ("Ada Ben", "Goblet squat for Ada and Ben"),
        ("Ada Ben Cai", "Goblet squat for Ada, Ben and Cai"),
        ("Ada Ben Cai Dan Eve", "Goblet squat for Ada, Ben, Cai and 2 more"),
    ],
)
def test_who_has_the_same_equal_is_named_together(clients: str, said: str) -> None:
    stand_ins = tuple(StandIn(client=name, exercise="goblet-squat") for name in clients.split())
    undoable = Undoable(exercise="back-squat", stand_ins=stand_ins)

    assert undoable_line(undoable) == f"Nobody's kit loads Back squat. In its place: {said}."


def test_who_has_nothing_is_named_too() -> None:
    stand_ins = (StandIn(client="Ada", exercise="goblet-squat"), StandIn(client="Ben", exercise=None))

    assert undoable_line(Undoable(exercise="back-squat", stand_ins=stand_ins)).endswith(
        "In its place: Goblet squat for Ada; nothing for Ben."
    )


def test_a_source_is_named_once_and_only_where_there_are_figures() -> None:
    assert sources_of([some(Code.SHEET_NOT_READ)]) == []
    assert len(sources_of([some(Code.PUSH_TO_PULL), some(Code.KNEE_TO_HIP), some(Code.MUSCLES_LOW)])) == 2
