from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.programme.count_cells import count_in
from core.programme.grammar import (
    link_in,
    order_in,
    rest_in,
    tempo_in,
    text_in,
    typed_before_date,
    weeks_in,
    whole_in,
)
from core.programme.problems import Code
from core.programme.sheets import Cell, CellKind, UnreadError

TEXT, NUMBER, DATE, TIME = CellKind.TEXT, CellKind.NUMBER, CellKind.DATE, CellKind.TIME


def cell(text: str, kind: CellKind = TEXT, link: str | None = None) -> Cell:
    return Cell(2, 6, kind, text, link)


def code_of(reader: Callable[[Cell], object], written: Cell) -> str:
    with pytest.raises(UnreadError) as caught:
        reader(written)
    return caught.value.code.value


def code_or_none(reader: Callable[[Cell], object], written: Cell) -> Code | None:
    try:
        reader(written)
    except UnreadError as unread:
        return unread.code
    return None


COUNTS = [
    ("8", 8, 8, False, False),
    ("8 reps", 8, 8, False, False),
    ("8-10", 8, 10, False, False),
    ("8–10", 8, 10, False, False),
    ("8 to 10", 8, 10, False, False),
    ("30 s", 30, 30, True, False),
    ("30s", 30, 30, True, False),
    ("30-45 sec", 30, 45, True, False),
    ("1 min", 60, 60, True, False),
    ("10 a side", 10, 10, False, True),
    ("10 each side", 10, 10, False, True),
    ("8-10 per leg", 8, 10, False, True),
    ("10/side", 10, 10, False, True),
    ("30 s a side", 30, 30, True, True),
    ("20 - 30 Seconds Each Side", 20, 30, True, True),
]


@each_row(("text", "low", "high", "timed", "each_side"), COUNTS)
def test_reps_and_time_are_read(text: str, low: int, high: int, timed: bool, each_side: bool) -> None:
    count = count_in(cell(text))

    assert (count.span.low, count.span.high, count.timed, count.each_side) == (low, high, timed, each_side)


def test_a_number_is_reps() -> None:
    assert count_in(cell("8", NUMBER)).span.low == 8


@pytest.mark.parametrize(
    "text", ["8 or so", "-8", "0", "1001", "5x8", "8,10", "8.5", "amrap", "30 ss", "20 min"]
)
def test_what_is_no_count_is_a_problem(text: str) -> None:
    assert code_of(count_in, cell(text)) == "reps_unreadable"


@pytest.mark.parametrize(("text", "mended"), [("10-8", "8-10"), ("45-30 s a side", "30-45 s a side")])
def test_a_range_that_runs_backwards_is_said_the_right_way_round(text: str, mended: str) -> None:
    with pytest.raises(UnreadError) as caught:
        count_in(cell(text))

    assert caught.value.code is Code.RANGE_BACKWARDS
    assert caught.value.facts["type"] == mended


@pytest.mark.parametrize(
    ("shown", "typed"),
    [
        ("2026-10-08", "8-10"),
        ("2026-08-10", "8-10"),
        ("2026-12-15", "12-15"),
        ("2026-01-03", "1-3"),
        ("1932-08-01", "8-32"),
    ],
)
def test_what_was_typed_is_found_again_behind_a_date(shown: str, typed: str) -> None:
    assert typed_before_date(shown) == typed


WEEKS = [
    ("1-3", {1, 2, 3}),
    ("1–3", {1, 2, 3}),
    ("1, 3, 5", {1, 3, 5}),
    ("1,3;5", {1, 3, 5}),
    ("1-2, 4", {1, 2, 4}),
    ("4", {4}),
]


@pytest.mark.parametrize(("text", "weeks"), WEEKS)
def test_weeks_are_read(text: str, weeks: set[int]) -> None:
    assert weeks_in(cell(text)) == weeks


@pytest.mark.parametrize(
    ("text", "kind", "code"),
    [
        ("all", TEXT, "weeks_unreadable"),
        ("1,,3", TEXT, "weeks_unreadable"),
        ("1,3,", TEXT, "weeks_unreadable"),
        ("3-1", TEXT, "range_backwards"),
        ("1.3", NUMBER, "weeks_became_number"),
        ("2026-03-01", DATE, "became_date"),
    ],
)
def test_what_is_no_weeks_is_a_problem(text: str, kind: CellKind, code: str) -> None:
    assert code_of(weeks_in, cell(text, kind)) == code


RESTS = [
    ("2 min", 120),
    ("2min", 120),
    ("2,5 min", 150),
    ("2.5 m", 150),
    ("90 s", 90),
    ("90 sec", 90),
    ("2:30", 150),
    ("1 min 30 s", 90),
    ("0 s", 0),
]


@pytest.mark.parametrize(("text", "seconds"), RESTS)
def test_rests_are_read(text: str, seconds: int) -> None:
    assert rest_in(cell(text)) == seconds


