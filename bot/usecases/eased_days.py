"""Days on which an exercise was eased by a coach's order, or was in a lighter week by one."""

from collections.abc import Collection
from datetime import date

from bot.store.orders import KeptOrder
from bot.store.units import Unit
from core.loads.order import OrderKind
from core.programme.exercises import Exercise


def eased_on(
    client_id: int, exercise: Exercise, days: Collection[date], unit: Unit
) -> tuple[frozenset[date], frozenset[date]]:
    """Return the days on which an exercise was eased by an order, and those on which it was in a lighter week by one.

    An order that was taken back after them counts too.
    """
    eases = [
        kept
        for kept in unit.orders.history(client_id)
        if kept.kind == OrderKind.EASE and kept.value.bears_on(exercise)
    ]
    lighter = [each for each in eases if each.value.deload]
    others = [each for each in eases if not each.value.deload]
    return _days_of(others, days), _days_of(lighter, days)


def _days_of(orders: Collection[KeptOrder], days: Collection[date]) -> frozenset[date]:
    used = {each.until_on for each in orders if each.until_on is not None and each.voided_at is None}
    dated = [each for each in orders if each.dated]
    return frozenset(
        day
        for day in days
        if day in used
        or any(
            each.value.stands(day) and (each.voided_at is None or each.voided_at.date() > day)
            for each in dated
        )
    )
