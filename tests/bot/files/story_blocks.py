"""Builds the story's spreadsheets: `python -m tests.bot.files.story_blocks` writes demo_scenario/blocks/*.xlsx.

Four blocks of the coach of a volunteer lifeboat crew, as she types them, and one with every common slip in it. The
files are kept in the repository; a test compares them with what this module builds.
"""

from datetime import date, time
from pathlib import Path

from openpyxl import Workbook
from openpyxl.styles import Font

from core.programme.session_sheet import COLUMNS
from tests.bot.files.block_workbook import Rows, head_of, workbook

FOLDER = Path(__file__).parents[3] / "demo_scenario" / "blocks"

RIBS, RAIL, SLIPWAY = "Ribs down at the top.", "Hand on the rail.", "As far as the slipway."
EASIER = "An easier week."
HARDER = "easier to harder: Push-up > Close-grip push-up"
BUSY, RACK = "Dumbbell bench press; Push-up", "Goblet squat; Leg press"

HARBOUR: Rows = (
    ("Lower A", "A", "Hip thrust", "1-3", 4, 8, "90 kg", 2, "3 min", "2110", RIBS, "Glute bridge"),
    ("Lower A", "A", "Hip thrust", 4, 3, 8, "82,5 kg", 3, "3 min", "2110", EASIER, "Glute bridge"),
    ("Lower A", "A", "Hip thrust", "5-6", 4, 6, "100 kg", 2, "3 min", "2110", RIBS, "Glute bridge"),
    ("Lower A", "B1", "Step-down", None, 3, "10 a side", "bw", 2, "30 s", "3010", RAIL, "Step-up"),
    ("Lower A", "B2", "One-leg hinge", None, 3, "10 a side", "16 kg", 2, "90 s", None, None, "Dumbbell RDL"),
    ("Lower A", "C", "Back extension", None, 3, 12, "bw+10 kg", 2, "90 s"),
    ("Lower A", "D", "Calf raise", None, 3, "12-15", "find", 2, "60 s", None, None, "One-leg calf raise"),
    ("Push", "A", "Bench press", "1-3", 4, "6-8", "60 kg", 2, "3 min", None, None, BUSY),
    ("Push", "A", "Bench press", "4", 3, "6-8", "55 kg", 3, "3 min", None, EASIER, BUSY),
    ("Push", "A", "Bench press", "5-6", 4, 6, "62,5 kg", 2, "3 min", None, None, BUSY),
    ("Push", "B1", "Dumbbell overhead press", None, 3, "8-10", "14 kg", 2, "60 s"),
    ("Push", "B2", "Lateral raise", None, "1 + 2 descending, 20 %", "12-15", "6 kg a hand", 2, "90 s"),
    ("Push", "C", "Push-up", None, 3, "8-12", "bw", 2, "90 s", None, None, None, None, HARDER),
    ("Push", "D", "Pushdown", None, 3, "10-12", "find", 2, "60 s"),
    ("Push", "E", "Plank", None, 3, "30-45 s", None, None, "60 s"),
    ("Lower B", "A", "Back squat", "1-3", 4, 6, "70 kg", 2, "3 min", "3010", None, RACK),
    ("Lower B", "A", "Back squat", "4", 3, 6, "65 kg", 3, "3 min", "3010", EASIER, RACK),
    ("Lower B", "A", "Back squat", "5-6", 4, 5, "77,5 kg", 2, "3 min", "3010", None, RACK),
    ("Lower B", "B1", "Split squat", None, 3, "8-10 a side", "12 kg", 2, "45 s"),
    ("Lower B", "B2", "Leg curl", None, 3, "10-12", "find", 2, "90 s"),
    ("Lower B", "C", "Farmer carry", None, 3, "30-40 s", "24 kg", None, "90 s", None, SLIPWAY),
    ("Lower B", "D", "Dead bug", None, 3, "8 a side", None, None, "45 s"),
    (
        "Pull",
        "A",
        "Barbell row",
        "1-3",
        4,
        8,
        "50 kg",
        2,
        "2:30",
        None,
        None,
        "One-arm row; Seated cable row",
    ),
    ("Pull", "A", "Barbell row", "4", 3, 8, "45 kg", 3, "2:30", None, EASIER),
    ("Pull", "A", "Barbell row", "5-6", 4, 6, "55 kg", 2, "2:30"),
    ("Pull", "B", "Pull-up", None, 4, "4-6", "bw", 2, "2 min", None, "From a full hang.", "Pulldown"),
    ("Pull", "C1", "Seated cable row", None, 3, "10-12", "find", 2, "30 s"),
    ("Pull", "C2", "Face pull", None, 3, "12-15", "find", 2, "90 s"),
    ("Pull", "D", "Curl", None, 3, "10-12", "8 kg", 2, "60 s"),
)
"""Four days for the boathouse gym, in kilograms: three weeks of eights, an easier one, two of fives and sixes."""

