"""One row of `My exercises`."""

from decimal import Decimal

from rows import each_row

from core.programme import exercise_sheet as heading
from core.programme.exercises import (
    Basis,
    Exercise,
    Implement,
    Pattern,
    Region,
    Site,
    SpinalLoad,
    Station,
)
from core.programme.muscles import Muscle
from core.programme.own_exercises import (
    OwnExercisesFile,
    with_own,
)
from core.programme.pattern_defaults import typical_sites
from core.programme.problems import Code
from core.programme.siblings import sharing
from tests.core.programme.own_rows import PRESS, SQUAT, beside_ours, kept, read, wrong


def test_a_row_of_the_four_needed_cells_is_an_exercise() -> None:
    (press,) = kept(PRESS)

    assert press == Exercise(
        key="own-tall-kneeling-press",
        name="Tall-kneeling press",
        pattern=Pattern.VERTICAL_PRESS,
        region=Region.UPPER,
        basis=Basis.PER_HAND,
        implement=Implement.KETTLEBELL,
        loads_sites=typical_sites(Pattern.VERTICAL_PRESS, Implement.KETTLEBELL),
        spinal_load=SpinalLoad.SOME,
        breaks=press.breaks,
    )


def test_every_cell_is_read() -> None:
    (squat,) = kept(
        {
            **SQUAT,
            heading.ALSO: "Wedge squat; Heel-up squat, heel-raised goblet squats",
            heading.EACH_SIDE: "yes",
            heading.TIMED: "No",
            heading.MAIN: "x",
            heading.MUSCLES: "Quadriceps",
            heading.HELPING: "glutes; adductors",
            heading.SITES: "Ankle, lower back",
            heading.SAFETIES: "yes",
            heading.NEEDS: "box",
            heading.EQUALS: "Leg press; goblet squats",
            heading.STEP: "2,5 kg",
            heading.CUE: "Knees go forward.",
            heading.CLIP: "https://clips.example/wedge",
        }
    )

    assert squat.aliases == ("Wedge squat", "Heel-up squat")
    assert (squat.each_side, squat.timed, squat.main_lift, squat.needs_safeties) == (True, False, True, True)
    assert (squat.direct, squat.indirect) == ({Muscle.QUADS}, {Muscle.GLUTES, Muscle.ADDUCTORS})
    assert squat.loads_sites == typical_sites(Pattern.SQUAT, Implement.DUMBBELL) | {Site.ANKLE, Site.LOW_BACK}
    assert squat.needs == {Station.STEP}
    assert squat.equals == ("leg-press", "goblet-squat")
    assert (squat.step_kg, squat.cue) == (Decimal("2.5"), "Knees go forward.")
    assert squat.link == "https://clips.example/wedge"


def test_the_pattern_says_what_is_left_empty() -> None:
    chin, carry, bench = kept(
        {
            heading.NAME: "Towel chin",
            heading.PATTERN: "pull-up",
            heading.COUNTED: "bw",
            heading.IMPLEMENT: "body",
        },
        {
            heading.NAME: "Tray walk",
            heading.PATTERN: "carry",
            heading.COUNTED: "a hand",
            heading.IMPLEMENT: "DB",
        },
        {
            heading.NAME: "Pin press",
            heading.PATTERN: "bench press",
            heading.COUNTED: "total",
            heading.IMPLEMENT: "bar",
        },
    )

    assert chin.body_share == 1
    assert carry.by_distance
    assert not carry.timed
    assert bench.needs_safeties


@each_row("pattern", Pattern)
@each_row("implement", Implement)
def test_a_rule_about_pain_holds_for_hers_as_for_ours(pattern: Pattern, implement: Implement) -> None:
    counted = {Implement.STACK: "stack", Implement.BODYWEIGHT: "bodyweight"}.get(implement, "total")
    cells = {heading.PATTERN: pattern.value, heading.COUNTED: counted, heading.IMPLEMENT: implement.value}
    (one,) = kept({heading.NAME: "Dockside drill", **cells})

    rows = sharing(pattern)
    held = {Implement.DUMBBELL, Implement.KETTLEBELL}
    alike = [row for row in rows if row.implement in (held if implement in held else {implement})]
    for some in (rows, alike):
        assert {
            site for site in Site if 2 * sum(site in row.loads_sites for row in some) > len(some)
        } <= one.loads_sites
    order = list(SpinalLoad)
    assert order.index(one.spinal_load) >= max(order.index(row.spinal_load) for row in alike or rows)
    assert one.needs_safeties == any(row.needs_safeties for row in alike)
    assert one.region is rows[0].region


def test_a_name_that_is_there_changes_hers_and_keeps_its_key() -> None:
    before = beside_ours(SQUAT, PRESS)

    found = read({**SQUAT, heading.NAME: "heel raised GOBLET squats", heading.CUE: "Slow."}, catalogue=before)

    assert isinstance(found, OwnExercisesFile)
    (squat,) = found.exercises
    assert (squat.key, squat.name, squat.cue) == (
        "own-heel-raised-goblet-squat",
        "heel raised GOBLET squats",
        "Slow.",
    )
    assert found.changed == (squat.key,)
    assert len(with_own(found.exercises, before)) == len(before)


