from examples import examples
from hypothesis import given

from core.programme.block import Block, Day, Line, Phase, Target
from core.programme.prescription import Dose, Load, PercentOf, Prescription, Rpe, Span
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.sheets import CellKind, Sheet
from core.programme.ways_up import WayKind, WayUp
from core.programme.writing import sheets_of
from core.units import Mass
from tests.core.programme.block_strategies import blocks

HEADINGS = (
    "Day",
    "Order",
    "Exercise",
    "Weeks",
    "Sets",
    "Reps",
    "Load",
    "Reps left",
    "Rest",
    "Tempo",
    "Way up",
)


@given(blocks())
@examples(150)
def test_a_block_that_is_written_reads_as_the_same_block(block: Block) -> None:
    result = block_from_sheets(sheets_of(block))

    assert isinstance(result, BlockFile)
    assert result.block == block


def prescription(order: str, exercise: str, dose: Dose, **more: object) -> Prescription:
    return Prescription.model_validate({"order": order, "exercise": exercise, "dose": dose, **more})


EIGHT = Span(low=8, high=8)
LINES = (
    prescription(
        "A",
        "bench-press",
        Dose(
            sets=4,
            reps=Span(low=6, high=6),
            load=Load.share("72.5", PercentOf.ESTIMATE),
            left=2,
            rpe=Rpe(low=8, high=8),
            style=SetStyle(kind=StyleKind.CLUSTER, parts=(2, 2, 2), pause_s=15),
        ),
        rest_s=150,
        tempo="30X1",
    ),
    prescription(
        "B1", "curl", Dose(sets=1, to_left=True, left=1, style=SetStyle(kind=StyleKind.DESCENDING, steps=2))
    ),
    prescription(
        "B2",
        "split-squat",
        Dose(
            sets=3,
            reps=Span(low=10, high=10),
            portion=5,
            each_side=True,
            load=Load.of(12),
            left=1,
            left_high=2,
        ),
    ),
    prescription("C", "farmer-carry", Dose(sets=3, metres=Span(low=20, high=40), load=Load.up(Mass.of(2)))),
    prescription("D", "band-pull-apart", Dose(sets=2, reps=EIGHT, or_more=True, load=Load.banded("light"))),
    prescription(
        "E", "push-up", Dose(sets=3, reps=EIGHT, way=WayUp(kind=WayKind.VARIANTS, path=("push-up", "dip")))
    ),
)
BLOCK = Block(
    name="Slipway",
    weeks=4,
    days=(
        Day(
            key="push",
            name="Push",
            lines=tuple(
                Line(weeks=frozenset({1, 2, 3, 4} if one.order == "A" else {1, 3}), prescription=one)
                for one in LINES
            ),
            lighter_weeks=frozenset({4}),
        ),
    ),
    phases=(Phase(name="Base", weeks=frozenset({1, 2})), Phase(name="Build", weeks=frozenset({3, 4}))),
    testing_weeks=frozenset({3}),
    targets=(Target(exercise="bench-press", load=Load.of(80), reps=5, week=4),),
)


def shown(sheet: Sheet) -> list[tuple[str, ...]]:
    width = max(max(row) for row in sheet.rows)
    return [tuple(row[at].text if at in row else "" for at in range(1, width + 1)) for row in sheet.rows]


def test_every_form_stands_in_its_cell_in_the_trades_own_words() -> None:
    block, sessions = sheets_of(BLOCK)

    assert (block.name, sessions.name) == ("Block", "Sessions")
    assert shown(block) == [
        ("Name", "Slipway"),
        ("Weeks", "4"),
        ("First day of the week", "Monday"),
        ("Session days", "Push"),
        ("Phases", "Base: 1-2; Build: 3-4"),
        ("Deload weeks", "4"),
        ("Testing weeks", "3"),
        ("Targets", "Bench press 80 kg x 5 by week 4"),
    ]
    assert shown(sessions) == [
        HEADINGS,
        (
            "Push",
            "A",
            "Bench press",
            "",
            "4 cluster, 15 s",
            "2+2+2",
            "72.5 % of estimate",
            "RPE 8",
            "150 s",
            "30X1",
            "",
        ),
        ("Push", "B1", "Curl", "1, 3", "1 + 2 descending", "to 1 left", "", "", "", "", ""),
        ("Push", "B2", "Split squat", "1, 3", "3", "10 a side in 5s", "12 kg a hand", "1-2", "", "", ""),
        ("Push", "C", "Farmer carry", "1, 3", "3", "20-40 metres", "+2 kg from last time", "", "", "", ""),
        ("Push", "D", "Band pull-apart", "1, 3", "2", "8 or more", "light band", "", "", "", ""),
        ("Push", "E", "Push-up", "1, 3", "3", "8", "", "", "", "", "easier to harder: Push-up > Dip"),
    ]


def test_whole_numbers_are_numbers_and_all_else_is_text() -> None:
    kinds = {cell.text: cell.kind for row in sheets_of(BLOCK)[1].rows for cell in row.values()}

    assert {text for text, kind in kinds.items() if kind is CellKind.NUMBER} == {"3", "2", "8"}
    assert set(kinds.values()) == {CellKind.NUMBER, CellKind.TEXT}


def test_a_block_without_a_plan_has_only_the_labels_that_none_can_do_without() -> None:
    bare = Block(name="Slipway", weeks=4, days=(Day(key="push", name="Push", lines=()),))

    assert [row[0] for row in shown(sheets_of(bare)[0])] == [
        "Name",
        "Weeks",
        "First day of the week",
        "Session days",
    ]
    assert shown(sheets_of(bare)[1]) == [("Day", "Order", "Exercise", "Sets", "Reps")]
