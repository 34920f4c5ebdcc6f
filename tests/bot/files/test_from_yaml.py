import json

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from bot.files.block_file import read_block
from bot.files.workbook_limits import MOST_ROWS
from bot.files.yaml_nodes import DEEPEST, MOST_NODES
from bot.render.problems import problem_line
from core.programme.block import Block
from core.programme.problems import Problem
from core.programme.rows import BlockFile

TEXT = """\
block:
  Name: on
  Weeks: 4
  First day of the week: Monday
  Session days: [Push, "No"]
sessions:
  - Day: Push
    Rows:
      - Order: A
        Exercise: Bench press
        Weeks: [1, 2, 3]
        Sets: 4
        Reps: 8-10
        Load: 62,5 kg
        Reps left: 2
        Rest: 1:30
        Tempo: 3110
        Cue: >
          Ribs down
          at the top.
        Instead: [Push-up, Dip]
      - {Order: A, Exercise: Bench press, Weeks: 4, Sets: 3, Reps: 8, Load: ~}
  - Day: No
    Rows:
      - {Order: A, Exercise: Barbell row, Sets: 4, Reps: 8, Load: 50 kg}
"""


def block(text: str) -> Block:
    result = read_block(text.encode(), "block.yaml")
    assert isinstance(result, BlockFile), result
    return result.block


def lines(text: str) -> list[str]:
    result = read_block(text.encode(), "block.yaml")
    found = result.warnings if isinstance(result, BlockFile) else result
    return [problem_line(one) for one in found]


def test_every_value_stays_as_it_was_typed() -> None:
    read = block(TEXT)
    first = read.days[0].lines[0]

    assert (read.name, [day.name for day in read.days]) == ("on", ["Push", "No"])
    assert first.weeks == frozenset({1, 2, 3})
    assert (str(first.prescription.dose.reps), first.prescription.rest_s) == ("8-10", 90)
    assert (first.prescription.cue, first.prescription.tempo) == ("Ribs down at the top.", "3110")
    assert first.prescription.instead == ("push-up", "dip")
    assert read.days[0].lines[1].prescription.dose.load is None


AS_MAP = """\
block: {name: "on", Length: 4, week starts: Mon}
sessions:
  Push:
    - {order: A, Movement: Bench press, Week: 1-3, set: 4, repetitions: 8-10, weight: "62,5 kg", RIR: 2,
       Rest: 90 s, tempo: 3110, note: Ribs down at the top., swap: Push-up; Dip}
    - {order: A, Movement: Bench press, Week: 4, set: 3, repetitions: 8}
  No:
    - {order: A, exercise: Barbell row, sets: 4, reps: 8, load: 50 kg}
"""
AS_ROWS = json.dumps(
    {
        "block": {"Name": "on", "Weeks": 4, "First day of the week": "Monday", "Session days": "Push, No"},
        "sessions": [
            {
                "Day": "Push",
                "Order": "A",
                "Exercise": "Bench press",
                "Weeks": "1-3",
                "Sets": 4,
                "Reps": "8-10",
                "Load": "62.5 kg",
                "Reps left": 2,
                "Rest": "1:30",
                "Tempo": 3110,
                "Cue": "Ribs down at the top.",
                "Instead": "Push-up; Dip",
            },
            {
                "Day": "Push",
                "Order": "A",
                "Exercise": "Bench press",
                "Weeks": 4,
                "Sets": 3,
                "Reps": 8,
                "Load": None,
            },
            {"Day": "No", "Order": "A", "Exercise": "Barbell row", "Sets": 4, "Reps": 8, "Load": "50 kg"},
        ],
    }
)


@pytest.mark.parametrize(
    "text", [AS_MAP, AS_ROWS], ids=["days with their rows", "rows that name their day, as JSON"]
)
def test_the_same_block_may_be_laid_out_otherwise(text: str) -> None:
    assert block(text) == block(TEXT)


def test_an_rpe_is_no_number_of_reps_left() -> None:
    rated = block(TEXT.replace("Reps left: 2", "RPE: 8"))

    assert rated == block(TEXT.replace("Reps left: 2", "Reps left: RPE 8"))


