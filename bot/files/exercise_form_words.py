"""What the form of a coach's own exercises says: a note for each heading, an example, how to fill it in. Data alone."""

from bot.files.template_words import Note
from core.programme import exercise_sheet as table

COLUMNS = {
    table.NAME: Note("What you call it: at most 40 characters. A name of mine cannot be used again."),
    table.ALSO: Note(
        "Other names that you or a client may write, with ; between them.", ("Heel-up goblet; Wedge squat",)
    ),
    table.PATTERN: Note("The movement. What is known of it goes for yours too: joints, back, limits."),
    table.COUNTED: Note(
        "How its load is written: total, per hand, a side (plates of one side), stack (the number on a machine), "
        "or bodyweight (what is added to it, or taken off). It cannot be changed later."
    ),
    table.IMPLEMENT: Note("What is lifted.", ("dumbbell", "machine stack", "bodyweight")),
    table.EACH_SIDE: Note("Whether sets are done a side at a time. Empty for no.", ("yes", "no")),
    table.TIMED: Note("Whether a set is counted in seconds. Empty for no.", ("yes", "no")),
    table.MAIN: Note("Whether it carries a block: then it gets warm-up sets. Empty for no.", ("yes", "no")),
    table.MUSCLES: Note("Muscles that a set counts for as one. Empty: it counts for none.", ("quads",)),
    table.HELPING: Note("Muscles that a set counts for as a half.", ("glutes, adductors",)),
    table.SITES: Note(
        "What it loads beside what is usual for the pattern: that is always added. Pain there eases or stops it.",
        ("ankle", "knee, low back"),
    ),
    table.SAFETIES: Note(
        "Whether failing under it alone is dangerous. Empty for what is usual for the pattern.", ("yes", "no")
    ),
    table.NEEDS: Note("What it needs beside what is lifted.", ("bench", "rack, incline bench")),
    table.EQUALS: Note(
        "Exercises that serve as well, nearest first, with ; between them. They are offered for a swap.",
        ("Goblet squat; Leg press",),
    ),
    table.STEP: Note("Usual step up, counted as the load is.", ("2 kg", "5 lb")),
    table.CUE: Note("One short sentence to the client, at most 200 characters.", ("Knees go forward.",)),
    table.CLIP: Note("Address of a film of it.", ("https://clips.example/wedge-squat",)),
}
"""Notes on the headings."""

EXAMPLE = {
    table.NAME: "Example: Heel-raised goblet squat",
    table.ALSO: "Wedge squat",
    table.PATTERN: "squat",
    table.COUNTED: "total",
    table.IMPLEMENT: "dumbbell",
    table.EACH_SIDE: "no",
    table.TIMED: "no",
    table.MUSCLES: "quads",
    table.HELPING: "glutes, adductors",
    table.SITES: "knee",
    table.EQUALS: "Goblet squat; Leg press",
    table.STEP: "2 kg",
    table.CUE: "Heels on the wedge, knees go forward.",
}
"""The row that only shows how it is done."""

STEPS = (
    "One sheet is read: My exercises, with a row for each exercise. A row that begins with Example is not read.",
    "Needed are Exercise, Pattern, Load counted and Lifted with. Leave empty what you do not need.",
    (
        "Send the file to the bot. It names everything that it cannot read, with the row and the column, "
        "and keeps nothing until all is readable. Mend it and send it again."
    ),
    (
        "The same name again changes your exercise from then on. What was decided before stays as it was, "
        "and so does how its load is counted."
    ),
    "The sheet may also stand beside Block and Sessions in one file: the block may then use what is on it.",
)
"""How to fill it in."""
