"""Exercises of sessions, as rows: what one is read from, and what it is made of."""

import json
from functools import lru_cache
from typing import Any, NamedTuple

from sqlalchemy import Row, Text, cast

from bot.store.tables import item
from core.checkin.training_log import Item
from core.programme.prescription import Dose, Prescription

ITEM = tuple(
    cast(item.c[name], Text).label(name) if name in ("prescription", "given") else item.c[name]
    for name in (
        "id",
        "session_id",
        "position",
        "exercise",
        "prescription",
        "given",
        "decision_id",
        "state",
        "cause",
        "left_last",
    )
)
"""What was prescribed and given comes as text, so that what was read before is known by it."""


class NewItem(NamedTuple):
    """One exercise of a session; `exercise` differs from the prescription's when it stands in for it."""

    position: int
    exercise: str
    prescription: Prescription
    given: Dose
    decision_id: int
    state: str = "open"
    cause: str | None = None


@lru_cache(maxsize=2048)
def _prescribed(text: str) -> Prescription:
    """Return what a text says: the same few come with every session, and reading one takes longer than this."""
    return Prescription.model_validate(json.loads(text))


@lru_cache(maxsize=2048)
def _dose(text: str) -> Dose:
    return Dose.model_validate(json.loads(text))


def item_from(row: Row[Any]) -> Item:
    """Build an item from a row of `ITEM`."""
    return item_of(tuple(row))


def item_of(values: tuple[Any, ...]) -> Item:
    """Build an item from values in the order of `ITEM`."""
    item_id, session_id, position, exercise, prescription, given, decision_id, state, cause, left_last = (
        values
    )
    return Item(
        item_id,
        session_id,
        position,
        exercise,
        _prescribed(prescription),
        _dose(given),
        decision_id,
        state,
        cause,
        left_last,
    )
