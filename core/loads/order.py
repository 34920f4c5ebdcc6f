"""What a coach has ordered beside the block: eased, paused, a load of hers, nothing heavier, a raise agreed to.

An order stands over the block and the log, and under a stop sign, a clinician's limits and pain. What it asks for is
one ceiling among the others, of which the lowest wins: it may always lower, and it raises only where nothing else is in
the way.
"""

from collections.abc import Iterable
from datetime import date, datetime
from enum import StrEnum
from typing import ClassVar

from pydantic import Field

from core.checkin.pain import Band, PainReport, band, flares, loads_site
from core.programme.exercises import Exercise, Site
from core.units import Mass
from core.value import Grown


class OrderKind(StrEnum):
    """What is ordered."""

    EASE = "ease"
    """One session lighter and shorter, or a lighter week."""
    PAUSE = "pause"
    """An exercise left out until the coach takes it up again."""
    LOAD = "load"
    """A load of the coach's for an exercise: this one, and nothing over it."""
    HOLD = "hold"
    """Nothing rises."""
    AGREED = "agreed"
    """A raise over her size, up to a load, that she has agreed to."""
    FULL = "full"
    """A planned lighter week taken out: the usual sets and the load now, nothing heavier."""
    SWAP = "swap"
    """Another exercise in place of one; it is kept with the block."""
    REST = "rest"
    """A session that the coach has called off."""
    RESTRICT = "restrict"
    """What a client must not do, until a day."""


ABOUT_LOADS = frozenset(
    {OrderKind.EASE, OrderKind.PAUSE, OrderKind.LOAD, OrderKind.HOLD, OrderKind.AGREED, OrderKind.FULL}
)
"""Orders that decisions on loads rest on."""


class CoachOrder(Grown):
    """One order that stands.

    Attributes:
        row_id: Row it is kept in.
        kind: What is ordered.
        exercise: Key of the exercise it is about, if one.
        site: Site of which all that loads it is meant, if one; with neither, everything is.
        percent: How much lighter. [%] Our proposal: 10 to 20.
        mass: The load, or the most that is agreed to, counted as the exercise is.
        from_on: The client's first local date on which it holds; None for at once.
        until: The last one; None while it stands.
        at: When it was given; None for those that were given before it mattered.
        deload: True for a lighter week by order: what it makes of a dose is that of a planned one.
    """

    later: ClassVar[frozenset[str]] = frozenset({"mass", "from_on", "until", "at", "deload"})

    row_id: int
    kind: OrderKind
    exercise: str | None = None
    site: Site | None = None
    percent: int = Field(default=0, ge=0, le=20)
    mass: Mass | None = None
    from_on: date | None = None
    until: date | None = None
    at: datetime | None = None
    deload: bool = False

    def stands(self, today: date) -> bool:
        """Return whether it holds on a day."""
        return (self.from_on is None or self.from_on <= today) and (self.until is None or today <= self.until)

    def bears_on(self, exercise: Exercise) -> bool:
        """Return whether the order is about the load of this exercise."""
        if self.kind not in ABOUT_LOADS:
            return False
        if self.exercise is None and self.site is None:
            return True
        return self.exercise == exercise.key or (self.site is not None and loads_site(exercise, self.site))


FEWER_SETS = 1
"""Sets that an eased session has fewer. [sets] Our proposal."""


def paused_by(orders: tuple[CoachOrder, ...], exercise: Exercise) -> CoachOrder | None:
    """Return the order that pauses an exercise, if one stands."""
    return next((one for one in orders if one.kind is OrderKind.PAUSE and one.bears_on(exercise)), None)


def eased_by(orders: tuple[CoachOrder, ...], exercise: Exercise) -> CoachOrder | None:
    """Return the order that eases an exercise most, if one stands; one for a lighter week is none of them."""
    found = [
        one for one in orders if one.kind is OrderKind.EASE and not one.deload and one.bears_on(exercise)
    ]
    return max(found, key=lambda one: (one.percent, -one.row_id), default=None)


def lightened_by(orders: tuple[CoachOrder, ...], exercise: Exercise) -> bool:
    """Return whether an order for a lighter week stands that is about an exercise."""
    return any(one.kind is OrderKind.EASE and one.deload and one.bears_on(exercise) for one in orders)


def standing_on(orders: Iterable[CoachOrder], today: date) -> tuple[CoachOrder, ...]:
    """Return the orders that hold on a day."""
    return tuple(one for one in orders if one.stands(today))


def newest(orders: Iterable[CoachOrder], kind: OrderKind, exercise: Exercise) -> CoachOrder | None:
    """Return the order of a kind about an exercise that was given last, if one stands."""
    found = [one for one in orders if one.kind is kind and one.bears_on(exercise)]
    return max(found, key=lambda one: one.row_id, default=None)


def ordered_over(report: PainReport, orders: Iterable[CoachOrder], exercise: Exercise) -> bool:
    """Return whether a coach gave a load for an exercise after a report of pain of 1 to 3, which then does not hold it.

    She knew of it. A painkiller hides what it says, and pain of 4 and over no order goes past. Our proposal after a
    practising coach's review.
    """
    if band(report) is not Band.LOW or flares(report) or report.painkiller or report.score is None:
        return False
    known = (one for one in orders if one.kind is OrderKind.LOAD and one.exercise == exercise.key)
    return any(one.at is not None and one.at > report.at for one in known)
