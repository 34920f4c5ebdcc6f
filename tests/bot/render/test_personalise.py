import pytest

from bot.render.personalise import (
    MOST_LINES,
    change_line,
    changes_part,
    elsewhere_part,
    instead_because,
    question,
    why_words,
)
from core.loads.personalise import Change, Elsewhere
from core.loads.substitutes import Against, Why
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Implement

NO_BAR = Why(code=Against.KIT, facts={"lacks": "barbell", "place": "home"})
NO_FLOOR = Why(code=Against.RESTRICTION, facts={"restriction": "no getting down to the floor"})
ALONE = Why(code=Against.ALONE, facts={"left": "2"})
LEVEL = Why(code=Against.LEVEL)
SQUAT = Change(exercise="back-squat", instead="goblet-squat", why=(NO_BAR,))


@pytest.mark.parametrize(
    ("change", "line"),
    [
        (SQUAT, "Back squat → goblet squat: no bar at home"),
        (
            Change(exercise="plank", instead="wall-sit", why=(NO_FLOOR, LEVEL)),
            "Plank → wall sit: no getting down to the floor",
        ),
        (Change(exercise="dip", instead="push-up", why=(LEVEL,)), "Dip → push-up: for trained people"),
        (
            Change(exercise="bench-press", instead="dumbbell-bench-press", why=(ALONE,)),
            "Bench press → dumbbell bench press: to the limit, alone without safeties; 2 left are safe",
        ),
        (Change(exercise="dip", instead="push-up", chosen=True), "Dip → push-up: as you said"),
        (
            Change(exercise="plank", instead=None, why=(NO_FLOOR,), chosen=True),
            "Plank: left out, as you said",
        ),
        (
            Change(exercise="dip", instead="dip", why=(LEVEL,), chosen=True),
            "Dip: kept as written; for trained people",
        ),
        (
            Change(exercise="bench-press", instead="bench-press", why=(ALONE, LEVEL), chosen=True),
            "Bench press: kept as written; alone, with 2 left",
        ),
    ],
)
def test_a_change_is_one_short_line(change: Change, line: str) -> None:
    assert change_line(change, CATALOGUE) == line


@pytest.mark.parametrize("implement", Implement)
def test_every_lack_has_words(implement: Implement) -> None:
    told = why_words(Why(code=Against.KIT, facts={"lacks": implement.value, "place": "gym"}))

    assert told.endswith(" at the gym")
    assert told.startswith("no")


def test_words_of_people_are_escaped() -> None:
    shed = Why(code=Against.KIT, facts={"lacks": "barbell", "place": "<shed>"})
    own = {**CATALOGUE, "back-squat": CATALOGUE["back-squat"].model_copy(update={"name": "<Squat>"})}
    told = changes_part("<Ada>", [Change(exercise="back-squat", instead="push-up", why=(shed,))], own)

    assert told == [
        "\nChanged for &lt;Ada&gt;:",
        "&lt;Squat&gt; → push-up: no bar at &lt;shed&gt;",
        "To choose otherwise, type <code>&lt;squat&gt;: leave out</code>, or an exercise after the colon.",
    ]
    assert elsewhere_part([Elsewhere(place="<shed>", exercises=("back-squat", "plank"))], own) == [
        "\nNo load for it at &lt;shed&gt;, swapped on the day: &lt;Squat&gt;, Plank."
    ]


def test_nothing_changed_says_nothing() -> None:
    assert changes_part("Ada", [], CATALOGUE) == []
    assert elsewhere_part([], CATALOGUE) == []


def test_a_long_list_ends_with_how_many_more() -> None:
    told = changes_part("Ada", [SQUAT] * (MOST_LINES + 3), CATALOGUE)

    assert len(told) == MOST_LINES + 3
    assert told[-2] == "… and 3 more."


def test_a_question_says_what_and_why_and_how_many_come_after_it() -> None:
    change = Change(exercise="plank", instead=None, why=(NO_FLOOR, LEVEL))

    assert question("Ada", change, 3, CATALOGUE) == (
        "<b>Ada</b> cannot do plank: no getting down to the floor; for trained people. Nothing near it fits. "
        "What instead? 2 more to come.\n"
        "Tap, or type the name of an exercise, or <code>leave out</code>."
    )
    assert "more to come" not in question("Ada", change, 1, CATALOGUE)


@pytest.mark.parametrize(
    ("code", "words"),
    [
        (None, "which cannot be loaded here"),
        ("kit", "which cannot be loaded here"),
        ("restriction", "which your limits rule out"),
        ("alone", "which is not for training alone"),
        ("level", "which comes later"),
        ("chosen", "as your coach chose"),
    ],
)
def test_a_client_is_told_truly_why_another_exercise_stands_in(code: str | None, words: str) -> None:
    assert instead_because(code) == words
