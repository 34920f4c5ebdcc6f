"""Words for what is wrong with a coach's file: where, what, and what would be right. Plain text."""

from collections.abc import Mapping, Sequence
from string import Formatter
from types import MappingProxyType

from core.programme.problems import Place, Problem, Severity

WORDS: Mapping[str, str] = MappingProxyType(
    {
        "file_too_big": "The file has {size_kb} kB; up to {limit_kb} kB is read. "
        "Take out pictures and old sheets and send it again.",
        "file_not_xlsx": '"{name}" is not a spreadsheet that I can read. '
        "Save the block as xlsx and send that file.",
        "file_old_or_locked": '"{name}" is locked with a password or in the old xls format. '
        "Save it as xlsx without a password and send that.",
        "file_damaged": '"{name}" cannot be opened; it may have been cut off. '
        "Open it, save it again as xlsx and send it anew.",
        "file_packed": "The file holds more than is read. "
        "Copy the sheets Block and Sessions into a new file and send that.",
        "too_many_sheets": "{found} sheets; up to {limit} are read. Keep Block and Sessions.",
        "too_many_rows": "{found} rows are used or formatted; up to {limit} are read. "
        "Delete the empty ones at the bottom.",
        "too_many_columns": "{found} columns are used or formatted; up to {limit} are read. "
        "Delete the empty ones at the right.",
        "sheet_missing": 'There is no sheet "{sheet}". Found: {found}.',
        "sheet_not_read": 'The sheet "{name}" was not read; only Block and Sessions are.',
        "label_missing": 'There is no line "{label}". Write it in column A and its value in column B.',
        "label_unknown": '"{written}" is not known here. Known: {known}.',
        "label_twice": '"{written}" stands here again; it was first in row {first_row}. Keep one.',
        "value_beside": '"{written}" stands where nothing is read. Put the value in column B alone.',
        "column_missing": 'There is no column "{column}". Add it to the header row.',
        "column_unknown": '"{written}" is not a column I know. Rename it or take it out. Known: {known}.',
        "column_twice": 'The column "{written}" is there twice. Keep one.',
        "column_unnamed": '"{written}" stands in a column without a heading. Name the column or empty it.',
        "no_rows": "There is no row of a session under the header.",
        "merged": "{cells} are merged. Unmerge them and write the value in each row.",
        "cell_empty": "Nothing is written here.",
        "formula": "{written} is a formula, and formulas are not run. Copy it and paste the value.",
        "cell_error": "The spreadsheet shows the error {written} here. Type the value.",
        "became_date": '"{type}" became a date ({written}). '
        "Type '{type} with an apostrophe in front, or format the column as text and type it again.",
        "became_time": "The spreadsheet made the time {written} of what was typed. "
        "Format the column as text and type it again, a rest as 90 s or 2 min.",
        "text_too_long": "{length} characters; up to {limit} fit on a card.",
        "length_unreadable": '"{written}" is not a number of weeks from 1 to 52.',
        "weekday_unreadable": '"{written}" is not a day of the week. Write Monday, for instance.',
        "unit_unreadable": '"{written}" is not a unit. Write kg or lb.',
        "day_twice": 'The day "{day}" is there twice. Give each session day its own name.',
        "day_unreadable": '"{written}" cannot name a day. '
        "Write names with commas between them: Lower A, Push, Lower B, Pull.",
        "too_many_days": "{found} session days; a week has 7.",
        "day_without_rows": 'The day "{day}" has no row in Sessions.',
        "day_unknown": '"{written}" is not one of the session days: {known}.',
        "order_unreadable": '"{written}" is not a place in a session. '
        "Write A, B, C, or B1 and B2 for a superset.",
        "order_twice": "{order} of {day} is already in row {first_row}, week {weeks}. "
        "Give it another letter or other weeks.",
        "exercise_unknown": '"{written}" is not in the catalogue.',
        "weeks_unreadable": '"{written}" is not weeks. Write 1-3 or 1, 3, 5, or leave it empty for all.',
        "weeks_became_number": "The spreadsheet made the number {written} of what was typed. "
        "Format the column as text and type the weeks again, such as 1, 3.",
        "weeks_outside": "Outside the block, which has {length} weeks: {weeks}.",
        "sets_unreadable": '"{written}" is not a number of sets from 1 to 20.',
        "reps_unreadable": '"{written}" cannot be read as reps or time. Write 8, 8-10, 10 a side, or 30 s.',
        "range_backwards": '"{written}" runs from more to fewer. Write {type}.',
        "timed_given_reps": "{exercise} is counted in seconds. "
        "If {written} means seconds, write the unit: 30 s.",
        "counted_given_time": "{exercise} is counted in reps, and {written} is a time. Write 8 or 8-10.",
        "load_unreadable": '"{written}" cannot be read as a load. '
        "Write 80 kg, 135 lb, bw, bw+5 kg or find, or leave it empty.",
        "load_without_unit": "{written} has no unit. Write {written} kg or {written} lb, "
        "or add a line Unit to the sheet Block.",
        "load_out_of_range": '"{written}" is not a load that anybody lifts. Look for a slip of a digit.',
        "load_basis": '{exercise} is counted {basis}, and "{written}" is not. Write the load {basis}.',
        "load_needs_bw": "{exercise} moves bodyweight. "
        "Write what is added to it, bw+5 kg, or taken off, bw-20 kg, and not {written} alone.",
        "load_on_band": "{exercise} is done with a band. Take out {written} and name the band in Cue.",
        "bw_added_to_loaded": '{exercise} is loaded and counted {basis}, so "{written}" has no meaning. '
        "Write the load alone.",
        "bw_on_loaded": "{exercise} is counted {basis}; bw is taken as no load at all.",
        "left_unreadable": '"{written}" is not reps left. Write one number from 0 to 5.',
        "rest_unreadable": '"{written}" cannot be read as a rest of up to 20 min. Write 90 s, 2 min or 2:30.',
        "rest_without_unit": "{written} has no unit. Write seconds or minutes with it: 90 s, 2 min.",
        "tempo_unreadable": '"{written}" is not a tempo. '
        "Write 3 or 4 digits without dashes, slow lowering first, X for fast: 3110, 30X1.",
        "link_unreadable": '"{written}" is not the address of a page. It begins with https://.',
        "push_to_pull": "Week {weeks}: {push} sets of presses against {pull} of pulls. "
        "Usual is between 2 to 3 and 3 to 2.",
        "knee_to_hip": "Week {weeks}: {knee} sets for the knees against {hip} for the hips. "
        "Usual is between 2 to 3 and 3 to 2.",
        "load_jump": "{exercise} on {day} goes from {from_load} in week {from_week} "
        "to {to_load} in week {to_week}. Your cap from one session to the next is {cap}.",
        "day_empty_in_week": 'The day "{day}" asks for nothing in week {weeks}.',
        "limit_under_bar": "{exercise} on {day} goes to {left} left. "
        "Alone and without safeties 2 or more are kept in hand.",
    }
)
"""A sentence or two for each code; what stands in braces is a fact of the problem."""

