"""What limited discs add up to: every sum, and which discs make one."""

from collections.abc import Iterable
from decimal import Decimal
from functools import lru_cache

from core.loads.kit import Plates
from core.units import Mass, Unit

Discs = tuple[tuple[str, int | None], ...]
"""Discs heaviest first: the mass of one by its digits, and how many can be used; None for plenty. [one unit]"""


def discs_of(plates: Iterable[Plates], unit: Unit, *, share: int = 1, each: int = 1) -> Discs:
    """Return the discs of a set, heaviest first.

    Args:
        plates: The set.
        unit: Unit to count in; exact where it is theirs, or kilograms.
        share: Among how many ends of the same kind the pairs are shared out: 2 for two dumbbells alike.
        each: Discs that a pair gives: 1 for an end that has a twin, 2 where each is hung up by itself.
    """
    pairs: dict[Decimal, int | None] = {}
    for one in plates:
        mass = one.mass.to(unit).value
        held = pairs.get(mass, 0)
        pairs[mass] = None if one.pairs is None or held is None else held + max(one.pairs, 0)
    return tuple(
        (str(mass), None if count is None else count // share * each)
        for mass, count in sorted(pairs.items(), key=lambda disc: -disc[0])
        if mass > 0
    )


def as_marked(found: Iterable[Decimal], plates: Iterable[Plates], unit: Unit) -> tuple[Mass, ...]:
    """Return discs that were counted in a unit as they are marked: who looks for 45 lb finds no 20.41 kg."""
    marks = {one.mass.to(unit).value: one.mass for one in plates}
    return tuple(marks[mass] for mass in found)


@lru_cache(maxsize=512)
def sums(discs: Discs, most: Decimal) -> tuple[Decimal, ...]:
    """Return every sum of some of the discs that is not over `most`, from nothing, rising."""
    found = {Decimal(0)}
    for text, count in discs:
        mass = Decimal(text)
        for start in sorted(found):
            total = start
            for _ in range(_usable(mass, count, most)):
                total += mass
                # What was there before goes on from there by itself, and as far.
                if total > most or total in found:
                    break
                found.add(total)
    return tuple(sorted(found))


def _usable(mass: Decimal, count: int | None, most: Decimal) -> int:
    return int(most // mass) if count is None else count


@lru_cache(maxsize=2048)
def making(total: Decimal, discs: Discs) -> tuple[Decimal, ...] | None:
    """Return the discs that make `total` exactly, heaviest first; None when none do.

    The fewest; among those the heaviest first, as a lifter puts them on. Exact, not greedy: with limited discs the
    greedy way misses sums that can be made.
    """
    fewest = _fewest(total, discs)
    if total not in fewest[0]:
        return None
    used: list[Decimal] = []
    rest = total
    for place, (text, count) in enumerate(discs):
        mass, lighter = Decimal(text), fewest[place + 1]
        most = min(_usable(mass, count, total), int(rest // mass))
        wanted = fewest[place][rest]
        # As many of the heavier disc as the fewest discs in all allow.
        number = next(n for n in range(most, -1, -1) if lighter.get(rest - n * mass) == wanted - n)
        used += [mass] * number
        rest -= number * mass
    return tuple(used)


def _fewest(total: Decimal, discs: Discs) -> list[dict[Decimal, int]]:
    """Return for each place in `discs` the sums up to `total` of the discs from there on, with the fewest for each."""
    tables: list[dict[Decimal, int]] = [{Decimal(0): 0}]
    for text, count in reversed(discs):
        mass = Decimal(text)
        usable = _usable(mass, count, total)
        if usable * mass + mass > total:
            tables.append(_with_plenty(tables[-1], mass, total))
        else:
            tables.append(_with_some(tables[-1], mass, usable, total))
    return tables[::-1]


def _with_plenty(lighter: dict[Decimal, int], mass: Decimal, total: Decimal) -> dict[Decimal, int]:
    found = dict(lighter)
    for start in sorted(lighter):
        reached, number = start + mass, found[start] + 1
        # Where a sum is made with as few, its own turn goes on from there.
        while reached <= total and found.get(reached, number + 1) > number:
            found[reached] = number
            reached, number = reached + mass, number + 1
    return found


def _with_some(lighter: dict[Decimal, int], mass: Decimal, usable: int, total: Decimal) -> dict[Decimal, int]:
    found = dict(lighter)
    for start, before in lighter.items():
        for number in range(1, usable + 1):
            reached = start + number * mass
            if reached > total:
                break
            found[reached] = min(found.get(reached, before + number), before + number)
    return found
