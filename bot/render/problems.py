"""Words for what is wrong with a coach's file: where, what, and what would be right. Plain text."""

from collections.abc import Mapping, Sequence
from string import Formatter
from types import MappingProxyType

from core.programme.problems import FACTS, Code, Place, Problem, Severity

WORDS: Mapping[str, str] = MappingProxyType(
    {
        "file_too_big": "The file has {size_kb} kB; up to {limit_kb} kB is read. "
        "Take out pictures and old sheets and send it again.",
        "file_not_xlsx": '"{name}" is not a spreadsheet that I can read. '
        "Save the block as xlsx or csv and send that file.",
        "file_other_kind": '"{name}" is {kind}, which I do not read. '
        "Save the block as xlsx or csv and send that file.",
        "file_old_or_locked": '"{name}" is locked with a password or in the old xls format. '
        "Save it as xlsx without a password and send that.",
        "file_damaged": '"{name}" cannot be opened; it may have been cut off. '
        "Open it, save it again as xlsx and send it anew.",
        "file_packed": "The file holds more than is read. "
        "Copy the block alone into a new file and send that.",
        "too_many_sheets": "{found} sheets; up to {limit} are read. Keep Block and Sessions.",
        "too_many_rows": "{found} rows are used or formatted; up to {limit} are read. "
        "Delete the empty ones at the bottom.",
        "too_many_columns": "{found} columns are used or formatted; up to {limit} are read. "
        "Delete the empty ones at the right.",
        "quotes_unmatched": "The quotation marks do not match here. "
        'A cell that begins with " must end with one, and a mark inside it is written twice.',
        "table_missing": "There is no table of sessions. It has a row of headings with Day, Order, Exercise, Sets and "
        "Reps. Below it is a row for each exercise.",
        "yaml_broken": "The file cannot be read from here on. Look at indents, colons and quotation marks.",
        "yaml_reference": "Tags, anchors and references are not read. Write it out.",
        "yaml_shape": "{expected} is expected here.",
        "sheet_missing": 'There is no sheet "{sheet}". Found: {found}.',
        "sheet_not_read": 'The sheet "{name}" was not read; only Block and Sessions are.',
        "label_missing": 'There is no line "{label}". Write it in column A and its value in column B.',
        "label_unknown": '"{written}" is not known here. Known: {known}.',
        "label_twice": '"{written}" says again what row {first_row} says. Keep one of the two.',
        "value_beside": '"{written}" stands where nothing is read. Put the value in column B alone.',
        "column_missing": 'There is no column "{column}". Add it to the header row.',
        "column_unknown": '"{written}" is not a column I know. Rename it or take it out. Known: {known}.',
        "column_twice": '"{written}" means the same column as "{first}". Keep one.',
        "column_unnamed": '"{written}" stands in a column without a heading. Name the column or empty it.',
        "no_rows": "There is no row of a session under the header.",
        "rows_hidden": "Hidden rows were read like the others: {rows}.",
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
        "phases_unreadable": '"{written}" is not a phase with its weeks. Write Base: 1-4; Build: 5-8.',
        "phases_overlap": "{first} and {second} are both in week {weeks}. Give each week one phase.",
        "light_and_tested": "Week {weeks} is both a deload week and a testing week. Keep one.",
        "tested_without_rows": "Week {weeks} is for testing, and no row is written for that week alone. "
        "All its rows stand as they are.",
        "target_unreadable": '"{written}" is not a target. Write Hip thrust 120 kg x 5 by week 8.',
        "prep_unreadable": '"{written}" is not a day with its drills. Write Lower A: Ankle rock, Hip switch.',
        "prep_twice": 'The day "{day}" has its prep twice. Put all its drills in one place.',
        "prep_too_long": 'The prep of "{day}" has {found} drills; up to {limit} fit on a card.',
        "drill_unknown": '"{written}" is not a prep drill that I know.',
        "drill_twice": '"{written}" is there twice. Name each drill once.',
        "target_without_rows": "The target for {exercise} is in week {week}, and no row asks for it by then.",
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
        "sets_unreadable": '"{written}" is not sets from 1 to 20. '
        "Write 3, 3 ascending, 1 + 2 descending, 1 rest-pause, or 4 cluster.",
        "descending_steps": '"{written}" leaves open how many sets are at the load. '
        "Write the sets, then the steps down: 1 + 2 descending.",
        "drop_outside": '"{written}": a step down is 5 to 50 %. Usual is 20 %.',
        "pause_outside": '"{written}": a pause inside a set is 5 to 60 s. Longer ones go under Rest.',
        "cluster_without_parts": "A cluster is made of parts. Write them in place of {written}, such as 2+2+2.",
        "parts_without_cluster": "{written} are parts of a cluster. Write 4 cluster or 4 cluster, 15 s under Sets.",
        "parts_twice": "{written} here, and {first} under Sets. Write the parts once.",
        "style_needs_reps": "{style} sets are counted in reps, and {written} is something else.",
        "style_with_open_set": "{style} sets end by themselves, so {written} has no meaning. Write 8, or to 1 left.",
        "descending_on_compound": "{exercise} has descending sets. "
        "They are for machines and work of one joint; tired form is dear on this one.",
        "reps_unreadable": '"{written}" cannot be read as reps or time. '
        "Write 8, 8-10, 8 or more, to 2 left, 10 a side, 30 s or 40 m.",
        "portion_unreadable": '"{written}" cannot be read. '
        "Reps in turn from side to side are written 10 a side in 5s.",
        "portion_uneven": '"{written}" does not come out even in {portion}s. Write 10 a side in 5s, for instance.',
        "metres_or_minutes": '"{written}" may be metres or minutes. Write {number} metres or {number} min.',
        "metres_not_for": "{exercise} is not done over a distance, and {written} is one. Write reps or time.",
        "range_backwards": '"{written}" runs from more to fewer. Write {type}.',
        "timed_given_reps": "{exercise} is counted in seconds. "
        "If {written} means seconds, write the unit: 30 s.",
        "counted_given_time": "{exercise} is counted in reps, and {written} is a time. Write 8 or 8-10.",
        "load_unreadable": '"{written}" cannot be read as a load. '
        "Write 80 kg, 135 lb, bw, bw+5 kg, 75 % of estimate or find, or leave it empty.",
        "load_without_unit": "{written} has no unit. Write {written} kg or {written} lb, "
        "or add a line Unit to the sheet Block.",
        "load_out_of_range": '"{written}" is not a load that anybody lifts. Look for a slip of a digit.',
        "load_basis": '{exercise} is counted {basis}, and "{written}" is not. Write the load {basis}.',
        "load_needs_bw": "{exercise} moves bodyweight. "
        "Write what is added to it, bw+5 kg, or taken off, bw-20 kg, and not {written} alone.",
        "load_on_band": '{exercise} is done with a band, and "{written}" is not one. '
        "Name the band: light band.",
        "load_down": '"{written}" goes down from last time. Write the load itself.',
        "load_or_percent": "The spreadsheet holds {written} here, which may have been {percent} %. "
        "Write {written} kg, or {percent} % of estimate.",
        "percent_of": '"{written}" of what? Write of estimate, the maximum that the log shows, '
        "or of max, the heaviest single in the log.",
        "percent_outside": '"{written}" is not from 30 to 105 %.',
        "percent_on_bodyweight": '{exercise} moves bodyweight, and "{written}" of that is not reckoned yet. '
        "Write what is added: bw+5 kg.",
        "percent_needs_reps": '{exercise} is not counted in reps here, so there is no maximum for "{written}". '
        "Write the load.",
        "band_on_other": '{exercise} is not done with a band, and "{written}" is one. Write a load.',
        "bw_added_to_loaded": '{exercise} is loaded and counted {basis}, so "{written}" has no meaning. '
        "Write the load alone.",
        "bw_on_loaded": "{exercise} is counted {basis}; bw is taken as no load at all.",
        "left_unreadable": '"{written}" is not reps left. Write 2, 1-2, or RPE 8.',
        "left_twice": "{written} here, and {first} under Reps. Write it once.",
        "rpe_too_low": '"{written}" is too easy to say how many reps are left. Write RPE 6 to 10, or reps left.',
        "rest_unreadable": '"{written}" cannot be read as a rest of up to 20 min. Write 90 s, 2 min or 2:30.',
        "rest_without_unit": "{written} has no unit. Write seconds or minutes with it: 90 s, 2 min.",
        "tempo_unreadable": '"{written}" is not a tempo. '
        "Write 3 or 4 digits without dashes, slow lowering first, X for fast: 3110, 30X1.",
        "link_unreadable": '"{written}" is not the address of a page. It begins with https://.',
        "way_unreadable": '"{written}" is not a way up. Write one of: {known}.',
        "way_path_twice": '"{written}" names an exercise twice. Name each once, from easier to harder.',
        "way_path_elsewhere": '{exercise} is not on the path "{written}". Name it there too.',
        "way_against_load": '"{written}" does not go with {load}, which already says how the load goes on. '
        "Leave the way up empty.",
        "way_not_for_cluster": '"{written}" does not go with clusters: their load stays as written. '
        "Leave the way up empty.",
        "way_needs_range": '"{written}" needs a range to add reps in. Write 8-12 under Reps, for instance.',
        "way_needs_fixed": '"{written}" needs one number of reps. With a range write add reps, then load.',
        "way_needs_open": '"{written}" needs an open last set. Write 8 or more under Reps, for instance.',
        "way_with_open_reps": '"{written}" needs reps to judge by, and they are open. Write 8-12, for instance.',
        "way_needs_load": '"{written}" needs a load to change, and {exercise} has none. Write another way up.',
        "way_needs_four_sets": '"{written}" has four sets of its own. Write 4 under Sets, or nothing.',
        "way_needs_its_reps": '"{written}" is for sets of {reps}. Write {reps} under Reps, or nothing.',
        "way_to_the_limit": '"{written}" goes to the limit. Leave Reps left empty.',
        "way_needs_left": '"{written}" needs a number of reps left, and reps to count. Write 2 under Reps left.',
        "last_sheet_unread": 'The sheet "{name}" was not read: it has no headings Client, Exercise and Load.',
        "last_column_unread": '"{written}" was not read.',
        "last_no_rows": "There is no row of a client under the headings.",
        "last_no_load": "{exercise} is done for time or with a band. "
        "Only exercises with a load and reps have a last load.",
        "last_load_unreadable": '"{written}" is not a load that was lifted. Write 80 kg, 135 lb, bw or bw+5 kg.',
        "last_load_unit": "{written} has no unit. Write {written} kg or {written} lb, or add a column Unit.",
        "last_reps_unreadable": '"{written}" is not one number of reps from 1 to 100. Write 8, for instance.',
        "last_row_twice": "The same client, exercise and date as in row {first_row}. Keep one of the two.",
        "last_row_older": "Row {newer_row} has a later date; this one does not count.",
        "date_unreadable": '"{written}" is not a date with its year. Write 2026-04-14 or 14 April 2026.',
        "date_ambiguous": '"{written}" may be two dates. Write {first} or {second}.',
        "date_ahead": "{written} is still to come. Look for a slip in the date.",
        "date_old": "{written} is more than two years ago. Is the year right?",
        "client_unknown": '"{written}" is not a client of yours, nor somebody whom you have invited.',
        "week_unreadable": '"{written}" is not a week of a block. Write 4, for instance.',
        "week_line_unused": '"{label}" is of a block, and this file is one week of one client. Take the line out.',
        "week_elsewhere": "This file is week {week} alone, and here stands week {weeks}. Leave it empty.",
        "week_days_differ": "A changed week keeps the days of the block: {known}.",
        "week_not_to_come": "Week {written} cannot be changed any more. Still to come: {known}.",
        "week_of_no_block": "{client} runs no block now. /assign puts a client on one.",
        "week_of_other_block": '{client} runs {block}, and this is a week of "{written}".',
        "own_sheet_unread": 'The sheet "{name}" was not read. Send it in a file of its own.',
        "own_no_rows": "There is no exercise of yours under the headings. "
        "A row that begins with Example only shows how it is done, and is not read.",
        "own_too_many": "{found} exercises of your own; up to {limit} are kept.",
        "own_name_unreadable": '"{written}" cannot be a name. Write words and numbers, without , ; : < > = " and |.',
        "own_name_ours": '"{written}" is in my list already, as {exercise}, and mine stay as they are. '
        "Use that one, or give yours another name.",
        "own_name_taken": '"{written}" is a name of your {exercise} already. Give this one another.',
        "own_name_twice": '"{written}" is in row {first_row} already. Give one of the two another name.',
        "own_word_unknown": '"{written}" is not known here. Known: {known}.',
        "own_basis": "What is lifted with {implement} is not counted {written}. Write {known}.",
        "own_counted_otherwise": "{exercise} is in the log {was}; {now} would mix the two. Give this one another name.",
        "own_muscle_twice": '"{written}" is under Muscles too. Name it once.',
        "own_yes_or_no": '"{written}" is neither yes nor no.',
        "own_step": '"{written}" is not a step of up to 50 kg. Write 2.5 kg, for instance, or leave it empty.',
        "push_to_pull": "Week {weeks}: {push} sets of presses against {pull} of pulls. "
        "Usual is between 2 to 3 and 3 to 2.",
        "knee_to_hip": "Week {weeks}: {knee} sets for the knees against {hip} for the hips. "
        "Usual is between 2 to 3 and 3 to 2.",
        "load_jump": "{exercise} on {day} goes from {from_load} in week {from_week} "
        "to {to_load} in week {to_week}. Your cap from one session to the next is {cap}.",
        "day_empty_in_week": 'The day "{day}" asks for nothing in week {weeks}.',
        "limit_under_bar": "{exercise} on {day} goes to {left} left. "
        "Alone and without safeties 2 or more are kept in hand.",
        "open_under_bar": "{exercise} on {day} has {how}, with nothing said of when to stop. "
        "Alone and without safeties 2 or more are kept in hand: write 2 under Reps left.",
        "reps_jump": "{exercise} on {day} goes from {from_reps} reps in week {from_week} to {to_reps} "
        "in week {to_week} with no less load. Usual is up to 2 more, or a fifth.",
        "sets_jump": "Week {week} has many more sets than the two weeks before: {muscles}. "
        "Usual is up to {more} more, or {share}.",
        "heavy_close": "With {count} days a week at least {over} of these pairs comes within 48 h, "
        "wherever they are put: {pairs}; week {weeks}.",
        "long_without_deload": "Week {weeks}: {count} weeks without a lighter one. Usual is up to {most}; "
        "people in their first months need none.",
        "target_far": "Out of reach: {target}. From the loads written, with every rise that your caps allow, "
        "the plan comes to {reached}.",
        "muscles_low": "Few sets in week {weeks}: {muscles}. Usual is {least} or more for each.",
        "muscles_high": "Many sets in week {weeks}: {muscles}. Usual is up to {most} for each.",
        "muscles_untrained": "No sets in any week: {muscles}.",
    }
)
"""A sentence or two for each code; what stands in braces is a fact of the problem."""

LONGEST_QUOTE = 60
"""Most that is quoted of what somebody typed. [characters] Our proposal."""
_TYPED = frozenset({"written", "name", "day", "type", "first", "found", "load"})
_NEAR = " Did you mean {suggestions}?"
_SUGGESTING = frozenset(code for code in Code if "suggestions" in FACTS[code])


def problem_line(problem: Problem) -> str:
    """Return where and what: `Sessions, row 7, Reps (F7): "8 or so" cannot be read as reps or time. …`."""
    where = _where(problem.place)
    said = _sentence(problem)
    return f"{where[0].upper()}{where[1:]}: {said}" if where else said


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
    words = WORDS[code] + (_NEAR if code in _SUGGESTING else "")
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
    if place.line is not None:
        parts.append(f"line {place.line}")
    if place.column is not None:
        parts.append(place.column)
    at = ", ".join(parts)
    return f"{at} ({place.cell})" if place.cell else at
