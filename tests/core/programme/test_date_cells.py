from datetime import date

import pytest
from rows import each_row

from core.programme.date_cells import date_in, month_named
from core.programme.problems import Code
from core.programme.sheets import Cell, CellKind, UnreadError


def cell(text: str, kind: CellKind = CellKind.TEXT, written: str | None = None) -> Cell:
    return Cell(2, 5, kind, text, written=written)


READ = [
    ("2026-04-14", date(2026, 4, 14)),
    ("2026/4/14", date(2026, 4, 14)),
    ("2026-04-14 00:00:00", date(2026, 4, 14)),
    ("14 April 2026", date(2026, 4, 14)),
    ("14. April 2026", date(2026, 4, 14)),
    ("14th April 2026", date(2026, 4, 14)),
    ("14-Apr-26", date(2026, 4, 14)),
    ("April 14, 2026", date(2026, 4, 14)),
    ("Sept 3rd, 2026", date(2026, 9, 3)),
    ("3 März 2026", date(2026, 3, 3)),
    # With points the day comes first: from memory, in every country that writes them.
    ("3.4.2026", date(2026, 4, 3)),
    ("3. 4. 2026", date(2026, 4, 3)),
    ("03.04.26", date(2026, 4, 3)),
    # With strokes only where one of the two numbers can be no month, or both are one.
    ("14/4/2026", date(2026, 4, 14)),
    ("4/14/2026", date(2026, 4, 14)),
    ("4-14-26", date(2026, 4, 14)),
    ("5/5/2026", date(2026, 5, 5)),
]


@each_row(("text", "on"), READ)
def test_a_date_is_read_as_people_write_it(text: str, on: date) -> None:
    assert date_in(cell(text)) == on


def test_a_spreadsheets_own_date_is_taken_as_it_is() -> None:
    assert date_in(cell("2026-04-03", CellKind.DATE)) == date(2026, 4, 3)


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [("3/4/2026", "2026-04-03", "2026-03-04"), ("03-04-26", "2026-04-03", "2026-03-04")],
)
def test_a_date_that_may_be_two_is_a_problem_with_both(text: str, first: str, second: str) -> None:
    with pytest.raises(UnreadError) as caught:
        date_in(cell(text))

    assert caught.value.code is Code.DATE_AMBIGUOUS
    assert caught.value.facts == {"written": text, "first": first, "second": second}


def test_of_a_date_in_a_text_file_the_text_counts_and_not_the_date_that_was_made_of_it() -> None:
    with pytest.raises(UnreadError) as caught:
        date_in(cell("2026-04-03", CellKind.DATE, written="3/4/2026"))

    assert caught.value.code is Code.DATE_AMBIGUOUS
    assert date_in(cell("2026-04-03", CellKind.DATE, written="3.4.2026")) == date(2026, 4, 3)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "yesterday",
        "14 April",
        "Apr-26",
        "46115",
        "31.2.2026",
        "30/30/2026",
        "14 Foo 2026",
        "Foo 14, 2026",
        "0/0/2026",
        "2026-13-01",
    ],
)
def test_what_is_no_date_with_its_year_is_a_problem(text: str) -> None:
    with pytest.raises(UnreadError) as caught:
        date_in(cell(text))

    assert caught.value.code is Code.DATE_UNREADABLE


def test_a_day_without_a_year_that_became_a_date_is_no_date() -> None:
    with pytest.raises(UnreadError) as caught:
        date_in(cell("2000-08-10", CellKind.DATE, written="10-Aug"))

    assert caught.value.facts == {"written": "10-Aug"}


@pytest.mark.parametrize(
    ("kind", "code"),
    [
        (CellKind.FORMULA, Code.FORMULA),
        (CellKind.ERROR, Code.CELL_ERROR),
        (CellKind.TIME, Code.DATE_UNREADABLE),
        (CellKind.NUMBER, Code.DATE_UNREADABLE),
    ],
)
def test_a_formula_an_error_a_time_and_a_number_are_no_dates(kind: CellKind, code: Code) -> None:
    with pytest.raises(UnreadError) as caught:
        date_in(cell("12", kind))

    assert caught.value.code is code


def test_months_are_known_by_how_their_names_begin() -> None:
    assert [month_named(word) for word in ("août", "MÄRZ", "Dezember", "xyz")] == [8, 3, 12, None]
