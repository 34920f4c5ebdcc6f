"""A block's sheets as YAML, in the form that `from_yaml` shows."""

import itertools
from collections.abc import Sequence

import yaml

from bot.files.texts import one_line
from core.programme import session_sheet
from core.programme.sheets import Cell, CellKind, Sheet
from core.programme.tabs import tabs_in


class _Plain(yaml.SafeDumper):
    """Writes lists a step in from what they belong to, and never a reference."""

    def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:  # noqa: ARG002  (signature of the base class)
        """Go a step in."""
        super().increase_indent(flow=flow, indentless=False)

    def ignore_aliases(self, data: object) -> bool:  # noqa: ARG002  (signature of the base class)
        """Write everything out."""
        return True


def to_yaml(sheets: Sequence[Sheet]) -> bytes:
    """Return sheets as a file."""
    tabs = tabs_in(sheets)
    file: dict[str, object] = {}
    if tabs.block is not None:
        file["block"] = _lines(tabs.block)
    if tabs.sessions is not None:
        file["sessions"] = _days(tabs.sessions)
    text = yaml.dump(file, Dumper=_Plain, sort_keys=False, allow_unicode=True, width=10_000)
    return text.encode()


def _lines(sheet: Sheet) -> dict[str, object]:
    lines: dict[str, object] = {}
    for row in sheet.rows:
        label, *values = (row[column] for column in sorted(row))
        texts = [_value(cell) for cell in values]
        lines[one_line(label.text)] = texts if len(texts) > 1 else texts[0] if texts else None
    return lines


def _days(sheet: Sheet) -> list[dict[str, object]]:
    """Return the table by days: rows of the same day that follow on each other stand together."""
    at = session_sheet.header_index(sheet) or 0
    header = {column: one_line(cell.text) for column, cell in sheet.rows[at].items()} if sheet.rows else {}
    day_column = next((column for column, text in header.items() if _is_day(text)), 0)
    groups = itertools.groupby(
        sheet.rows[at + 1 :], key=lambda row: row[day_column].text if day_column in row else ""
    )
    header.pop(day_column, None)
    return [
        {
            "Day": day,
            "Rows": [
                {header[column]: _value(cell) for column, cell in row.items() if column in header}
                for row in rows
            ],
        }
        for day, rows in groups
    ]


def _is_day(text: str) -> bool:
    return session_sheet.HEADINGS.named(text) == session_sheet.DAY


def _value(cell: Cell) -> str | int:
    """Return what a cell holds; a whole number without quotation marks where it is read back the same."""
    text = one_line(cell.text)
    if cell.kind is CellKind.NUMBER and text.isascii() and text.isdecimal() and str(int(text)) == text:
        return int(text)
    return text
