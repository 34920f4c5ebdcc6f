"""Where the search for a first load begins: from her own log, else from a sister lift, else at the lightest.

What comes of it is where a search begins, and never a load that counts as known: the search itself goes on from there
and ends with three left. In doubt it begins at the lightest.
"""

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from enum import StrEnum
from types import MappingProxyType

from pydantic import Field

from core.checkin.pain import PainReport, bears_on
from core.loads.asked import eased, load_text, percent
from core.loads.comeback import ROWS
from core.loads.equipment import Ladder
from core.loads.lift import Lift
from core.loads.one_rep_max import MOST_TOTAL, estimate, load_for
from core.programme.exercises import Basis, Exercise
from core.units import Mass
from core.value import Value


class Sister(Value):
    """A lift that another is a fraction of.

    Attributes:
        of: Key of the lift that is known.
        fraction: Of its load, as each of them is written: a hand, or in total. [fraction]
    """

    of: str
    fraction: Decimal


SISTERS: Mapping[str, Sister] = MappingProxyType(
    {
        "front-squat": Sister(of="back-squat", fraction=Decimal("0.80")),
        "romanian-deadlift": Sister(of="deadlift", fraction=Decimal("0.65")),
        "incline-bench-press": Sister(of="bench-press", fraction=Decimal("0.78")),
        "overhead-press": Sister(of="bench-press", fraction=Decimal("0.58")),
        "dumbbell-bench-press": Sister(of="bench-press", fraction=Decimal("0.37")),
    }
)
"""Fractions to start from, by the key of the lift that is looked for. Common practice, no source."""

SISTER_SHARE = Decimal("0.85")
"""Share of what a sister lift gives that a search begins with. [fraction] Common practice, no source: 85-90 %; the
lighter end is our proposal."""
ESTIMATE_SHARE = Decimal("0.90")
"""Share of what her own estimate gives that a search begins with. [fraction] Our proposal: the error of an estimate is
about as large. Source: [Halperin2022]."""
LOOKED_AT = 3
"""Newest days with an estimate that one is taken from: the best of them. Our proposal."""


class StartCode(StrEnum):
    """Where the first load of a search comes from, the surest first."""

    OWN_LOAD = "own load"
    """A load that she has done for more than is asked. load, reps, left (if said), date."""
    OWN_ESTIMATE = "own estimate"
    """Her own estimated maximum. load, reps, left (if said), date (of the set it comes from), percent (of what the
    estimate gives)."""
    SISTER = "sister lift"
    """A fraction of a sister lift. exercise (key), load, reps, left (if said), date, fraction and percent (each in
    percent)."""
    FIND = "find"
    """Nothing says where to begin: the lightest. cause (`nothing known`, `pain`, `long ago` or `kit`)."""


class Start(Value):
    """Where a search begins.

    Attributes:
        load: A load of the kit; None where it begins at the lightest.
        code: Where it comes from.
        facts: Short strings by name, as the code says.
    """

    load: Mass | None
    code: StartCode
    facts: dict[str, str] = Field(default_factory=dict)


class Search(Value):
    """What a load is looked for.

    Attributes:
        exercise: Whose.
        reps: Fewest reps asked for; None where a set is no number of reps. [>= 1]
        left: Reps left at which the search ends. [reps]
        ladder: What can be loaded.
        today: The client's local date.
        older: True from 60 on: what was done long ago counts one row less.
    """

    exercise: Exercise
    reps: int | None = Field(default=None, ge=1)
    left: int = 3
    ladder: Ladder
    today: date
    older: bool = False


