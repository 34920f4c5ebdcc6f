"""What is wrong with a coach's file: codes with facts and a place, never sentences."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from core.value import Value


class Severity(StrEnum):
    """An error stops a block from being taken; a warning does not."""

    ERROR = "error"
    WARNING = "warning"


class Place(Value):
    """Where in a file.

    Attributes:
        sheet: Name of the sheet; None for the file as a whole.
        row: Row as the spreadsheet numbers it, from 1.
        column: Column by its heading, such as "Reps".
        cell: Spreadsheet address, such as "E7".
    """

    sheet: str | None = None
    row: int | None = None
    column: str | None = None
    cell: str | None = None


class Problem(Value):
    """One thing that is wrong. `bot.render.problems` has the words for each code."""

    code: str
    place: Place = Place()
    facts: dict[str, str] = {}  # noqa: RUF012 - pydantic copies a default for each value
    severity: Severity = Severity.ERROR


class Code(StrEnum):
    """Every code a problem of a block's file may have."""

    # The file as a whole.
    FILE_TOO_BIG = "file_too_big"
    FILE_NOT_XLSX = "file_not_xlsx"
    FILE_OLD_OR_LOCKED = "file_old_or_locked"
    FILE_DAMAGED = "file_damaged"
    FILE_PACKED = "file_packed"
    TOO_MANY_SHEETS = "too_many_sheets"
    TOO_MANY_ROWS = "too_many_rows"
    TOO_MANY_COLUMNS = "too_many_columns"
    # Sheets, labels, columns.
    SHEET_MISSING = "sheet_missing"
    SHEET_NOT_READ = "sheet_not_read"
    LABEL_MISSING = "label_missing"
    LABEL_UNKNOWN = "label_unknown"
    LABEL_TWICE = "label_twice"
    VALUE_BESIDE = "value_beside"
    COLUMN_MISSING = "column_missing"
    COLUMN_UNKNOWN = "column_unknown"
    COLUMN_TWICE = "column_twice"
    COLUMN_UNNAMED = "column_unnamed"
    NO_ROWS = "no_rows"
    MERGED = "merged"
    # Any cell.
    CELL_EMPTY = "cell_empty"
    FORMULA = "formula"
    CELL_ERROR = "cell_error"
    BECAME_DATE = "became_date"
    BECAME_TIME = "became_time"
    TEXT_TOO_LONG = "text_too_long"
    # The block.
    LENGTH_UNREADABLE = "length_unreadable"
    WEEKDAY_UNREADABLE = "weekday_unreadable"
    UNIT_UNREADABLE = "unit_unreadable"
    DAY_TWICE = "day_twice"
    DAY_UNREADABLE = "day_unreadable"
    TOO_MANY_DAYS = "too_many_days"
    DAY_WITHOUT_ROWS = "day_without_rows"
    # A row of a session.
    DAY_UNKNOWN = "day_unknown"
    ORDER_UNREADABLE = "order_unreadable"
    ORDER_TWICE = "order_twice"
    EXERCISE_UNKNOWN = "exercise_unknown"
    WEEKS_UNREADABLE = "weeks_unreadable"
    WEEKS_BECAME_NUMBER = "weeks_became_number"
    WEEKS_OUTSIDE = "weeks_outside"
    SETS_UNREADABLE = "sets_unreadable"
    REPS_UNREADABLE = "reps_unreadable"
    RANGE_BACKWARDS = "range_backwards"
    TIMED_GIVEN_REPS = "timed_given_reps"
    COUNTED_GIVEN_TIME = "counted_given_time"
    LOAD_UNREADABLE = "load_unreadable"
    LOAD_WITHOUT_UNIT = "load_without_unit"
    LOAD_OUT_OF_RANGE = "load_out_of_range"
    LOAD_BASIS = "load_basis"
    LOAD_NEEDS_BW = "load_needs_bw"
    LOAD_ON_BAND = "load_on_band"
    BW_ADDED_TO_LOADED = "bw_added_to_loaded"
    BW_ON_LOADED = "bw_on_loaded"
    LEFT_UNREADABLE = "left_unreadable"
    REST_UNREADABLE = "rest_unreadable"
    REST_WITHOUT_UNIT = "rest_without_unit"
    TEMPO_UNREADABLE = "tempo_unreadable"
    LINK_UNREADABLE = "link_unreadable"
    # The block as a whole.
    PUSH_TO_PULL = "push_to_pull"
    KNEE_TO_HIP = "knee_to_hip"
    LOAD_JUMP = "load_jump"
    DAY_EMPTY_IN_WEEK = "day_empty_in_week"
    LIMIT_UNDER_BAR = "limit_under_bar"


