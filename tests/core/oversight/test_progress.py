"""Weeks with what was kept of due, and which sessions of a lift are on the way back from a break."""

from datetime import date, datetime, timedelta

import pytest

from core.loads.past import Exposure, SetDone
from core.oversight.misses import Past, Tally
from core.oversight.progress import Progress, on_way_back, weeks_kept
from core.programme.prescription import Dose, Load, Span

BEGAN = date(2026, 3, 3)


def past(number: int, on: date, state: str = "done") -> Past:
    return Past(session_id=number, on=on, state=state, sent_at=datetime(2026, 3, 1).astimezone())


def exposure(number: int, days: int, load: Load | None, reps: int = 6) -> Exposure:
    sets = () if load is None else (SetDone(row_id=number, set_no=1, load=load, reps=reps),)
    dose = Dose(sets=1, reps=Span(low=6, high=6))
    return Exposure(session_id=number, on=BEGAN + timedelta(days=days), week_no=1, dose=dose, sets=sets)


def test_weeks_run_from_a_monday_and_none_is_missing():
    sessions = [past(1, date(2026, 3, 3)), past(2, date(2026, 3, 8), "missed"), past(3, date(2026, 3, 16))]

    found = weeks_kept(sessions, date(2026, 3, 4), date(2026, 3, 17))

    assert [(each.monday, each.counted.kept, each.counted.due) for each in found] == [
        (date(2026, 3, 2), 1, 2),
        (date(2026, 3, 9), 0, 0),
        (date(2026, 3, 16), 1, 1),
    ]
    assert Progress(first=BEGAN, today=BEGAN, weeks=found).kept == Tally(kept=2, due=3)


@pytest.mark.parametrize(
    ("history", "back"),
    [
        ([], set()),
        ([(0, 80), (7, 80)], set()),
        # 13 days are no break, 14 are one: until the old load is moved again.
        ([(0, 80), (13, 70)], set()),
        ([(0, 80), (14, 70)], {2}),
        ([(0, 80), (14, 70), (21, 75), (28, 80), (35, 75)], {2, 3}),
        ([(0, 80), (14, 80), (21, 75)], set()),
        # A second break on the way back: the load before the first one counts on.
        ([(0, 80), (14, 70), (28, 72.5), (35, 80)], {2, 3}),
        # Nothing with a load before the break, or after it.
        ([(0, None), (14, 70)], set()),
        ([(0, 80), (14, None), (21, 80)], {2}),
    ],
)
def test_a_lift_is_on_the_way_back_until_its_old_load_is_moved(history, back):
    made = [
        exposure(number, days, None if load is None else Load.of(str(load)))
        for number, (days, load) in enumerate(history, 1)
    ]

    assert on_way_back(made) == back


def test_what_is_added_to_the_body_and_failed_sets_are_no_load_to_come_back_to():
    history = [
        exposure(1, 0, Load.bodyweight()),
        exposure(2, 7, Load.of(80), reps=0),
        exposure(3, 30, Load.of(70)),
    ]

    assert on_way_back(history) == frozenset()
