"""Every code that a problem of a coach's file may have, which of them only warn, and the facts that each carries."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType


class Code(StrEnum):
    """Every code a problem of a block's file may have."""

    # The file as a whole.
    FILE_TOO_BIG = "file_too_big"
    FILE_NOT_XLSX = "file_not_xlsx"
    FILE_OTHER_KIND = "file_other_kind"
    FILE_OLD_OR_LOCKED = "file_old_or_locked"
    FILE_DAMAGED = "file_damaged"
    FILE_PACKED = "file_packed"
    TOO_MANY_SHEETS = "too_many_sheets"
    TOO_MANY_ROWS = "too_many_rows"
    TOO_MANY_COLUMNS = "too_many_columns"
    QUOTES_UNMATCHED = "quotes_unmatched"
    TABLE_MISSING = "table_missing"
    YAML_BROKEN = "yaml_broken"
    YAML_REFERENCE = "yaml_reference"
    YAML_SHAPE = "yaml_shape"
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
    ROWS_HIDDEN = "rows_hidden"
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
    PHASES_UNREADABLE = "phases_unreadable"
    PHASES_OVERLAP = "phases_overlap"
    LIGHT_AND_TESTED = "light_and_tested"
    TESTED_WITHOUT_ROWS = "tested_without_rows"
    TARGET_UNREADABLE = "target_unreadable"
    PREP_UNREADABLE = "prep_unreadable"
    PREP_TWICE = "prep_twice"
    PREP_TOO_LONG = "prep_too_long"
    DRILL_UNKNOWN = "drill_unknown"
    DRILL_TWICE = "drill_twice"
    TARGET_WITHOUT_ROWS = "target_without_rows"
    # A row of a session.
    DAY_UNKNOWN = "day_unknown"
    ORDER_UNREADABLE = "order_unreadable"
    ORDER_TWICE = "order_twice"
    EXERCISE_UNKNOWN = "exercise_unknown"
    WEEKS_UNREADABLE = "weeks_unreadable"
    WEEKS_BECAME_NUMBER = "weeks_became_number"
    WEEKS_OUTSIDE = "weeks_outside"
    SETS_UNREADABLE = "sets_unreadable"
    DESCENDING_STEPS = "descending_steps"
    DROP_OUTSIDE = "drop_outside"
    PAUSE_OUTSIDE = "pause_outside"
    CLUSTER_WITHOUT_PARTS = "cluster_without_parts"
    PARTS_WITHOUT_CLUSTER = "parts_without_cluster"
    PARTS_TWICE = "parts_twice"
    STYLE_NEEDS_REPS = "style_needs_reps"
    STYLE_WITH_OPEN_SET = "style_with_open_set"
    DESCENDING_ON_COMPOUND = "descending_on_compound"
    REPS_UNREADABLE = "reps_unreadable"
    PORTION_UNREADABLE = "portion_unreadable"
    PORTION_UNEVEN = "portion_uneven"
    METRES_OR_MINUTES = "metres_or_minutes"
    METRES_NOT_FOR = "metres_not_for"
    RANGE_BACKWARDS = "range_backwards"
    TIMED_GIVEN_REPS = "timed_given_reps"
    COUNTED_GIVEN_TIME = "counted_given_time"
    LOAD_UNREADABLE = "load_unreadable"
    LOAD_WITHOUT_UNIT = "load_without_unit"
    LOAD_OUT_OF_RANGE = "load_out_of_range"
    LOAD_BASIS = "load_basis"
    LOAD_NEEDS_BW = "load_needs_bw"
    LOAD_ON_BAND = "load_on_band"
    LOAD_DOWN = "load_down"
    LOAD_OR_PERCENT = "load_or_percent"
    PERCENT_OF = "percent_of"
    PERCENT_OUTSIDE = "percent_outside"
    PERCENT_ON_BODYWEIGHT = "percent_on_bodyweight"
    PERCENT_NEEDS_REPS = "percent_needs_reps"
    BAND_ON_OTHER = "band_on_other"
    BW_ADDED_TO_LOADED = "bw_added_to_loaded"
    BW_ON_LOADED = "bw_on_loaded"
    LEFT_UNREADABLE = "left_unreadable"
    LEFT_TWICE = "left_twice"
    RPE_TOO_LOW = "rpe_too_low"
    REST_UNREADABLE = "rest_unreadable"
    REST_WITHOUT_UNIT = "rest_without_unit"
    TEMPO_UNREADABLE = "tempo_unreadable"
    LINK_UNREADABLE = "link_unreadable"
    WAY_UNREADABLE = "way_unreadable"
    WAY_PATH_TWICE = "way_path_twice"
    WAY_PATH_ELSEWHERE = "way_path_elsewhere"
    WAY_AGAINST_LOAD = "way_against_load"
    WAY_NOT_FOR_CLUSTER = "way_not_for_cluster"
    WAY_NEEDS_RANGE = "way_needs_range"
    WAY_NEEDS_FIXED = "way_needs_fixed"
    WAY_NEEDS_OPEN = "way_needs_open"
    WAY_NEEDS_LEFT = "way_needs_left"
    WAY_WITH_OPEN_REPS = "way_with_open_reps"
    WAY_NEEDS_LOAD = "way_needs_load"
    WAY_NEEDS_FOUR_SETS = "way_needs_four_sets"
    WAY_NEEDS_ITS_REPS = "way_needs_its_reps"
    WAY_TO_THE_LIMIT = "way_to_the_limit"
    # Last loads.
    LAST_SHEET_UNREAD = "last_sheet_unread"
    LAST_COLUMN_UNREAD = "last_column_unread"
    LAST_NO_ROWS = "last_no_rows"
    LAST_NO_LOAD = "last_no_load"
    LAST_LOAD_UNREADABLE = "last_load_unreadable"
    LAST_LOAD_UNIT = "last_load_unit"
    LAST_REPS_UNREADABLE = "last_reps_unreadable"
    LAST_ROW_TWICE = "last_row_twice"
    LAST_ROW_OLDER = "last_row_older"
    DATE_UNREADABLE = "date_unreadable"
    DATE_AMBIGUOUS = "date_ambiguous"
    DATE_AHEAD = "date_ahead"
    DATE_OLD = "date_old"
    CLIENT_UNKNOWN = "client_unknown"
    # One week of one client.
    WEEK_UNREADABLE = "week_unreadable"
    WEEK_LINE_UNUSED = "week_line_unused"
    WEEK_ELSEWHERE = "week_elsewhere"
    WEEK_DAYS_DIFFER = "week_days_differ"
    WEEK_NOT_TO_COME = "week_not_to_come"
    WEEK_OF_NO_BLOCK = "week_of_no_block"
    WEEK_OF_OTHER_BLOCK = "week_of_other_block"
    # A coach's own exercises.
    OWN_SHEET_UNREAD = "own_sheet_unread"
    OWN_NO_ROWS = "own_no_rows"
    OWN_TOO_MANY = "own_too_many"
    OWN_NAME_UNREADABLE = "own_name_unreadable"
    OWN_NAME_OURS = "own_name_ours"
    OWN_NAME_TAKEN = "own_name_taken"
    OWN_NAME_TWICE = "own_name_twice"
    OWN_WORD_UNKNOWN = "own_word_unknown"
    OWN_BASIS = "own_basis"
    OWN_COUNTED_OTHERWISE = "own_counted_otherwise"
    OWN_MUSCLE_TWICE = "own_muscle_twice"
    OWN_YES_OR_NO = "own_yes_or_no"
    OWN_STEP = "own_step"
    # The block as a whole.
    PUSH_TO_PULL = "push_to_pull"
    KNEE_TO_HIP = "knee_to_hip"
    LOAD_JUMP = "load_jump"
    DAY_EMPTY_IN_WEEK = "day_empty_in_week"
    LIMIT_UNDER_BAR = "limit_under_bar"
    OPEN_UNDER_BAR = "open_under_bar"
    REPS_JUMP = "reps_jump"
    SETS_JUMP = "sets_jump"
    HEAVY_CLOSE = "heavy_close"
    LONG_WITHOUT_DELOAD = "long_without_deload"
    TARGET_FAR = "target_far"
    MUSCLES_LOW = "muscles_low"
    MUSCLES_HIGH = "muscles_high"
    MUSCLES_UNTRAINED = "muscles_untrained"