WARNINGS = frozenset(
    {
        Code.SHEET_NOT_READ,
        Code.BW_ON_LOADED,
        Code.PUSH_TO_PULL,
        Code.KNEE_TO_HIP,
        Code.LOAD_JUMP,
        Code.DAY_EMPTY_IN_WEEK,
        Code.LIMIT_UNDER_BAR,
    }
)
"""Codes that do not stop a block."""

_FACTS: Mapping[Code, str] = {
    Code.FILE_TOO_BIG: "size_kb limit_kb",
    Code.FILE_NOT_XLSX: "name",
    Code.FILE_OLD_OR_LOCKED: "name",
    Code.FILE_DAMAGED: "name",
    Code.TOO_MANY_SHEETS: "found limit",
    Code.TOO_MANY_ROWS: "found limit",
    Code.TOO_MANY_COLUMNS: "found limit",
    Code.SHEET_MISSING: "sheet found",
    Code.SHEET_NOT_READ: "name",
    Code.LABEL_MISSING: "label",
    Code.LABEL_UNKNOWN: "written known",
    Code.LABEL_TWICE: "written first_row",
    Code.VALUE_BESIDE: "written",
    Code.COLUMN_MISSING: "column",
    Code.COLUMN_UNKNOWN: "written known",
    Code.COLUMN_TWICE: "written",
    Code.COLUMN_UNNAMED: "written",
    Code.MERGED: "cells",
    Code.FORMULA: "written",
    Code.CELL_ERROR: "written",
    Code.BECAME_DATE: "written type",
    Code.BECAME_TIME: "written",
    Code.TEXT_TOO_LONG: "length limit",
    Code.LENGTH_UNREADABLE: "written",
    Code.WEEKDAY_UNREADABLE: "written",
    Code.UNIT_UNREADABLE: "written",
    Code.DAY_TWICE: "day",
    Code.DAY_UNREADABLE: "written",
    Code.TOO_MANY_DAYS: "found",
    Code.DAY_WITHOUT_ROWS: "day",
    Code.DAY_UNKNOWN: "written known",
    Code.ORDER_UNREADABLE: "written",
    Code.ORDER_TWICE: "order day weeks first_row",
    Code.EXERCISE_UNKNOWN: "written suggestions",
    Code.WEEKS_UNREADABLE: "written",
    Code.WEEKS_BECAME_NUMBER: "written",
    Code.WEEKS_OUTSIDE: "weeks length",
    Code.SETS_UNREADABLE: "written",
    Code.REPS_UNREADABLE: "written",
    Code.RANGE_BACKWARDS: "written type",
    Code.TIMED_GIVEN_REPS: "exercise written",
    Code.COUNTED_GIVEN_TIME: "exercise written",
    Code.LOAD_UNREADABLE: "written",
    Code.LOAD_WITHOUT_UNIT: "written",
    Code.LOAD_OUT_OF_RANGE: "written",
    Code.LOAD_BASIS: "exercise written basis",
    Code.LOAD_NEEDS_BW: "exercise written",
    Code.LOAD_ON_BAND: "exercise written",
    Code.BW_ADDED_TO_LOADED: "exercise written basis",
    Code.BW_ON_LOADED: "exercise basis",
    Code.LEFT_UNREADABLE: "written",
    Code.REST_UNREADABLE: "written",
    Code.REST_WITHOUT_UNIT: "written",
    Code.TEMPO_UNREADABLE: "written",
    Code.LINK_UNREADABLE: "written",
    Code.PUSH_TO_PULL: "push pull weeks",
    Code.KNEE_TO_HIP: "knee hip weeks",
    Code.LOAD_JUMP: "exercise day from_week from_load to_week to_load cap",
    Code.DAY_EMPTY_IN_WEEK: "day weeks",
    Code.LIMIT_UNDER_BAR: "exercise day left",
}

FACTS: Mapping[str, frozenset[str]] = MappingProxyType(
    {code: frozenset(_FACTS.get(code, "").split()) for code in Code}
)
"""The facts that each code carries, so that its words can be written without looking at the rules."""


def problem(code: Code, place: Place, **facts: object) -> Problem:
    """Return a problem with its severity; facts become text.

    Raises:
        ValueError: The facts are not those that the code is to carry: a bug of ours.
    """
    if facts.keys() != FACTS[code]:
        raise ValueError(f"{code} carries {sorted(FACTS[code])}, not {sorted(facts)}")
    severity = Severity.WARNING if code in WARNINGS else Severity.ERROR
    return Problem(
        code=code.value,
        place=place,
        facts={name: str(fact) for name, fact in facts.items()},
        severity=severity,
    )