WATCH: Rows = (
    ("Full A", "A", "Back squat", None, 3, 5, "60 kg", 2, "3 min", "3010", None, RACK),
    ("Full A", "B1", "Dumbbell bench press", None, 3, "8-10", "16 kg", 2, "60 s"),
    ("Full A", "B2", "One-arm dumbbell row", None, 3, "8-10 a side", "18 kg", 2, "60 s"),
    ("Full A", "C", "Glute bridge", None, 3, "12-15", "bw", 2, "60 s"),
    ("Full A", "D", "Plank", None, 3, "30-45 s", None, None, "60 s"),
    (
        "Full B",
        "A",
        "Deadlift",
        None,
        3,
        5,
        "80 kg",
        2,
        "3 min",
        None,
        "Push the floor away.",
        "Dumbbell RDL",
    ),
    ("Full B", "B1", "Dumbbell overhead press", None, 3, "8-10", "12 kg", 2, "60 s"),
    ("Full B", "B2", "Pull-up", None, 3, "4-6", "bw", 2, "90 s", None, None, "Pulldown"),
    ("Full B", "C", "Split squat", None, 3, "8-10 a side", "10 kg", 2, "60 s"),
    ("Full B", "D", "Dead bug", None, 3, "8 a side", None, None, "45 s"),
    ("Full C", "A", "Bench press", None, 3, 6, "50 kg", 2, "3 min", None, None, BUSY),
    ("Full C", "B1", "Goblet squat", None, 3, "8-10", "20 kg", 2, "90 s"),
    ("Full C", "B2", "Barbell row", None, 3, 8, "45 kg", 2, "90 s"),
    ("Full C", "C", "Dumbbell RDL", None, 3, "8-10", "18 kg", 2, "90 s"),
    ("Full C", "D", "Farmer carry", None, 3, "30-40 s", "20 kg", None, "90 s", None, SLIPWAY),
)
"""Three whole-body days for people who stand watches and cannot choose their week."""

HOME: Rows = (
    ("Squat day", "A", "Goblet squat", None, 4, "8-10", 40, 2, "2 min", "3110"),
    ("Squat day", "B1", "Reverse lunge", None, 3, "8-10 a side", 20, 2, "30 s"),
    ("Squat day", "B2", "Glute bridge", None, 3, "12-15", "bw", 2, "60 s"),
    ("Squat day", "C", "Side plank", None, 3, "20-30 s a side", None, None, "30 s"),
    ("Press day", "A", "Dumbbell bench press", None, 4, "8-10", "35 lb", 2, "2 min", None, None, "Push-up"),
    ("Press day", "B1", "Push-up", None, 3, "6-10", "bw", 2, "60 s"),
    ("Press day", "B2", "One-arm dumbbell row", None, 4, "10 a side", 35, 2, "60 s"),
    ("Press day", "C", "Lateral raise", None, 2, "12-15", 10, 2, "60 s"),
    ("Hinge day", "A", "Dumbbell RDL", None, 4, 10, 35, 2, "2 min", "3010"),
    ("Hinge day", "B1", "Step-up", None, 3, "8-10 a side", 15, 2, "30 s"),
    ("Hinge day", "B2", "Chest-supported row", None, 3, "10-12", 25, 2, "90 s"),
    ("Hinge day", "C", "Band pull-apart", None, 2, "15-20", None, None, "45 s"),
    ("Hinge day", "D", "Suitcase carry", None, 3, "30 s a side", 35, None, "60 s"),
)
"""Three days with dumbbells at home; the sheet Block says that bare numbers are pounds."""

