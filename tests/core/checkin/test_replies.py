import json

import pytest
from rows import each_row

from core.checkin.reading import AskWhy, BodyRead, Context, Effort, Reading, SetRead
from core.checkin.reading_json import as_json
from core.checkin.replies import read_reply
from core.checkin.sites import SITE_WORDS
from core.programme.exercises import Side, Site
from core.programme.prescription import Load
from core.units import Unit
from tests.core.checkin.reply_contexts import CONTEXTS, STEP_DOWN, THRUST, in_short, reps


def test_a_whole_reading_is_these_values() -> None:
    assert read_reply("92,5kg 8 7@9, left knee hurts 3", CONTEXTS["hip"]) == Reading(
        understood=True,
        sets=(
            SetRead(load="92.5", unit=Unit.KG, reps=8),
            SetRead(load="92.5", unit=Unit.KG, reps=7),
        ),
        effort=Effort(rpe="9"),
        pain=(BodyRead(site=Site.KNEE, side=Side.LEFT, score=3),),
    )


def test_a_stop_sign_is_all_that_is_read() -> None:
    assert read_reply("8 8 8, chest pain", CONTEXTS["hip"]) == Reading(
        understood=True, note="8 8 8, chest pain", stop_sign=True
    )


ANSWERS: list[tuple[str, str, str]] = [
    ("reps left", "2", "rir 2"),
    ("reps left", "4+", "rir 4"),
    ("reps left", "about 3 left", "rir 3"),
    ("reps left", "2 reps in the tank", "rir 2"),
    ("reps left", "none", "rir 0"),
    ("reps left", "two", "rir 2"),
    ("reps left", "2-3", "ASK two readings: rir 2 | rir 3"),
    ("reps left", "two or three", "ASK two readings: rir 2 | rir 3"),
    ("reps left", "2 to 30", "NOT UNDERSTOOD; +note"),
    ("reps left", "maybe 2", "rir 2"),
    ("reps left", "2 😅", "rir 2"),
    ("reps left", "rpe 8", "rpe 8"),
    ("reps left", "done", "as_written"),
    ("reps left", "knee 3", "pain knee 3"),
    ("reps left", "80 8 8 7", "80kg 8 8 7"),
    ("reps left", "a lot", "NOT UNDERSTOOD; +note"),
    ("reps left", "11", "ASK number of sets: 92.5kg 11 11 11 11 11 | 92.5kg 11"),
    ("reps left", "8 8 8", "92.5kg 8 8 8"),
    ("reps left", "8,8,8", "92.5kg 8 8 8"),
    ("pain score", "4", "pain ? 4"),
    ("pain score", "4/10", "pain ? 4"),
    ("pain score", "0", "pain ? 0"),
    ("pain score", "none", "pain ? 0"),
    ("pain score", "3-4", "pain ? 4"),
    ("pain score", "3 or 4", "pain ? 4"),
    ("pain score", "about a 3", "pain ? 3"),
    ("pain score", "it's a 4 now", "pain ? 4"),
    ("pain score", "3 out of 10", "pain ? 3"),
    ("pain score", "seven", "pain ? 7"),
    ("pain score", "8 8 7", "92.5kg 8 8 7"),
    ("pain score", "2 left", "rir 2"),
    ("pain score", "4/5", "ASK side: 92.5kg L4 R5 | 92.5kg 4"),
    ("pain score", "14", "ASK number of sets: 92.5kg 14 14 14 14 14 | 92.5kg 14"),
    ("pain score", "left knee hurts 5", "pain knee L 5"),
    ("load", "95", "95kg"),
    ("load", "95 kg", "95kg"),
    ("load", "205 lb", "205lb"),
    ("load", "ninety five", "95kg"),
    ("load", "92½", "92.5kg"),
    ("load", "9.5", "ASK far off: 95kg | 9.5kg"),
    ("load", "done", "as_written"),
    ("load", "950", "ASK far off: 95kg"),
    ("load", "500", "ASK far off: 50kg | 500kg"),
    ("load", "99999", "ASK far off: 92.5kg 9 9 9 9 9"),
    ("load", "95 8 8", "95kg 8 8"),
    ("load", "8,8,8", "92.5kg 8 8 8"),
    ("bodyweight", "82,5", "82.5kg"),
    ("bodyweight", "180 lb", "180lb"),
    ("bodyweight", "eighty two point five", "82.5kg"),
    ("bodyweight", "80 8 8 7", "80kg 8 8 7"),
    ("bodyweight", "300", "ASK unit: 300lb"),
    ("bodyweight", "7", "ASK number of sets: 92.5kg 7 7 7 7 7 | 92.5kg 7"),
    ("bodyweight", "no idea", "NOT UNDERSTOOD; +note"),
    ("something else", "8 8 8", "92.5kg 8 8 8"),
    ("something else", "5", "ASK number of sets: 92.5kg 5 5 5 5 5 | 92.5kg 5"),
]