def starting_load(search: Search, lifts: Sequence[Lift], pain: Sequence[PainReport] = ()) -> Start:
    """Return where a search for a load begins.

    Her own log goes before a sister lift. With pain at a site that the exercise loads, however small, and with nothing
    but what was done eight weeks ago or longer, it begins at the lightest; after two weeks and after four with less, by
    the shares of the way back. Never over what the kit can load.

    Args:
        search: What is looked for.
        lifts: Sets of any exercise, in any order.
        pain: Reports that still bear on her.
    """
    if any(bears_on(one, search.exercise) and one.score != 0 for one in pain):
        return _find("pain")
    if search.reps is None:
        return _find("nothing known")
    sister = SISTERS.get(search.exercise.key)
    own = [one for one in lifts if one.exercise == search.exercise.key]
    theirs = [one for one in lifts if sister is not None and one.exercise == sister.of]
    found = _own_load(search, search.reps, own) or _own_estimate(search, search.reps, own)
    if found is None and sister is not None:
        found = _from_sister(search, search.reps, sister, theirs)
    if found is not None:
        return found if found.load is not None else _find("kit")
    return _find("long ago" if any(_back(one, search) == 0 for one in (*own, *theirs)) else "nothing known")


def _find(cause: str) -> Start:
    return Start(load=None, code=StartCode.FIND, facts={"cause": cause})


def _back(lift: Lift, search: Search) -> Decimal:
    """Return the share of a load that is to be had again after so long; none where only the coach sets one."""
    days = (search.today - lift.on).days
    away = max((place for place, row in enumerate(ROWS) if days >= row.days), default=None)
    if away is None:
        return Decimal(1)
    row = min(away + search.older, len(ROWS) - 1)
    return Decimal(0) if row == len(ROWS) - 1 else ROWS[row].loads[0]


def _own_load(search: Search, reps: int, own: list[Lift]) -> Start | None:
    """Return the heaviest load of her newest day with it that she did for what is asked with as many to spare."""
    newest = max((one.on for one in own), default=None)
    enough = reps + search.left
    done = [one for one in own if one.on == newest and one.reps + (one.left or 0) >= enough]
    best = max(done, key=lambda one: (one.load, _rank(one)), default=None)
    if best is None or _back(best, search) == 0:
        return None
    return _start(search, best, StartCode.OWN_LOAD, best.load, {})


def _own_estimate(search: Search, reps: int, own: list[Lift]) -> Start | None:
    given = _given(search, reps, own)
    if given is None or search.exercise.basis is Basis.BODYWEIGHT:
        return None
    best, mass = given
    facts = {"percent": percent(ESTIMATE_SHARE)}
    return _start(search, best, StartCode.OWN_ESTIMATE, mass * ESTIMATE_SHARE, facts)


def _from_sister(search: Search, reps: int, sister: Sister, theirs: list[Lift]) -> Start | None:
    given = _given(search, reps, theirs)
    if given is None:
        return None
    best, mass = given
    facts = {
        "exercise": sister.of,
        "fraction": percent(sister.fraction),
        "percent": percent(SISTER_SHARE),
    }
    return _start(search, best, StartCode.SISTER, mass * sister.fraction * SISTER_SHARE, facts)


def _given(search: Search, reps: int, lifts: list[Lift]) -> tuple[Lift, Mass] | None:
    """Return the load that a lift gives for what is asked, with the set it comes from; None where none says."""
    if reps + search.left > MOST_TOTAL:
        return None
    estimates = [
        (one, made.mass)
        for one in lifts
        if _back(one, search) > 0
        and (made := estimate(one.load, one.reps, one.left or 0)) is not None
        and made.usable
    ]
    newest = sorted({one.on for one, _ in estimates}, reverse=True)[:LOOKED_AT]
    recent = [pair for pair in estimates if pair[0].on in newest]
    if not recent:
        return None
    best, maximum = max(recent, key=lambda pair: (pair[1], _rank(pair[0])))
    return best, load_for(maximum, reps, search.left)


def _rank(lift: Lift) -> tuple[date, int, int, str]:
    """Return what tells sets apart that say the same, so that their order never matters."""
    return lift.on, lift.reps, -1 if lift.left is None else lift.left, str(lift.load)


def _start(search: Search, best: Lift, code: StartCode, mass: Mass, facts: dict[str, str]) -> Start:
    """Return the load of the kit at or under a mass, after so long a time; no load where all are over it."""
    known = {"load": load_text(best.load, search.exercise), "reps": str(best.reps)}
    if best.left is not None:
        known["left"] = str(best.left)
    return Start(
        load=search.ladder.at_or_under(eased(mass, _back(best, search))),
        code=code,
        facts={**known, "date": best.on.isoformat(), **facts},
    )
