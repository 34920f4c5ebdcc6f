"""A block's sheets as one csv: the lines of the block, an empty line, and the table.

UTF-8 with its mark, as spreadsheets need it to show letters of every language.
"""

import csv
import io
import re
from collections.abc import Iterator, Sequence

from bot.files.spreadsheet_values import guarded
from bot.files.texts import one_line
from core.programme.sheets import Cell, CellKind, Sheet
from core.programme.tabs import tabs_in

_PLAIN_NUMBER = re.compile(r"(?:0|[1-9]\d{0,10})(?:\.\d+)?", re.ASCII)


def to_csv(sheets: Sequence[Sheet], separator: str = ",") -> bytes:
    """Return sheets as a file.

    Args:
        sheets: Of one block.
        separator: Between cells; a semicolon where the comma is the decimal mark.
    """
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, delimiter=separator, lineterminator="\r\n")
    tabs = tabs_in(sheets)
    for number, sheet in enumerate(each for each in (tabs.block, tabs.sessions) if each is not None):
        if number:
            writer.writerow(())
        writer.writerows(_rows(sheet))
    return stream.getvalue().encode("utf-8-sig")


def _rows(sheet: Sheet) -> Iterator[list[str]]:
    for row in sheet.rows:
        last = max(row)
        yield [_text(row[column]) if column in row else "" for column in range(1, last + 1)]


def _text(cell: Cell) -> str:
    text = one_line(cell.text)
    number = cell.kind is CellKind.NUMBER and _PLAIN_NUMBER.fullmatch(text)
    return text if number else guarded(text)
