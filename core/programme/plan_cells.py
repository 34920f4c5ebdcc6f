"""The plan over the weeks, as written beside its labels: phases, lighter weeks, testing weeks, targets, prep."""

import re
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple, TypeVar

from core.programme.block import Block, Phase, Target, weeks_text
from core.programme.block_sheet import DELOADS, LONGEST_DAY, PHASES, PREP, TARGETS, TESTS, Head
from core.programme.catalogue import named, suggestions
from core.programme.exercises import Exercise
from core.programme.grammar import squeezed, typed, weeks_in
from core.programme.load_cells import load_of, load_text
from core.programme.prep_cells import day_prep, preps_of
from core.programme.prescription import LoadKind
from core.programme.problems import Code, Place, Problem, problem
from core.programme.sheets import Cell, CellKind, UnreadError

_NAMED = re.compile(r"(?P<name>[^\d:;,]+?) (?:weeks? )?(?P<weeks>\d[^:;a-z]*)")
_TARGET = re.compile(
    r"(?P<what>.+?) ?[x×] ?(?P<reps>\d{1,3})(?: reps?)?,? by (?:the end of )?week (?P<week>\d{1,2})"
)
_LOAD_BEGINS = re.compile(r"[\d+-]|bw|bodyweight")
MOST_REPS = 100
"""Most reps of a target. [reps] Our proposal."""

T = TypeVar("T")


class Plan(NamedTuple):
    """The plan over the weeks; empty where nothing is written."""

    phases: tuple[Phase, ...] = ()
    lighter_weeks: frozenset[int] = frozenset()
    testing_weeks: frozenset[int] = frozenset()
    targets: tuple[Target, ...] = ()
    prep: Mapping[str, tuple[str, ...]] = MappingProxyType({})


def plan_of(head: Head, catalogue: Mapping[str, Exercise], problems: list[Problem]) -> Plan:
    """Return the plan that the sheet `Block` writes; what is wrong with it is added to `problems`."""

    def read(label: str, reader: Callable[[str, Cell], T]) -> list[T]:
        found = []
        for place, cell in head.plan.get(label, ()):
            for text in _pieces(place, cell, problems):
                try:
                    found.append(reader(text, cell))
                except UnreadError as unread:
                    problems.append(unread.at(place))
        return found

    phases = read(PHASES, lambda text, _: _phase(text, head.weeks))
    lighter = read(DELOADS, lambda text, cell: _weeks(text, cell, head.weeks))
    testing = read(TESTS, lambda text, cell: _weeks(text, cell, head.weeks))
    targets = read(TARGETS, lambda text, _: _target(text, head, catalogue))
    prep = preps_of(head, read(PREP, lambda text, _: day_prep(text, head)), problems)
    light, tested = frozenset().union(*lighter), frozenset().union(*testing)
    plan = Plan(tuple(phases), light, tested, tuple(targets), prep)
    problems.extend(_clashes(head, plan))
    return plan


def _pieces(place: Place, cell: Cell, problems: list[Problem]) -> list[str]:
    try:
        text = typed(cell)
    except UnreadError as unread:
        problems.append(unread.at(place))
        return []
    return [piece.strip() for piece in text.split(";") if piece.strip()]


def _weeks(text: str, cell: Cell, length: int | None) -> frozenset[int]:
    weeks = weeks_in(Cell(cell.row, cell.column, cell.kind, text))
    outside = sorted(week for week in weeks if not 1 <= week <= (length or week))
    if outside:
        raise UnreadError(Code.WEEKS_OUTSIDE, weeks=weeks_text(outside), length=length)
    return weeks


def _phase(text: str, length: int | None) -> Phase:
    name, colon, weeks = text.rpartition(":")
    if not colon and (match := _NAMED.fullmatch(text)):
        name, weeks = match["name"], match["weeks"]
    name, weeks = name.strip(), squeezed(weeks).removeprefix("weeks ").removeprefix("week ")
    if not any(letter.isalnum() for letter in name):
        raise UnreadError(Code.PHASES_UNREADABLE, written=text)
    if len(name) > LONGEST_DAY:
        raise UnreadError(Code.TEXT_TOO_LONG, length=len(name), limit=LONGEST_DAY)
    cell = Cell(1, 1, CellKind.TEXT, weeks)
    try:
        return Phase(name=name, weeks=_weeks(weeks, cell, length))
    except UnreadError as unread:
        if unread.code is Code.WEEKS_UNREADABLE:
            raise UnreadError(Code.PHASES_UNREADABLE, written=text) from None
        raise


