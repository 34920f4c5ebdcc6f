"""The form for last loads: what it offers, and that it is read back as it is filled in."""

from datetime import datetime
from io import BytesIO

import pytest
from openpyxl import load_workbook

from bot.files.last_loads_form import HEADINGS, last_loads_form
from bot.files.sent_file import read_sent
from core.programme.catalogue import CATALOGUE
from core.programme.last_loads import COLUMNS, LastLoadsFile

PEOPLE = ["Ada", "Ben =) Ø", "=Cleo"]
FORM = last_loads_form(PEOPLE, CATALOGUE)


def filled(*rows: tuple[object, ...]) -> LastLoadsFile:
    book = load_workbook(BytesIO(FORM))
    for row in rows:
        book["Last loads"].append(list(row))
    stream = BytesIO()
    book.save(stream)
    found = read_sent(stream.getvalue(), "last-loads.xlsx", CATALOGUE)
    assert isinstance(found, LastLoadsFile)
    return found


def test_it_is_the_same_file_every_time() -> None:
    assert last_loads_form(PEOPLE, CATALOGUE) == FORM


def test_every_column_has_a_note_and_is_explained_on_a_sheet_of_its_own() -> None:
    book = load_workbook(BytesIO(FORM))
    head = book["Last loads"][1]

    assert tuple(cell.value for cell in head) == COLUMNS == tuple(HEADINGS)
    assert all(cell.comment is not None for cell in head)
    told = [row[0].value for row in book["How to fill this in"].iter_rows()]
    assert [heading for heading in COLUMNS if heading not in told] == []


def test_clients_and_exercises_can_be_chosen_and_others_typed() -> None:
    book = load_workbook(BytesIO(FORM))
    lists = book["Last loads"].data_validations.dataValidation
    offered = {str(one.sqref)[:1]: one.formula1 for one in lists}
    exercises = [row[0].value for row in book["Exercise names"].iter_rows(min_row=2)]

    assert [row[0].value for row in book["Client names"].iter_rows(min_row=2)] == PEOPLE
    assert offered == {
        "A": "'Client names'!$A$2:$A$4",
        "B": f"'Exercise names'!$A$2:$A${len(exercises) + 1}",
        "F": '"kg,lb"',
    }
    assert not any(one.showErrorMessage for one in lists)
    assert {"Hip thrust", "Pull-up"} <= set(exercises)
    assert not {"Plank", "Band pull-apart"} & set(exercises)


def test_an_empty_form_says_that_it_has_no_rows() -> None:
    assert [one.code for one in filled().problems] == ["last_no_rows"]


def test_what_is_filled_in_is_read_a_spreadsheets_own_dates_too() -> None:
    found = filled(
        ("Ada", "Hip thrust", "90 kg", 8, datetime(2026, 3, 27)),  # noqa: DTZ001 - as a spreadsheet has it
        ("Ben =) Ø", "Pull-up", "bw+5 kg", "6", "27 March 2026"),
        ("Ada", "Deadlift", 100, 5, "2026-03-27", "kg"),
    )

    assert found.problems == ()
    assert [
        (row.client, str(row.load.load), row.load.reps, row.load.on.isoformat())
        for row in found.rows
        if row.load
    ] == [
        ("Ada", "90 kg", 8, "2026-03-27"),
        ("Ben =) Ø", "bw+5 kg", 6, "2026-03-27"),
        ("Ada", "100 kg", 5, "2026-03-27"),
    ]


def test_a_form_for_nobody_yet_can_be_made() -> None:
    assert load_workbook(BytesIO(last_loads_form([], CATALOGUE))).sheetnames[0] == "Last loads"


@pytest.mark.parametrize(
    ("separator", "encoding"), [(",", "utf-8"), (";", "utf-8-sig"), (";", "cp1252"), ("\t", "utf-16")]
)
def test_any_csv_with_the_columns_will_do(separator: str, encoding: str) -> None:
    rows = (
        ("Who", "Lift", "Weight", "Reps", "When"),
        ("Åsa", "Hip thrust", '"62,5 kg"' if separator == "," else "62,5 kg", "8", "27.3.2026"),
    )
    content = "\r\n".join(separator.join(row) for row in rows).encode(encoding)

    found = read_sent(content, "loads.csv", CATALOGUE)

    assert isinstance(found, LastLoadsFile)
    assert [(row.client, str(row.load.load) if row.load else None) for row in found.rows] == [
        ("Åsa", "62.5 kg")
    ]
    assert found.problems == ()


def test_a_date_of_a_csv_that_may_be_two_is_not_guessed() -> None:
    content = b"Client,Exercise,Load,Reps,Date\nAda,Hip thrust,90 kg,8,3/4/2026"

    found = read_sent(content, "loads.csv", CATALOGUE)

    assert isinstance(found, LastLoadsFile)
    assert [(one.code, one.facts) for one in found.problems] == [
        ("date_ambiguous", {"written": "3/4/2026", "first": "2026-04-03", "second": "2026-03-04"})
    ]
