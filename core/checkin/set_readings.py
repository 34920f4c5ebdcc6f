"""Every way in which a line of sets can be read: which number is the load, which the reps.

A shape fixes one way for the whole line. Nothing is judged here; `choice` keeps what is sensible.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from core.checkin.plausibility import Known
from core.checkin.set_atoms import AtNumber, Atom, Cross, Num, Said, Settled, SideMark, Unsided
from core.checkin.set_walk import C, Candidate, L, S, Shape, UnfitError, Walk
from core.checkin.words import Mark
from core.programme.exercises import Side

_TWO = ((S, C), (L, C), (C, L))
_THREE = ((L, C, S), (S, C, L), (L, S, C))
_BARE = ("fit", "first", "last", "alternate")


def shapes_of(atoms: Sequence[Atom]) -> Iterator[Shape]:
    """Return the shapes that make a difference for these atoms."""
    crosses = [len(atom.nums) for atom in atoms if isinstance(atom, Cross)]
    twos = _TWO if 2 in crosses else _TWO[:1]
    threes = _THREE if 3 in crosses else _THREE[:1]
    bare = _BARE if 1 in crosses else _BARE[:1]
    at = (True, False) if any(isinstance(atom, AtNumber) for atom in atoms) else (True,)
    for two, three, how, at_load in product(twos, threes, bare, at):
        yield Shape(two, three, how, at_load)


def candidate(atoms: Sequence[Atom], shape: Shape, facts: Known) -> Candidate | None:
    """Return the line as `shape` reads it; None when it does not fit."""
    try:
        sided, sides, counts = _sided(atoms)
        settled = _settled(sided, counts, shape, facts)
        walk = Walk(settled, sides, shape, facts)
        return walk.run(lone=_is_lone(atoms), bare_last=_is_bare(_countable(sided)[-1:]))
    except UnfitError:
        return None


def _countable(atoms: Sequence[Atom]) -> list[Atom]:
    return [atom for atom in atoms if not isinstance(atom, Said)]


def _is_lone(atoms: Sequence[Atom]) -> bool:
    written = _countable(atoms)
    return len(written) == 1 and _is_bare(written)


def _sided(atoms: Sequence[Atom]) -> tuple[list[Unsided], list[Side | None], list[bool]]:
    """Return atoms without side words, the side of each, and whether it can only be a count.

    `10L 9R` has the side after, `L10 R9` before.
    """
    after = bool(atoms) and isinstance(atoms[-1], SideMark)
    kept: list[Unsided] = []
    sides: list[Side | None] = []
    counts: list[bool] = []
    side: Side | None = None
    close = False
    for atom in reversed(atoms) if after else atoms:
        if isinstance(atom, SideMark):
            side, close = atom.side, True
        else:
            kept.append(atom)
            sides.append(side)
            counts.append(close)
            # Before its numbers a side holds for all that follow; after them a load may come first.
            close = close and not after
    return (kept[::-1], sides[::-1], counts[::-1]) if after else (kept, sides, counts)


def _is_bare(atoms: Sequence[Atom]) -> bool:
    """Return whether the first of these is a bare number."""
    return (
        bool(atoms)
        and isinstance(atoms[0], Cross)
        and len(atoms[0].nums) == 1
        and atoms[0].nums[0].role is None
    )


def _settled(atoms: Sequence[Unsided], counts: Sequence[bool], shape: Shape, facts: Known) -> list[Settled]:
    """Give every bare number a role."""
    places = [
        place for place in range(len(atoms)) if _is_bare(atoms[place : place + 1]) and not counts[place]
    ]
    _check(atoms, places, shape.bare)
    settled: list[Unsided] = list(atoms)
    for place, atom in enumerate(atoms):
        if not isinstance(atom, Cross) or not _is_bare([atom]):
            continue
        num = atom.nums[0]
        number = places.index(place) if place in places else None
        load = number is not None and {
            "first": number == 0 or _is_load(num, facts),
            "last": number == len(places) - 1,
            "alternate": number % 2 == 0,
        }.get(shape.bare, _is_load(num, facts))
        settled[place] = Cross((replace(num, role=L if load else C),))
    if shape.bare == "alternate" and not facts.loads:
        _check_alternate(settled)
    return [_settled_at(atom, shape) for atom in settled]


def _check(atoms: Sequence[Atom], places: Sequence[int], how: str) -> None:
    """Refuse a load by its place where one was written as such, or where the number is not in that place."""
    if how == "fit":
        return
    written = any(isinstance(atom, Cross) and any(num.role is L for num in atom.nums) for atom in atoms)
    ends = [place for place, atom in enumerate(atoms) if not isinstance(atom, Said)]
    misplaced = not places or (places[0] != ends[0] if how != "last" else places[-1] != ends[-1])
    if written or misplaced or (how == "alternate" and (len(places) < 4 or len(places) % 2)):
        raise UnfitError


def _check_alternate(atoms: Sequence[Unsided]) -> None:
    """Refuse `8 8 8 8` as loads and reps in turn where no load is known: loads are over all reps then."""
    nums = [atom.nums[0] for atom in atoms if isinstance(atom, Cross)]
    if min(num.value for num in nums if num.role is L) <= max(num.value for num in nums if num.role is C):
        raise UnfitError


def _settled_at(atom: Unsided, shape: Shape) -> Settled:
    if not isinstance(atom, AtNumber):
        return atom
    return Cross((replace(atom.num, role=L),)) if shape.at_load else Said(Mark.RPE, atom.num.value)


def _is_load(num: Num, facts: Known) -> bool:
    """Return whether a bare number can only be a load; a load said a side or a hand is not asked for here."""
    if num.value != int(num.value):
        return True
    return not facts.count_fits(num.value) and facts.fits(facts.kg(num.value, None))
