import re

from bot.render.exercise_names import PROPER, in_sentence
from core.programme.catalogue import CATALOGUE
from core.programme.drills import DRILLS

KEPT = {
    "Romanian deadlift": "Romanian deadlift",
    "Dumbbell Romanian deadlift": "dumbbell Romanian deadlift",
    "Nordic curl": "Nordic curl",
    "Prone T raise": "prone T raise",
    "Pallof press": "Pallof press",
    "Band Pallof press": "band Pallof press",
}


def test_every_name_of_ours_keeps_its_proper_nouns_and_single_letters_and_nothing_else() -> None:
    names = [each.name for each in (*CATALOGUE.values(), *DRILLS.values())]

    assert {name: said for name in names if (said := in_sentence(name)) != name.lower()} == KEPT


def test_a_coachs_own_names_are_read_however_they_are_written() -> None:
    rows = {
        "Hip Thrust": "hip thrust",
        "BACK SQUAT": "back squat",
        "ROMANIAN DEADLIFT": "Romanian deadlift",
        "bulgarian split squat": "Bulgarian split squat",
        "EZ-bar curl": "EZ-bar curl",
        "T-Bar Row": "T-bar row",
        "Single-leg RDL": "single-leg RDL",
        "DB RDL": "DB RDL",
        "Farmer's walk": "farmer's walk",
        "Larsen's press": "Larsen's press",
        "Swiss ball curl": "Swiss ball curl",
        "Turkish get-up": "Turkish get-up",
        "Copenhagen plank": "Copenhagen plank",
        "Paused McAll shrug": "paused McAll shrug",
        "1½ Squat": "1½ squat",
        "3": "3",
    }

    assert {name: in_sentence(name) for name in rows} == rows


def test_what_stands_inside_a_sentence_already_stays() -> None:
    assert all(in_sentence(said) == said for said in (in_sentence(each.name) for each in CATALOGUE.values()))
    assert all(re.fullmatch("[a-z]+", word) for word in PROPER)
