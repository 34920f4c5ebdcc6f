"""The way back after a break, by days since the load was last moved.

Loads by session, sets cut more than loads; raises wait until the old load is back. The table is our proposal
after [CSCCa2019], [Mujika2001] and [Bosquet2013]; from 60 on it is read one row lower.
"""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import ROUND_FLOOR, Decimal

from core.loads.asked import is_older
from core.loads.one_rep_max import POLE, per_load
from core.loads.past import Inputs
from core.loads.performance import Performance, Verdict
from core.loads.relative_volume import relative_volume
from core.loads.rewritten import before_lighter_week
from core.units import Mass

RESTED = timedelta(days=14)
"""Days without any training before sets are cut, as the source counts it. Source: [CSCCa2019]. Who went on training
everything else comes back to one lift with all its sets."""
SLID = timedelta(days=7)
"""Days with any training in them before a lift of under two weeks ago that make no break of it: a session that slid to
another day, or a week that began later. Our proposal."""
MOST_VOLUME = 30
"""Most of sets x reps x share of the maximum for an exercise in the weeks back. Source: [CSCCa2019]."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the table.

    Attributes:
        days: Fewest days away.
        loads: Share of the last good load, by session back. [fraction]
        sets: Share of the sets, by session back; all of them after. [fraction]
        left_more: Reps left on top of what is asked.
    """

    days: int
    loads: tuple[Decimal, ...]
    sets: tuple[Decimal, ...] = ()
    left_more: int = 1


def _shares(*percent: int) -> tuple[Decimal, ...]:
    return tuple(Decimal(each) / 100 for each in percent)


ROWS = (
    Row(8, _shares(100)),
    Row(14, _shares(90, 95, 100), _shares(50, 70)),
    Row(28, _shares(80, 87, 95, 100), _shares(50, 70, 80, 90)),
    Row(56, _shares(80), _shares(50)),
)
"""Rows by days away; none under the first's. In the last one the coach sets."""
FEWEST_AWAY = ROWS[0].days
"""Days after which a break begins to bear on a load. [days]"""


@dataclass(frozen=True, slots=True)
class Comeback:
    """Where in the way back today stands.

    Attributes:
        days: How long the break was.
        row: Row of the table.
        step: Session back, from 0.
        good: Last good load before the break.
        coach: True while only the coach may set more.
        rested: True when nothing at all was trained in the two weeks before.
    """

    days: int
    row: Row
    step: int
    good: Mass
    coach: bool = False
    rested: bool = True

    @property
    def share(self) -> Decimal:
        """Share of the last good load today. [fraction]"""
        return self.row.loads[min(self.step, len(self.row.loads) - 1)]

    def sets(self, planned: int, target: int, left: int) -> int:
        """Return the sets of today: the row's share, rounded down, within the volume of the weeks back; at least 1.

        Args:
            planned: Working sets as written.
            target: Reps of a set; 0 for timed sets, which have no share of a maximum.
            left: Reps left asked for.
        """
        if not self.rested:
            return planned
        step = 0 if self.coach else self.step  # Half the sets for as long as the coach has set nothing.
        share = self.row.sets[step] if step < len(self.row.sets) else Decimal(1)
        cut = int((planned * share).to_integral_value(ROUND_FLOOR))
        if self.row.sets and target:
            intensity = 1 / per_load(min(target + left, POLE - 1))
            while cut > 1 and relative_volume(cut, target, intensity) > MOST_VOLUME:
                cut -= 1
        return max(1, cut)


def comeback(inputs: Inputs, past: tuple[Performance, ...]) -> Comeback | None:
    """Return where in a way back today stands; None when in none."""
    if not past:
        return None
    today = inputs.moment.today
    last_on = past[-1].exposure.on
    # A step of the way back may be rounded to under 80 %: a session of its own counts all the same.
    trained = max(inputs.last_trained or last_on, last_on)
    away = (today - trained).days
    now = _row(inputs, away, today)
    if now is not None:
        good = _good(before_lighter_week(inputs, past))
        return _settled(Comeback(away, now, 0, good, rested=_rested(inputs, today)), inputs, today)
    for back in range(len(past) - 1, 0, -1):
        days = (past[back].exposure.on - past[back - 1].exposure.on).days
        back_on = past[back].exposure.on
        row = _row(inputs, days, back_on)
        if row is None or not row.sets:
            continue
        good = _good(before_lighter_week(inputs, past[:back]))
        since = past[back:]
        if _is_back(since, good):
            return None
        found = Comeback(days, row, len(since), good, rested=_rested(inputs, back_on))
        found = _settled(found, inputs, back_on)
        return None if not found.coach and found.step >= len(found.row.loads) else found
    return None


def _rested(inputs: Inputs, back_on: date) -> bool:
    return not _trained_within(inputs, SLID if is_older(inputs) else RESTED, back_on)


def _trained_within(inputs: Inputs, days: timedelta, back_on: date) -> bool:
    return any(back_on - days < on < back_on for on in inputs.trained_on)


def _row(inputs: Inputs, days: int, back_on: date) -> Row | None:
    """Return the row of a break that ends on a date; none for a lift that comes a few days late in a trained week."""
    if days < FEWEST_AWAY:
        return None
    place = sum(days >= row.days for row in ROWS)
    if place == 1 and _trained_within(inputs, SLID, back_on):
        return None
    return ROWS[min(place, len(ROWS) - 1) if is_older(inputs) else place - 1]


def _settled(found: Comeback, inputs: Inputs, back_on: date) -> Comeback:
    """Return the last row as the coach's until she has set the way back, then as the row before it."""
    if found.row is not ROWS[-1]:
        return found
    set_on = inputs.comeback_set_on
    if set_on is None or set_on < back_on - timedelta(days=found.days):
        return replace(found, coach=True)
    return replace(found, row=ROWS[-2])


def _good(past: tuple[Performance, ...]) -> Mass:
    """Return the last load at which all was done; where nothing ever was, the last one."""
    return next((one.load for one in reversed(past) if one.verdict is Verdict.DONE), past[-1].load)


def _is_back(since: tuple[Performance, ...], good: Mass) -> bool:
    return any(one.verdict is Verdict.DONE and one.load >= good for one in since)
