"""The heaviest load of each exercise in each session, added up by the database: a row an item, not a row a set."""

from collections import defaultdict
from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, Select, and_, func, select

from bot.store.rows import not_by
from bot.store.sets import load_of
from bot.store.tables import item, logged_set, session
from core.oversight.facts import Lifted
from core.programme.prescription import Load

COUNTED = ("reps", "seconds", "metres")
"""What sets are counted in, the first that is asked for."""


def top_loads(
    connection: Connection, coach_id: int, first: date, client_id: int | None = None
) -> dict[int, tuple[Lifted, ...]]:
    """Return the heaviest load of each exercise in each session from a date on, by client: of one or of all.

    Oldest first.
    """
    which = [*whose(coach_id, client_id), session.c.local_on >= first, logged_set.c.voided_at.is_(None)]
    loads: dict[int, list[Load]] = defaultdict(list)
    known: dict[tuple[Any, ...], Load | None] = {}
    for row in connection.execute(_loads(which)):
        written = (row.load_kind, row.load, row.unit)
        if written not in known:
            known[written] = load_of(row)
        if (load := known[written]) is not None:
            loads[row.item_id].append(load)
    found: dict[int, list[Lifted]] = defaultdict(list)
    for row in connection.execute(_items(which)):
        if mine := loads.get(row.item_id):
            found[row.client_id].append(_lifted(row, mine))
    return {key: tuple(each) for key, each in found.items()}


def whose(coach_id: int, client_id: int | None) -> tuple[ColumnElement[bool], ...]:
    """Return what keeps sessions of one of a coach's clients, or of all."""
    if client_id is None:
        return (session.c.coach_id == coach_id,)
    return (session.c.client_id == client_id, not_by(session.c.coach_id) == coach_id)


def _loads(which: Sequence[ColumnElement[bool]]) -> Select[Any]:
    """Select the loads that something was moved with, by item, the first that was logged first."""
    sets = logged_set.c
    moved = and_(*(func.coalesce(sets[name], 1) != 0 for name in COUNTED))
    return (
        select(sets.item_id, sets.load_kind, sets.load, sets.unit)
        .join(item, item.c.id == sets.item_id)
        .join(session, session.c.id == item.c.session_id)
        .where(*which, moved, sets.load_kind.is_not(None))
        .group_by(sets.item_id, sets.load_kind, sets.load, sets.unit)
        .order_by(func.min(sets.id))
    )


def _items(which: Sequence[ColumnElement[bool]]) -> Select[Any]:
    """Select what was asked for of each item that has sets, and how many sets were done with how little."""
    sets, given = logged_set.c, item.c.given
    return (
        select(session.c.client_id, session.c.id.label("session_id"), session.c.local_on)
        .add_columns(item.c.id.label("item_id"), item.c.exercise, given["sets"].as_integer().label("asked"))
        .add_columns(func.count(sets.set_no.distinct()).label("done"), func.count().label("sets"))
        .add_columns(*(given[(name, "low")].as_integer().label(f"{name}_asked") for name in COUNTED))
        .add_columns(*(func.count(sets[name]).label(f"{name}_said") for name in COUNTED))
        .add_columns(*(func.min(sets[name]).label(f"{name}_least") for name in COUNTED))
        .join(item, item.c.session_id == session.c.id)
        .join(logged_set, sets.item_id == item.c.id)
        .where(*which)
        .group_by(session.c.id, item.c.id)
        .order_by(session.c.local_on, session.c.id, item.c.position)
    )


def _lifted(row: Row[Any], loads: Sequence[Load]) -> Lifted:
    counted = next((name for name in COUNTED if getattr(row, f"{name}_asked") is not None), None)
    full = (
        counted is not None
        and len(set(loads)) == 1
        and row.done >= row.asked
        and getattr(row, f"{counted}_said") == row.sets
        and getattr(row, f"{counted}_least") >= getattr(row, f"{counted}_asked")
    )
    return Lifted(
        exercise=row.exercise,
        on=row.local_on,
        session_id=row.session_id,
        load=max(loads, key=lambda load: load.mass.kg if load.mass is not None else Decimal(0)),
        full=full,
    )
