"""The tables of [Knight1979], [Knight1985] and [Mann2010], row by row, in pounds and kilograms, before caps and kit.

DAPRE: read in copies, two of which agree on the column for the next session; bands of later copies under their own
name. APRE 3 and the first two sets: read in copies. The rows of APRE 6 and APRE 10: from memory. Every kilogram of APRE
6 and 10: from memory.
"""

import pytest
from rows import each_row

from core.loads.autoregulation import SHARES, TABLES, Band, Change, change
from core.programme.ways_up import TABLE_REPS, TABLE_SETS, WayKind
from core.sources import SOURCES, Mark
from core.units import Mass, Unit

SET_UPS = [  # reps of the first two sets and of the full load; at 50 %, 75 % and 100 %
    (WayKind.APRE_3, 6, 3, 3),
    (WayKind.APRE_6, 10, 6, 6),
    (WayKind.APRE_10, 12, 10, 10),
    (WayKind.DAPRE, 10, 6, 6),
    (WayKind.DAPRE_LATER, 10, 6, 6),
]


@pytest.mark.parametrize(("kind", "first", "second", "full"), SET_UPS)
def test_four_sets_of_which_two_lead_up_and_two_go_to_the_limit(
    kind: WayKind, first: int, second: int, full: int
) -> None:
    table = TABLES[kind]

    assert (table.first, table.second, table.reps) == (first, second, full)
    assert [str(share) for share in SHARES] == ["0.50", "0.75"]
    assert (TABLE_SETS, TABLE_REPS[kind]) == (4, full)


LB = {  # reps of the set that is read, pounds from and to
    (WayKind.APRE_3, "today"): [(1, -10, -5), (2, -10, -5), (3, 0, 0), (4, 0, 0), (5, 5, 10), (6, 5, 10), (7, 10, 15)],
    (WayKind.APRE_6, "today"): [
        (0, -10, -5), (2, -10, -5), (3, -5, 0), (4, -5, 0), (5, 0, 0), (7, 0, 0), (8, 5, 10), (12, 5, 10), (13, 10, 15),
        (20, 10, 15),
    ],
    (WayKind.APRE_10, "today"): [
        (4, -10, -5), (6, -10, -5), (7, -5, 0), (8, -5, 0), (9, 0, 0), (11, 0, 0), (12, 5, 10), (16, 5, 10),
        (17, 10, 15),
    ],
    (WayKind.DAPRE, "today"): [
        (0, -10, -5), (2, -10, -5), (3, -5, 0), (4, -5, 0), (5, 0, 0), (6, 0, 0), (7, 5, 10), (10, 5, 10), (11, 10, 15),
    ],
    (WayKind.DAPRE, "then"): [
        (0, -10, -5), (2, -10, -5), (3, 0, 0), (4, 0, 0), (5, 5, 10), (6, 5, 10), (7, 5, 15), (10, 5, 15), (11, 10, 20),
    ],
    (WayKind.DAPRE_LATER, "today"): [(5, 0, 0), (7, 0, 0), (8, 5, 10), (12, 5, 10), (13, 10, 15)],
    (WayKind.DAPRE_LATER, "then"): [(5, 5, 10), (7, 5, 10), (8, 5, 15), (12, 5, 15), (13, 10, 20)],
}  # fmt: skip
for _kind in (WayKind.APRE_3, WayKind.APRE_6, WayKind.APRE_10):
    LB[_kind, "then"] = LB[_kind, "today"]
ROWS = [(kind, column, *row) for (kind, column), rows in LB.items() for row in rows]


def bands(kind: WayKind, column: str) -> tuple[Band, ...]:
    return TABLES[kind].today if column == "today" else TABLES[kind].then


@each_row(("kind", "column", "reps", "low", "high"), ROWS)
def test_every_row_of_every_table_in_pounds(
    kind: WayKind, column: str, reps: int, low: int, high: int
) -> None:
    found = change(bands(kind, column), reps)

    assert (found.low * 5, found.high * 5, found.below) == (low, high, False)
    assert found.given(Unit.LB) == Mass.of(low, "lb")


