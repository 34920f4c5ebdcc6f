"""What the template says: example rows, a note for each heading and line, and how to fill it in. Data alone."""

from dataclasses import dataclass

from core.programme import block_sheet as lines
from core.programme import session_sheet as table
from core.programme.ways_up import WORDS, WayKind


@dataclass(frozen=True, slots=True)
class Note:
    """What a heading or a line is for.

    Attributes:
        says: A sentence or two.
        examples: What may be written there; each is read as it stands.
    """

    says: str
    examples: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """The note with its examples."""
        shown = "; ".join(self.examples)
        return f"{self.says}\nFor example: {shown}" if shown else self.says


PATH = "easier to harder: Knee push-up > Push-up > Dip"
"""A variant path, as it may be written."""

LINES = {
    lines.NAME: Note("What you call the block; it stands on the client's card."),
    lines.WEEKS: Note("How many weeks it lasts.", ("6",)),
    lines.FIRST_DAY: Note("The day on which a week of training begins.", ("Monday", "Sun")),
    lines.DAYS: Note(
        "The names of the sessions of a week, in their order, each in a cell of its own from B to H. "
        "The first falls on a client's first training day."
    ),
    lines.UNIT: Note("What a load without a unit is counted in. It may be left out.", ("kg", "lb")),
    lines.PHASES: Note(
        "Names of stretches of weeks, for the client's card. They may be left out.",
        ("Base: 1-2; Build: 3-4",),
    ),
    lines.DELOADS: Note(
        "Weeks that are made easier by themselves: fewer sets, a little less load. They may be left out.",
        ("4", "4, 8"),
    ),
    lines.TESTS: Note("Weeks in which you write a test. They may be left out.", ("8",)),
    lines.TARGETS: Note(
        "What a lift is to reach, and by when. They may be left out.", ("Hip thrust 90 kg x 8 by week 3",)
    ),
    lines.PREP: Note(
        "The prep drills of a day, for those days that you want to set yourself, each day in a cell of its own; the "
        "others get a prep by what they load. The drills are on the sheet of exercise names. It may be left out.",
        ("Push: Open book, Wall slide", "Push: none"),
    ),
}
"""Notes on the lines of the block."""

COLUMNS = {
    table.DAY: Note("Which session day the row belongs to, as named on the first sheet."),
    table.ORDER: Note(
        "Place in the session. The same letter with numbers is a superset or a circuit.", ("A", "B1", "B2")
    ),
    table.EXERCISE: Note(
        "Choose from the list, or type the name; other usual names are known too. "
        "All are on the sheet of exercise names.",
        ("Hip thrust", "Bench press"),
    ),
    table.WEEKS: Note(
        "Weeks in which the row holds; empty for all. Write the exercise again in another row for other weeks.",
        ("1-3", "4", "1, 3, 5"),
    ),
    table.SETS: Note(
        "Working sets, straight unless you say otherwise. Descending: sets at the load + steps down from it.",
        (
            "3",
            "4 ascending",
            "1 + 2 descending",
            "2 + 2 descending, 20 %",
            "3 rest-pause, 15 s",
            "4 cluster, 15 s",
        ),
    ),
    table.REPS: Note(
        "Reps, time or distance of each set. A side counts each side by itself. "
        "8 or more leaves the last set open. The parts of a cluster stand with + between them.",
        (
            "8",
            "8-10",
            "8 or more",
            "10 a side",
            "10 a side in 5s",
            "to 2 left",
            "30 s",
            "30-45 s",
            "40 m",
            "2+2+2",
        ),
    ),
    table.LOAD: Note(
        "Of the working sets; empty for none. bw is bodyweight, find means that the load is found in the session, "
        "estimate is the maximum that the log shows, max the heaviest single in it.",
        (
            "80 kg",
            "62,5 kg",
            "135 lb",
            "16 kg a hand",
            "bw",
            "bw+5 kg",
            "bw-20 kg",
            "75 % of estimate",
            "75 % of max",
            "+2,5 kg from last time",
            "light band",
            "find",
        ),
    ),
    table.LEFT: Note(
        "How many more reps are to be left at the end of a set, or the RPE, with its letters.",
        ("2", "1-2", "RPE 8", "RPE 7-8"),
    ),
    table.REST: Note("Rest between sets.", ("90 s", "2 min", "2:30")),
    table.TEMPO: Note(
        "Seconds, slow lowering first: down, pause, up, pause. X is as fast as can be.", ("3110", "30X1")
    ),
    table.WAY: Note(
        "How it gets harder from session to session. Empty for the usual: a range goes by reps first, "
        "fixed reps go up when all were done twice. A path names exercises from easier to harder.",
        (*(words for kind, words in WORDS.items() if kind is not WayKind.VARIANTS), PATH),
    ),
    table.CUE: Note("One short sentence to the client, at most 200 characters.", ("Ribs down at the top.",)),
    table.INSTEAD: Note(
        "Exercises that may stand in for it, best first, with ; between them.",
        ("Dumbbell bench press; Push-up",),
    ),
    table.LINK: Note("Address of a film of the exercise.", ("https://clips.example/hip-thrust",)),
}
"""Notes on the headings of the table."""

