"""What is lighter after a break, and why: said before the first session back."""

from core.loads.comeback import ROWS, Row

COACH_ROW = ROWS[-1]


def row_of(days: int, *, older: bool = False) -> Row | None:
    """Return the row of the table for so many days without training; None where sets and loads stay as they were.

    From 60 on it is read one row lower.
    """
    place = sum(days >= row.days for row in ROWS)
    place = min(place + 1, len(ROWS)) if older and place else place
    row = ROWS[place - 1] if place else None
    return row if row is not None and row.sets else None


def comeback_words(days: int, *, older: bool = False) -> str:
    """Say in plain words what so many days without training change; empty where they change nothing. [days]"""
    row = row_of(days, older=older)
    if row is None:
        return ""
    share, sets = int(row.loads[0] * 100), int(row.sets[0] * 100)
    if row is COACH_ROW:
        return (
            f"{days} days without training. What you lifted before begins at {share} % at most, with about half the "
            "sets, until your coach sets the way back. After so long muscles and tendons need time."
        )
    return (
        f"{days} days without training. What you lifted before comes back in {len(row.loads)} sessions: the first at "
        f"about {share} % of the load, with about {sets} % of the sets. Muscles and tendons need that time."
    )
