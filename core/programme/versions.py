"""A block as one client runs it: which version holds on a date, and weeks that are changed for her alone.

A version never changes. What holds is the last one decided among those whose date has come; a week that is changed for
one client lies over whichever version that is, so that a later version keeps it.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta

from core.errors import TooFewTrainingDays
from core.programme.block import Block, Day, Line, Weekday
from core.programme.calendar import WEEK, PlannedDay, sessions_between
from core.programme.prescription import Prescription
from core.value import Value

ALIKE = 2
"""A day has another name, and is no other day, when one in so many of its exercises is the same. Our proposal."""


class ChangedDay(Value):
    """What a day asks for in a week that is changed for one client.

    Attributes:
        key: Key of the day.
        rows: In session order; marked as lighter where the week is a lighter one and the row was not written for it.
    """

    key: str
    rows: tuple[Prescription, ...]


class ChangedWeek(Value):
    """A week that is changed for one client.

    Attributes:
        week: Week of the block, from 1.
        days: Every day of that week, as it is for her.
    """

    week: int
    days: tuple[ChangedDay, ...]

    def day(self, key: str) -> ChangedDay | None:
        """Return the day with this key; None where there is none."""
        return next((day for day in self.days if day.key == key), None)


class Later(Value):
    """A version that came after the first.

    Attributes:
        block: What it says.
        from_on: First date on which it holds, on the client's own calendar.
    """

    block: Block
    from_on: date


class Stretch(Value):
    """Dates on which one version holds.

    Attributes:
        first: First date.
        last: Last date; None where no other version follows.
        block: As it is for the client.
    """

    first: date
    last: date | None
    block: Block


class Stays(Value):
    """What becomes of a changed week under another version.

    Attributes:
        week: Which.
        days_gone: Names of its days that the version no longer has, by key.
        gone: True where the version has no such week.
    """

    week: int
    days_gone: tuple[str, ...] = ()
    gone: bool = False


class Course(Value):
    """A block as one client runs it.

    Attributes:
        starts_on: First date of week 1.
        first: The version that she began with.
        later: Versions that came after it, in the order in which they were decided.
        weeks: Weeks that are changed for her alone, each once.
    """

    starts_on: date
    first: Block
    later: tuple[Later, ...] = ()
    weeks: tuple[ChangedWeek, ...] = ()

    def block_on(self, on: date) -> Block:
        """Return the block as it is for the client on a date."""
        return self._as_changed(self._written_on(on))

    def block_for(self, week: int, key: str, on: date) -> Block:
        """Return the block whose day holds for a session: what it was, where the version of its date has no such day.

        Args:
            week: Of the session.
            key: Of its day.
            on: Its date.
        """
        now = self._written_on(on)
        known = [now, *(each.block for each in reversed(self.later) if each.from_on <= on), self.first]
        found = next((each for each in known if week <= each.weeks and each.day(key)), now)
        return self._as_changed(found)

    def stretches(self, first: date) -> tuple[Stretch, ...]:
        """Return which version holds when, from a date on without an end."""
        starts = [first, *sorted({each.from_on for each in self.later if each.from_on > first})]
        found: list[tuple[date, Block]] = []
        for on in starts:
            block = self._written_on(on)
            if not found or found[-1][1] is not block:
                found.append((on, block))
        ends = [on - timedelta(days=1) for on, _ in found[1:]]
        return tuple(
            Stretch(first=on, last=last, block=self._as_changed(block))
            for (on, block), last in zip(found, (*ends, None), strict=True)
        )

    @property
    def longest(self) -> int:
        """Length of the longest of its versions. [weeks]"""
        return max(each.weeks for each in (self.first, *(each.block for each in self.later)))

    @property
    def ends_on(self) -> date:
        """Last day of its last week, by the calendar."""
        ends: list[date] = []
        for each in self.stretches(self.starts_on):
            end = self.starts_on + WEEK * each.block.weeks - timedelta(days=1)
            if end >= each.first:
                ends.append(min(end, each.last or end))
        return max(ends)

    def after(self, block: Block, from_on: date) -> "Course":
        """Return the course with one more version, from a date on."""
        return self.model_copy(update={"later": (*self.later, Later(block=block, from_on=from_on))})

    def with_week(self, changed: ChangedWeek | None, week: int) -> "Course":
        """Return the course with a week changed for the client alone, or no longer changed."""
        others = tuple(each for each in self.weeks if each.week != week)
        mine = () if changed is None else (changed,)
        return self.model_copy(update={"weeks": (*others, *mine)})

    def other_keys(self, key: str, on: date) -> frozenset[str]:
        """Return the keys that a day of the version of a date has under other names in the other versions."""
        now = self._written_on(on)
        before = (self.first, *(each.block for each in self.later))
        return frozenset(
            old for each in before if each is not now for old, new in renamed(each, now).items() if new == key
        )

    def _as_changed(self, block: Block) -> Block:
        """Return a version with the changed weeks laid over it; a day follows its name."""
        if not self.weeks:
            return block
        names: dict[str, str] = {}
        for each in (self.first, *(later.block for later in self.later)):
            names |= renamed(each, block)
        return as_changed(block, (_with_names(week, names) for week in self.weeks))

    def _written_on(self, on: date) -> Block:
        return next((each.block for each in reversed(self.later) if each.from_on <= on), self.first)


def as_changed(block: Block, weeks: Iterable[ChangedWeek]) -> Block:
    """Return a block with changed weeks laid over it; what a change has and the block has not is left out."""
    days = block.days
    for changed in weeks:
        if changed.week <= block.weeks:
            days = tuple(_day_changed(day, changed) for day in days)
    return block if days is block.days else block.model_copy(update={"days": days})


def _day_changed(day: Day, changed: ChangedWeek) -> Day:
    mine = changed.day(day.key)
    if mine is None:
        return day
    kept = (_without(line, changed.week, day) for line in day.lines)
    lines = (*(line for line in kept if line.weeks), *_lines(changed.week, mine.rows))
    return day.model_copy(update={"lines": lines})


def _lines(week: int, rows: Iterable[Prescription]) -> Iterator[Line]:
    return (Line(weeks=frozenset({week}), prescription=row) for row in rows)


def _without(line: Line, week: int, day: Day) -> Line:
    """Return a line without one of its weeks; where only lighter weeks are left, they make it lighter as before."""
    if week not in line.weeks:
        return line
    weeks = line.weeks - {week}
    asked = line.prescription
    if weeks <= day.lighter_weeks and not line.weeks <= day.lighter_weeks:
        asked = asked.model_copy(update={"dose": asked.dose.model_copy(update={"lighter": True})})
    return Line(weeks=weeks, prescription=asked)


def _with_names(changed: ChangedWeek, names: Mapping[str, str]) -> ChangedWeek:
    days = (day.model_copy(update={"key": names.get(day.key, day.key)}) for day in changed.days)
    return changed.model_copy(update={"days": tuple(days)})


def changed_week(block: Block, week: int) -> ChangedWeek:
    """Return a week as the block has it, in the form of a changed one."""
    days = tuple(ChangedDay(key=day.key, rows=day.in_week(week)) for day in block.days)
    return ChangedWeek(week=week, days=days)


def stays(changed: ChangedWeek, before: Block, after: Block) -> Stays:
    """Return what becomes of a changed week where another version follows.

    Args:
        changed: The week.
        before: What held until then; it has the names of the days.
        after: The version that follows.
    """
    new_names = renamed(before, after)
    gone = [day.key for day in changed.days if after.day(new_names.get(day.key, day.key)) is None]
    names = tuple(day.name if (day := before.day(key)) is not None else key for key in gone)
    return Stays(week=changed.week, days_gone=names, gone=changed.week > after.weeks)


def renamed(before: Block, after: Block) -> Mapping[str, str]:
    """Return the days that have another name, from the old key to the new.

    A day at the same place that shares half of its exercises is the same day.
    """
    return {
        old.key: new.key
        for old, new in zip(before.days, after.days, strict=False)
        if after.day(old.key) is None and before.day(new.key) is None and _are_alike(old, new)
    }


def _are_alike(old: Day, new: Day) -> bool:
    mine, theirs = ({line.prescription.exercise for line in day.lines} for day in (old, new))
    return len(mine & theirs) * ALIKE >= max(len(mine), len(theirs))


def planned_days(
    course: Course, days: Collection[Weekday], first: date, last: date
) -> tuple[PlannedDay, ...]:
    """Return the days of a course that fall on `first` to `last`, in order of date.

    As `core.programme.calendar.sessions_between`, each date by the version that holds on it. Where a version begins in
    the middle of a week, no day comes that the week has had before; the others come in their order.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than a version that holds in that time has.
    """
    found: list[PlannedDay] = []
    before: Block | None = None
    for stretch in course.stretches(course.starts_on):
        if stretch.first > last:
            break
        ends = last if stretch.last is None else min(stretch.last, last)
        try:
            planned = sessions_between(stretch.block, course.starts_on, days, stretch.first, ends)
        except TooFewTrainingDays:
            if ends >= first:
                raise
            planned = ()  # what is over asked for more days than she trains on now
        found += _once_a_week(planned, found, before, stretch.block)
        before = stretch.block
    return tuple(each for each in found if each.on >= first)


def _once_a_week(
    planned: Sequence[PlannedDay], found: Sequence[PlannedDay], before: Block | None, block: Block
) -> Iterator[PlannedDay]:
    """Yield what a version asks for; in its first week, on the dates that are left, what the week has not had."""
    names = renamed(before, block) if before is not None else {}
    week = planned[0].week_no if planned else 0
    had = {names.get(each.day_key, each.day_key) for each in found if each.week_no == week}
    mine = [each for each in planned if each.week_no == week]
    to_come = [day.key for day in block.days if day.key not in had]
    # Where nothing was before, a week that has lost its first days keeps the day of each date.
    keys = to_come if before is not None else [each.day_key for each in mine]
    yield from (each.model_copy(update={"day_key": key}) for each, key in zip(mine, keys, strict=False))
    yield from (each for each in planned if each.week_no != week)
