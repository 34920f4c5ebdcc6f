"""A season: blocks in time, what falls into them, what comes at the end of them; and what runs for whom now."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from enum import StrEnum

from core.policy import Policy
from core.value import Value

DAY, WEEK = timedelta(days=1), timedelta(days=7)
BEFORE = timedelta(weeks=4)
"""How far back a season is looked at, where no block that still runs began before. Our proposal."""
FEWEST_AHEAD = timedelta(weeks=12)
"""How far ahead it is looked at, at least. Our proposal."""
LONGEST = timedelta(weeks=52)
"""Most that is looked at. Our proposal: what fits a picture."""


class SpanKind(StrEnum):
    """What a span of days is."""

    BLOCK = "block"
    HOLIDAY = "holiday"
    EVENT = "event"
    AWAY = "away"
    """The client's own word, with `/away`."""


class Span(Value):
    """Days in a row.

    Attributes:
        kind: What they are.
        name: Of the block, the holiday or the event; may be empty.
        first: First day.
        last: Last day; that of an event is its first.
        number: By which it is taken out again, from 1; None for what is no entry of the season.
    """

    kind: SpanKind
    name: str
    first: date
    last: date
    number: int | None = None

    def touches(self, first: date, last: date) -> bool:
        """Return whether any day of it lies in `first` to `last`."""
        return self.first <= last and self.last >= first

    def week_on(self, on: date) -> int:
        """Return the week, from 1, that a date is in, where the first begins with the first day."""
        return (on - self.first).days // WEEK.days + 1


class SeasonRow(Value):
    """The season of one client, or what is everybody's.

    Attributes:
        name: The client's; None for everybody.
        spans: In order of their first day.
    """

    name: str | None
    spans: tuple[Span, ...]

    def of(self, *kinds: SpanKind) -> tuple[Span, ...]:
        """Return the spans of some kinds."""
        return tuple(each for each in self.spans if each.kind in kinds)


class Season(Value):
    """All of it.

    Attributes:
        today: The coach's date.
        first: A Monday.
        last: A Sunday.
        everybody: What holds for all.
        rows: A client each.
    """

    today: date
    first: date
    last: date
    everybody: SeasonRow
    rows: tuple[SeasonRow, ...]


class Clash(Value):
    """Days off inside a block.

    Attributes:
        block: The block.
        off: The holiday or absence.
        weeks: Weeks of the block that it falls in, rising.
    """

    block: Span
    off: Span
    weeks: tuple[int, ...]


class Gap(Value):
    """Days without a block before an event.

    Attributes:
        first: First day without one.
        last: The day before the event.
        event: The event.
    """

    first: date
    last: date
    event: Span

    @property
    def days(self) -> int:
        """How many. [days]"""
        return (self.last - self.first).days + 1


def season(today: date, rows: Iterable[SeasonRow], everybody: Sequence[Span] = ()) -> Season:
    """Return the season around a date, cut to whole weeks; what lies outside of it is left out.

    From four weeks back, or from the start of what still runs, to twelve weeks ahead or the last thing that is planned;
    a year at most.
    """
    kept = tuple(rows)
    spans = [span for row in kept for span in row.spans] + list(everybody)
    begun = [each.first for each in spans if each.kind is SpanKind.BLOCK and each.touches(today, today)]
    first = min([today - BEFORE, *begun])
    first = max(first, today - LONGEST / 2)
    first -= timedelta(days=first.weekday())
    last = min(max([today + FEWEST_AHEAD, *(each.last for each in spans)]), first + LONGEST - DAY)
    last += timedelta(days=6 - last.weekday())
    return Season(
        today=today,
        first=first,
        last=last,
        everybody=SeasonRow(name=None, spans=_within(everybody, first, last)),
        rows=tuple(SeasonRow(name=each.name, spans=_within(each.spans, first, last)) for each in kept),
    )


def _within(spans: Iterable[Span], first: date, last: date) -> tuple[Span, ...]:
    found = (each for each in spans if each.touches(first, last))
    return tuple(sorted(found, key=lambda each: (each.first, each.last, each.name)))


def clashes(row: SeasonRow, everybody: SeasonRow) -> tuple[Clash, ...]:
    """Return the days off that fall into a client's blocks, in the order in which they come."""
    off = _within((*row.spans, *everybody.spans), date.min, date.max)
    return tuple(
        Clash(block=block, off=each, weeks=_weeks(block, each))
        for each in off
        if each.kind in (SpanKind.HOLIDAY, SpanKind.AWAY)
        for block in row.of(SpanKind.BLOCK)
        if each.touches(block.first, block.last)
    )


def _weeks(block: Span, off: Span) -> tuple[int, ...]:
    first, last = max(block.first, off.first), min(block.last, off.last)
    return tuple(range(block.week_on(first), block.week_on(last) + 1))


def gaps(row: SeasonRow, everybody: SeasonRow, today: date) -> tuple[Gap, ...]:
    """Return, for each event to come, the days right before it on which a client has no block."""
    found = []
    events = (*row.of(SpanKind.EVENT), *everybody.of(SpanKind.EVENT))
    for event in sorted(events, key=lambda each: each.first):
        if event.first <= today:
            continue
        ends = [each.last for each in row.of(SpanKind.BLOCK) if each.first < event.first]
        first = max([today, *(end + DAY for end in ends)])
        if first < event.first:
            found.append(Gap(first=first, last=event.first - DAY, event=event))
    return tuple(found)


def countdown(event: Span, today: date) -> tuple[int, int]:
    """Return how long it is to an event, in whole weeks and the days beside them; over, the days are below zero."""
    days = (event.first - today).days
    return (days // WEEK.days, days % WEEK.days) if days >= 0 else (0, days)


def mondays(seen: Season) -> tuple[date, ...]:
    """Return the first day of each week from today's week on."""
    monday = seen.today - timedelta(days=seen.today.weekday())
    return tuple(monday + WEEK * number for number in range((seen.last - monday).days // WEEK.days + 1))


class Runs(Value):
    """What a client runs now.

    Attributes:
        name: The client's.
        block: Name of the block; None where there is none.
        week: Week of it that she is in; under 1 before it begins.
        weeks: Its length. [weeks]
        last: Its last date; None where there is none.
    """

    name: str
    block: str | None = None
    week: int = 0
    weeks: int = 0
    last: date | None = None


class Running(Value):
    """What runs for whom.

    Attributes:
        today: The coach's date.
        blocks: What runs, by name of the block; those who run out first stand first.
        ending: Who runs out within the days that the policy names, soonest first.
        without: Who has no block, or one that is over.
    """

    today: date
    blocks: tuple[tuple[str, tuple[Runs, ...]], ...]
    ending: tuple[Runs, ...]
    without: tuple[Runs, ...]


def running(found: Iterable[Runs], today: date, policy: Policy) -> Running:
    """Return what runs for whom on a date."""
    going: dict[str, list[Runs]] = {}
    ending, without = [], []
    for each in sorted(found, key=lambda one: (one.last or date.max, one.name)):
        if each.block is None or each.last is None or each.last < today:
            without.append(each)
            continue
        going.setdefault(each.block, []).append(each)
        if each.last <= today + timedelta(days=policy.block_ends):
            ending.append(each)
    return Running(
        today=today,
        blocks=tuple((name, tuple(runs)) for name, runs in sorted(going.items())),
        ending=tuple(ending),
        without=tuple(sorted(without, key=lambda one: one.name)),
    )