@pytest.mark.parametrize(
    ("text", "kind", "seconds"), [("2:30:00", TIME, 150), ("1:30:00", TIME, 90), ("0:02:30", TIME, 150)]
)
def test_a_rest_that_became_a_time_is_read_back(text: str, kind: CellKind, seconds: int) -> None:
    assert rest_in(cell(text, kind)) == seconds


@pytest.mark.parametrize(
    ("text", "kind", "code"),
    [
        ("90", TEXT, "rest_without_unit"),
        ("2,5", TEXT, "rest_without_unit"),
        ("90", NUMBER, "rest_without_unit"),
        ("2-3 min", TEXT, "rest_unreadable"),
        ("2:75", TEXT, "rest_unreadable"),
        ("21 min", TEXT, "rest_unreadable"),
        ("0.11 min", TEXT, "rest_unreadable"),
        ("long", TEXT, "rest_unreadable"),
        ("0:02:00", TIME, "became_time"),
        ("1:02:03", TIME, "became_time"),
        ("23:00:00", TIME, "rest_unreadable"),
        ("-1:00:00", TIME, "became_time"),
        ("2026-03-02", DATE, "became_date"),
    ],
)
def test_what_is_no_rest_is_a_problem(text: str, kind: CellKind, code: str) -> None:
    assert code_of(rest_in, cell(text, kind)) == code


# Trade notation, three or four digits, slow lowering first, X for fast: common practice, no source.
@pytest.mark.parametrize(
    ("text", "tempo"),
    [("3110", "3110"), ("30x1", "30X1"), ("301", "301"), ("3-1-X-0", "31X0"), ("3 1 1 0", "3110")],
)
def test_tempos_are_read(text: str, tempo: str) -> None:
    assert tempo_in(cell(text)) == tempo


@pytest.mark.parametrize(
    ("text", "kind"), [("31", TEXT), ("31100", TEXT), ("3Y10", TEXT), ("fast", TEXT), ("2001-03-01", DATE)]
)
def test_what_is_no_tempo_is_a_problem(text: str, kind: CellKind) -> None:
    assert code_of(tempo_in, cell(text, kind)) == "tempo_unreadable"


@pytest.mark.parametrize(("text", "order"), [("A", "A"), ("b1", "B1"), ("C 12", "C12")])
def test_places_in_a_session_are_read(text: str, order: str) -> None:
    assert order_in(cell(text)) == order


@pytest.mark.parametrize("text", ["1", "A1B", "AA", "Ä", "A123", "1A"])
def test_what_is_no_place_in_a_session_is_a_problem(text: str) -> None:
    assert code_of(order_in, cell(text)) == "order_unreadable"


@pytest.mark.parametrize(("text", "number"), [("3", 3), ("3.0", 3), ("3,0", 3), ("20", 20)])
def test_whole_numbers_are_read(text: str, number: int) -> None:
    assert whole_in(cell(text), 1, 20, Code.SETS_UNREADABLE) == number


@pytest.mark.parametrize("text", ["0", "21", "3.5", "three", "-1", "1e1", "²"])
def test_what_is_no_whole_number_in_range_is_a_problem(text: str) -> None:
    assert code_of(lambda one: whole_in(one, 1, 20, Code.SETS_UNREADABLE), cell(text)) == "sets_unreadable"


def test_a_text_may_be_as_long_as_its_limit() -> None:
    assert text_in(cell("tide"), 4) == "tide"
    assert code_of(lambda one: text_in(one, 3), cell("tide")) == "text_too_long"


@pytest.mark.parametrize(
    "text", ["https://clips.example/a?b=1", "HTTP://clips.example", "http://clips.example:8080/"]
)
def test_addresses_are_read(text: str) -> None:
    assert link_in(cell(text)) == text


def test_the_address_behind_a_text_wins() -> None:
    assert link_in(cell("watch", link="https://clips.example/a")) == "https://clips.example/a"


@pytest.mark.parametrize(
    "text",
    [
        "clips.example",
        "ftp://a.example",
        "javascript:alert(1)",
        "https://",
        "https://a b.example",
        "https://" + "a" * 500 + ".example",
    ],
)
def test_what_is_no_address_of_a_page_is_a_problem(text: str) -> None:
    assert code_of(link_in, cell(text)) == "link_unreadable"


READERS = [
    weeks_in,
    rest_in,
    tempo_in,
    order_in,
    link_in,
    lambda one: whole_in(one, 0, 5, Code.LEFT_UNREADABLE),
]


@given(st.text(), st.sampled_from([TEXT, NUMBER, CellKind.FORMULA, CellKind.ERROR]))
def test_any_text_is_read_or_is_a_problem(text: str, kind: CellKind) -> None:
    for reader in READERS:
        assert code_or_none(reader, cell(text, kind)) in {None, *Code}


def test_where_words_belong_a_time_is_said_to_be_one() -> None:
    assert code_of(order_in, cell("08:10:00", TIME)) == "became_time"
