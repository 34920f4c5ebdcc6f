"""A spreadsheet as plain values: what each cell holds, and where.

Readers of files make these; the grammar reads them. No file format is known here.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

from core.programme.problems import Code, Place, Problem, problem


class CellKind(StrEnum):
    """What a spreadsheet says that a cell is."""

    TEXT = "text"
    NUMBER = "number"
    DATE = "date"
    TIME = "time"
    FORMULA = "formula"
    ERROR = "error"


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that is not empty.

    Attributes:
        row: From 1.
        column: From 1.
        kind: What the spreadsheet says it is.
        text: The text with single spaces; a number in plain digits with a point; a date as `2026-10-08`;
            a time as `2:30:00`; a formula as typed.
        link: Address behind the text, where there is one.
        written: As it stands in a text file, where a date was made of it: only there it says which number is the day.
    """

    row: int
    column: int
    kind: CellKind
    text: str
    link: str | None = None
    written: str | None = field(default=None, compare=False)

    @property
    def address(self) -> str:
        """The cell as the spreadsheet names it: `E7`."""
        return f"{letters(self.column)}{self.row}"


@dataclass(frozen=True, slots=True)
class Merge:
    """A block of cells merged into one; only its first cell holds anything."""

    first_row: int
    last_row: int
    first_column: int
    last_column: int

    @property
    def address(self) -> str:
        """The merged cells as the spreadsheet names them: `A2:A5`."""
        first = f"{letters(self.first_column)}{self.first_row}"
        return f"{first}:{letters(self.last_column)}{self.last_row}"


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet.

    Attributes:
        name: As it stands on the tab.
        rows: Rows that hold anything, in order, each with its cells by column number.
        merges: Merged cells.
        hidden_rows: Numbers of rows that hold something and are not shown.
    """

    name: str
    rows: tuple[dict[int, Cell], ...]
    merges: tuple[Merge, ...] = ()
    hidden_rows: tuple[int, ...] = ()

    def place(self, cell: Cell, column: str | None = None) -> Place:
        """Return where `cell` stands; `column` is its heading."""
        return Place(sheet=self.name or None, row=cell.row, column=column, cell=cell.address)


def rows_of(cells: Iterable[Cell]) -> tuple[dict[int, Cell], ...]:
    """Return cells as rows, in order of row and column; rows without any are left out."""
    rows: dict[int, dict[int, Cell]] = {}
    for cell in sorted(cells, key=lambda cell: (cell.row, cell.column)):
        rows.setdefault(cell.row, {})[cell.column] = cell
    return tuple(rows.values())


def row_number(row: dict[int, Cell]) -> int:
    """Return the number of a row that holds something."""
    return next(iter(row.values())).row


def letters(column: int) -> str:
    """Return a column's letters: 1 is `A`, 27 is `AA`."""
    text = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


class UnreadError(Exception):
    """A cell that cannot be read: caught by whoever knows its place, never seen outside `core.programme`."""

    def __init__(self, code: Code, **facts: object) -> None:
        super().__init__(code)
        self.code = code
        self.facts = facts

    def at(self, place: Place) -> Problem:
        """Return the problem at its place."""
        return problem(self.code, place, **self.facts)
