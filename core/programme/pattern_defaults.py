"""What our own rows of a pattern have, for an exercise of a coach that says no more than its pattern.

Cautious on purpose: sites are never fewer than is typical, the load on the spine is the highest, and a restriction that
forbids any row like it forbids it too. Our proposal.
"""

from decimal import Decimal

from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Implement, Pattern, Region, Site, SpinalLoad
from core.programme.restrictions import Restriction
from core.programme.siblings import sharing

_HELD = frozenset({Implement.DUMBBELL, Implement.KETTLEBELL})
"""Held in the hands; where we have a row with one, it goes for the other too."""
_RISING = (SpinalLoad.NONE, SpinalLoad.SOME, SpinalLoad.HIGH)


def typical_sites(pattern: Pattern, implement: Implement) -> frozenset[Site]:
    """Return the sites that at least half of our rows of a pattern load, or half of those with the same in hand."""
    return _half_of(sharing(pattern)) | _half_of(_with(pattern, implement))


def most_spinal_load(pattern: Pattern, implement: Implement) -> SpinalLoad:
    """Return the highest load on the spine among our rows like it."""
    return max((row.spinal_load for row in _like(pattern, implement)), key=_RISING.index)


def restrictions_broken(pattern: Pattern, implement: Implement, *, each_side: bool) -> frozenset[Restriction]:
    """Return every restriction that forbids one of our rows like it; balancing on one leg needs one leg at a time."""
    found = frozenset(each for row in _like(pattern, implement) for each in row.breaks)
    return found if each_side else found - {Restriction.ONE_LEG}


def usually_needs_safeties(pattern: Pattern, implement: Implement) -> bool:
    """Return whether any of our rows of a pattern, with the same in hand, is dangerous to fail under alone."""
    return any(row.needs_safeties for row in _with(pattern, implement))


def share_that_moves(pattern: Pattern, implement: Implement) -> Decimal | None:
    """Return the share of bodyweight that moves where all our rows like it have the same; None where they differ."""
    shares = {row.body_share for row in _with(pattern, implement)}
    return shares.pop() if len(shares) == 1 else None


def goes_by_distance(pattern: Pattern) -> bool:
    """Return whether sets of a pattern may be counted in metres too, as all our rows of it may."""
    return all(row.by_distance for row in sharing(pattern))


def region_of(pattern: Pattern) -> Region:
    """Return the half of the body that a pattern belongs to."""
    return sharing(pattern)[0].region


def _with(pattern: Pattern, implement: Implement) -> tuple[Exercise, ...]:
    alike = _HELD if implement in _HELD else {implement}
    return tuple(row for row in sharing(pattern, CATALOGUE) if row.implement in alike)


def _like(pattern: Pattern, implement: Implement) -> tuple[Exercise, ...]:
    return _with(pattern, implement) or sharing(pattern, CATALOGUE)


def _half_of(rows: tuple[Exercise, ...]) -> frozenset[Site]:
    return frozenset(
        site for site in Site if rows and 2 * sum(site in row.loads_sites for row in rows) >= len(rows)
    )
