"""A table on a sheet: where each heading stands, and rows that are read cell by cell."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from core.programme.problems import FACTS, Code, Place, Problem, problem
from core.programme.sheets import Cell, Sheet, UnreadError, letters, row_number
from core.programme.written_names import WrittenNames

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Row:
    """One row under the header.

    Attributes:
        sheet: Sheet it stands on.
        number: As the spreadsheet numbers it.
        columns: Number of each column by heading.
        cells: What it holds, by heading.
    """

    sheet: Sheet
    number: int
    columns: dict[str, int]
    cells: dict[str, Cell]

    def place(self, heading: str) -> Place:
        """Return where the cell under `heading` stands, empty or not."""
        address = f"{letters(self.columns[heading])}{self.number}"
        return Place(sheet=self.sheet.name or None, row=self.number, column=heading, cell=address)


class CellByCell:
    """Reads a row cell by cell and keeps what is wrong.

    Args:
        row: The row.
        problems: Where what is wrong is added.
    """

    def __init__(self, row: Row, problems: list[Problem]) -> None:
        self.row, self.problems = row, problems

    def needed(self, heading: str, reader: Callable[[Cell], T]) -> T | None:
        """Return what a cell says; None where it is empty, which is a problem, or cannot be read."""
        if heading not in self.row.cells:
            self.problems.append(problem(Code.CELL_EMPTY, self.row.place(heading)))
        return self.given(heading, reader)

    def given(self, heading: str, reader: Callable[[Cell], T]) -> T | None:
        """Return what a cell says; None where it is empty, or cannot be read, which is a problem."""
        cell = self.row.cells.get(heading)
        if cell is None:
            return None
        try:
            return reader(cell)
        except UnreadError as unread:
            self.problems.append(unread.at(self.row.place(heading)))
            return None


def columns_in(
    sheet: Sheet,
    header: Mapping[int, Cell],
    headings: WrittenNames,
    problems: list[Problem],
    unknown: Code = Code.COLUMN_UNKNOWN,
) -> dict[str, int]:
    """Return where each heading stands; one that is unknown or there twice is a problem.

    Args:
        sheet: Sheet of the table.
        header: Its row of headings.
        headings: Those that there are.
        problems: Where what is wrong is added.
        unknown: Code for a column that nobody knows, with `known` among its facts where it has them.
    """
    columns: dict[str, int] = {}
    for column, cell in header.items():
        heading = headings.named(cell.text)
        if heading is None:
            facts = {"written": cell.text, "known": headings.known, "suggestions": headings.near(cell.text)}
            told = {name: fact for name, fact in facts.items() if name in FACTS[unknown]}
            problems.append(problem(unknown, sheet.place(cell), **told))
        elif heading in columns:
            facts = {"written": cell.text, "first": header[columns[heading]].text}
            problems.append(problem(Code.COLUMN_TWICE, sheet.place(cell, heading), **facts))
        else:
            columns[heading] = column
    return columns


def unnamed_columns(sheet: Sheet, header: Mapping[int, Cell]) -> list[Problem]:
    """Return a problem for each column that holds something under a header without a heading for it."""
    strays: dict[int, Cell] = {}
    for row in sheet.rows:
        for column, cell in row.items():
            if column not in header and cell.row > row_number(dict(header)):
                strays.setdefault(column, cell)
    return [problem(Code.COLUMN_UNNAMED, sheet.place(cell), written=cell.text) for cell in strays.values()]
