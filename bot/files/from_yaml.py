"""A coach's block from YAML (or JSON, which is YAML too).

```yaml
block:
  Name: Harbour strength
  Weeks: 4
  First day of the week: Monday
  Session days: [Lower A, Push]
sessions:
  - Day: Lower A
    Rows:
      - {Order: A, Exercise: Hip thrust, Sets: 4, Reps: 8, Load: 90 kg}
```

Labels and headings are those of the sheets, matched as kindly. `sessions` may also be a map from day to rows, or rows
that each name their day. The same sheets are made of it that a spreadsheet would hold, with a line in place of a cell.
"""

from collections.abc import Iterator, Mapping

from bot.files.texts import one_line, text_of
from bot.files.workbook_limits import MOST_ROWS
from bot.files.yaml_nodes import Items, Node, Pairs, Reference, Text, TooMuch, Unreadable, root_of
from core.policy import Policy
from core.programme import block_sheet, session_sheet
from core.programme.block_sheet import LINES
from core.programme.exercises import Exercise
from core.programme.folding import folded
from core.programme.problems import Code, Place, Problem, Severity, problem
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.session_sheet import COLUMNS, HEADINGS
from core.programme.sheets import Cell, CellKind, Sheet, rows_of
from core.programme.tabs import TABS

_POLICY = Policy()
_A_ROW, _A_DAY = "A row such as `Order: A`, `Exercise: Push-up`", "One line `Day:` and one line `Rows:`"
_ROWS = frozenset(folded(word) for word in ("Rows", "Exercises", "Lines"))
_JOINED = {session_sheet.INSTEAD: "; ", session_sheet.WEEKS: ", "}
"""Columns whose several values may be a list, and what stands between them in a cell."""


def block_in_yaml(
    content: bytes, catalogue: Mapping[str, Exercise], policy: Policy = _POLICY
) -> BlockFile | list[Problem]:
    """Return the block of a file, or every problem of it, each with its line."""
    try:
        root = root_of(text_of(content) or "")
    except Reference as reference:
        return [problem(Code.YAML_REFERENCE, Place(line=reference.line))]
    except Unreadable as broken:
        return [problem(Code.YAML_BROKEN, Place(line=broken.line))]
    except TooMuch:
        return [problem(Code.FILE_PACKED, Place())]
    reading = _Reading()
    sheets = reading.sheets(root)
    if len(reading.starts) > MOST_ROWS:
        return [problem(Code.TOO_MANY_ROWS, Place(), found=len(reading.starts), limit=MOST_ROWS)]
    result = block_from_sheets(sheets, catalogue, policy)
    if isinstance(result, BlockFile) and not reading.problems:
        return BlockFile(block=result.block, warnings=tuple(map(reading.with_line, result.warnings)))
    # What is worth another look in a whole block is not said of one that was only half read.
    found = [one for one in result.warnings if one.place.row] if isinstance(result, BlockFile) else result
    placed = [*reading.problems, *(reading.with_line(one) for one in found if not reading.is_said(one))]
    return sorted(placed, key=lambda one: (one.severity is Severity.WARNING, one.place.line or 0))


