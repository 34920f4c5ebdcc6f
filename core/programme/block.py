"""A block: weeks of days, each a list of prescriptions."""

from collections.abc import Iterable
from enum import IntEnum
from typing import Annotated

from pydantic import Field, PlainSerializer, model_validator

from core.programme.prescription import Load, Prescription
from core.value import Value


class Weekday(IntEnum):
    """Monday is 0, as in the standard library."""

    MON = 0
    TUE = 1
    WED = 2
    THU = 3
    FRI = 4
    SAT = 5
    SUN = 6


Weeks = Annotated[frozenset[int], PlainSerializer(sorted, return_type=list[int])]
"""A set of week numbers; written in order."""


class Line(Value):
    """A prescription and the weeks it holds in.

    Attributes:
        weeks: Week numbers from 1; the same order may be written again for other weeks.
        prescription: What is asked for.
    """

    weeks: Weeks
    prescription: Prescription


class Day(Value):
    """A kind of session in a block, such as "Push".

    Attributes:
        key: Lower case with dashes, unique in the block.
        name: As the coach wrote it.
        lines: In the order written.
        lighter_weeks: Planned lighter weeks (deloads), of the whole block.
        prep: Keys of the prep drills that the coach wrote, in her order; empty where she wrote that there are none, and
            None where she wrote nothing, so that the prep goes by what the day loads.
    """

    key: str
    name: str
    lines: tuple[Line, ...]
    lighter_weeks: Weeks = frozenset()
    prep: tuple[str, ...] | None = None

    def in_week(self, week: int) -> tuple[Prescription, ...]:
        """Return what this day asks for in week `week` (from 1), in session order: A, B1, B2, C.

        In a lighter week what was not written for lighter weeks alone is marked as lighter, and the rules make it so.
        """
        asked = (self._asked(line, week) for line in self.lines if week in line.weeks)
        return tuple(sorted(asked, key=lambda one: session_order(one.order)))

    def _asked(self, line: Line, week: int) -> Prescription:
        asked = line.prescription
        if week not in self.lighter_weeks or line.weeks <= self.lighter_weeks:
            return asked
        return asked.model_copy(update={"dose": asked.dose.model_copy(update={"lighter": True})})


class Phase(Value):
    """A stretch of weeks with a name of its own, such as "Base".

    Attributes:
        name: As the coach wrote it.
        weeks: Week numbers from 1.
    """

    name: str
    weeks: Weeks


class Target(Value):
    """What a lift is to reach.

    Attributes:
        exercise: Key in the catalogue.
        load: A mass, or bodyweight with what is added.
        reps: In one set. [1..100]
        week: By the end of this week.
    """

    exercise: str
    load: Load
    reps: int = Field(ge=1, le=100)
    week: int = Field(ge=1, le=52)


class Block(Value):
    """A training block.

    Attributes:
        name: As the coach wrote it.
        weeks: Length. [1..52]
        week_starts: First day of the week.
        days: In the order they come in a week; the n-th falls on a client's n-th training day.
        phases: Stretches of weeks with names; no week is in two.
        testing_weeks: Weeks for tests. A name for them alone: what is done in them is what rows ask for.
        targets: What lifts are to reach.
    """

    name: str
    weeks: int = Field(ge=1, le=52)
    week_starts: Weekday = Weekday.MON
    days: tuple[Day, ...]
    phases: tuple[Phase, ...] = ()
    testing_weeks: Weeks = frozenset()
    targets: tuple[Target, ...] = ()

    @model_validator(mode="after")
    def _lighter_together(self) -> "Block":
        if len({day.lighter_weeks for day in self.days}) > 1:
            raise ValueError("every day of a block has the same lighter weeks")
        return self

    @property
    def lighter_weeks(self) -> frozenset[int]:
        """Planned lighter weeks (deloads)."""
        return self.days[0].lighter_weeks if self.days else frozenset()

    def phase(self, week: int) -> Phase | None:
        """Return the phase that a week is in; None when it has none."""
        return next((phase for phase in self.phases if week in phase.weeks), None)

    def day(self, key: str) -> Day | None:
        """Return the day with this key; None when the block has none."""
        return next((day for day in self.days if day.key == key), None)


def session_order(order: str) -> tuple[str, int]:
    """Return what orders sort by, so that `B2` comes before `B10`."""
    digits = order.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    return order.removesuffix(digits), int(digits) if digits.isdecimal() else 0


def weeks_text(weeks: Iterable[int]) -> str:
    """Return rising week numbers in short: `1-3, 5`."""
    runs: list[list[int]] = []
    for week in weeks:
        if runs and week == runs[-1][1] + 1:
            runs[-1][1] = week
        else:
            runs.append([week, week])
    return ", ".join(str(low) if low == high else f"{low}-{high}" for low, high in runs)
