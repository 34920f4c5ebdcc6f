"""What is wrong with a coach's file: codes with facts and a place, never sentences."""

from enum import StrEnum

from core.programme.problem_codes import FACTS, WARNINGS, Code
from core.value import Value

__all__ = ["FACTS", "WARNINGS", "Code", "Place", "Problem", "Severity", "problem"]


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
        line: Line of a text file that has no rows, from 1.
    """

    sheet: str | None = None
    row: int | None = None
    column: str | None = None
    cell: str | None = None
    line: int | None = None


class Problem(Value):
    """One thing that is wrong. `bot.render.problems` has the words for each code."""

    code: str
    place: Place = Place()
    facts: dict[str, str] = {}  # noqa: RUF012 - pydantic copies a default for each value
    severity: Severity = Severity.ERROR


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
