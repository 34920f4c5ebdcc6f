"""Own exercises written as the sheet that they are read from."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from core.programme import exercise_sheet as heading
from core.programme.catalogue import CATALOGUE
from core.programme.exercise_reading import counting
from core.programme.exercise_writing import exercise_sheet
from core.programme.exercises import (
    Basis,
    Implement,
    Pattern,
    Site,
    Station,
)
from core.programme.muscles import Muscle
from core.programme.own_exercises import (
    OwnExercisesFile,
    own_exercises_in,
    with_own,
)
from core.units import Mass, Unit
from tests.core.programme.own_rows import PRESS, SQUAT, kept, read

names = st.text(st.sampled_from("abcdef xyzäß-'é1"), min_size=1, max_size=40).map(str.strip)
rows = st.fixed_dictionaries(
    {
        heading.NAME: names,
        heading.ALSO: st.lists(names, max_size=3).map("; ".join),
        heading.PATTERN: st.sampled_from([one.value for one in Pattern]),
        heading.IMPLEMENT: st.sampled_from([one.value for one in Implement]),
        heading.COUNTED: st.sampled_from([one.value for one in Basis]),
        heading.EACH_SIDE: st.sampled_from(["", "yes", "no"]),
        heading.TIMED: st.sampled_from(["", "yes", "no"]),
        heading.MAIN: st.sampled_from(["", "yes", "no"]),
        heading.MUSCLES: st.lists(st.sampled_from([one.value for one in Muscle]), max_size=3).map(", ".join),
        heading.SITES: st.lists(st.sampled_from([one.value for one in Site]), max_size=3).map(", ".join),
        heading.SAFETIES: st.sampled_from(["", "yes", "no"]),
        heading.NEEDS: st.lists(st.sampled_from([one.value for one in Station]), max_size=2).map(", ".join),
        heading.EQUALS: st.lists(st.sampled_from([one.name for one in CATALOGUE.values()]), max_size=2).map(
            "; ".join
        ),
        heading.STEP: st.sampled_from(["", "2.5 kg", "5 lb", "0.125", "2.555 lb"]),
        heading.CUE: st.sampled_from(["", "Slow."]),
        heading.CLIP: st.sampled_from(["", "https://clips.example/a"]),
    }
)


@given(st.lists(rows, min_size=1, max_size=4))
def test_what_was_read_is_written_and_read_again_as_the_same(written: list[dict[str, str]]) -> None:
    found = read(*written)
    if not isinstance(found, OwnExercisesFile):
        return
    catalogue = with_own(found.exercises, CATALOGUE)

    again = own_exercises_in([exercise_sheet(found.exercises, catalogue)], catalogue)

    assert isinstance(again, OwnExercisesFile)
    assert again.exercises == found.exercises
    assert [counting(one) for one in again.exercises] == [counting(one) for one in found.exercises]


def test_a_sheet_that_is_written_names_no_equal_that_was_taken_out() -> None:
    squat, press = kept({**SQUAT, heading.EQUALS: "Tall-kneeling press; Leg press"}, PRESS)
    catalogue = with_own([squat, press.model_copy(update={"retired": True})], CATALOGUE)

    written = exercise_sheet([squat], catalogue, {heading.NAME: "Example: x"})

    column = heading.COLUMNS.index(heading.EQUALS) + 1
    assert written.rows[1][1].text == "Example: x"
    assert written.rows[2][column].text == "Leg press"


def test_a_step_is_written_in_kilograms_and_in_pounds_where_only_they_come_out_short() -> None:
    steps = (Decimal("2.5"), Mass.of("5", Unit.LB).kg, None)
    rows = [CATALOGUE["bench-press"].model_copy(update={"step_kg": step}) for step in steps]

    written = exercise_sheet(rows, CATALOGUE)

    cells = [{cell.text for cell in written.rows[number].values()} for number in (1, 2, 3)]
    assert [cell & {"2.5 kg", "5 lb"} for cell in cells] == [{"2.5 kg"}, {"5 lb"}, set()]
