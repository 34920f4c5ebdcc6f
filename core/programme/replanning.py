"""Another day for a session that is not done on its own: slide, slide both, merge, leave out.

The options are common practice, no source: sets of a week matter more than on which day they are done, and a main
pattern is given two days before it comes again. The figures are our proposal.
"""

from collections.abc import Collection, Iterator, Sequence
from datetime import date, timedelta
from decimal import ROUND_FLOOR, Decimal
from enum import StrEnum

from core.programme.block import Weekday, session_order
from core.programme.exercises import Pattern
from core.value import Value

APART = timedelta(days=2)
"""From a session to the next that shares a main pattern: 48 h, counted in dates. Common practice, no source."""
MOST_SETS = Decimal("1.3")
"""Sets of a session that takes a lift in, as a share of its plan. [fraction] Our proposal."""
MOST_PATTERNS = 3
"""Main patterns of such a session. Our proposal."""
DATES = 2
"""Dates that are offered, the earliest. Our proposal."""


class Style(StrEnum):
    """How what was not done goes on; the coach's choice."""

    CALENDAR = "calendar"
    """By calendar: days keep their dates; one that is not done slides within its week, is merged or left out."""
    IN_LINE = "in line"
    """Next in line: what was not done comes next, and all behind it moves on; the block ends later."""


class How(StrEnum):
    """What can be done about a session."""

    SLIDE = "slide"
    SLIDE_BOTH = "slide both"
    MERGE = "merge"
    NEXT = "next"
    LEAVE_OUT = "leave out"


class Work(Value):
    """One exercise of a session, as written.

    Attributes:
        exercise: Key in the catalogue.
        order: Letter and number in the session.
        sets: Working sets.
        pattern: Its movement pattern.
        main: True for a lift that carries the block.
    """

    exercise: str
    order: str
    sets: int
    pattern: Pattern
    main: bool = False


def mains(work: Sequence[Work]) -> tuple[Work, ...]:
    """Return the main lifts of a session; the first exercise where none is one."""
    return tuple(each for each in work if each.main) or tuple(work[:1])


class Booked(Value):
    """A session on a date.

    Attributes:
        session_id: Its row.
        on: The client's local date.
        work: In session order.
        movable: True while its card is not out and it belongs to the same week: it can move too, or take a lift in.
        takes_in: True when it takes a lift in already.
    """

    session_id: int
    on: date
    work: tuple[Work, ...] = ()
    movable: bool = False
    takes_in: bool = False

    @property
    def mains(self) -> tuple[Work, ...]:
        """Its main lifts."""
        return mains(self.work)

    @property
    def patterns(self) -> frozenset[Pattern]:
        """Patterns of its main lifts."""
        return frozenset(each.pattern for each in self.mains)


class Option(Value):
    """Something that can be done about a session.

    Attributes:
        how: What.
        on: Its new date, or that of the session that its main lift goes to; None when it is left out.
        other: The session that moves too, or that takes the lift in.
        other_on: Date that the other moves to.
    """

    how: How
    on: date | None = None
    other: int | None = None
    other_on: date | None = None


def options(
    missed: Booked, others: Sequence[Booked], days: Collection[Weekday], first: date, last: date
) -> tuple[Option, ...]:
    """Return what can be done about a session by calendar: at most four options, leaving it out the last.

    Args:
        missed: The session; its own date plays no part.
        others: What else is on the calendar around it: done, under way or to come.
        days: Days of the week that the client has said she can train on. A session that only makes room goes to none
            but these; the one she is asked about may go to any.
        first: Earliest date that can still be had.
        last: Last date of the client's block week.
    """
    found = [Option(how=How.SLIDE, on=on) for on in slides(missed, others, first, last)[:DATES]]
    if not found:
        found = [both for both in (slide_both(missed, others, days, first, last),) if both is not None]
    merged = merge(missed, others, first)
    return (*found, *((merged,) if merged is not None else ()), Option(how=How.LEAVE_OUT))


def slides(missed: Booked, others: Sequence[Booked], first: date, last: date) -> tuple[date, ...]:
    """Return the dates from `first` to `last` that a session can move to by itself."""
    return tuple(on for on in _dates(first, last) if fits(on, missed.patterns, others))


def fits(on: date, patterns: frozenset[Pattern], others: Sequence[Booked]) -> bool:
    """Return whether a date is free, and far enough from every session that shares a main pattern."""
    return all(
        each.on != on and (abs(each.on - on) >= APART or not patterns & each.patterns) for each in others
    )


def slide_both(
    missed: Booked, others: Sequence[Booked], days: Collection[Weekday], first: date, last: date
) -> Option | None:
    """Return how a session finds a date when the next one moves too; None when it finds none so either."""
    coming = _next(others, first)
    if coming is None:
        return None
    rest = [each for each in others if each is not coming]
    for on in slides(missed, rest, first, last):
        around = [*rest, missed.model_copy(update={"on": on})]
        for other_on in _dates(max(on, coming.on) + timedelta(days=1), last):
            if other_on.weekday() in days and fits(other_on, coming.patterns, around):
                return Option(how=How.SLIDE_BOTH, on=on, other=coming.session_id, other_on=other_on)
    return None


def merge(missed: Booked, others: Sequence[Booked], first: date) -> Option | None:
    """Return the next session of the week that can take the main lift in; None when it cannot."""
    coming = _next(others, first)
    if coming is None or coming.takes_in or not missed.work:
        return None
    lift = missed.mains[0]
    rest = [each for each in others if each is not coming]
    if not fits(coming.on, frozenset({lift.pattern}), rest) or left_out_for(lift, coming.work) is None:
        return None
    return Option(how=How.MERGE, on=coming.on, other=coming.session_id)


def left_out_for(lift: Work, plan: Sequence[Work]) -> tuple[int, ...] | None:
    """Return the places in `plan` of what makes room for a lift, in order; None where there is no room.

    Accessories go, the last first, until the sets are within bounds; main lifts stay, and so does the warm-up, which
    no plan counts. A session that has the same exercise takes it in no second time.
    """
    stay = mains(plan)
    if any(each.exercise == lift.exercise for each in plan):
        return None
    if len({lift.pattern, *(each.pattern for each in stay)}) > MOST_PATTERNS:
        return None
    planned = sum(each.sets for each in plan)
    over = planned + lift.sets - int((planned * MOST_SETS).to_integral_value(ROUND_FLOOR))
    gone: list[int] = []
    for place in sorted(range(len(plan)), key=lambda one: session_order(plan[one].order), reverse=True):
        if over > 0 and plan[place] not in stay:
            gone.append(place)
            over -= plan[place].sets
    return tuple(sorted(gone)) if over <= 0 else None


def _next(others: Sequence[Booked], first: date) -> Booked | None:
    coming = [each for each in others if each.movable and each.on >= first]
    return min(coming, key=lambda each: each.on, default=None)


def _dates(first: date, last: date) -> Iterator[date]:
    for step in range((last - first).days + 1):
        yield first + timedelta(days=step)
