"""How a simulated client does one exercise, and what she says of it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from math import floor
from typing import NamedTuple

from core.checkin.pain import EASE_LEAST, EASE_MOST, PainAction
from core.loads.asked import as_load, eased
from core.loads.equipment import Ladder, ladder_for
from core.loads.outcome import SetPlan
from core.loads.past import Cause, Outcome, SetDone
from core.loads.start import search_left
from core.oversight.chance import Chance, bell, between, happens, whole
from core.oversight.simulated_body import SESSION_TIRES, SET_TIRES, SimulatedBody
from core.oversight.simulated_lifter import SimulatedLifter
from core.programme.exercises import Exercise, Side
from core.programme.prescription import Dose, Load, LoadKind
from core.programme.set_styles import StyleKind
from core.units import Mass

DAY_NOISE = 0.042
"""Spread of strength from day to day, for each exercise. [fraction] Source: [Grgic2020], the median of 32 studies."""
UNDER_SAID = 0.95
"""Reps that are left beyond those that people say. [reps] Source: [Halperin2022]."""
ERROR_NEAR, ERROR_FAR, FAR = 1.0, 2.0, 5
"""Spread of what people say of reps left, up to 5 left and beyond, around that. [reps] Source: [Hackett2017]: about one
rep off with 0 to 5 left, more than two with 7 to 10; that those are standard deviations is our reading."""
MOST_SAID = 4
"""Most reps left that are told apart: 4 stands for four or more. [reps]"""
SAID_UNASKED = 0.4
"""How often reps left are typed with other exercises than the one they are asked of, against that one. Invented for the
rehearsal."""
ASCENDS = Decimal("0.05")
"""How much lighter each set before the last of ascending sets is. [fraction] Invented for the rehearsal."""
CARRIED = 0.5
"""Share of the maximum that is found for a set over time or distance. Invented for the rehearsal."""
LITTLE_TIME = 0.02
"""How often the last set is left out for want of time. Invented for the rehearsal."""


STOPS = frozenset({PainAction.STOP_EXERCISE, PainAction.STOP_SESSION})
"""What ends an exercise."""
HURTS = STOPS | {PainAction.EASE}
"""What is said as the cause where less was done."""


class Task(NamedTuple):
    """One set as it is asked for.

    Attributes:
        load: What is put on; None with a band.
        asked: Reps, seconds or metres; the fewest of an open set.
        goes_on: True where the set goes on until as many are left as asked.
    """

    load: Load | None
    asked: int
    goes_on: bool


@dataclass(frozen=True, slots=True)
class Card:
    """One exercise as it stands on the card.

    Attributes:
        exercise: What is done.
        given: Sets, one number of reps, load.
        plan: Sets with loads of their own, where a table has them.
    """

    exercise: Exercise
    given: Dose
    plan: SetPlan | None = None

    def task(self, number: int, load: Load | None, before: int | None, ladder: Ladder) -> Task:
        """Return what one set asks for.

        Args:
            number: From 1.
            load: What the exercise is done with; the last load of ascending sets.
            before: Reps of the set before.
            ladder: What the kit can load.
        """
        if self.plan is not None:
            if number > len(self.plan.sets):
                return Task(self.plan.fourth(before or 0), 1, goes_on=True)
            planned = self.plan.sets[number - 1]
            return Task(planned.load, 1 if planned.to_limit else planned.reps, goes_on=planned.to_limit)
        given, span = self.given, self.given.span
        if given.style is not None and given.style.kind is StyleKind.ASCENDING:
            share = 1 - ASCENDS * (given.sets - number)
            load = under(load, share, self.exercise, ladder) or load
        last = given.or_more and number == given.sets
        return Task(load, 1 if span is None else span.low, goes_on=span is None or last)


@dataclass(frozen=True, slots=True)
class Done:
    """One exercise as it was done and told.

    Attributes:
        sets: As logged; none where nothing was done.
        by_tap: True when "done as written" was tapped.
        outcome: How it ended.
        cause: Why less was done, where it was said.
        left: Fewest reps that were really left at the end of a set; None where they mean nothing. [reps]
        load: What was on the bar, or was found; None with a band and where nothing was done.
        action: What pain in it asked for; None without.
    """

    sets: tuple[SetDone, ...] = ()
    by_tap: bool = False
    outcome: Outcome = Outcome.SKIPPED
    cause: Cause | None = None
    left: int | None = None
    load: Load | None = None
    action: PainAction | None = None


class SimulatedSession:
    """One session of one simulated client, exercise by exercise.

    Args:
        lifter: Who she is.
        body: What she can do.
        chance: Stream of the day's strength.
        words: Stream of what she says.
    """

    def __init__(self, lifter: SimulatedLifter, body: SimulatedBody, chance: Chance, words: Chance) -> None:
        self._lifter, self._body = lifter, body
        self._chance, self._words = chance, words
        self._sets_before = 0
        self._rows = 0

    def do(self, card: Card, row: int, pain: PainAction | None, *, asked_left: bool) -> Done:
        """Do one exercise as it stands on the card, and tell it.

        Args:
            card: What is asked for.
            row: Number of its first set in the log.
            pain: What pain in it asks for; None without.
            asked_left: True where the reps left are asked for after the session.
        """
        exercise, given = card.exercise, card.given
        share = (1 + bell(self._chance, DAY_NOISE)) * (1 - SESSION_TIRES * self._sets_before)
        ladder = ladder_for(exercise, self._lifter.kit)
        load = given.load
        if load is not None and load.kind is LoadKind.FIND:
            load = as_load(self._found(exercise, given, ladder, share), exercise)
        short = happens(self._words, LITTLE_TIME) and given.sets > 1
        hurts_from = whole(self._chance, 1, given.sets) if pain is not None else given.sets
        ease = between(self._chance, float(EASE_LEAST), float(EASE_MOST))
        sets: list[SetDone] = []
        lefts: list[int] = []
        for number in range(1, given.sets + (0 if short else 1)):
            if number > hurts_from and pain in STOPS:
                break
            eases = number > hurts_from and pain is PainAction.EASE
            task = card.task(number, load, sets[-1].reps if sets else None, ladder)
            task = _eased(task, exercise, ladder, ease) if eases else task
            tired = share * (1 - SET_TIRES * (number - 1))
            for side, gap in self._sides(exercise, given):
                count, left = self._one_set(exercise, given, task, tired * (1 - gap))
                lefts.append(left)
                sets.append(_set(row + len(sets), number, side, task.load, given, count))
        self._sets_before += len({one.set_no for one in sets})
        return self._told(card, Done(tuple(sets), load=load), lefts, pain, short=short, asked_left=asked_left)

    def effort(self, done: list[Done]) -> int | None:
        """Return how hard the session is said to have been; None where nothing is said. [1..5]

        By the fewest reps that were left: invented for the rehearsal.
        """
        said = happens(self._words, self._lifter.tells_effort)
        lefts = [one.left for one in done if one.left is not None]
        if not said or not lefts:
            return None
        middle = sum(lefts) / len(lefts)
        return 5 if middle < 0.5 else 4 if middle < 1.5 else 3 if middle < 3.5 else 2

    def _found(self, exercise: Exercise, given: Dose, ladder: Ladder, share: float) -> Mass:
        """Return the load that a search ends at: where as many reps seem left as it stops at, on this kit."""
        error = bell(self._chance, ERROR_NEAR)
        if given.reps is None:
            kg = self._body.maximum(exercise) * share * CARRIED
        else:
            left = search_left(given.left) + UNDER_SAID - error
            kg = self._body.load_kg(exercise, max(1.0, given.reps.low + left), share)
        wanted = Mass.of(f"{kg:.3f}")
        return ladder.at_or_under(wanted) or ladder.steps[0]

    def _sides(self, exercise: Exercise, given: Dose) -> Iterator[tuple[Side | None, float]]:
        if not (given.each_side or exercise.each_side):
            return iter(((None, 0.0),))
        gap = self._lifter.side_gap
        return iter(((Side.LEFT, max(0.0, gap)), (Side.RIGHT, max(0.0, -gap))))

    def _one_set(self, exercise: Exercise, given: Dose, task: Task, share: float) -> tuple[int, int]:
        """Return what is done in a set, and the reps really left after it: as asked, or until too few are left."""
        most = self._body.most(exercise, given, task.load, share)
        keeps = max(self._lifter.keeps if given.left else 0, 1 if self._lifter.alone_under_bar else 0)
        felt = most - UNDER_SAID + bell(self._chance, ERROR_NEAR)
        if task.goes_on:
            until = floor(felt) - (given.left or 0)
            done = max(min(task.asked, most), min(until, most))
        else:
            done = min(task.asked, max(0, most - keeps))
        return done, max(0, most - done)

    def _told(
        self,
        card: Card,
        done: Done,
        lefts: list[int],
        pain: PainAction | None,
        *,
        short: bool,
        asked_left: bool,
    ) -> Done:
        given, sets = card.given, done.sets
        counted = given.seconds is None and given.metres is None
        said = self._said_left(lefts, asked=asked_left) if counted else None
        taps = happens(self._words, self._lifter.taps)
        if said is not None:
            sets = (*sets[:-1], sets[-1].model_copy(update={"left": said}))
        fewer = len({one.set_no for one in sets}) < given.sets
        return replace(
            done,
            sets=sets,
            by_tap=taps and card.plan is None and _is_as_asked(sets, given),
            outcome=Outcome.PARTIAL if fewer else Outcome.DONE,
            cause=Cause.PAIN if pain in HURTS else Cause.TIME if short else None,
            left=min(lefts) if counted and lefts else None,
            action=pain,
        )

    def _said_left(self, lefts: list[int], *, asked: bool) -> int | None:
        """Return the reps left that are said after the last set; None where none are, or there was no set."""
        told = happens(self._words, self._lifter.tells_left * (1.0 if asked else SAID_UNASKED))
        believed = believed_left(self._words, lefts[-1] if lefts else 0)
        if not told or not lefts:
            return None
        return min(max(round(believed), 0), MOST_SAID)


def believed_left(chance: Chance, true: int) -> float:
    """Return the reps that somebody believes are left, where so many really are. [reps]

    Too few on the average, and the farther from the limit the worse. Source: [Halperin2022], [Hackett2017].
    """
    return true - UNDER_SAID + bell(chance, ERROR_NEAR if true <= FAR else ERROR_FAR)


def under(load: Load | None, share: Decimal, exercise: Exercise, ladder: Ladder) -> Load | None:
    """Return the load of the kit that is at or under a share of a load; None where there is none to be lighter."""
    if load is None or load.mass is None:
        return None
    mass = ladder.at_or_under(eased(load.mass, share))
    return None if mass is None else as_load(mass, exercise)


def _eased(task: Task, exercise: Exercise, ladder: Ladder, ease: float) -> Task:
    """Return a set that hurts made easier: lighter, or fewer reps where the kit has nothing lighter."""
    load = under(task.load, 1 - Decimal(f"{ease:.3f}"), exercise, ladder)
    if load is None:
        return Task(task.load, max(1, floor(task.asked * (1 - ease))), goes_on=False)
    return Task(load, task.asked, goes_on=False)


def _set(row: int, number: int, side: Side | None, load: Load | None, given: Dose, count: int) -> SetDone:
    reps = count if given.seconds is None and given.metres is None else None
    return SetDone(
        row_id=row,
        set_no=number,
        side=side,
        load=load,
        reps=reps,
        seconds=count if given.seconds is not None else None,
        metres=count if given.metres is not None else None,
    )


def _is_as_asked(sets: tuple[SetDone, ...], given: Dose) -> bool:
    span = given.span
    if span is None or not given.told_by_tap or len({one.set_no for one in sets}) < given.sets:
        return False
    counts = [one.reps or one.seconds or one.metres or 0 for one in sets]
    return all(count == span.low for count in counts) and all(one.load == given.load for one in sets)
