"""Reps at the same load, where no estimate is to be had: push-ups, bands, long sets."""

from core.loads.past import Exposure, SetDone
from core.programme.prescription import Load
from core.units import Mass
from core.value import Value

_NOTHING = Mass.of(0)


class SameLoad(Value):
    """The best sets of two sessions at one load.

    Attributes:
        load: As logged; None where the exercise has none.
        before: Reps of the earlier session's best set. [reps]
        after: Reps of the later session's best set. [reps]
        with_left: True when reps left are counted in, because both sets gave a number.
    """

    load: Load | None
    before: int
    after: int
    with_left: bool

    @property
    def gained(self) -> int:
        """Reps more than before; negative for fewer. [reps]"""
        return self.after - self.before


def at_same_load(before: Exposure, after: Exposure) -> SameLoad | None:
    """Return the best sets of two sessions at the heaviest load that both have; None where they have none in common.

    Sets with pauses in them and steps down are no sets to compare. Reps left count only where both sets gave them.
    """
    earlier, later = _by_load(before), _by_load(after)
    common = [load for load in later if load in earlier]
    if not common:
        return None
    load = max(common, key=_heaviness)
    with_left = all(one.left is not None for one in (*earlier[load], *later[load]))
    best = [max(_count(one, with_left=with_left) for one in sets[load]) for sets in (earlier, later)]
    return SameLoad(load=load, before=best[0], after=best[1], with_left=with_left)


def _by_load(exposure: Exposure) -> dict[Load | None, list[SetDone]]:
    style = exposure.dose.style
    found: dict[Load | None, list[SetDone]] = {}
    if style is None or style.feeds_estimate:
        for one in exposure.sets:
            if one.reps is not None:
                found.setdefault(one.load, []).append(one)
    return found


def _heaviness(load: Load | None) -> Mass:
    return _NOTHING if load is None or load.mass is None else load.mass


def _count(one: SetDone, *, with_left: bool) -> int:
    return (one.reps or 0) + ((one.left or 0) if with_left else 0)
