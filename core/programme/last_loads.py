"""Last loads, as a coach knows them: who lifted what last, for how many reps, and when.

They are the starting history of people who have trained before. Which of the names on a sheet is a client, and whether
a date is over, only the caller knows: `problems_with` says what is wrong with those. The sheet itself is read in
`core.programme.last_load_sheet`.
"""

from collections.abc import Sequence
from datetime import date, timedelta

from pydantic import Field
from rapidfuzz import fuzz, process

from core.programme.folding import folded
from core.programme.prescription import Load
from core.programme.problems import Code, Place, Problem, problem
from core.value import Value

SHEET = "Last loads"
CLIENT, EXERCISE, LOAD, REPS, DATE, UNIT = "Client", "Exercise", "Load", "Reps", "Date", "Unit"
COLUMNS = (CLIENT, EXERCISE, LOAD, REPS, DATE, UNIT)
"""Headings as they are to be written, in any order."""
NEEDED = (CLIENT, EXERCISE, LOAD, REPS, DATE)
"""Columns that no row can do without."""

MOST_REPS = 100
"""Most reps of a last load. [reps] Our proposal."""
OLD = timedelta(days=730)
"""Age from which a date is asked about: a slip of the year is likelier. Our proposal."""
AHEAD = timedelta(days=1)
"""How far after the coach's own date a date may lie: a client's clock may be ahead of hers. Our proposal."""
LIKE = 60
"""Least likeness of a client's name that is suggested. [0..100] Our proposal."""


class LastLoad(Value):
    """What somebody lifted last in an exercise.

    Attributes:
        exercise: Key in the catalogue.
        load: In the exercise's basis: a mass, bodyweight, a band.
        reps: With it. [1..100]
        on: When.
    """

    exercise: str
    load: Load
    reps: int = Field(ge=1, le=MOST_REPS)
    on: date


class LastLoadRow(Value):
    """A row of the sheet, as far as it could be read.

    Attributes:
        client: Whose, as written.
        exercise: Key in the catalogue.
        on: When.
        load: What it says, where all of it could be read.
        places: Where each cell of the row stands, by heading.
    """

    client: str | None
    exercise: str | None
    on: date | None
    load: LastLoad | None
    places: dict[str, Place]


class LastLoadsFile(Value):
    """A sheet of last loads.

    Attributes:
        rows: In order.
        problems: All that is wrong with it by itself.
    """

    rows: tuple[LastLoadRow, ...]
    problems: tuple[Problem, ...] = ()


def problems_with(file: LastLoadsFile, today: date, people: Sequence[str]) -> tuple[Problem, ...]:
    """Return everything that is wrong with a sheet: by itself, with its names and its dates, and row against row.

    Args:
        file: As read.
        today: The coach's date.
        people: Names of her clients and of those whom she has invited.
    """
    found = list(file.problems)
    for row in file.rows:
        if row.client is not None and person_named(row.client, people) is None:
            facts = {"written": row.client, "suggestions": "; ".join(people_like(row.client, people))}
            found.append(problem(Code.CLIENT_UNKNOWN, row.places[CLIENT], **facts))
        if row.on is not None and row.on > today + AHEAD:
            found.append(problem(Code.DATE_AHEAD, row.places[DATE], written=row.on.isoformat()))
        if row.on is not None and row.on < today - OLD:
            found.append(problem(Code.DATE_OLD, row.places[DATE], written=row.on.isoformat()))
    return tuple(sorted([*found, *_twice(file)], key=_by_place))


def newest_rows(file: LastLoadsFile) -> tuple[LastLoadRow, ...]:
    """Return the rows that count: of each client and exercise the one with the latest date, in their order."""
    newest: dict[tuple[str, str], date] = {}
    for row in file.rows:
        if (key := _key(row)) is not None and row.on is not None:
            newest[key] = max(newest.get(key, row.on), row.on)
    return tuple(row for row in file.rows if (key := _key(row)) is not None and newest[key] == row.on)


def person_named(written: str, people: Sequence[str]) -> str | None:
    """Return the one name that `written` is, however it is spelt in case and accents; None for none and for two."""
    found = [name for name in people if folded(name) == folded(written)]
    return found[0] if len(found) == 1 else None


def people_like(written: str, people: Sequence[str]) -> tuple[str, ...]:
    """Return at most three names that are like `written`, likest first."""
    likest = process.extract(
        written, people, scorer=fuzz.WRatio, processor=folded, limit=3, score_cutoff=LIKE
    )
    return tuple(name for name, _, _ in likest)


def _key(row: LastLoadRow) -> tuple[str, str] | None:
    if row.client is None or row.exercise is None or row.on is None:
        return None
    return folded(row.client), row.exercise


def _twice(file: LastLoadsFile) -> list[Problem]:
    """Return what two rows say of one client and exercise: twice for one date, or an older date beside a newer."""
    found, first = [], dict[tuple[tuple[str, str], date], LastLoadRow]()
    newest = {_key(row): row for row in newest_rows(file)}
    for row in file.rows:
        key = _key(row)
        if key is None or row.on is None:
            continue
        place, before = row.places[EXERCISE], first.setdefault((key, row.on), row)
        if before is not row:
            found.append(problem(Code.LAST_ROW_TWICE, place, first_row=before.places[EXERCISE].row))
        elif newest[key].on != row.on:
            found.append(problem(Code.LAST_ROW_OLDER, place, newer_row=newest[key].places[EXERCISE].row))
    return found


def _by_place(found: Problem) -> tuple[str, int, int, str]:
    column = (found.place.cell or "").rstrip("0123456789")
    return found.place.sheet or "", found.place.row or 0, len(column), column