@each_row(("question", "text", "expected"), ANSWERS)
def test_a_bare_number_is_read_by_the_question_it_answers(question: str, text: str, expected: str) -> None:
    context = CONTEXTS["hip"].model_copy(update={"open_question": question})

    assert in_short(read_reply(text, context)) == expected


def test_last_loads_widen_what_is_plausible() -> None:
    before = CONTEXTS["hip"].model_copy(update={"last_loads": ("110", "bw+5", "nan", "", "-4", "heavy")})

    assert in_short(read_reply("130 8 8", before)) == "130kg 8 8"


def test_a_load_far_over_the_plan_is_asked_about_without_such_a_history() -> None:
    assert in_short(read_reply("130 8 8", CONTEXTS["hip"])) == "ASK far off: 130kg 8 8"


def test_added_loads_of_the_past_count_on_bodyweight_lifts() -> None:
    before = CONTEXTS["pull"].model_copy(update={"last_loads": ("bw+20",)})

    assert in_short(read_reply("bw+25 6 6", before)) == "bw+25kg 6 6"


def test_many_reps_done_before_are_plausible() -> None:
    before = CONTEXTS["hip80"].model_copy(update={"best_reps": 30})

    assert in_short(read_reply("80kg 32 30", before)) == "80kg 32 30"


BASES: list[tuple[str, str, str]] = [
    ("step", "32kg total 10 10 10", "ASK two readings: 16kg 10 10 10 | 32kg 10 10 10"),
    ("step", "16kg a hand 10 10 10", "16kg 10 10 10"),
    ("hip10", "5kg a hand 10 10 10", "ASK two readings: 10kg 10 10 10 | 5kg 10 10 10"),
    ("hip80", "80kg total 8 8 8", "80kg 8 8 8"),
    ("step", "16kg a side 10 10", "16kg 10 10"),
    ("pull10", "10kg a side 6 6", "ASK two readings: bw+10kg 6 6"),
    ("hip80", "8/8 total", "NOT UNDERSTOOD; +note"),
]


@pytest.mark.parametrize(("context", "text", "expected"), BASES)
def test_a_load_counted_otherwise_than_the_exercise_is_asked_about(
    context: str, text: str, expected: str
) -> None:
    assert in_short(read_reply(text, CONTEXTS[context])) == expected


def test_without_an_exercise_a_load_keeps_its_basis_unasked() -> None:
    assert in_short(read_reply("16kg a hand 10 10", Context())) == "16kg 10 10"


def test_sides_of_a_dose_count_where_the_exercise_has_none() -> None:
    dose = CONTEXTS["hip80"].dose
    assert dose is not None
    sided = CONTEXTS["hip80"].model_copy(update={"dose": dose.model_copy(update={"each_side": True})})

    assert in_short(read_reply("8/7", sided)) == "80kg L8 R7"


def test_the_name_of_the_exercise_may_come_first() -> None:
    assert in_short(read_reply("Step-down: 16 10 10 10", CONTEXTS["step"])) == "16kg 10 10 10"


def test_a_planned_load_in_the_other_unit_is_kept_as_planned() -> None:
    assert in_short(read_reply("8 8 8", reps(THRUST, 3, 8, Load.of("135", "lb")))) == "135lb 8 8 8"


def test_a_line_without_a_plan_has_no_load_of_its_own() -> None:
    assert in_short(read_reply("10 10", Context(exercise=STEP_DOWN))) == "- 10 10"


