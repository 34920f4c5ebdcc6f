"""A block's sheets from csv: lines of the block, an empty line, and the table, one below the other.

Commas, semicolons or tabs; any of the encodings that spreadsheets write. Rows are numbered as a spreadsheet that opens
the file numbers them.
"""

import csv
import io
from collections.abc import Iterator
from itertools import islice

from bot.files.spreadsheet_values import kind_and_text, unguarded
from bot.files.texts import one_line, text_of
from bot.files.workbook_limits import MOST_COLUMNS, MOST_ROWS
from core.programme.problems import Code, Place, Problem, problem
from core.programme.session_sheet import HEADINGS
from core.programme.sheets import Cell, CellKind, Sheet, rows_of
from core.programme.tabs import NO_NAME

SEPARATORS = (",", ";", "\t")
_LOOKED_AT = 60
"""Rows in which the header is looked for to tell the separator. Our proposal: it stands near the top."""


def sheets_in_csv(content: bytes) -> tuple[Sheet, ...] | Problem:
    """Return the one sheet that a csv is, or why it is not read.

    Args:
        content: The file; whoever calls has seen that it is text.
    """
    text = text_of(content) or ""
    separator, skipped, text = _separator(text)
    rows: list[list[str]] = []
    try:
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True):
            rows.append(row)
            if len(rows) > MOST_ROWS:
                return problem(Code.TOO_MANY_ROWS, Place(), found=f"More than {MOST_ROWS}", limit=MOST_ROWS)
    except csv.Error:
        return problem(Code.QUOTES_UNMATCHED, Place(row=len(rows) + 1 + skipped))
    widest = max((len(row) for row in rows), default=0)
    if widest > MOST_COLUMNS:
        return problem(Code.TOO_MANY_COLUMNS, Place(), found=widest, limit=MOST_COLUMNS)
    return (Sheet(NO_NAME, rows_of(_cells(rows, first_row=1 + skipped))),)


def _cells(rows: list[list[str]], first_row: int) -> Iterator[Cell]:
    for number, row in enumerate(rows, first_row):
        for column, raw in enumerate(row, 1):
            text = one_line(raw)
            if text:
                plain = unguarded(text)
                kind, value = kind_and_text(text)
                shown = value if plain == text else plain
                yield Cell(number, column, kind, shown, written=text if kind is CellKind.DATE else None)


def _separator(text: str) -> tuple[str, int, str]:
    """Return what separates cells, how many lines say so (`sep=;`), and the text without them."""
    first, _, rest = text.partition("\n")
    said = first.strip().strip('"')
    if said.casefold().startswith("sep=") and said[4:] in (*SEPARATORS, "\\t", ""):
        return {"\\t": "\t", "": "\t"}.get(said[4:], said[4:]), 1, rest
    return max(SEPARATORS, key=lambda separator: _likeness(text, separator)), 0, text


def _likeness(text: str, separator: str) -> tuple[int, int]:
    """Return how much a text looks like cells between `separator`: named headings of a row, then cells of all."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    most = cells = 0
    try:
        for row in islice(reader, _LOOKED_AT):
            named = {HEADINGS.named(cell) for cell in row[:MOST_COLUMNS]} - {None}
            most, cells = max(most, len(named)), cells + len(row)
    except csv.Error:
        pass
    return most, cells
