import pytest

from core.programme.prescription import Dose, Prescription, Span
from core.programme.together import Group, Grouping, groups


def asked(order: str, sets: int = 3, rest_s: int | None = None) -> Prescription:
    dose = Dose(sets=sets, reps=Span(low=8, high=8))
    return Prescription(order=order, exercise="dip", dose=dose, rest_s=rest_s)


def test_what_has_one_letter_is_done_in_turn() -> None:
    found = groups([asked("C"), asked("B2"), asked("A"), asked("B10"), asked("B1"), asked("D1"), asked("D2")])

    assert [(one.letter, [each.order for each in one.members], one.grouping) for one in found] == [
        ("A", ["A"], Grouping.ALONE),
        ("B", ["B1", "B2", "B10"], Grouping.CIRCUIT),
        ("C", ["C"], Grouping.ALONE),
        ("D", ["D1", "D2"], Grouping.SUPERSET),
    ]


def test_a_day_without_rows_has_no_groups() -> None:
    assert groups([]) == ()


@pytest.mark.parametrize(
    ("rests", "after"),
    [((None, 90), 90), ((60, 0), 0), ((60, None), 60), ((None, None), None), ((60, 90), 90)],
)
def test_the_rest_after_the_round_is_what_the_last_says(
    rests: tuple[int | None, ...], after: int | None
) -> None:
    members = tuple(asked(f"B{number}", rest_s=rest_s) for number, rest_s in enumerate(rests, 1))

    assert Group(letter="B", members=members).rest_s == after


def test_who_has_fewer_sets_stops_sooner() -> None:
    group = Group(letter="B", members=(asked("B1", 4), asked("B2", 2)))

    assert group.rounds == 4
    assert [len(group.in_round(number)) for number in (1, 2, 3, 4, 5)] == [2, 2, 1, 1, 0]


def test_a_lift_that_was_taken_in_is_in_turn_with_nothing() -> None:
    found = groups([asked("B1"), asked("A+"), asked("A"), asked("B2")])

    assert [(one.letter, [each.order for each in one.members]) for one in found] == [
        ("A", ["A"]),
        ("A", ["A+"]),
        ("B", ["B1", "B2"]),
    ]
