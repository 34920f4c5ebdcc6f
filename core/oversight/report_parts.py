"""What a report of a block says, and what it rests on."""

from datetime import date
from decimal import Decimal

from core.loads.dated_estimates import DatedEstimate
from core.loads.trend import NoTrend, Trend
from core.loads.work_done import WorkDone
from core.oversight.misses import Past, Tally
from core.oversight.options import Option
from core.policy import Policy
from core.programme.block import Target
from core.programme.exercises import Exercise, Side, Site
from core.programme.muscles import Muscle
from core.programme.prescription import Load
from core.value import Value


class SetSeen(Value):
    """A set that stands for a session: the heaviest, and of those the one with the most reps.

    Attributes:
        on: The client's local date.
        week: Of the block.
        load: As logged; None for none.
        reps: Done.
    """

    on: date
    week: int
    load: Load | None
    reps: int


class LiftRun(Value):
    """A main lift over a block.

    Attributes:
        exercise: Which.
        first: Of its first session.
        last: Of its last; the same where there was one alone.
        full: Of its last session that was neither in a lighter week nor eased; None where all were.
        sessions: In how many it was done.
        points: Estimates for one rep in the block, oldest first.
        trend: What may be said of them, or why nothing may.
        stalled: No gain for long.
        falling: Lower from session to session.
    """

    exercise: Exercise
    first: SetSeen
    last: SetSeen
    full: SetSeen | None
    sessions: int
    points: tuple[DatedEstimate, ...] = ()
    trend: Trend | NoTrend = NoTrend.FEW
    stalled: bool = False
    falling: bool = False


class WeekDone(Value):
    """A week of the block.

    Attributes:
        week: From 1.
        lighter: True for a planned lighter one.
        sessions: Written in the block.
        counted: Kept of due.
        sets: Working sets written. [sets]
        done: Working sets done. [sets]
    """

    week: int
    lighter: bool
    sessions: int
    counted: Tally
    sets: int
    done: int


class MuscleWeek(Value):
    """Hard sets of a muscle a week, on average over the weeks that are over or begun. [sets a week]"""

    muscle: Muscle
    planned: Decimal
    done: Decimal


class TargetMet(Value):
    """What became of an end target.

    Attributes:
        target: As written.
        exercise: Of it.
        met: The first set that reached it; None where none did.
        best: The nearest set, where none did; None where the lift was not done.
        over: True where its week is over.
    """

    target: Target
    exercise: Exercise
    met: SetSeen | None
    best: SetSeen | None
    over: bool


class PainAt(Value):
    """What was said of a place that hurt: dates with scores, oldest first; None where no number was given."""

    site: Site
    side: Side | None
    felt: tuple[tuple[date, int | None], ...]

    @property
    def worst(self) -> int | None:
        """Highest score; None where no number was given."""
        return max((score for _, score in self.felt if score is not None), default=None)


class Report(Value):
    """All of it.

    Attributes:
        name: The client's.
        block: Its name.
        first: First date.
        last: Last date of the block, by the calendar.
        today: The client's date.
        week: Week that she is in; more than `weeks` when it is over.
        weeks: Length. [weeks]
        by_week: Each week.
        kept: Sessions kept of due.
        lifts: Main lifts, the most often done first.
        muscles: In the order of muscles.
        targets: In the order written.
        pain: The most often felt first.
        answers: Of the block's end: question and answer.
        options: What may come next.
        policy: The coach's settings that it was made with.
    """

    name: str
    block: str
    first: date
    last: date
    today: date
    week: int
    weeks: int
    by_week: tuple[WeekDone, ...]
    kept: Tally
    lifts: tuple[LiftRun, ...]
    muscles: tuple[MuscleWeek, ...]
    targets: tuple[TargetMet, ...]
    pain: tuple[PainAt, ...]
    answers: tuple[tuple[str, str], ...]
    options: tuple[Option, ...]
    policy: Policy = Policy()

    @property
    def over(self) -> bool:
        """True when the block has ended."""
        return self.week > self.weeks

    @property
    def weeks_seen(self) -> int:
        """Weeks that are over or begun. [weeks]"""
        return max(min(self.week, self.weeks), 0)

    @property
    def sets(self) -> tuple[int, int]:
        """Working sets done, and written in the weeks over or begun. [sets]"""
        seen = [each for each in self.by_week if each.week <= self.weeks_seen]
        return sum(each.done for each in self.by_week), sum(each.sets for each in seen)


class DoneOnDay(Value):
    """A session of the block, with what was done in it.

    Attributes:
        past: As it was kept or missed.
        week: Of the block.
        work: What was done, an exercise each.
    """

    past: Past
    week: int
    work: tuple[WorkDone, ...] = ()


class Told(Value):
    """What a report rests on beside the block and its sessions.

    Attributes:
        name: The client's.
        today: Her date.
        first: First date of the block.
        last: Last date.
        held: True while her plan is on hold.
        pain: Places that hurt in that time.
        answers: Of the block's end.
    """

    name: str
    today: date
    first: date
    last: date
    held: bool
    pain: tuple[PainAt, ...]
    answers: tuple[tuple[str, str], ...]