def test_what_counts_its_sets_cannot_change() -> None:
    before = beside_ours({**SQUAT, heading.EACH_SIDE: "yes"}, PRESS)

    assert wrong({**SQUAT, heading.TIMED: "yes"}, {**PRESS, heading.COUNTED: "total"}, catalogue=before) == [
        ("own_counted_otherwise", "A2"),
        ("own_counted_otherwise", "A3"),
    ]
    found = read({**SQUAT, heading.TIMED: "yes"}, catalogue=before)
    assert isinstance(found, list)
    assert found[0].facts == {
        "exercise": "Heel-raised goblet squat",
        "was": "total, by reps, a side at a time",
        "now": "total, by time",
    }
    band = {
        heading.NAME: "Band thing",
        heading.PATTERN: "curl",
        heading.COUNTED: "total",
        heading.IMPLEMENT: "band",
    }
    found = read({**band, heading.IMPLEMENT: "bar"}, catalogue=beside_ours(band))
    assert isinstance(found, list)
    assert found[0].facts == {"exercise": "Band thing", "was": "by band, by reps", "now": "total, by reps"}


def test_names_of_ours_stay_ours() -> None:
    assert wrong({**SQUAT, heading.NAME: "back squats", heading.ALSO: "RDL; Wedge squat"}) == [
        ("own_name_ours", "A2"),
        ("own_name_ours", "B2"),
    ]


def test_a_name_belongs_to_one_exercise() -> None:
    before = beside_ours(SQUAT)

    assert wrong({**PRESS, heading.NAME: "Wedge squat"}, catalogue=before) == [("own_name_taken", "A2")]
    assert wrong(SQUAT, {**PRESS, heading.ALSO: "heel-raised goblet squat"}, SQUAT) == [
        ("own_name_twice", "B3"),
        ("own_name_twice", "A4"),
        ("own_name_twice", "B4"),
    ]


def test_an_alias_may_move_from_one_of_hers_to_another_in_one_sheet() -> None:
    before = beside_ours(SQUAT, PRESS)

    squat, press = kept({**SQUAT, heading.ALSO: ""}, {**PRESS, heading.ALSO: "Wedge squat"}, catalogue=before)

    assert (squat.aliases, press.aliases) == ((), ("Wedge squat",))


CELLS = [
    (heading.NAME, "A, B", "own_name_unreadable"),
    (heading.NAME, "12", "own_name_unreadable"),
    (heading.NAME, "x" * 41, "text_too_long"),
    (heading.ALSO, "A: b", "own_name_unreadable"),
    (heading.PATTERN, "push", "own_word_unknown"),
    (heading.COUNTED, "kilos", "own_word_unknown"),
    (heading.COUNTED, "stack", "own_basis"),
    (heading.IMPLEMENT, "sandbag", "own_word_unknown"),
    (heading.EACH_SIDE, "maybe", "own_yes_or_no"),
    (heading.TIMED, "2", "own_yes_or_no"),
    (heading.MAIN, "often", "own_yes_or_no"),
    (heading.MUSCLES, "legs", "own_word_unknown"),
    (heading.HELPING, "heart", "own_word_unknown"),
    (heading.SITES, "back", "own_word_unknown"),
    (heading.SAFETIES, "sometimes", "own_yes_or_no"),
    (heading.NEEDS, "sofa", "own_word_unknown"),
    (heading.EQUALS, "Goblit squat", "exercise_unknown"),
    (heading.STEP, "0", "own_step"),
    (heading.STEP, "51 kg", "own_step"),
    (heading.STEP, "some", "own_step"),
    (heading.CUE, "x" * 201, "text_too_long"),
    (heading.CLIP, "clips", "link_unreadable"),
]


@each_row(("column", "text", "code"), CELLS)
def test_a_cell_that_cannot_be_read_is_a_problem_with_its_place(column: str, text: str, code: str) -> None:
    found = read({**SQUAT, column: text})

    assert isinstance(found, list)
    assert [(one.code, one.place.column, one.place.row) for one in found] == [(code, column, 2)]


def test_everything_is_told_at_once() -> None:
    first = {column: text for column, text, _ in reversed(CELLS)}

    found = wrong(
        {**first, heading.NAME: "Dock squat"}, {}, {heading.NAME: "Quay press", heading.EQUALS: "Dock squat"}
    )

    assert found == [
        *(("own_name_unreadable", "B2"), ("own_word_unknown", "C2"), ("own_word_unknown", "D2")),
        *(
            ("own_word_unknown", "E2"),
            ("own_yes_or_no", "F2"),
            ("own_yes_or_no", "G2"),
            ("own_yes_or_no", "H2"),
        ),
        *(("own_word_unknown", "I2"), ("own_word_unknown", "J2"), ("own_word_unknown", "K2")),
        *(
            ("own_yes_or_no", "L2"),
            ("own_word_unknown", "M2"),
            ("exercise_unknown", "N2"),
            ("own_step", "O2"),
        ),
        *(("text_too_long", "P2"), ("link_unreadable", "Q2")),
        *(("cell_empty", "C4"), ("cell_empty", "D4"), ("cell_empty", "E4")),
    ]


def test_a_muscle_counts_once() -> None:
    assert wrong({**SQUAT, heading.MUSCLES: "quads, glutes", heading.HELPING: "Glutes"}) == [
        ("own_muscle_twice", "J2")
    ]


def test_a_step_in_pounds_is_kept_exactly() -> None:
    assert kept({**SQUAT, heading.STEP: "5 lb"})[0].step_kg == Decimal("2.26796185")


def test_every_code_of_hers_can_come() -> None:
    codes = {code for code in Code if code.value.startswith("own_")}

    assert {code.value for code in codes} == {
        *(code for _, _, code in CELLS if code.startswith("own_")),
        *(
            "own_sheet_unread",
            "own_no_rows",
            "own_too_many",
            "own_name_ours",
            "own_name_taken",
            "own_name_twice",
        ),
        *("own_counted_otherwise", "own_muscle_twice"),
    }
