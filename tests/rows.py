"""A table as one test: every row is tried, and the failure names each row that does not hold.

For pure functions, whose rows share nothing. Rows as tests of their own (`pytest.mark.parametrize`) cost more than what
they try: each is collected by every worker, set up, and reported.
"""

import inspect
from collections.abc import Callable, Iterable
from functools import wraps
from typing import Any

import pytest

FAULTS = (Exception, pytest.fail.Exception)
SHOWN = 200
"""Characters of a row that failed, after its number from 0, that name it."""


class RowsFailed(AssertionError):
    """Rows that do not hold."""

    def __init__(self, failed: dict[str, BaseException], tried: int) -> None:
        super().__init__(failed, tried)
        self.failed, self.tried = failed, tried

    def __str__(self) -> str:
        said = [f"{len(self.failed)} of {self.tried} rows failed"]
        for row, fault in self.failed.items():
            said.append(f"\n[{row}]\n{type(fault).__name__}: {fault}")
        return "\n".join(said)


def each_row(names: str | tuple[str, ...], rows: Iterable[Any]) -> Callable[[Any], Any]:
    """Try a test with each of some rows, as one test; stacked, with each row of one beside each of the other.

    Args:
        names: What the test calls what is in a row: one name, or several.
        rows: A value for each name, or, with one name, the value itself.

    Raises:
        ValueError: There is no row, so that nothing would be tried.
        TypeError: The test is a coroutine, which nobody would wait for.
    """
    table = list(rows)
    if not table:
        raise ValueError(f"no rows of {names}")

    def over(test: Callable[..., None]) -> Callable[..., None]:
        if inspect.iscoroutinefunction(test):
            raise TypeError(f"{test.__name__} would never be waited for")

        @wraps(test)
        def tried(**shared: Any) -> None:
            failed: dict[str, BaseException] = {}
            for number, row in enumerate(table):
                given = {names: row} if isinstance(names, str) else dict(zip(names, row, strict=True))
                try:
                    test(**shared, **given)
                except FAULTS as fault:
                    failed[f"{number}: {', '.join(map(repr, given.values())):.{SHOWN}}"] = fault
            if failed:
                raise RowsFailed(failed, len(table)) from next(iter(failed.values()))

        # What a row gives, pytest need not: the rest are fixtures that all rows share, or rows of another table.
        asked = inspect.signature(test)
        left = [each for name, each in asked.parameters.items() if name not in names_of(names)]
        tried.__signature__ = asked.replace(parameters=left)  # type: ignore[attr-defined]
        return tried

    return over


def names_of(names: str | tuple[str, ...]) -> tuple[str, ...]:
    """Return the names as several, however many they are."""
    return (names,) if isinstance(names, str) else names
