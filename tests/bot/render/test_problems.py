import pytest
from rows import each_row

from bot.render.problems import WORDS, facts_named, problem_line, problems_text
from core.programme.problems import FACTS, Code, Place, Problem, Severity, problem


def some(code: Code) -> Problem:
    return problem(code, Place(), **dict.fromkeys(FACTS[code], "x"))


def test_every_code_has_words_and_no_words_are_left_over() -> None:
    assert WORDS.keys() == set(Code)


@each_row("code", Code)
def test_the_facts_of_a_code_are_those_its_words_speak_of(code: Code) -> None:
    assert facts_named(code) == FACTS[code]


@each_row("code", Code)
def test_each_line_is_whole_sentences_without_a_brace(code: Code) -> None:
    line = problem_line(some(code))

    assert line.endswith((".", "?"))
    assert "{" not in line
    assert len(line) < 260


PLACES = [
    (Place(), "Nothing is written here."),
    (Place(sheet="Block"), "Block: Nothing is written here."),
    (Place(sheet="Sessions", row=7), "Sessions, row 7: Nothing is written here."),
    (
        Place(sheet="Sessions", row=7, column="Reps", cell="F7"),
        "Sessions, row 7, Reps (F7): Nothing is written here.",
    ),
]


@pytest.mark.parametrize(("place", "line"), PLACES)
def test_a_line_says_where_first(place: Place, line: str) -> None:
    assert problem_line(problem(Code.CELL_EMPTY, place)) == line


def test_reps_that_became_a_date_are_said_with_how_to_mend_them() -> None:
    place = Place(sheet="Sessions", row=7, column="Reps", cell="F7")
    found = problem(Code.BECAME_DATE, place, written="2026-10-08", type="8-10")

    assert problem_line(found) == (
        'Sessions, row 7, Reps (F7): "8-10" became a date (2026-10-08). '
        "Type '8-10 with an apostrophe in front, or format the column as text and type it again."
    )


@pytest.mark.parametrize(
    ("suggestions", "said"),
    [
        ("", '"Row row" is not in the catalogue.'),
        ("Barbell row", '"Row row" is not in the catalogue. Did you mean Barbell row?'),
        ("Barbell row; Low row", '"Row row" is not in the catalogue. Did you mean Barbell row or Low row?'),
    ],
)
def test_an_unknown_exercise_is_said_with_what_is_near(suggestions: str, said: str) -> None:
    found = problem(Code.EXERCISE_UNKNOWN, Place(), written="Row row", suggestions=suggestions)

    assert problem_line(found) == said


def test_braces_that_a_coach_typed_are_only_text() -> None:
    found = problem(Code.SETS_UNREADABLE, Place(), written="{0} {written}")

    assert problem_line(found).startswith('"{0} {written}" is not sets from 1 to 20. ')


def test_a_list_is_cut_with_the_number_left_and_warnings_come_last() -> None:
    warning = some(Code.BW_ON_LOADED)
    errors = [problem(Code.CELL_EMPTY, Place(sheet="Sessions", row=row)) for row in (2, 3)]

    assert warning.severity is Severity.WARNING
    assert problems_text([warning, *errors], limit=2) == (
        "Sessions, row 2: Nothing is written here.\nSessions, row 3: Nothing is written here.\n… and 1 more."
    )
    assert problems_text([warning, *errors]).splitlines()[2] == problem_line(warning)
    assert problems_text([]) == ""


def test_a_long_cell_is_quoted_in_part() -> None:
    found = problem(Code.SETS_UNREADABLE, Place(), written="three " * 5000)

    assert len(problem_line(found)) < 160
    assert "three three" in problem_line(found)
