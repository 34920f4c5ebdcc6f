"""A client's week in a line or two."""

import pytest

from bot.render.weekly_line import Moved, full, short
from core.oversight.misses import Tally
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Load

BENCH, SQUAT, PULL = CATALOGUE["bench-press"], CATALOGUE["back-squat"], CATALOGUE["pull-up"]
MOVED = (
    Moved(BENCH, Load.of("62.5"), Load.of(60)),
    Moved(SQUAT, Load.of(80), Load.of("82.5")),
    Moved(PULL, Load.bodyweight(), Load.bodyweight()),
)


@pytest.mark.parametrize(
    ("counted", "moved", "words"),
    [
        (
            Tally(kept=3, due=4),
            MOVED,
            "Last 7 days: 3 of 4 sessions kept. Main lifts: 1 up, 1 the same, 1 lower.",
        ),
        (Tally(kept=0, due=3), (), "Last 7 days: 0 of 3 sessions kept."),
        (Tally(), (Moved(BENCH, Load.of(60), None),), "Main lifts: 1 new."),
    ],
)
def test_the_short_line_counts(counted, moved, words):
    assert short(counted, moved) == words


def test_the_full_one_names_each_lift_with_its_load_before():
    assert full(Tally(kept=3, due=4), (*MOVED, Moved(BENCH, Load.of(60), None))) == (
        "Last 7 days: 3 of 4 sessions kept. Main lifts: 1 up, 1 the same, 1 lower, 1 new.\n"
        "Bench press 62.5 kg (before 60 kg)\n"
        "Back squat 80 kg (before 82.5 kg)\n"
        "Pull-up bodyweight (before bodyweight)\n"
        "Bench press 60 kg (first time)"
    )


def test_more_lifts_than_fit_are_counted():
    assert full(Tally(), MOVED * 3).splitlines()[-1] == "And 3 more: /progress"