LINES = [
    (
        "nothing",
        "block:\n",
        [
            'Sessions: There is no sheet "Sessions". Found: Block.',
            *["Block: There is no line"] * 4,
            "Block, line 1: A list of lines such as `Weeks: 4` is expected here.",
        ],
    ),
    ("broken", TEXT.replace("Reps: 8-10", "Reps: [8-10"), ["Line 14: The file cannot be read from here on."]),
    ("two documents", f"{TEXT}\n---\na: 1\n", ["Line 28: The file cannot be read from here on."]),
    ("a reference", TEXT.replace("Sets: 4", "Sets: &a 4", 1), ["Line 12: Tags, anchors and references"]),
    ("a reference to it", TEXT.replace("Sets: 4", "Sets: *a", 1), ["Line 12: Tags, anchors and references"]),
    ("a tag", TEXT.replace("Sets: 4", "Sets: !!str 4", 1), ["Line 12: Tags, anchors and references"]),
    ("too deep", "block: " + "[" * (DEEPEST + 1), ["The file holds more than is read."]),
    ("too much", "block: [" + "1," * (MOST_NODES + 1) + "]", ["The file holds more than is read."]),
    ("too many rows", "block: {}\nsessions:\n" + "  - {Order: A}\n" * MOST_ROWS, ["2001 rows are used"]),
    (
        "a part that is not known",
        f"{TEXT}notes: x\n",
        ['Line 26: "notes" is not known here. Known: Block, Sessions.'],
    ),
    ("a part twice", f"{TEXT}Sessions: x\n", ['Line 26, Sessions: "Sessions" says again what row 6 says.']),
    (
        "a line that is not known",
        TEXT.replace("Weeks: 4", "Weks: 4", 1),
        ['Block: There is no line "Weeks".', 'Block, line 3: "Weks" is not known here.'],
    ),
    (
        "a line twice",
        TEXT.replace("  Weeks: 4", "  Weeks: 4\n  weeks: 5", 1),
        ['Block, line 4, Weeks: "weeks" says again what row 3 says.'],
    ),
    (
        "a column that is not known, told once",
        TEXT.replace("Reps: 8", "Mood: 8"),
        [
            "Sessions, line 9, Reps: Nothing is written here.",
            'Sessions, line 13: "Mood" is not a column I know.',
            "Sessions, line 22, Reps: Nothing is written here.",
            "Sessions, line 25, Reps: Nothing is written here.",
        ],
    ),
    (
        "a column twice in a row",
        TEXT.replace("        Sets: 4\n", "        Sets: 4\n        sets: 5\n"),
        ['Sessions, line 13, Sets: "sets" means the same column as "Sets". Keep one.'],
    ),
    (
        "a list for one value",
        TEXT.replace("Sets: 4", "Sets: [4]", 1),
        ["Sessions, line 12, Sets: One value is"],
    ),
    (
        "a map for one value",
        TEXT.replace("Weeks: 4", "Weeks: {a: 4}", 1),
        ["Block, line 3, Weeks: One value is"],
    ),
    (
        "a text for a list of rows",
        "sessions: none\n",
        [
            'Block: There is no sheet "Block". Found: Sessions.',
            "Sessions: There is no row of a session under the header.",
            "Sessions, line 1: A list of rows is expected here.",
        ],
    ),
    (
        "a text for a row",
        TEXT + "  - none\n",
        ["Sessions, line 26: A row such as `Order: A`, `Exercise: Push-up` is expected here."],
    ),
    ("a list for a key", TEXT.replace("Sets: 4,", "[A]: 1, Sets: 4,"), ["Sessions, line 25: A row such as"]),
    (
        "something beside the rows of a day",
        TEXT.replace("  - Day: Push\n", "  - Day: Push\n    Mood: good\n"),
        ["Sessions, line 8: One line `Day:` and one line `Rows:` is expected here."],
    ),
    (
        "a cell that cannot be read",
        TEXT.replace("8-10", "10-8"),
        ['Sessions, line 13, Reps: "10-8" runs from more'],
    ),
    (
        "a place that is taken",
        TEXT.replace("Weeks: 4, Sets", "Sets"),
        ["Sessions, line 22, Order: A of Push is already in row 9, week 1-3."],
    ),
]


@each_row(("text", "said"), [row[1:] for row in LINES])
def test_what_is_wrong_is_told_with_its_line(text: str, said: list[str]) -> None:
    told = lines(text)

    assert [line[: len(words)] for line, words in zip(told, said, strict=False)] == said
    assert all(line.startswith(said[-1]) for line in told[len(said) :])


def test_bytes_that_are_no_yaml_are_told_as_such() -> None:
    result = read_block("block: \ud800".encode("utf-8", "surrogatepass"), "block.yaml")

    assert isinstance(result, list)


@given(
    st.recursive(
        st.text(max_size=8) | st.none() | st.integers() | st.dates(),
        lambda inner: (
            st.lists(inner, max_size=4)
            | st.dictionaries(
                st.sampled_from(["Day", "Rows", "Sets", "Reps", "block", "sessions", "x"]), inner
            )
        ),
        max_leaves=12,
    )
)
def test_any_structure_is_read_or_is_a_problem(inner: object) -> None:
    text = json.dumps({"block": inner, "sessions": inner}, default=str)
    result = read_block(text.encode(), "block.yaml")

    assert isinstance(result, list)
    assert all(isinstance(found, Problem) for found in result)
