"""One row of `My exercises`, read into an exercise.

What a coach does not say is taken from our rows of the pattern, cautiously, so that the rules about pain hold for hers
too: never fewer sites than is typical.
"""

from collections.abc import Mapping

from core.programme import exercise_sheet as heading
from core.programme import pattern_defaults as usual
from core.programme.catalogue import named, suggestions
from core.programme.exercise_cells import (
    BASES,
    COUNTED_AS,
    IMPLEMENTS,
    MUSCLES,
    PATTERNS,
    SITES,
    STATIONS,
    name_in,
    parts_of,
    step_in,
    yes_in,
)
from core.programme.exercises import Basis, Exercise, Implement, Pattern, Site
from core.programme.folding import folded
from core.programme.grammar import link_in, text_in, typed
from core.programme.problems import Code, Place, Problem, problem
from core.programme.row_reading import LONGEST_CUE
from core.programme.sheets import UnreadError
from core.programme.table import CellByCell, Row

OWN = "own-"
"""How the key of a coach's exercise begins, and no key of ours ever does."""


def is_own(exercise: Exercise) -> bool:
    """Return whether a coach added an exercise."""
    return exercise.key.startswith(OWN)


def counting(exercise: Exercise) -> tuple[Basis, bool, bool, bool]:
    """Return what must not change while the log has sets of an exercise: how they are counted."""
    return exercise.basis, exercise.timed, exercise.each_side, exercise.implement is Implement.BAND