WARNINGS = frozenset(
    {
        Code.SHEET_NOT_READ,
        Code.ROWS_HIDDEN,
        Code.OWN_SHEET_UNREAD,
        Code.LAST_SHEET_UNREAD,
        Code.LAST_COLUMN_UNREAD,
        Code.LAST_ROW_OLDER,
        Code.DATE_OLD,
        Code.BW_ON_LOADED,
        Code.DESCENDING_ON_COMPOUND,
        Code.TESTED_WITHOUT_ROWS,
        Code.TARGET_WITHOUT_ROWS,
        Code.PUSH_TO_PULL,
        Code.KNEE_TO_HIP,
        Code.LOAD_JUMP,
        Code.DAY_EMPTY_IN_WEEK,
        Code.LIMIT_UNDER_BAR,
        Code.OPEN_UNDER_BAR,
        Code.REPS_JUMP,
        Code.SETS_JUMP,
        Code.HEAVY_CLOSE,
        Code.LONG_WITHOUT_DELOAD,
        Code.TARGET_FAR,
        Code.MUSCLES_LOW,
        Code.MUSCLES_HIGH,
        Code.MUSCLES_UNTRAINED,
    }
)
"""Codes that do not stop a block."""

_FACTS: Mapping[Code, str] = {
    Code.FILE_TOO_BIG: "size_kb limit_kb",
    Code.FILE_NOT_XLSX: "name",
    Code.FILE_OTHER_KIND: "name kind",
    Code.FILE_OLD_OR_LOCKED: "name",
    Code.FILE_DAMAGED: "name",
    Code.FILE_PACKED: "",
    Code.TOO_MANY_SHEETS: "found limit",
    Code.TOO_MANY_ROWS: "found limit",
    Code.TOO_MANY_COLUMNS: "found limit",
    Code.QUOTES_UNMATCHED: "",
    Code.TABLE_MISSING: "",
    Code.YAML_BROKEN: "",
    Code.YAML_REFERENCE: "",
    Code.YAML_SHAPE: "expected",
    Code.SHEET_MISSING: "sheet found suggestions",
    Code.SHEET_NOT_READ: "name",
    Code.LABEL_MISSING: "label",
    Code.LABEL_UNKNOWN: "written known suggestions",
    Code.LABEL_TWICE: "written first_row",
    Code.COLUMN_MISSING: "column",
    Code.COLUMN_UNKNOWN: "written known suggestions",
    Code.COLUMN_TWICE: "written first",
    Code.NO_ROWS: "",
    Code.ROWS_HIDDEN: "rows",
    Code.MERGED: "cells",
    Code.CELL_EMPTY: "",
    Code.BECAME_DATE: "written type",
    Code.TEXT_TOO_LONG: "length limit",
    Code.DAY_TWICE: "day",
    Code.TOO_MANY_DAYS: "found",
    Code.DAY_WITHOUT_ROWS: "day",
    Code.PHASES_OVERLAP: "first second weeks",
    Code.LIGHT_AND_TESTED: "weeks",
    Code.TESTED_WITHOUT_ROWS: "weeks",
    Code.TARGET_WITHOUT_ROWS: "exercise week",
    Code.PREP_TWICE: "day",
    Code.PREP_TOO_LONG: "day found limit",
    Code.DRILL_UNKNOWN: "written suggestions",
    Code.DAY_UNKNOWN: "written known",
    Code.ORDER_TWICE: "order day weeks first_row",
    Code.EXERCISE_UNKNOWN: "written suggestions",
    Code.WEEKS_OUTSIDE: "weeks length",
    Code.PARTS_TWICE: "written first",
    Code.STYLE_NEEDS_REPS: "written style",
    Code.STYLE_WITH_OPEN_SET: "written style",
    Code.DESCENDING_ON_COMPOUND: "exercise",
    Code.PORTION_UNEVEN: "written portion",
    Code.METRES_OR_MINUTES: "written number",
    Code.METRES_NOT_FOR: "exercise written",
    Code.RANGE_BACKWARDS: "written type",
    Code.TIMED_GIVEN_REPS: "exercise written",
    Code.COUNTED_GIVEN_TIME: "exercise written",
    Code.LOAD_BASIS: "exercise written basis",
    Code.LOAD_NEEDS_BW: "exercise written",
    Code.LOAD_ON_BAND: "exercise written",
    Code.LOAD_OR_PERCENT: "written percent",
    Code.PERCENT_ON_BODYWEIGHT: "exercise written",
    Code.PERCENT_NEEDS_REPS: "exercise written",
    Code.BAND_ON_OTHER: "exercise written",
    Code.BW_ADDED_TO_LOADED: "exercise written basis",
    Code.BW_ON_LOADED: "exercise basis",
    Code.LEFT_TWICE: "written first",
    Code.WAY_UNREADABLE: "written known",
    Code.WAY_PATH_ELSEWHERE: "written exercise",
    Code.WAY_AGAINST_LOAD: "written load",
    Code.WAY_NEEDS_LOAD: "written exercise",
    Code.WAY_NEEDS_ITS_REPS: "written reps",
    Code.LAST_SHEET_UNREAD: "name",
    Code.LAST_COLUMN_UNREAD: "written suggestions",
    Code.LAST_NO_ROWS: "",
    Code.LAST_NO_LOAD: "exercise",
    Code.LAST_ROW_TWICE: "first_row",
    Code.LAST_ROW_OLDER: "newer_row",
    Code.DATE_AMBIGUOUS: "written first second",
    Code.CLIENT_UNKNOWN: "written suggestions",
    Code.WEEK_LINE_UNUSED: "label",
    Code.WEEK_ELSEWHERE: "weeks week",
    Code.WEEK_DAYS_DIFFER: "known",
    Code.WEEK_NOT_TO_COME: "written known",
    Code.WEEK_OF_NO_BLOCK: "client",
    Code.WEEK_OF_OTHER_BLOCK: "written client block",
    Code.OWN_SHEET_UNREAD: "name",
    Code.OWN_NO_ROWS: "",
    Code.OWN_TOO_MANY: "found limit",
    Code.OWN_NAME_OURS: "written exercise",
    Code.OWN_NAME_TAKEN: "written exercise",
    Code.OWN_NAME_TWICE: "written first_row",
    Code.OWN_WORD_UNKNOWN: "written known suggestions",
    Code.OWN_BASIS: "written implement known",
    Code.OWN_COUNTED_OTHERWISE: "exercise was now",
    Code.PUSH_TO_PULL: "push pull weeks",
    Code.KNEE_TO_HIP: "knee hip weeks",
    Code.LOAD_JUMP: "exercise day from_week from_load to_week to_load cap",
    Code.DAY_EMPTY_IN_WEEK: "day weeks",
    Code.LIMIT_UNDER_BAR: "exercise day left",
    Code.OPEN_UNDER_BAR: "exercise day how",
    Code.REPS_JUMP: "exercise day from_week from_reps to_week to_reps",
    Code.SETS_JUMP: "week muscles more share",
    Code.HEAVY_CLOSE: "count over pairs weeks",
    Code.LONG_WITHOUT_DELOAD: "weeks count most",
    Code.TARGET_FAR: "target reached",
    Code.MUSCLES_LOW: "muscles weeks least",
    Code.MUSCLES_HIGH: "muscles weeks most",
    Code.MUSCLES_UNTRAINED: "muscles",
}
"""Facts of each code; those that are not named carry `written` alone."""

FACTS: Mapping[str, frozenset[str]] = MappingProxyType(
    {code: frozenset(_FACTS.get(code, "written").split()) for code in Code}
)
"""The facts that each code carries, so that its words can be written without looking at the rules."""