HOME_ON: Rows = (
    ("Squat day", "A", "Goblet squat", None, 4, "6-8", "find", 2, "2 min", "3110"),
    ("Squat day", "B1", "Split squat", None, 3, "8-10 a side", 20, 2, "30 s"),
    ("Squat day", "B2", "Glute bridge", None, 3, "15-20", "bw", 2, "60 s"),
    ("Squat day", "C", "Side plank", None, 3, "30-40 s a side", None, None, "30 s"),
    ("Press day", "A", "Dumbbell bench press", None, 4, "6-8", "40 lb", 2, "2 min", None, None, "Push-up"),
    ("Press day", "B1", "Push-up", None, 3, "8-12", "bw", 2, "60 s"),
    ("Press day", "B2", "One-arm dumbbell row", None, 4, "8 a side", 40, 2, "60 s"),
    ("Press day", "C", "Lateral raise", None, 2, "12-15", 10, 2, "60 s"),
    ("Hinge day", "A", "Dumbbell RDL", None, "4 ascending", 8, 40, 2, "2 min", "3010"),
    ("Hinge day", "B1", "Step-up", None, 3, "8-10 a side", 20, 2, "30 s"),
    ("Hinge day", "B2", "Chest-supported row", None, 3, "8-10", 30, 2, "90 s"),
    ("Hinge day", "C", "Band pull-apart", None, 2, "15-20", None, None, "45 s"),
    ("Hinge day", "D", "Suitcase carry", None, 3, "40 s a side", 35, None, "60 s"),
)
"""What follows it: the same days, fewer reps."""

BROKEN: Rows = (
    ("Lower A", "A", "Hip thrust", None, 4, date(2026, 8, 10), "90 kg"),
    ("Lower A", "B", "Hip thurst", None, 3, 8, "90"),
    ("Lower A", "B", "Back extension", "1-2", 3, "12", "10 kg"),
    ("Lower A", "C", "Plank", 1.3, 3, 30, None),
    ("Lower C", "A", "Push-up", None, "three", "8 or so", "bw"),
    (),
    ("Push", "A", "Bench press", "3-6", 4, "10-8", "=5*12", 7, "90", "1-2-3-4-5"),
    ("Push", "B", "Dumbbell bench press", None, 3, "30 s", "40 kg total", None, time(0, 2)),
    ("Push", None, "Pull-up", None, 3, "4-6", "10 kg", 2, "2 min", "30X1", "So strong! " * 20, "Pulldwon"),
)
"""Slips that a coach or her spreadsheet makes, a few to each row."""


def harbour() -> Workbook:
    """Return the block for the gym."""
    head = head_of("Harbour strength", 6, "Lower A, Push, Lower B, Pull")
    plan = {"Phases": "Base: 1-3; Easy: 4; Strength: 5-6", "Targets": "Hip thrust 100 kg x 6 by week 6"}
    return _titled(workbook({**head, **plan}, HARBOUR, COLUMNS))


def watch() -> Workbook:
    """Return the block for three days a week that move."""
    return _titled(workbook(head_of("Watch strength", 6, "Full A, Full B, Full C"), WATCH))


def home() -> Workbook:
    """Return the block for home."""
    head = head_of("Home dumbbells", 4, "Squat day, Press day, Hinge day", "Sunday", "lb")
    return _titled(workbook(head, HOME))


def home_on() -> Workbook:
    """Return the block for home that follows."""
    head = head_of("Home dumbbells, part two", 4, "Squat day, Press day, Hinge day", "Sunday", "lb")
    return _titled(workbook(head, HOME_ON))


def broken() -> Workbook:
    """Return the file whose exact list of problems is a test."""
    head = {**head_of("Broken on purpose", 4, "Lower A, Push, Pull", "Someday"), "Coach": "Maren"}
    book = workbook(head, BROKEN, Ideas=(("Ask about the new winch",),))
    sessions = book["Sessions"]
    sessions["N1"], sessions["O3"] = "Mood", "later"
    sessions.merge_cells("I2:I3")
    return _titled(book)


def _titled(book: Workbook) -> Workbook:
    for sheet in book.worksheets:
        for cell in sheet[1]:
            cell.font = Font(bold=True)
        sheet.column_dimensions["A"].width = 24
        sheet.column_dimensions["C"].width = 26
    return book


FILES = {
    "harbour-strength.xlsx": harbour,
    "watch-strength.xlsx": watch,
    "home-dumbbells.xlsx": home,
    "home-dumbbells-2.xlsx": home_on,
    "broken.xlsx": broken,
}
"""What is built, by the name of its file."""


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for name, build in FILES.items():
        build().save(FOLDER / name)