class RowReading(CellByCell):
    """Reads a row cell by cell and keeps the problems.

    Args:
        row: The row.
        catalogue: Exercises that may be named before the sheet is read.
        problems: Where what is wrong is added.
    """

    def __init__(self, row: Row, catalogue: Mapping[str, Exercise], problems: list[Problem]) -> None:
        super().__init__(row, problems)
        self.catalogue = catalogue
        self.name = self.needed(heading.NAME, lambda cell: name_in(typed(cell)))
        there = named(self.name, catalogue) if self.name is not None else None
        same = there is not None and folded(there.name) == folded(self.name or "")
        self.before = there if there is not None and same and is_own(there) else None
        """Her exercise of this name, where she has one already."""

    def draft(self, others: Mapping[str, Exercise], taken: dict[str, int]) -> Exercise | None:
        """Return the exercise but for its key and its equals; None where anything in the row is wrong.

        Args:
            others: Every exercise that the sheet says nothing of.
            taken: Number of the row that has a name, by the folded name; this row's are added.
        """
        wrong = len(self.problems)
        name = self.name
        if name is not None:
            self._claim(name, heading.NAME, others, taken)
        aliases = self._aliases(others, taken)
        pattern = self.needed(heading.PATTERN, PATTERNS.one_in)
        implement = self.needed(heading.IMPLEMENT, IMPLEMENTS.one_in)
        basis = self._basis(implement)
        rest = self._plain_cells()
        sites = self.given(heading.SITES, SITES.some_in) or frozenset()
        safeties = self.given(heading.SAFETIES, yes_in)
        if (
            len(self.problems) > wrong
            or name is None
            or pattern is None
            or implement is None
            or basis is None
        ):
            return None
        rest |= _cautious(pattern, implement, sites, safeties, each_side=bool(rest["each_side"]))
        given = {"name": name, "pattern": pattern, "implement": implement, "basis": basis}
        made = Exercise.model_validate({"key": "", **given, "aliases": aliases, **rest})
        if self.before is not None and counting(made) != counting(self.before):
            facts = {"exercise": self.before.name, "was": _counted(self.before), "now": _counted(made)}
            self._wrong(Code.OWN_COUNTED_OTHERWISE, heading.NAME, **facts)
            return None
        return made

    def equals(
        self, known: Mapping[str, Exercise], taken: Mapping[str, int], key: str = ""
    ) -> tuple[str, ...]:
        """Return the keys of the exercises that serve as well, itself left out; a row that is wrong itself is none."""
        text = self.given(heading.EQUALS, typed)
        keys: list[str] = []
        for part in parts_of(text or ""):
            found = named(part, known)
            if found is None and folded(part) not in taken:
                near = "; ".join(one.name for one in suggestions(part, catalogue=known))
                self._wrong(Code.EXERCISE_UNKNOWN, heading.EQUALS, written=part, suggestions=near)
            elif found is not None and found.key != key:
                keys.append(found.key)
        return tuple(dict.fromkeys(keys))

    def _plain_cells(self) -> dict[str, object]:
        given = self.given
        direct = given(heading.MUSCLES, MUSCLES.some_in) or frozenset()
        indirect = given(heading.HELPING, MUSCLES.some_in) or frozenset()
        for muscle in sorted(direct & indirect):
            self._wrong(Code.OWN_MUSCLE_TWICE, heading.HELPING, written=muscle.value)
        return {
            "each_side": given(heading.EACH_SIDE, yes_in) or False,
            "timed": given(heading.TIMED, yes_in) or False,
            "main_lift": given(heading.MAIN, yes_in) or False,
            "direct": direct,
            "indirect": indirect,
            "needs": given(heading.NEEDS, STATIONS.some_in) or frozenset(),
            "step_kg": given(heading.STEP, step_in),
            "cue": given(heading.CUE, lambda cell: text_in(cell, LONGEST_CUE)) or "",
            "link": given(heading.CLIP, link_in),
        }

    def _basis(self, implement: Implement | None) -> Basis | None:
        basis = self.needed(heading.COUNTED, BASES.one_in)
        if basis is not None and implement is not None and basis not in COUNTED_AS[implement]:
            known = " or ".join(one.value for one in COUNTED_AS[implement])
            facts = {"written": basis.value, "implement": implement.value, "known": known}
            self._wrong(Code.OWN_BASIS, heading.COUNTED, **facts)
            return None
        return basis

    def _aliases(self, others: Mapping[str, Exercise], taken: dict[str, int]) -> tuple[str, ...]:
        found: list[str] = []
        for part in parts_of(self.given(heading.ALSO, typed) or ""):
            try:
                alias = name_in(part)
            except UnreadError as unread:
                self.problems.append(unread.at(self.row.place(heading.ALSO)))
                continue
            if folded(alias) != folded(self.name or "") and folded(alias) not in map(folded, found):
                self._claim(alias, heading.ALSO, others, taken)
                found.append(alias)
        return tuple(found)

    def _claim(self, name: str, column: str, others: Mapping[str, Exercise], taken: dict[str, int]) -> None:
        """Take a name, unless another exercise has it."""
        there = named(name, others)
        first = taken.setdefault(folded(name), self.row.number)
        if there is not None:
            code = Code.OWN_NAME_TAKEN if is_own(there) else Code.OWN_NAME_OURS
            self._wrong(code, column, written=name, exercise=there.name)
        elif first != self.row.number:
            self._wrong(Code.OWN_NAME_TWICE, column, written=name, first_row=first)

    def _wrong(self, code: Code, column: str, **facts: object) -> None:
        place: Place = self.row.place(column)
        self.problems.append(problem(code, place, **facts))


def _cautious(
    pattern: Pattern,
    implement: Implement,
    sites: frozenset[Site],
    safeties: bool | None,
    *,
    each_side: bool,
) -> dict[str, object]:
    """Return what she says of joints and safety, with what our rows of the pattern have beside it."""
    usually = usual.usually_needs_safeties(pattern, implement)
    return {
        "region": usual.region_of(pattern),
        "loads_sites": sites | usual.typical_sites(pattern, implement),
        "needs_safeties": usually if safeties is None else safeties,
        "spinal_load": usual.most_spinal_load(pattern, implement),
        "breaks": usual.restrictions_broken(pattern, implement, each_side=each_side),
        "body_share": usual.share_that_moves(pattern, implement),
        "by_distance": usual.goes_by_distance(pattern),
    }


def _counted(exercise: Exercise) -> str:
    """Say how sets are counted: `per hand, by reps, a side at a time`."""
    how = [
        "by band" if exercise.implement is Implement.BAND else exercise.basis.value,
        "by time" if exercise.timed else "by reps",
    ]
    return ", ".join([*how, "a side at a time"] if exercise.each_side else how)