LONGEST_QUOTE = 60
"""Most that is quoted of what somebody typed. [characters] Our proposal."""
_TYPED = frozenset({"written", "name", "day", "type"})
_NEAR = " Did you mean {suggestions}?"


def problem_line(problem: Problem) -> str:
    """Return where and what: `Sessions, row 7, Reps (F7): "8 or so" cannot be read as reps or time. …`."""
    where = _where(problem.place)
    said = _sentence(problem)
    return f"{where}: {said}" if where else said


def problems_text(problems: Sequence[Problem], limit: int = 20) -> str:
    """Return at most `limit` problems, a line each, and how many more there are.

    Errors come before warnings, since a warning stops nothing.
    """
    ordered = sorted(problems, key=lambda found: found.severity is Severity.WARNING)
    lines = [problem_line(found) for found in ordered[:limit]]
    more = len(ordered) - len(lines)
    if more > 0:
        lines.append(f"… and {more} more.")
    return "\n".join(lines)


def facts_named(code: str) -> frozenset[str]:
    """Return the facts that the words of a code speak of."""
    words = WORDS[code] + (_NEAR if code == "exercise_unknown" else "")
    return frozenset(name for _, name, _, _ in Formatter().parse(words) if name)


def _sentence(problem: Problem) -> str:
    facts = {name: _shortened(fact) if name in _TYPED else fact for name, fact in problem.facts.items()}
    said = WORDS[problem.code].format_map(facts)
    suggested = problem.facts.get("suggestions")
    if suggested:
        said += _NEAR.format(suggestions=suggested.replace("; ", " or "))
    return said


def _shortened(text: str) -> str:
    return text if len(text) <= LONGEST_QUOTE else f"{text[: LONGEST_QUOTE - 1]}…"


def _where(place: Place) -> str:
    parts = [place.sheet] if place.sheet else []
    if place.row is not None:
        parts.append(f"row {place.row}")
    if place.column is not None:
        parts.append(place.column)
    at = ", ".join(parts)
    return f"{at} ({place.cell})" if place.cell else at