STEPS = (
    "Two sheets are read: Block, with a line for each thing, and Sessions, with a row for each exercise of each day.",
    "Write over the examples: first Block, then Sessions. Delete the example rows that you do not need.",
    (
        "Columns may stand in any order, and those that you do not need may be deleted. "
        "Needed are Day, Order, Exercise, Sets and Reps."
    ),
    (
        "Send the file to the bot. It names everything that it cannot read, with the sheet, the row and the column, "
        "and keeps nothing until all is readable. Mend it and send it again."
    ),
    (
        "When it has taken the block, /assign gives it to a client. Send the file again when you have changed it: "
        "who runs an earlier version stays on that."
    ),
    (
        "A csv has one sheet alone: put the lines of Block on top, leave a row empty, and put the table below. "
        "An xlsx may be laid out so too."
    ),
)
"""How to fill it in."""

EXAMPLE_LINES: tuple[tuple[str, ...], ...] = (
    (lines.NAME, "Harbour strength"),
    (lines.WEEKS, "4"),
    (lines.FIRST_DAY, "Monday"),
    (lines.DAYS, "Lower A", "Push", "Lower B", "Pull"),
    (lines.UNIT, "kg"),
    (lines.PHASES, "Base: 1-3; Easier: 4"),
    (lines.DELOADS,),
    (lines.TESTS,),
    (lines.TARGETS, "Hip thrust 90 kg x 8 by week 3"),
    (lines.PREP,),
)
"""The example's lines."""

EXAMPLE_ROWS: tuple[tuple[str, ...], ...] = (
    (
        "Lower A",
        "A",
        "Hip thrust",
        "1-3",
        "4",
        "8-10",
        "80 kg",
        "2",
        "3 min",
        "2110",
        "add reps, then load",
        "Ribs down at the top.",
        "Glute bridge",
    ),
    (
        "Lower A",
        "A",
        "Hip thrust",
        "4",
        "3",
        "8",
        "70 kg",
        "3",
        "3 min",
        "2110",
        "as written",
        "An easier week.",
    ),
    ("Lower A", "B1", "Step-down", "", "3", "10 a side", "bw", "2", "30 s", "3010", "", "Hand on the rail."),
    ("Lower A", "B2", "Leg curl", "", "3", "10-12", "find", "2", "90 s"),
    ("Lower A", "C", "Back extension", "", "3", "12", "bw+10 kg", "2", "90 s"),
    (
        "Push",
        "A",
        "Bench press",
        "1-3",
        "4",
        "6-8",
        "60 kg",
        "RPE 8",
        "3 min",
        "",
        "",
        "",
        "Dumbbell bench press; Push-up",
    ),
    ("Push", "A", "Bench press", "4", "3", "6-8", "55 kg", "RPE 7", "3 min", "", "as written"),
    ("Push", "B1", "Dumbbell overhead press", "", "3", "8-10", "14 kg a hand", "2", "60 s"),
    ("Push", "B2", "Lateral raise", "", "1 + 2 descending", "12-15", "6 kg", "2", "90 s"),
    ("Push", "C", "Push-up", "", "2", "to 2 left", "bw", "", "90 s"),
    ("Push", "D", "Plank", "", "3", "30-45 s", "", "", "60 s"),
    (
        "Lower B",
        "A",
        "Back squat",
        "1-3",
        "4",
        "6",
        "70 kg",
        "2",
        "3 min",
        "30X1",
        "load each week",
        "",
        "Goblet squat; Leg press",
    ),
    ("Lower B", "A", "Back squat", "4", "3", "6", "65 kg", "3", "3 min", "30X1", "as written"),
    ("Lower B", "B", "Split squat", "", "3", "8-10 a side", "12 kg", "1-2", "90 s"),
    ("Lower B", "C", "Suitcase carry", "", "3", "30 s a side", "24 kg", "", "60 s"),
    (
        "Pull",
        "A",
        "Barbell row",
        "1-3",
        "4",
        "8",
        "50 kg",
        "2",
        "2:30",
        "",
        "",
        "",
        "One-arm row; Seated cable row",
    ),
    ("Pull", "A", "Barbell row", "4", "3", "8", "45 kg", "3", "2:30", "", "as written"),
    (
        "Pull",
        "B",
        "Pull-up",
        "",
        "4",
        "4-6",
        "bw-20 kg",
        "2",
        "2 min",
        "",
        "",
        "From a full hang.",
        "Pulldown",
    ),
    ("Pull", "C", "Curl", "", "3", "10 or more", "8 kg", "2", "60 s", "", "by the last set"),
)
"""The example's rows, each in the order of `COLUMNS`."""
