import struct
import tracemalloc
import zipfile
import zlib
from collections.abc import Callable
from io import BytesIO

import pytest
from rows import each_row

from bot.files.block_file import read_block
from bot.files.kinds import MOST_BYTES
from bot.files.workbook_limits import MOST_COLUMNS, MOST_ROWS, MOST_SHEETS, MOST_UNPACKED_BYTES
from bot.files.workbook_parts import MOST_ELEMENTS
from core.programme.problems import Problem
from core.programme.rows import BlockFile
from tests.bot.files.block_workbook import head_of, saved, workbook

HEAD = head_of("Slipway", 3, "Push")
ROW = ("Push", "A", "Push-up", None, 3, 8)


def codes(content: bytes) -> list[str]:
    result = read_block(content, "slipway.xlsx")
    return [] if isinstance(result, BlockFile) else [found.code for found in result]


def archive(**parts: bytes) -> bytes:
    stream = BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, part in parts.items():
            packed.writestr(name.replace("__", "/").replace("_xml", ".xml"), part)
    return stream.getvalue()


def with_part(name: str, part: bytes) -> bytes:
    """Return a good workbook with one part replaced or added."""
    stream = BytesIO()
    with (
        zipfile.ZipFile(BytesIO(saved(workbook(HEAD, [ROW])))) as good,
        zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed,
    ):
        for item in good.infolist():
            if item.filename != name:
                packed.writestr(item, good.read(item))
        packed.writestr(name, part)
    return stream.getvalue()


def with_cell_at(row: int, column: int) -> bytes:
    book = workbook(HEAD, [ROW])
    book["Sessions"].cell(row, column).value = "far"
    return saved(book)


def with_sheets(count: int) -> bytes:
    book = workbook(HEAD, [ROW])
    for number in range(count - 2):
        book.create_sheet(f"Note {number}")
    return saved(book)


GOOD = saved(workbook(HEAD, [ROW]))
SESSIONS = "xl/worksheets/sheet2.xml"
NAMESPACE = b"http://schemas.openxmlformats.org/spreadsheetml/2006/main"
MERGES = b'<sheetData/><mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'
LINKS = b'<sheetData/><hyperlinks><hyperlink ref="A1:XFD1048576"/></hyperlinks>'
COMMENTS = b'<comments xmlns="%s"><comment ref="A1:XFD1048576"/></comments>' % NAMESPACE


def sheet_xml(inside: bytes) -> bytes:
    return b'<worksheet xmlns="%s">%s</worksheet>' % (NAMESPACE, inside)


ENTITIES = b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "ha">]><x>&a;</x>'
REFUSED = [
    ("too large", b"PK\x03\x04" + b"\0" * MOST_BYTES, "file_too_big"),
    ("empty", b"", "file_not_xlsx"),
    ("the old format or locked", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600, "file_old_or_locked"),
    ("cut off", GOOD[: len(GOOD) // 2], "file_damaged"),
    ("another kind of archive", archive(of__nobody_xml=b"<x/>"), "file_not_xlsx"),
    ("an archive with an empty workbook", archive(xl__workbook_xml=b""), "file_damaged"),
    ("packed beyond measure", with_part("xl/media/a.bin", b"\0" * MOST_UNPACKED_BYTES), "file_packed"),
    ("a document type", with_part("xl/sharedStrings.xml", ENTITIES), "file_damaged"),
    (
        "a document type in wide letters",
        with_part("xl/styles.xml", ENTITIES.decode().encode("utf-16")),
        "file_damaged",
    ),
    ("a merge over everything", with_part(SESSIONS, sheet_xml(MERGES)), "file_packed"),
    (
        "a merge over whole columns",
        with_part(SESSIONS, sheet_xml(MERGES.replace(b"A1:XFD1048576", b"A:C"))),
        "file_packed",
    ),
    ("a link over everything", with_part(SESSIONS, sheet_xml(LINKS)), "file_packed"),
    ("a comment over everything", with_part("xl/comments/comment1.xml", COMMENTS), "file_packed"),
    (
        "a merge without sense",
        with_part(SESSIONS, sheet_xml(MERGES.replace(b"A1:XFD1048576", b"?"))),
        "file_damaged",
    ),
    ("cells without end", with_part(SESSIONS, sheet_xml(b"<c/>" * MOST_ELEMENTS)), "file_packed"),
    (
        "cells without end under another name",
        with_part("xl/a.dat", sheet_xml(b"<c/>" * MOST_ELEMENTS)),
        "file_packed",
    ),
    ("many sheets", with_sheets(MOST_SHEETS + 1), "too_many_sheets"),
    ("many rows", with_cell_at(MOST_ROWS + 1, 1), "too_many_rows"),
    ("many columns", with_cell_at(1, MOST_COLUMNS + 1), "too_many_columns"),
]


@each_row(("content", "code"), [row[1:] for row in REFUSED])
def test_a_file_beyond_the_limits_is_one_problem(content: bytes, code: str) -> None:
    assert codes(content) == [code]


def test_a_file_within_the_limits_is_read() -> None:
    assert codes(GOOD) == []
    assert codes(with_sheets(MOST_SHEETS)) == []


def test_many_parts_are_refused_before_any_is_unpacked() -> None:
    parts = {f"xl__media__{number}": b"" for number in range(501)}

    assert codes(archive(xl__workbook_xml=b"<x/>", **parts)) == ["file_packed"]


def test_a_sheet_that_is_not_read_may_be_of_any_size() -> None:
    book = workbook(HEAD, [ROW])
    book.create_sheet("Log").cell(MOST_ROWS + 5, 1).value = "far"

    result = read_block(saved(book), "slipway.xlsx")

    assert isinstance(result, BlockFile)


def test_a_file_with_a_wrong_byte_is_read_or_is_a_problem_and_never_raises() -> None:
    results = []
    for at in range(0, len(GOOD), 61):
        spoilt = GOOD[:at] + bytes([GOOD[at] ^ 0xFF]) + GOOD[at + 1 :]
        results.append(read_block(spoilt, "slipway.xlsx"))

    refused = [found for result in results if isinstance(result, list) for found in result]
    assert all(isinstance(found, Problem) for found in refused)
    assert "file_damaged" in {found.code for found in refused}


BOMB = 48 * 1024 * 1024


def bomb() -> bytes:
    return with_part("xl/media/a.bin", b"\0" * BOMB)


def lying() -> bytes:
    """A bomb whose archive says that it is a thousand bytes long, with the sum that goes with those."""
    sizes = struct.pack("<I", BOMB), struct.pack("<I", 1000)
    sums = struct.pack("<I", zlib.crc32(b"\0" * BOMB)), struct.pack("<I", zlib.crc32(b"\0" * 1000))
    return bomb().replace(*sizes).replace(*sums)


def packed_otherwise() -> bytes:
    """A bomb in a packing that cannot be unpacked in pieces."""
    stream = BytesIO(GOOD)
    with zipfile.ZipFile(stream, "a", zipfile.ZIP_LZMA) as packed:
        packed.writestr("xl/media/a.bin", b"\0" * (MOST_UNPACKED_BYTES - 2**20))
    return stream.getvalue()


BOMBS = [(bomb, "file_packed"), (lying, "file_damaged"), (packed_otherwise, "file_damaged")]


@pytest.mark.parametrize(("made", "code"), BOMBS)
def test_a_bomb_is_refused_in_bounded_memory(made: Callable[[], bytes], code: str) -> None:
    content = made()
    tracemalloc.start()
    try:
        found = codes(content)
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()

    assert found == [code]
    assert peak < BOMB / 4
