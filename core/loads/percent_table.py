"""The table of reps and percent of the maximum: steps as they are printed, and nothing between them unless asked.

Its steps are uneven, so that no slope is taken of it. Source: [NSCA]; rows 1 to 10 agree in several copies, rows 11, 12
and 15 are from memory. The one-page chart of the same house has 70 % at 12 and no row for 11 ([NSCAChart]); other
copies have 73 % at 11.
"""

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import NamedTuple

from core.loads.one_rep_max import unworn
from core.sources import Mark
from core.units import Mass


class Row(NamedTuple):
    """A row of the table.

    Attributes:
        percent: Of the maximum. [%]
        mark: How the row is known.
        between: True where it is no row, and lies on a straight line between two.
    """

    percent: Decimal
    mark: Mark
    between: bool = False


def _rows(mark: Mark, rows: dict[int, int]) -> dict[int, Row]:
    return {reps: Row(Decimal(percent), mark) for reps, percent in rows.items()}


TABLE: Mapping[int, Row] = MappingProxyType(
    _rows(Mark.SECONDARY, {1: 100, 2: 95, 3: 93, 4: 90, 5: 87, 6: 85, 7: 83, 8: 80, 9: 77, 10: 75})
    | _rows(Mark.MEMORY, {11: 70, 12: 67, 15: 65})
)
"""The rows by reps to failure."""
CHART: Mapping[int, Row] = MappingProxyType(
    {reps: row for reps, row in TABLE.items() if row.mark is Mark.SECONDARY} | _rows(Mark.SECONDARY, {12: 70})
)
"""The rows of the one-page chart, which has another one at 12 reps."""


def row_of(total: int, table: Mapping[int, Row] = TABLE, *, between: bool = False) -> Row | None:
    """Return the row for so many reps to failure; None where there is none.

    Args:
        total: Reps done and left.
        table: Which of the two; never both in one history.
        between: Whether a straight line between two rows will do where there is no row. Its mark is the weaker one's.
    """
    if total in table or not between:
        return table.get(total)
    below = max((reps for reps in table if reps < total), default=None)
    above = min((reps for reps in table if reps > total), default=None)
    if below is None or above is None:
        return None
    low, high = table[below], table[above]
    share = Decimal(total - below) / (above - below)
    mark = Mark.MEMORY if Mark.MEMORY in (low.mark, high.mark) else low.mark
    return Row(low.percent + (high.percent - low.percent) * share, mark, between=True)


def maximum_by_table(load: Mass, total: int, table: Mapping[int, Row] = TABLE) -> Mass | None:
    """Return the maximum that a load lifted `total` times stands for; None where the table has no such row."""
    row = row_of(total, table)
    return None if row is None else unworn(load / (row.percent / 100))


def load_by_table(maximum: Mass, total: int, table: Mapping[int, Row] = TABLE) -> Mass | None:
    """Return the load for `total` reps to failure; None where the table has no such row."""
    row = row_of(total, table)
    return None if row is None else unworn(maximum * (row.percent / 100))
