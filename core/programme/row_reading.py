"""One row of the sheet `Sessions`, read into a prescription and the weeks it holds in."""

from collections.abc import Mapping
from dataclasses import dataclass

from core.programme import session_sheet as heading
from core.programme.block import weeks_text
from core.programme.block_sheet import Head, day_key
from core.programme.catalogue import named, suggestions
from core.programme.count_cells import Count, count_in
from core.programme.dose_fit import Cells, dose_of, misfits, on_compound, way_misfit
from core.programme.effort_cells import effort_in
from core.programme.exercises import Basis, Exercise
from core.programme.grammar import link_in, order_in, rest_in, tempo_in, text_in, typed, weeks_in
from core.programme.load_cells import load_in
from core.programme.prescription import Dose, LoadKind, Prescription, Span
from core.programme.problems import Code, Problem, problem
from core.programme.set_cells import Sets, sets_in
from core.programme.sheets import Cell, UnreadError
from core.programme.table import CellByCell, Row
from core.programme.way_cells import way_of
from core.programme.ways_up import TABLE_REPS, TABLE_SETS, WayUp

LONGEST_CUE = 200
"""Longest cue. [characters]"""


@dataclass(frozen=True, slots=True)
class Written:
    """What a row says; None where it could not be read.

    Attributes:
        row: The row.
        day: Key of its day.
        order: Place in the session.
        weeks: Weeks it holds in; None when they could not be read.
        prescription: None unless all of it could be read.
        problems: All that is wrong with the row by itself.
    """

    row: Row
    day: str | None
    order: str | None
    weeks: frozenset[int] | None
    prescription: Prescription | None
    problems: tuple[Problem, ...]


def written_in(row: Row, head: Head, catalogue: Mapping[str, Exercise]) -> Written:
    """Return what `row` says, with every problem in it."""
    reading = _Reading(row, head, catalogue)
    day, order, weeks = reading.day(), reading.needed(heading.ORDER, order_in), reading.weeks()
    prescription = reading.prescription(order)
    return Written(row, day, order, weeks, prescription, tuple(reading.problems))


class _Reading(CellByCell):
    """Reads a row cell by cell and keeps the problems."""

    def __init__(self, row: Row, head: Head, catalogue: Mapping[str, Exercise]) -> None:
        super().__init__(row, [])
        self.head = head
        self.catalogue = catalogue

    def day(self) -> str | None:
        """The day's key, when it is a session day of the block."""
        text = self.needed(heading.DAY, typed)
        if text is None:
            return None
        key = day_key(text)
        if self.head.days and key not in self.head.days:
            known = ", ".join(self.head.days.values())
            place = self.row.place(heading.DAY)
            self.problems.append(problem(Code.DAY_UNKNOWN, place, written=text, known=known))
            return None
        return key

    def weeks(self) -> frozenset[int] | None:
        """The weeks; all of the block where none are written."""
        length = self.head.weeks
        if heading.WEEKS not in self.row.cells:
            return frozenset(range(1, (length or 1) + 1))
        weeks = self.given(heading.WEEKS, weeks_in)
        if weeks is None or length is None:
            return weeks
        outside = sorted(week for week in weeks if not 1 <= week <= length)
        if outside:
            place, listed = self.row.place(heading.WEEKS), weeks_text(outside)
            self.problems.append(problem(Code.WEEKS_OUTSIDE, place, weeks=listed, length=length))
            return None
        return weeks

    def prescription(self, order: str | None) -> Prescription | None:
        """The prescription, when nothing in the row is wrong."""
        cells = self._cells()
        for column, unread in misfits(cells):
            self.problems.append(unread.at(self.row.place(column)))
        rest_s = self.given(heading.REST, rest_in)
        tempo = self.given(heading.TEMPO, tempo_in)
        cue = self.given(heading.CUE, lambda cell: text_in(cell, LONGEST_CUE))
        instead = self._instead()
        link = self.given(heading.LINK, link_in)
        count = _count(cells)
        if self.problems or order is None or cells.exercise is None or cells.sets is None or count is None:
            return None
        dose = dose_of(cells.sets, count, cells, sided=cells.exercise.each_side)
        against = way_misfit(cells, dose, cells.exercise)
        if against is not None:
            self.problems.append(against[1].at(self.row.place(against[0])))
            return None
        self._warn(dose, cells.exercise)
        return Prescription(
            order=order,
            exercise=cells.exercise.key,
            dose=dose,
            rest_s=rest_s,
            tempo=tempo,
            cue=cue,
            instead=instead,
            link=link,
        )

    def _cells(self) -> Cells:
        exercise = self.needed(heading.EXERCISE, self._exercise)
        way = self.given(heading.WAY, lambda cell: way_of(typed(cell), self._known))
        sets, count = self._sets_and_count(way)
        return Cells(
            exercise=exercise,
            sets=sets,
            count=count,
            load=self.given(heading.LOAD, lambda cell: load_in(cell, self.head.unit, exercise)),
            effort=self.given(heading.LEFT, effort_in),
            way=way,
            texts={column: cell.text for column, cell in self.row.cells.items()},
        )

    def _sets_and_count(self, way: WayUp | None) -> tuple[Sets | None, Count | None]:
        """Return how many sets of how much; a table has both, where they are not written."""
        reps = None if way is None else TABLE_REPS.get(way.kind)
        if reps is not None:
            sets = self.given(heading.SETS, sets_in)
            count = self.given(heading.REPS, count_in)
            no_sets, no_reps = heading.SETS not in self.row.cells, heading.REPS not in self.row.cells
            return (
                Sets(TABLE_SETS) if no_sets else sets,
                Count(Span(low=reps, high=reps)) if no_reps else count,
            )
        sets = self.needed(heading.SETS, sets_in)
        has_parts = sets is not None and sets.parts
        return sets, (self.given if has_parts else self.needed)(heading.REPS, count_in)

    def _exercise(self, cell: Cell) -> Exercise:
        return self._known(typed(cell))

    def _known(self, text: str) -> Exercise:
        found = named(text, self.catalogue)
        if found is None:
            near = "; ".join(row.name for row in suggestions(text, catalogue=self.catalogue))
            raise UnreadError(Code.EXERCISE_UNKNOWN, written=text, suggestions=near)
        return found

    def _instead(self) -> tuple[str, ...]:
        text = self.given(heading.INSTEAD, typed)
        keys: list[str] = []
        for name in (text or "").split(";"):
            if not name.strip():
                continue
            try:
                keys.append(self._known(name.strip()).key)
            except UnreadError as unread:
                self.problems.append(unread.at(self.row.place(heading.INSTEAD)))
        return tuple(keys)

    def _warn(self, dose: Dose, exercise: Exercise) -> None:
        load = dose.load
        if load is not None and load.kind is LoadKind.BODYWEIGHT and exercise.basis is not Basis.BODYWEIGHT:
            place = self.row.place(heading.LOAD)
            facts = {"exercise": exercise.name, "basis": exercise.basis.value}
            self.problems.append(problem(Code.BW_ON_LOADED, place, **facts))
        if on_compound(exercise, dose):
            place = self.row.place(heading.SETS)
            self.problems.append(problem(Code.DESCENDING_ON_COMPOUND, place, exercise=exercise.name))


def _count(cells: Cells) -> Count | None:
    """Return how much a set is: under Reps, or in the parts of a cluster that stand with the sets."""
    if cells.sets is not None and cells.sets.parts:
        total = sum(cells.sets.parts)
        return Count(Span(low=total, high=total), parts=cells.sets.parts)
    return cells.count