def _target(text: str, head: Head, catalogue: Mapping[str, Exercise]) -> Target:
    match = _TARGET.fullmatch(squeezed(text))
    if match is None or not 1 <= int(match["reps"]) <= MOST_REPS:
        raise UnreadError(Code.TARGET_UNREADABLE, written=text)
    week = int(match["week"])
    if not 1 <= week <= (head.weeks or max(week, 1)):
        raise UnreadError(Code.WEEKS_OUTSIDE, weeks=week, length=head.weeks)
    exercise, load_said = _lift(match["what"].split(" "), catalogue, text)
    load = load_of(load_said, head.unit, exercise, text)
    if load.kind not in (LoadKind.MASS, LoadKind.BODYWEIGHT):
        raise UnreadError(Code.TARGET_UNREADABLE, written=text)
    return Target(exercise=exercise.key, load=load, reps=int(match["reps"]), week=week)


def _lift(words: list[str], catalogue: Mapping[str, Exercise], written: str) -> tuple[Exercise, str]:
    """Return the exercise that words begin with, the longest name first, and the words after it."""
    for end in range(len(words) - 1, 0, -1):
        found = named(" ".join(words[:end]), catalogue)
        if found is not None:
            return found, " ".join(words[end:])
    begins = [at for at, word in enumerate(words) if at and _LOAD_BEGINS.match(word)]
    if not begins:
        raise UnreadError(Code.TARGET_UNREADABLE, written=written)
    name = " ".join(words[: begins[0]])
    near = "; ".join(row.name for row in suggestions(name, catalogue=catalogue))
    raise UnreadError(Code.EXERCISE_UNKNOWN, written=name, suggestions=near)


def _clashes(head: Head, plan: Plan) -> Iterator[Problem]:
    taken: dict[int, Phase] = {}
    for phase in plan.phases:
        twice = sorted(week for week in phase.weeks if week in taken)
        if twice:
            facts = {"first": taken[twice[0]].name, "second": phase.name, "weeks": weeks_text(twice)}
            yield problem(Code.PHASES_OVERLAP, head.plan[PHASES][0][0], **facts)
        taken |= dict.fromkeys(phase.weeks, phase)
    both = sorted(plan.lighter_weeks & plan.testing_weeks)
    if both:
        yield problem(Code.LIGHT_AND_TESTED, head.plan[TESTS][0][0], weeks=weeks_text(both))


def plan_warnings(block: Block, catalogue: Mapping[str, Exercise]) -> Iterator[Problem]:
    """Yield what the plan says and no row does: weeks for testing, and targets, that nothing is written for."""
    lines = [line for day in block.days for line in day.lines]
    bare = sorted(
        week
        for week in block.testing_weeks
        if not any(week in line.weeks and line.weeks <= block.testing_weeks for line in lines)
    )
    if bare:
        yield problem(Code.TESTED_WITHOUT_ROWS, Place(), weeks=weeks_text(bare))
    for target in block.targets:
        exercise = target.exercise
        if not any(
            line.prescription.exercise == exercise and min(line.weeks) <= target.week for line in lines
        ):
            facts = {"exercise": catalogue[exercise].name, "week": target.week}
            yield problem(Code.TARGET_WITHOUT_ROWS, Place(), **facts)


def phases_text(block: Block) -> str:
    """Return the phases as `plan_of` reads them back: `Base: 1-4; Build: 5-8`."""
    return "; ".join(f"{phase.name}: {weeks_text(sorted(phase.weeks))}" for phase in block.phases)


def target_text(target: Target, exercise: Exercise) -> str:
    """Return a target as `plan_of` reads it back: `Hip thrust 120 kg x 5 by week 8`."""
    load = load_text(target.load, exercise.basis)
    return f"{exercise.name} {load} x {target.reps} by week {target.week}"
