import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from bot.files.block_file import read_block
from bot.files.workbook_limits import MOST_COLUMNS, MOST_ROWS
from bot.render.problems import problem_line
from core.programme.block import Block, Weekday
from core.programme.block_sheet import LINES
from core.programme.problems import Problem
from core.programme.rows import BlockFile
from core.programme.session_sheet import HEADINGS

TEXT = """\
Name,Größe der Helling
Weeks,4
First day of the week,Sun
Session days,"Push, Zug"

Day,Order,Exercise,Weeks,Sets,Reps,Load,Reps left,Rest,Tempo,Cue
Push,A,Bench press,1-3,4,8-10,"62,5 kg",2,2:30,3110,"Say ""ho"", then press."
Push,A,Bench press,4,3,8,55 kg,3,2 min
Zug,A,Barbell row,,4,8,50 kg,2,90 s
"""


def with_separator(mark: str) -> str:
    """The same cells with another mark between them."""
    quoted = (
        TEXT.replace('"Push, Zug"', "\0")
        .replace('"62,5 kg"', "\1")
        .replace('"Say ""ho"", then press."', "\2")
    )
    marked = quoted.replace(",", mark)
    return (
        marked.replace("\0", '"Push, Zug"')
        .replace("\1", "62,5 kg")
        .replace("\2", '"Say ""ho"", then press."')
    )


def block(content: bytes) -> Block:
    result = read_block(content, "block.csv")
    assert isinstance(result, BlockFile), result
    return result.block


def lines(text: str) -> list[str]:
    result = read_block(text.encode(), "block.csv")
    assert isinstance(result, list)
    return [problem_line(found) for found in result]


def test_a_csv_holds_the_lines_of_the_block_and_below_them_the_table() -> None:
    read = block(TEXT.encode())
    first = read.days[0].lines[0]

    assert (read.name, read.weeks, read.week_starts) == ("Größe der Helling", 4, Weekday.SUN)
    assert [day.name for day in read.days] == ["Push", "Zug"]
    assert (first.weeks, str(first.prescription.dose.reps)) == (frozenset({1, 2, 3}), "8-10")
    assert str(first.prescription.dose.load) == "62.5 kg"
    assert (first.prescription.rest_s, first.prescription.tempo) == (150, "3110")
    assert first.prescription.cue == 'Say "ho", then press.'


SAME = [
    ("semicolons", with_separator(";").encode()),
    ("tabs", with_separator("\t").encode()),
    ("a line that names the mark", b"sep=;\r\n" + with_separator(";").encode()),
    ("UTF-8 with its mark", TEXT.encode("utf-8-sig")),
    ("an older machine's letters", TEXT.encode("cp1252")),
    ("wide letters", TEXT.encode("utf-16")),
    ("lines as other machines end them", TEXT.replace("\n", "\r\n").encode()),
    ("empty cells to the right", TEXT.replace("\n", ",,,\n").encode()),
    ("empty lines between", TEXT.replace("Zug,A", ",,,\n\n,,\nZug,A").encode()),
    ("a title over all", b"Autumn at the slip\n\n" + TEXT.encode()),
    ("colons after labels", TEXT.replace("Name,", "Name:,").replace("Weeks,4", "Weeks:,4").encode()),
    ("days in cells of their own", TEXT.replace('"Push, Zug"', "Push,Zug").encode()),
    ("apostrophes in front of what would become a date", TEXT.replace("8-10", "'8-10").encode()),
    (
        "the header again on a later page",
        TEXT.replace("Zug,A", TEXT.splitlines()[5] + "\nZug,A").encode(),
    ),
    (
        "other words for the columns",
        TEXT.replace(
            "Day,Order,Exercise,Weeks,Sets,Reps,Load,Reps left,Rest,Tempo,Cue",
            "SESSION,#,movement,Week(s),Set,Repetitions,Weight,R.I.R.,rest,TEMPO,Coaching cue",
        ).encode(),
    ),
]


@each_row("content", [row[1] for row in SAME])
def test_the_same_block_is_read_however_it_was_saved(content: bytes) -> None:
    assert block(content) == block(TEXT.encode())