KG = [  # the kilograms that are printed beside the pounds
    (WayKind.DAPRE, "today", 2, "-5", "-2.5"),
    (WayKind.DAPRE, "today", 4, "-2.5", "0"),
    (WayKind.DAPRE, "today", 10, "2.5", "5"),
    (WayKind.DAPRE, "today", 11, "5", "7.5"),
    (WayKind.DAPRE, "then", 2, "-5", "-2.5"),
    (WayKind.DAPRE, "then", 6, "2.5", "5"),
    (WayKind.DAPRE, "then", 10, "2.5", "7.5"),
    (WayKind.DAPRE, "then", 11, "5", "10"),
    (WayKind.APRE_3, "today", 2, "-5", "-2.5"),
    (WayKind.APRE_3, "today", 6, "2.5", "5"),
    (WayKind.APRE_3, "today", 7, "5", "7.5"),
]


@pytest.mark.parametrize(("kind", "column", "reps", "low", "high"), KG)
def test_the_rows_in_kilograms(kind: WayKind, column: str, reps: int, low: str, high: str) -> None:
    found = change(bands(kind, column), reps)
    step = Mass.of("2.5")

    assert (step * found.low, step * found.high) == (Mass.of(low), Mass.of(high))
    assert found.given(Unit.KG) == Mass.of(low)


def loads(kind: WayKind, full: int, reps: int) -> tuple[int, int]:
    found = change(TABLES[kind].today, reps)
    return full + 5 * found.low, full + 5 * found.high


@pytest.mark.parametrize(
    ("kind", "full", "reps", "low", "high"),
    [
        # A printed example: 3 at 300 lb, 7 done in the third set, the fourth at 315; 6 done there, then 320-325.
        (WayKind.APRE_3, 300, 7, 310, 315),
        (WayKind.APRE_3, 315, 6, 320, 325),
        # From memory, as the rows are.
        (WayKind.APRE_6, 300, 6, 300, 300),
        (WayKind.APRE_6, 300, 2, 290, 295),
        (WayKind.APRE_6, 300, 13, 310, 315),
        (WayKind.APRE_10, 100, 11, 100, 100),
        (WayKind.APRE_10, 100, 12, 105, 110),
        (WayKind.APRE_10, 100, 17, 110, 115),
        (WayKind.APRE_10, 100, 6, 90, 95),
    ],
)
def test_worked_examples(kind: WayKind, full: int, reps: int, low: int, high: int) -> None:
    assert loads(kind, full, reps) == (low, high)


@pytest.mark.parametrize(("kind", "reps"), [(WayKind.APRE_10, 3), (WayKind.APRE_10, 0), (WayKind.APRE_3, 0)])
def test_fewer_reps_than_a_table_has_are_ten_pounds_less_and_said_to_be_below(
    kind: WayKind, reps: int
) -> None:
    # Our proposal: the table ends there.
    assert change(TABLES[kind].today, reps) == Change(-2, -2, below=True)


@pytest.mark.parametrize(
    ("kind", "enough"),
    [
        (WayKind.APRE_3, 3),
        (WayKind.APRE_6, 5),
        (WayKind.APRE_10, 9),
        (WayKind.DAPRE, 5),
        (WayKind.DAPRE_LATER, 5),
    ],
)
def test_the_load_was_right_from_the_row_that_keeps_it(kind: WayKind, enough: int) -> None:
    assert TABLES[kind].enough == enough


@pytest.mark.parametrize("kind", list(TABLES))
@pytest.mark.parametrize("column", ["today", "then"])
def test_more_reps_never_give_less(kind: WayKind, column: str) -> None:
    found = [change(bands(kind, column), reps).low for reps in range(25)]

    assert found == sorted(found)


def test_the_sources_say_how_they_are_known() -> None:
    marks = {key: SOURCES[key].mark for key in ("Knight1979", "Knight1985", "Mann2010")}

    assert marks == {"Knight1979": Mark.SECONDARY, "Knight1985": Mark.SECONDARY, "Mann2010": Mark.ABSTRACT}
