"""A coach's own exercises from a file of hers: all of them, and a block that names them; or every problem at once.

The same name again changes an exercise of hers, but for how its sets are counted: the log counts them the old way.
"""

from collections.abc import Collection, Mapping, Sequence
from itertools import count
from types import MappingProxyType

from core.policy import Policy
from core.programme import exercise_sheet as heading
from core.programme.catalogue import CATALOGUE
from core.programme.exercise_cells import parts_of
from core.programme.exercise_reading import OWN, RowReading, counting, is_own
from core.programme.exercises import Exercise
from core.programme.folding import folded, words_of
from core.programme.problems import Code, Place, Problem, Severity, problem
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.session_sheet import header_index
from core.programme.sheets import Sheet
from core.programme.table import Row
from core.programme.tabs import BESIDE, TABS
from core.value import Value

LONGEST_KEY = 50
"""Longest key but for a number at its end. [characters] The store keeps 60."""
MOST_OWN = 200
"""Most exercises that a coach adds. Our proposal."""

_POLICY = Policy()


class OwnExercisesFile(Value):
    """A file with exercises of a coach, and perhaps a block that names them.

    Attributes:
        exercises: In the order of the sheet.
        changed: Keys of those that she had before.
        block: What else is in the file.
        warnings: About the sheet of exercises; those of the block are with it.
    """

    exercises: tuple[Exercise, ...]
    changed: tuple[str, ...] = ()
    block: BlockFile | None = None
    warnings: tuple[Problem, ...] = ()


def own_exercises_in(
    sheets: Sequence[Sheet], catalogue: Mapping[str, Exercise] = CATALOGUE, policy: Policy = _POLICY
) -> OwnExercisesFile | list[Problem] | None:
    """Read a file that has a sheet of exercises; None where none has.

    A block beside it may name them. Where a row of theirs is wrong, the block is not blamed for naming it.

    Args:
        sheets: Of one file, in its order.
        catalogue: Exercises that may be named already, the coach's own among them.
        policy: The coach's caps, for the warnings of a block.
    """
    tables = [sheet for sheet in sheets if heading.is_exercise_table(sheet)]
    if not tables:
        return None
    problems: list[Problem] = []
    rows = [row for sheet in tables for row in heading.exercise_rows(sheet, problems)]
    exercises = _exercises(rows, catalogue, problems)
    rest = [sheet for sheet in sheets if sheet not in tables]
    found: BlockFile | list[Problem] | None = None
    if any(_is_of_block(sheet) for sheet in rest):
        found = block_from_sheets(rest, with_own(exercises, catalogue), policy)
    else:
        problems += _unread(rest)
    problems.sort(key=_by_cell)
    if isinstance(found, list) or any(one.severity is Severity.ERROR for one in problems):
        there = _texts(tables)
        of_block = found if isinstance(found, list) else []
        return [*problems, *(one for one in of_block if not problems or not _names(one, there))]
    return OwnExercisesFile(
        exercises=exercises,
        changed=tuple(
            one.key for one in exercises if one.key in catalogue and not catalogue[one.key].retired
        ),
        block=found,
        warnings=tuple(problems),
    )


def with_own(exercises: Sequence[Exercise], catalogue: Mapping[str, Exercise]) -> Mapping[str, Exercise]:
    """Return a catalogue in which these exercises are as they are given here."""
    given = {one.key: one for one in exercises}
    return MappingProxyType({**given, **{key: one for key, one in catalogue.items() if key not in given}})


def _exercises(
    rows: Sequence[Row], catalogue: Mapping[str, Exercise], problems: list[Problem]
) -> tuple[Exercise, ...]:
    """Return those that could be read; all of the names first, since an equal may stand below."""
    readings = [RowReading(row, catalogue, problems) for row in rows]
    again = {reading.before.key for reading in readings if reading.before is not None}
    others = {key: one for key, one in catalogue.items() if key not in again}
    number = len(rows) + sum(is_own(one) and not one.retired for one in others.values())
    if rows and number > MOST_OWN:
        problems.append(
            problem(Code.OWN_TOO_MANY, rows[-1].place(heading.NAME), found=number, limit=MOST_OWN)
        )
        return ()
    taken: dict[str, int] = {}
    drafts: dict[str, tuple[RowReading, Exercise]] = {}
    unread: list[RowReading] = []
    for reading in readings:
        draft = reading.draft(others, taken)
        if draft is None:
            unread.append(reading)
        else:
            key = reading.before.key if reading.before is not None else _new_key(draft, catalogue, drafts)
            drafts[key] = reading, draft.model_copy(update={"key": key})
    known = with_own([draft for _, draft in drafts.values()], others)
    for reading in unread:
        reading.equals(known, taken)
    return tuple(
        draft.model_copy(update={"equals": reading.equals(known, taken, key)})
        for key, (reading, draft) in drafts.items()
    )


def _new_key(draft: Exercise, catalogue: Mapping[str, Exercise], keys: Collection[str]) -> str:
    """Return a key that none has; or that of one taken out before, where its sets are counted the same way."""
    plain = f"{OWN}{'-'.join(words_of(draft.name))}"[:LONGEST_KEY]
    numbered = (plain if number == 1 else f"{plain}-{number}" for number in count(1))
    return next(key for key in numbered if key not in keys and _is_free(key, draft, catalogue))


def _is_free(key: str, draft: Exercise, catalogue: Mapping[str, Exercise]) -> bool:
    there = catalogue.get(key)
    return there is None or (there.retired and counting(there) == counting(draft))


def _is_of_block(sheet: Sheet) -> bool:
    return TABS.named(sheet.name) is not None or header_index(sheet) is not None


def _unread(sheets: Sequence[Sheet]) -> list[Problem]:
    return [
        problem(Code.OWN_SHEET_UNREAD, Place(sheet=sheet.name), name=sheet.name)
        for sheet in sheets
        if sheet.rows and BESIDE.named(sheet.name) is None
    ]


def _texts(tables: Sequence[Sheet]) -> frozenset[str]:
    """Return all that stands in the sheets of exercises, folded; among it every name."""
    cells = (cell for sheet in tables for row in sheet.rows for cell in row.values())
    return frozenset(folded(part) for cell in cells for part in parts_of(cell.text))


def _names(found: Problem, there: frozenset[str]) -> bool:
    """Return whether a problem is that a name is unknown which a row of exercises has, and that row is wrong itself."""
    return found.code == Code.EXERCISE_UNKNOWN and folded(found.facts["written"]) in there


def _by_cell(found: Problem) -> tuple[str, int, int, str]:
    column = (found.place.cell or "").rstrip("0123456789")
    return found.place.sheet or "", found.place.row or 0, len(column), column