BROKEN = """\
Autumn at the slip;;
Nam;Broken on purpose
Weeks;4
First day;Someday
Session days;Push;Pull;Pull

Day;Order;Exercise;Weeks;Sets;Reps;Load;Rest;Tepmo;Weight;Mood
Push;A;Hip thurst;;#N/A;10-Aug;=5*12;2;;;
Pull;A;Push-up;1-9;3;8;bw;02:30:00;;;;later
Poll;A;Push-up;;3;8 or so;bw
"""
KNOWN = {"labels": LINES.known, "columns": HEADINGS.known}
FOUND = (
    'There is no line "Name". Write it in column A and its value in column B.',
    'Row 2 (A2): "Nam" is not known here. Known: {labels}. Did you mean Name?',
    'Row 4, First day of the week (B4): "Someday" is not a day of the week. Write Monday, for instance.',
    'Row 5, Session days (D5): The day "Pull" is there twice. Give each session day its own name.',
    'Row 7 (I7): "Tepmo" is not a column I know. Rename it or take it out. Known: {columns}. Did you mean Tempo?',
    'Row 7, Load (J7): "Weight" means the same column as "Load". Keep one.',
    'Row 7 (K7): "Mood" is not a column I know. Rename it or take it out. Known: {columns}.',
    'Row 8, Exercise (C8): "Hip thurst" is not in the catalogue. Did you mean Hip thrust?',
    "Row 8, Sets (E8): The spreadsheet shows the error #N/A here. Type the value.",
    (
        'Row 8, Reps (F8): "8-10" became a date (2000-08-10). '
        "Type '8-10 with an apostrophe in front, or format the column as text and type it again."
    ),
    "Row 8, Load (G8): =5*12 is a formula, and formulas are not run. Copy it and paste the value.",
    "Row 8, Rest (H8): 2 has no unit. Write seconds or minutes with it: 90 s, 2 min.",
    "Row 9, Weeks (D9): Outside the block, which has 4 weeks: 5-9.",
    'Row 9 (L9): "later" stands in a column without a heading. Name the column or empty it.',
    'Row 10, Day (A10): "Poll" is not one of the session days: Push, Pull.',
)
"""Where, then what, a line for each problem but the last, which names every form that can be written."""


def test_the_broken_csv_gives_this_list_of_problems() -> None:
    told = lines(BROKEN)

    assert told[:-1] == [line.format(**KNOWN) for line in FOUND]
    assert told[-1].startswith('Row 10, Reps (F10): "8 or so" cannot be read')


def test_dates_and_times_that_a_spreadsheet_made_are_told_with_the_row_as_it_numbers_it() -> None:
    text = TEXT.replace("8-10", "10-Aug").replace("2:30,", "0:02:00,")

    assert lines(text) == [
        (
            'Row 7, Reps (F7): "8-10" became a date (2000-08-10). '
            "Type '8-10 with an apostrophe in front, or format the column as text and type it again."
        ),
        (
            "Row 7, Rest (I7): The spreadsheet made the time 0:02:00 of what was typed. "
            "Format the column as text and type it again, a rest as 90 s or 2 min."
        ),
    ]


REFUSED = [
    ("a quotation mark without its other", TEXT + 'Zug,B,"Curl,,3,8\n', "quotes_unmatched", 10),
    ("too many rows", "x\n" * (MOST_ROWS + 1), "too_many_rows", None),
    ("too many columns", TEXT + "," * MOST_COLUMNS, "too_many_columns", None),
    ("one enormous cell", '"' + "x" * 200_000 + '"\n' + TEXT, "quotes_unmatched", 1),
]


@pytest.mark.parametrize(
    ("text", "code", "row"), [each[1:] for each in REFUSED], ids=[each[0] for each in REFUSED]
)
def test_a_csv_beyond_measure_is_one_problem(text: str, code: str, row: int | None) -> None:
    result = read_block(text.encode(), "block.csv")

    assert isinstance(result, list)
    assert [(found.code, found.place.row) for found in result] == [(code, row)]


@given(st.binary(max_size=300) | st.text(max_size=300).map(str.encode))
def test_any_bytes_are_read_or_are_a_problem(content: bytes) -> None:
    result = read_block(content, "block.csv")

    assert isinstance(result, BlockFile) or all(isinstance(found, Problem) for found in result)
