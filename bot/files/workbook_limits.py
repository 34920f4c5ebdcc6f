"""What is looked at before a workbook is parsed, and how large it may be.

The limits are our own proposals: a block of 12 weeks and 5 days is under 100 kB and 500 rows.
"""

import zipfile
from io import BytesIO
from typing import TYPE_CHECKING

from bot.files.workbook_parts import Census, TooMuchError
from core.programme.problems import Code, Place, Problem, problem

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

MOST_UNPACKED_BYTES = 16 * 1024 * 1024
"""Most that it may unpack to. [byte]"""
PIECE = 64 * 1024
"""What is unpacked at once. [byte]"""
MOST_PARTS = 500
"""Most parts in the archive."""
MOST_SHEETS = 20
MOST_ROWS = 2000
MOST_COLUMNS = 50


def archive_problem(content: bytes, name: str) -> Problem | None:
    """Return why a packed workbook is not to be parsed at all; None when it may be."""
    try:
        with zipfile.ZipFile(BytesIO(content)) as archive:
            return _parts_problem(archive)
    except Exception:  # noqa: BLE001 - a broken archive breaks in many ways; all mean the same to its sender
        return problem(Code.FILE_DAMAGED, Place(), name=name)


def _parts_problem(archive: zipfile.ZipFile) -> Problem | None:
    parts = archive.infolist()
    if sum(part.file_size for part in parts) > MOST_UNPACKED_BYTES or len(parts) > MOST_PARTS:
        return problem(Code.FILE_PACKED, Place())
    census = Census()
    try:
        for part in parts:
            census.add(_unpacked(archive, part))
    except TooMuchError:
        return problem(Code.FILE_PACKED, Place())
    return None


def _unpacked(archive: zipfile.ZipFile, part: zipfile.ZipInfo) -> bytes:
    """Unpack a part piece by piece, and one byte further than it says that it is long.

    Read as a whole, a part that says less than it holds would be unpacked to its end before it is cut: here, and once
    more by whoever reads the workbook after this.

    Raises:
        BadZipFile: It is of another length than it says, or packed in a way that cannot be unpacked in pieces.
    """
    if part.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise zipfile.BadZipFile(part.filename)
    says = part.file_size
    part.file_size = says + 1
    found = bytearray()
    with archive.open(part) as stream:
        while piece := stream.read(PIECE):
            found += piece
    if len(found) != says:
        raise zipfile.BadZipFile(part.filename)
    return bytes(found)


def sheets_problem(workbook: "Workbook") -> Problem | None:
    """Return the problem of a workbook with too many sheets; None when it is within the limit."""
    found = len(workbook.worksheets)
    if found > MOST_SHEETS:
        return problem(Code.TOO_MANY_SHEETS, Place(), found=found, limit=MOST_SHEETS)
    return None


def size_problem(tab: "Worksheet") -> Problem | None:
    """Return what a sheet has too much of; None when it is within the limits."""
    place = Place(sheet=tab.title)
    if tab.max_row > MOST_ROWS:
        return problem(Code.TOO_MANY_ROWS, place, found=tab.max_row, limit=MOST_ROWS)
    if tab.max_column > MOST_COLUMNS:
        return problem(Code.TOO_MANY_COLUMNS, place, found=tab.max_column, limit=MOST_COLUMNS)
    return None