class _Reading:
    """Makes sheets of nodes, and remembers in which line each cell stood."""

    def __init__(self) -> None:
        self.problems: list[Problem] = []
        self.cells: dict[str, list[Cell]] = {name: [] for name in TABS.ours}
        self.lines: dict[tuple[str, str], int] = {}
        self.starts: dict[tuple[str, int], int] = {}
        self.unknown: dict[str, int] = {}
        self.shapeless: set[tuple[str | None, str | None]] = set()

    def sheets(self, root: Node | None) -> tuple[Sheet, ...]:
        """Return the two sheets, as far as they are there."""
        parts: dict[str, tuple[Text, Node]] = {}
        for key, value in self._pairs(root, "A line `block:` and a line `sessions:`"):
            name = TABS.named(key.text)
            if name is None:
                facts = {"written": key.text, "known": TABS.known, "suggestions": TABS.near(key.text)}
                self._note(Code.LABEL_UNKNOWN, key.line, None, **facts)
            elif name in parts:
                facts = {"written": key.text, "first_row": str(parts[name][0].line)}
                self._note(Code.LABEL_TWICE, key.line, name, **facts)
            else:
                parts[name] = (key, value)
        days = list(self._sessions(*parts[session_sheet.SHEET])) if session_sheet.SHEET in parts else []
        if block_sheet.SHEET in parts:
            self._block(parts[block_sheet.SHEET][1], days)
        return tuple(Sheet(name, rows_of(self.cells[name])) for name in TABS.ours if name in parts)

    def with_line(self, found: Problem) -> Problem:
        """Return a problem with the line of its cell in place of the cell."""
        place = found.place
        sheet = place.sheet or ""
        line = self.lines.get((sheet, place.cell or ""))
        if line is None and place.row is not None:
            line = self.starts.get((sheet, place.row))
        return found.model_copy(update={"place": Place(sheet=place.sheet, column=place.column, line=line)})

    def is_said(self, found: Problem) -> bool:
        """True where a cell is only empty because something else stood there than one value."""
        return found.code == Code.CELL_EMPTY and (found.place.sheet, found.place.cell) in self.shapeless

    def _block(self, node: Node, days: list[str]) -> None:
        labels = set()
        for key, value in self._pairs(node, "A list of lines such as `Weeks: 4`", block_sheet.SHEET):
            labels.add(LINES.named(key.text))
            row = self._next_row(block_sheet.SHEET, key)
            self._put(block_sheet.SHEET, row, 1, key, key.text)
            several = _several(value, by_day=LINES.named(key.text) == block_sheet.PREP)
            for column, one in enumerate(several, 2):
                self._put_one(block_sheet.SHEET, row, column, one, key.text)
        if days and block_sheet.DAYS not in labels:
            row = self._next_row(block_sheet.SHEET, node)
            for column, text in enumerate((block_sheet.DAYS, *days), 1):
                self._put(block_sheet.SHEET, row, column, node, text)

    def _sessions(self, key: Text, node: Node) -> Iterator[str]:
        """Write the table; yields each day once, where the file is ordered by days."""
        header = self._next_row(session_sheet.SHEET, key)
        for column, heading in enumerate(COLUMNS, 1):
            self._put(session_sheet.SHEET, header, column, key, heading)
        days: dict[str, None] = {}
        for day, rows in self._groups(node):
            if day is not None and not day.empty:
                days[one_line(day.text)] = None
            for row in rows:
                self._row(row, day)
        yield from days

    def _next_row(self, sheet: str, node: Node) -> int:
        """Return the number of the next row of a sheet: the line in which it begins, where that is still free."""
        last = max((row for name, row in self.starts if name == sheet), default=0)
        number = max(last + 1, node.line)
        self.starts[sheet, number] = node.line
        return number

    def _groups(self, node: Node) -> Iterator[tuple[Text | None, list[Node]]]:
        """Return days with their rows; rows that name their day themselves are a group without one."""
        if isinstance(node, Pairs):
            for day, rows in self._pairs(node, "Days with their rows", session_sheet.SHEET):
                yield day, self._list(rows)
        for item in self._list(node) if not isinstance(node, Pairs) else ():
            grouped = [value for key, value in _texts(item) if folded(key.text) in _ROWS]
            if len(grouped) == 1 and not isinstance(grouped[0], Text):
                yield self._day_of(item), self._list(grouped[0])
            else:
                yield None, [item]

    def _day_of(self, item: Node) -> Text | None:
        """Return the day of a group; whatever else stands beside its rows is a problem."""
        found: Text | None = None
        for key, value in _texts(item):
            if HEADINGS.named(key.text) == session_sheet.DAY and isinstance(value, Text) and found is None:
                found = value
            elif folded(key.text) not in _ROWS:
                self._note(Code.YAML_SHAPE, key.line, None, sheet=session_sheet.SHEET, expected=_A_DAY)
        return found

    def _row(self, node: Node, day: Text | None) -> None:
        number = self._next_row(session_sheet.SHEET, node)
        taken: dict[str, str] = {}
        if day is not None:
            taken[session_sheet.DAY] = "Day"
            self._put_one(session_sheet.SHEET, number, 1, day, session_sheet.DAY)
        for key, value in self._pairs(node, _A_ROW, session_sheet.SHEET):
            heading = HEADINGS.named(key.text)
            if heading is None:
                self._unknown_column(key)
            elif heading in taken:
                facts = {"written": key.text, "first": taken[heading]}
                self._note(Code.COLUMN_TWICE, key.line, heading, sheet=session_sheet.SHEET, **facts)
            else:
                taken[heading] = key.text
                self._put_value(number, heading, key, value)

    def _put_value(self, number: int, heading: str, key: Text, value: Node) -> None:
        column = COLUMNS.index(heading) + 1
        if (
            isinstance(value, Items)
            and heading in _JOINED
            and all(isinstance(one, Text) for one in value.items)
        ):
            texts = [one.text for one in value.items if isinstance(one, Text)]
            self._put(session_sheet.SHEET, number, column, value, _JOINED[heading].join(texts))
        elif isinstance(value, Text) and not value.empty:
            self._put(session_sheet.SHEET, number, column, value, session_sheet.under(key.text, value.text))
        else:
            self._put_one(session_sheet.SHEET, number, column, value, heading)

    def _unknown_column(self, key: Text) -> None:
        """Say once of each word that it is no column."""
        if self.unknown.setdefault(folded(key.text), key.line) == key.line:
            facts = {"written": key.text, "known": HEADINGS.known, "suggestions": HEADINGS.near(key.text)}
            self._note(Code.COLUMN_UNKNOWN, key.line, None, sheet=session_sheet.SHEET, **facts)

    def _put_one(self, sheet: str, row: int, column: int, node: Node, label: str) -> None:
        if not isinstance(node, Text):
            self._note(Code.YAML_SHAPE, node.line, label, sheet=sheet, expected="One value")
            self.shapeless.add((sheet, Cell(row, column, CellKind.TEXT, "").address))
        elif not node.empty:
            self._put(sheet, row, column, node, node.text)

    def _put(self, sheet: str, row: int, column: int, node: Node, raw: str) -> None:
        text = one_line(raw)
        if text:
            cell = Cell(row, column, CellKind.TEXT, text)
            self.cells[sheet].append(cell)
            self.lines[sheet, cell.address] = node.line

    def _pairs(
        self, node: Node | None, expected: str, sheet: str | None = None
    ) -> Iterator[tuple[Text, Node]]:
        """Return the pairs of a map; anything else, and a key that is no text, is a problem."""
        if not isinstance(node, Pairs):
            line = node.line if node is not None else 1
            self._note(Code.YAML_SHAPE, line, None, sheet=sheet, expected=expected)
            return
        for key, value in node.pairs:
            if isinstance(key, Text):
                yield key, value
            else:
                self._note(Code.YAML_SHAPE, key.line, None, sheet=sheet, expected=expected)

    def _list(self, node: Node) -> list[Node]:
        if isinstance(node, Items):
            return node.items
        self._note(Code.YAML_SHAPE, node.line, None, sheet=session_sheet.SHEET, expected="A list of rows")
        return []

    def _note(
        self, code: Code, line: int, column: str | None, sheet: str | None = None, **facts: object
    ) -> None:
        self.problems.append(problem(code, Place(sheet=sheet, column=column, line=line), **facts))


def _texts(node: Node) -> Iterator[tuple[Text, Node]]:
    """Return the pairs of a map whose keys are texts; none of anything else."""
    if isinstance(node, Pairs):
        yield from ((key, value) for key, value in node.pairs if isinstance(key, Text))


def _several(node: Node, *, by_day: bool) -> list[Node]:
    """Return the values of a line; where it goes by day, a map is one value a day, as a cell has it."""
    if isinstance(node, Pairs) and by_day:
        return [_as_a_cell(key, value) for key, value in node.pairs]
    return node.items if isinstance(node, Items) else [node]


def _as_a_cell(key: Node, value: Node) -> Node:
    """Return `Lower A: Ankle rock, Leg swing` for a key with a text or a list of texts; else what is no text."""
    listed = value.items if isinstance(value, Items) else [value]
    texts = [one.text for one in listed if isinstance(one, Text)]
    if not isinstance(key, Text) or len(texts) < len(listed):
        return value if isinstance(key, Text) else key
    return Text(key.line, f"{key.text}: {', '.join(texts)}", quoted=True)
