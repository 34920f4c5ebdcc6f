"""One way through a line of sets, with every number's role settled."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from core.checkin.plausibility import MOST_COUNT, MOST_SECONDS, MOST_SETS, Known
from core.checkin.set_atoms import Cross, Num, Pair, Per, Role, Said, Settled
from core.programme.exercises import Side

L, C, S = Role.LOAD, Role.COUNT, Role.SETS
_PLAIN = (Role.LOAD, Role.SETS)


@dataclass(frozen=True, slots=True)
class Draft:
    """One set as one shape reads it; `load` None where the reply gave none."""

    load: Num | None
    count: Decimal
    seconds: bool
    side: Side | None = None
    said: Said | None = None


@dataclass(frozen=True, slots=True)
class Shape:
    """One way to read a line.

    Attributes:
        two: Roles of `80x8`.
        three: Roles of `80x8x3`.
        bare: Which bare numbers are loads.
        at_load: True when a bare number after `@` is a load, False when it is an RPE.
    """

    two: tuple[Role, Role]
    three: tuple[Role, Role, Role]
    bare: str
    at_load: bool


@dataclass(frozen=True, slots=True)
class Candidate:
    """A line as one shape reads it.

    Attributes:
        sets: In order.
        said: Effort said once for the exercise.
        shape: The way it was read.
        load_only: A load without a single set.
        turned: Reps were read before the load, in `5x100`.
        mixed: Some sets came before the first load that was written.
        lone: A single bare number.
        paired: Numbers were joined by a slash.
        trailing: A bare number was written last and is the load.
        crossed: Sets were read before reps, in `8x3`, without the word.
        weighed: A load was read before reps, in `12x3`, which could be three sets of twelve.
    """

    sets: tuple[Draft, ...]
    said: tuple[Said, ...]
    shape: Shape
    load_only: Num | None = None
    turned: bool = False
    mixed: bool = False
    lone: bool = False
    paired: bool = False
    trailing: bool = False
    crossed: bool = False
    weighed: bool = False


class UnfitError(Exception):
    """The shape does not fit the line."""


class Walk:
    """Goes through settled atoms once and collects sets."""

    def __init__(
        self, atoms: Sequence[Settled], sides: Sequence[Side | None], shape: Shape, facts: Known
    ) -> None:
        self.atoms = atoms
        self.sides = sides
        self.shape = shape
        self.facts = facts
        self.load: Num | None = None
        self.sets: list[Draft] = []
        self.said: list[tuple[int, int, Said]] = []
        self.turned = False
        self.paired = False
        self.behind = 0
        self.dangling = False
        self.crossed = False
        self.weighed = False
        kinds = [self._gives(atom) for atom in atoms if not isinstance(atom, Said)]
        self.after = len(kinds) > 1 and kinds[0] == "count" and kinds[-1] == "load"
        counting = [atom for atom in atoms if not isinstance(atom, Said) and self._gives(atom) == "count"]
        self.after_cross = self.after and isinstance(counting[-1], Cross) and len(counting[-1].nums) > 1
        self.mixed = kinds[:1] == ["count"] and not {"load", "both"}.isdisjoint(kinds) and not self.after

    def _gives(self, atom: Settled) -> str:
        if isinstance(atom, Cross):
            roles = self._roles(atom.nums)
            if L in roles:
                return "load" if len(roles) == 1 else "both"
        return "count"

    def run(self, *, lone: bool, bare_last: bool) -> Candidate:
        """Return the line read."""
        for atom, side in zip(self.atoms, self.sides, strict=True):
            before = len(self.sets)
            if isinstance(atom, Said):
                self.said.append((self.behind, len(self.sets), atom))
                continue
            if isinstance(atom, Cross):
                self._cross(atom.nums, side)
            elif isinstance(atom, Pair):
                self._pair(atom)
            else:
                self._add(self.facts.sets or 0, atom.num, side)
            self.behind = before
            if len(self.sets) > 2 * MOST_SETS:
                raise UnfitError
        if self.dangling and self.sets:
            raise UnfitError
        load_only = self.load if not self.sets else None
        if not self.sets and load_only is None and not self.said:
            raise UnfitError
        once = self._effort()
        sets = tuple(_interleaved(self.sets))
        return Candidate(
            sets,
            once,
            self.shape,
            load_only,
            self.turned,
            self.mixed,
            lone,
            self.paired,
            bare_last and self.after and not self.after_cross,
            self.crossed,
            self.weighed,
        )

    def _roles(self, nums: Sequence[Num]) -> tuple[Role, ...]:
        said = tuple(C if num.role is Role.REPS else num.role for num in nums)
        if len(nums) == 1:
            return (said[0] or C,)
        if len(nums) > 3:
            wanted: tuple[Role, ...] = (L, *(C for _ in nums[1:]))
        else:
            wanted = self.shape.two if len(nums) == 2 else self.shape.three
            if len(nums) == 2 and S in said:
                wanted = (S, C) if said[0] is S else (C, S)
            elif said[0] in (C, Role.SECONDS) and said[1:] == (None,):
                wanted = (C, S)
        for one, want in zip(said, wanted, strict=True):
            if one is not None and one is not want and not (one is Role.SECONDS and want is C):
                raise UnfitError
        return wanted

    def _cross(self, nums: Sequence[Num], side: Side | None) -> None:
        roles = self._roles(nums)
        loads = [num for num, role in zip(nums, roles, strict=True) if role is L]
        counts = [num for num, role in zip(nums, roles, strict=True) if role in (C, Role.SECONDS)]
        repeats = [num.value for num, role in zip(nums, roles, strict=True) if role is S]
        if not counts:
            if repeats:
                raise UnfitError
            self._loaded(loads[0])
            return
        if loads:
            if self.load is not None and self.load.role is L:
                raise UnfitError
            self.turned = self.turned or (roles[0] is C and self._may_be_sets(counts[0], loads[0]))
        bare = all(num.role is None and num.unit is None for num in nums)
        self.crossed = self.crossed or (roles == (S, C) and bare)
        self.weighed = self.weighed or (roles == (L, C) and bare and self._may_be_repeated(nums))
        for count in counts:
            self._add(int(repeats[0]) if repeats else 1, count, side, loads[0] if loads else None)
        if loads:
            # Bare reps that follow `80x8` are at the same load.
            self.load = replace(loads[0], role=None)
        if repeats and repeats[0] != int(repeats[0]):
            raise UnfitError

    def _may_be_repeated(self, nums: Sequence[Num]) -> bool:
        """Return whether `12x3` may be as many sets as were planned."""
        reps, sets = (num.value for num in nums)
        return sets == self.facts.sets and self.facts.count_fits(reps) and not self.facts.in_span(sets)

    def _may_be_sets(self, count: Num, load: Num) -> bool:
        """Return whether the first number of `5x80kg` may be sets as well as reps."""
        in_doubt = not self.facts.in_span(count.value) or count.value == self.facts.sets
        return load.unit is None or (in_doubt and self.facts.low is not None)

    def _loaded(self, load: Num) -> None:
        if not self.after:
            if self.dangling:
                raise UnfitError
            self.load = load
            self.dangling = True
            return
        open_sets = [place for place, one in enumerate(self.sets) if one.load is None]
        if not open_sets:
            raise UnfitError
        for place in open_sets:
            self.sets[place] = replace(self.sets[place], load=load)

    def _add(self, times: int, count: Num, side: Side | None, load: Num | None = None) -> None:
        seconds = count.role is Role.SECONDS or (self.facts.timed and count.role is not Role.REPS)
        most = MOST_SECONDS if seconds else MOST_COUNT
        if count.value != int(count.value) or not 0 <= count.value <= most or not 1 <= times <= MOST_SETS:
            raise UnfitError
        # "12 each" of a hand is said of reps as well; a side only where there are two.
        said = count.per is Per.TOTAL or (count.per is Per.SIDE and not self.facts.sided)
        if said or count.unit is not None:
            raise UnfitError
        self.dangling = False
        draft = Draft(load or (self.load if not self.after else None), count.value, seconds, side)
        self.sets.extend([draft] * times)

    def _pair(self, pair: Pair) -> None:
        self.paired = True
        for num, side in ((pair.left, Side.LEFT), (pair.right, Side.RIGHT)):
            if num.role in _PLAIN:
                raise UnfitError
            self._add(1, replace(num, role=num.role or C), side)

    def _effort(self) -> tuple[Said, ...]:
        """Return effort said once for the exercise; put the rest on the sets it was said for."""
        total = len(self.sets)
        once = [said for _, at, said in self.said if at in (0, total)]
        scales = [said.scale for said in once]
        if len(once) == len(self.said) and len(set(scales)) == len(scales):
            return tuple(once)
        for start, end, said in self.said:
            if start == end:
                raise UnfitError
            for place in range(start, end):
                self.sets[place] = replace(self.sets[place], said=said)
        return ()


def _interleaved(sets: Sequence[Draft]) -> list[Draft]:
    """Return `L10 9 8 R10 10 10` set by set, left before right."""
    left = [one for one in sets if one.side is Side.LEFT]
    right = [one for one in sets if one.side is Side.RIGHT]
    if not left or not right or len(left) + len(right) != len(sets):
        return list(sets)
    paired = [one for both in zip(left, right, strict=False) for one in both]
    shared = min(len(left), len(right))
    return [*paired, *left[shared:], *right[shared:]]
