"""Work of a client's week in a few words, and histories of estimates; a helper of tests."""

from collections.abc import Iterable
from datetime import date, timedelta
from decimal import Decimal

from hypothesis import strategies as st

from core.loads.dated_estimates import DatedEstimate
from core.loads.one_rep_max import Formula
from core.loads.past import Exposure, SetDone
from core.loads.work_done import WorkDone
from core.programme.catalogue import CATALOGUE, exercise
from core.programme.exercises import Side
from core.units import Mass
from tests.core.loads.lifts import done, dose, load_of

MONDAY = date(2026, 4, 13)


def work(key: str, counts: str, load: str | None = None, *, days_ago: int = 0, **more: object) -> WorkDone:
    """Return work at one load; what more is said goes to `done`."""
    asked = dose(len(counts.split()), "8", load)
    return WorkDone(exercise=exercise(key), exposure=done(days_ago, asked, counts, **more))


def of_sets(key: str, *sets: SetDone, days_ago: int = 0, **asked: object) -> WorkDone:
    """Return work of sets as they are given; what is asked goes into the dose."""
    exposure = done(days_ago, dose(len(sets) or 1, "8").model_copy(update=asked), "8")
    return WorkDone(exercise=exercise(key), exposure=exposure.model_copy(update={"sets": sets}))


def one_set(reps: int | None = 8, load: str | None = None, *, side: str = "", **more: object) -> SetDone:
    values = {"row_id": 1, "set_no": 1, "side": Side(side) if side else None, **more}
    return SetDone(reps=reps, load=load_of(load), **values)


def estimates(masses: str, *, every: int = 7, first: date = MONDAY, **facts: object) -> list[DatedEstimate]:
    """Return one estimate every so many days: `100 102.5 105`; facts hold for all of them."""
    values = {"formula": Formula.EPLEY, "total": Decimal(8), "effort": 3, **facts}
    return [
        DatedEstimate(
            session_id=place + 1, on=first + timedelta(days=every * place), mass=Mass.of(mass), **values
        )
        for place, mass in enumerate(masses.split())
    ]


def changed(points: Iterable[DatedEstimate], place: int, **facts: object) -> list[DatedEstimate]:
    """Return estimates with other facts in one place."""
    listed = list(points)
    listed[place] = listed[place].model_copy(update=facts)
    return listed


@st.composite
def sets_done(draw: st.DrawFn) -> SetDone:
    load = st.sampled_from([None, "20", "42.5", "45 lb", "bw", "bw+5", "bw-10"])
    return one_set(
        draw(st.one_of(st.none(), st.integers(0, 20))),
        draw(load),
        side=draw(st.sampled_from(["", "L", "R"])),
        set_no=draw(st.integers(1, 6)),
        row_id=draw(st.integers(1, 10_000)),
        left=draw(st.one_of(st.none(), st.integers(0, 6))),
        seconds=draw(st.sampled_from([None, None, 30])),
    )


@st.composite
def works(draw: st.DrawFn) -> WorkDone:
    sets = draw(st.lists(sets_done(), min_size=1, max_size=6))
    key = draw(st.sampled_from(sorted(CATALOGUE)))
    return of_sets(
        key,
        *sets,
        days_ago=draw(st.integers(0, 6)),
        sets=draw(st.integers(1, 5)),
        left=draw(st.sampled_from([None, 0, 2, 4, 5])),
    )


def with_set(one: WorkDone, more: SetDone) -> WorkDone:
    exposure: Exposure = one.exposure.model_copy(update={"sets": (*one.exposure.sets, more)})
    return one.model_copy(update={"exposure": exposure})
