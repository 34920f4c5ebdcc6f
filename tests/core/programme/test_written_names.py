import pytest
from rows import each_row

from core.programme.block_sheet import LINES
from core.programme.session_sheet import HEADINGS
from core.programme.tabs import TABS
from core.programme.written_names import WrittenNames

SAME = [
    (HEADINGS, "Exercise", ["exercise", " EXERCISES ", "Movement", "Lift", "Exercise name", "Exercise:"]),
    (HEADINGS, "Reps", ["repetitions", "Rep", "Reps per set"]),
    (HEADINGS, "Load", ["Weight", "WEIGHTS"]),
    (HEADINGS, "Reps left", ["RIR", "R.I.R.", "in reserve", "RPE", "reps-left", "Reps in reserve"]),
    (HEADINGS, "Order", ["#", "No.", "Nr"]),
    (HEADINGS, "Weeks", ["Week", "Week(s)", "wk"]),
    (HEADINGS, "Cue", ["Notes", "Coaching cue"]),
    (HEADINGS, "Instead", ["Alternatives", "Swap", "Alternative(s)"]),
    (HEADINGS, "Link", ["Video", "clip"]),
    (HEADINGS, "Day", ["Session", "days"]),
    (LINES, "Name", ["Block", "name:", "Programme"]),
    (LINES, "First day of the week", ["Week starts on", "first day"]),
    (LINES, "Session days", ["Days", "SESSION DAYS"]),
    (TABS, "Sessions", ["session", "Training", "Workouts"]),
    (TABS, "Block", ["block ", "Training block"]),
]


@each_row(
    ("names", "ours", "written"), [(names, ours, word) for names, ours, words in SAME for word in words]
)
def test_a_name_is_known_by_the_trades_other_words(names: WrittenNames, ours: str, written: str) -> None:
    assert names.named(written) == ours


NEAR = [
    (HEADINGS, "Excercise", "Exercise"),
    (HEADINGS, "Load (kg)", "Load"),
    (HEADINGS, "Temp", "Tempo"),
    (LINES, "Wekks", "Weeks"),
    (TABS, "Sesions", "Sessions"),
    (HEADINGS, "Mood", ""),
]


@pytest.mark.parametrize(("names", "written", "suggested"), NEAR)
def test_what_is_only_near_is_suggested_and_never_taken(
    names: WrittenNames, written: str, suggested: str
) -> None:
    assert (names.named(written), names.near(written)) == (None, suggested)


def test_one_word_never_stands_for_two_names() -> None:
    with pytest.raises(ValueError, match="'Weight' stands for 'Load' and for 'Mass'"):
        WrittenNames(("Load", "Mass"), {"Load": ("Weights",), "Mass": ("Weight",)})
