"""What is looked at before a workbook is parsed, and how large it may be.

The limits are our own proposals: a block of 12 weeks and 5 days is under 100 kB and 500 rows.
"""

import zipfile
from io import BytesIO
from typing import TYPE_CHECKING

from bot.files.workbook_parts import Census, TooMuchError
from core.programme import block_sheet, session_sheet
from core.programme.folding import folded
from core.programme.problems import Code, Place, Problem, problem

if TYPE_CHECKING:
    from openpyxl import Workbook

MOST_BYTES = 2 * 1024 * 1024
"""Largest file. [byte]"""
MOST_UNPACKED_BYTES = 16 * 1024 * 1024
"""Most that it may unpack to. [byte]"""
MOST_PARTS = 500
"""Most parts in the archive."""
MOST_SHEETS = 20
MOST_ROWS = 2000
MOST_COLUMNS = 50

_ZIP = b"PK\x03\x04"
_OLD = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"


def open_problem(content: bytes, name: str) -> Problem | None:
    """Return why a file is not to be parsed at all; None when it may be."""
    if len(content) > MOST_BYTES:
        facts = {"size_kb": -(-len(content) // 1024), "limit_kb": MOST_BYTES // 1024}
        return problem(Code.FILE_TOO_BIG, Place(), **facts)
    if content.startswith(_OLD):
        return problem(Code.FILE_OLD_OR_LOCKED, Place(), name=name)
    if not content.startswith(_ZIP):
        return problem(Code.FILE_NOT_XLSX, Place(), name=name)
    try:
        with zipfile.ZipFile(BytesIO(content)) as archive:
            return _archive_problem(archive, name)
    except Exception:  # noqa: BLE001 - a broken archive breaks in many ways; all mean the same to its sender
        return problem(Code.FILE_DAMAGED, Place(), name=name)


def _archive_problem(archive: zipfile.ZipFile, name: str) -> Problem | None:
    parts = archive.infolist()
    if "xl/workbook.xml" not in {part.filename for part in parts}:
        return problem(Code.FILE_NOT_XLSX, Place(), name=name)
    # A part yields no more than it declares, so the sum of what is declared bounds what can be unpacked.
    if sum(part.file_size for part in parts) > MOST_UNPACKED_BYTES or len(parts) > MOST_PARTS:
        return problem(Code.FILE_PACKED, Place())
    census = Census()
    try:
        for part in parts:
            census.add(archive.read(part))
    except TooMuchError:
        return problem(Code.FILE_PACKED, Place())
    return None


def limit_problem(workbook: "Workbook") -> Problem | None:
    """Return what a workbook has too much of; None when it is within the limits."""
    tabs = workbook.worksheets
    if len(tabs) > MOST_SHEETS:
        return problem(Code.TOO_MANY_SHEETS, Place(), found=len(tabs), limit=MOST_SHEETS)
    for tab in tabs:
        if folded(tab.title) not in {folded(block_sheet.SHEET), folded(session_sheet.SHEET)}:
            continue
        place = Place(sheet=tab.title)
        if tab.max_row > MOST_ROWS:
            return problem(Code.TOO_MANY_ROWS, place, found=tab.max_row, limit=MOST_ROWS)
        if tab.max_column > MOST_COLUMNS:
            return problem(Code.TOO_MANY_COLUMNS, place, found=tab.max_column, limit=MOST_COLUMNS)
    return None