@each_row("word", sorted(SITE_WORDS))
def test_every_word_for_a_site_is_heard_in_a_line_of_pain(word: str) -> None:
    reading = read_reply(f"{word} hurts 4", Context())

    if word == "chest":
        assert reading.stop_sign
    else:
        heard = [each.site for one in (reading, *reading.ask) for each in one.pain]
        assert set(SITE_WORDS[word].sites) <= set(heard)


@each_row("joint", ["knee", "shoulder", "neck", "low back", "hip", "groin", "elbow", "ankle", "wrist"])
@each_row("word", ["sore", "tight", "stiff"])
def test_a_sore_joint_is_pain(joint: str, word: str) -> None:
    reading = read_reply(f"{word} {joint} 3", CONTEXTS["hip"])

    assert (len(reading.pain), reading.soreness) == (1, ())


@each_row("muscle", ["quads", "hamstrings", "calves", "glutes", "biceps", "lats", "pecs", "abs"])
@each_row("word", ["sore", "tight", "doms"])
def test_a_sore_muscle_is_soreness(muscle: str, word: str) -> None:
    reading = read_reply(f"{word} {muscle} 3", CONTEXTS["hip"])

    assert (reading.pain, len(reading.soreness)) == ((), 1)


def test_json_is_what_the_command_prints() -> None:
    printed = json.dumps(as_json(read_reply("92,5 8 8", CONTEXTS["hip"])))

    one = '{"load": "92.5", "unit": "kg", "reps": 8, "side": null, "seconds": null, "rir": null, "rpe": null}'
    assert printed == (
        f'{{"understood": true, "sets": [{one}, {one}], "as_written": false, "skip": false, "undo": false, '
        '"effort": {}, "pain": [], "soreness": [], "note": null, "ask": null, "stop_sign": false}'
    )


def test_json_of_effort_and_body_are_numbers_and_places() -> None:
    printed = as_json(read_reply("8@8.5 8@9, pain left knee 4, sore quads", CONTEXTS["hip"]))
    sets = printed["sets"]

    assert isinstance(sets, list)
    assert [each["rpe"] for each in sets] == [8.5, 9]
    assert printed["pain"] == [{"site": "knee", "side": "L", "score": 4}]
    assert printed["soreness"] == [{"site": "thigh", "side": None, "score": None}]


@pytest.mark.parametrize(
    ("text", "effort"),
    [("rir 2", {"rir": 2}), ("rpe 8", {"rpe": 8}), ("rpe 8.5", {"rpe": 8.5}), ("done", {})],
)
def test_json_of_effort_said_once(text: str, effort: dict[str, object]) -> None:
    assert as_json(read_reply(text, CONTEXTS["hip"]))["effort"] == effort


def test_json_of_a_question_holds_the_readings_without_their_own_question() -> None:
    asked = as_json(read_reply("135 8 8 8", CONTEXTS["hip60"]))["ask"]

    assert isinstance(asked, list)
    assert [each["sets"][0]["unit"] for each in asked] == ["lb", "kg"]
    assert [list(each)[-1] for each in asked] == ["note", "note"]


def test_what_is_sure_of_the_body_is_kept_beside_a_question_about_sets() -> None:
    reading = read_reply("135 8 8 8 left knee hurts 4", CONTEXTS["hip60"])

    assert reading.ask_why == AskWhy.UNIT
    assert reading.pain == (BodyRead(site=Site.KNEE, side=Side.LEFT, score=4),)
    assert all(each.pain == reading.pain for each in reading.ask)


def test_half_a_character_is_survived() -> None:
    assert read_reply("hello \ud800", Context()) == Reading(understood=False, note="hello ?")


@pytest.mark.parametrize("text", ["", "   ", "\n\n", "\u200f", "."])
def test_nothing_is_nothing(text: str) -> None:
    reading = read_reply(text, CONTEXTS["hip"])

    assert not reading.understood
    assert reading.sets == ()


def test_where_sets_have_loads_of_their_own_none_is_put_in_that_was_not_said() -> None:
    own = CONTEXTS["hip"].model_copy(update={"loads_differ": True})

    assert [each.load for each in read_reply("10 6 7 8 9", own).sets] == [None] * 5
    assert [each.load for each in read_reply("90 8 8 8 8 8", own).sets] == ["90"] * 5
    assert [each.load for each in read_reply("10 6 7 8 9", CONTEXTS["hip"]).sets] == ["92.5"] * 5
