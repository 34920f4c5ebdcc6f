from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.checkin.pain import PainReport
from core.loads.decision import next_decision
from core.loads.equipment import Kit, default_kit, ladder_for
from core.loads.lift import Lift
from core.loads.one_rep_max import estimate, load_for
from core.loads.sister_lifts import SISTERS, Search, Start, StartCode, starting_load
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Site
from core.programme.prescription import Load
from core.units import Mass, Unit
from tests.core.loads.lifts import day, dose, inputs

TODAY = date(2026, 4, 14)
GYM = default_kit("both", Unit.KG)


def lift(exercise: str, load: str, reps: int, left: int | None = 3, days_ago: int = 3) -> Lift:
    number, _, unit = load.partition(" ")
    return Lift(
        exercise=exercise,
        load=Mass.of(number, unit or "kg"),
        reps=reps,
        left=left,
        on=TODAY - timedelta(days=days_ago),
    )


@dataclass
class Looked:
    """A search for a load, with what is usual left out."""

    exercise: str
    reps: int | None = 5
    kit: Kit = GYM
    pain: list[PainReport] = field(default_factory=list)
    older: bool = False

    def with_log(self, *lifts: Lift) -> Start:
        row = CATALOGUE[self.exercise]
        search = Search(
            exercise=row,
            reps=self.reps,
            ladder=ladder_for(row, self.kit),
            today=TODAY,
            older=self.older,
        )
        return starting_load(search, lifts, self.pain)


# Fractions: common practice, no source. Worked by hand: five reps with three left were done and are asked for, so that
# the sister's load is its load for what is asked; 85 % of the fraction, at or under a step of the kit.
WORKED = [
    ("front-squat", "back-squat", "100", "67.5"),  # 100 x 0.80 x 0.85 = 68.00
    ("romanian-deadlift", "deadlift", "140", "75"),  # 140 x 0.65 x 0.85 = 77.35
    ("incline-bench-press", "bench-press", "80", "52.5"),  # 80 x 0.78 x 0.85 = 53.04
    ("overhead-press", "bench-press", "80", "37.5"),  # 80 x 0.58 x 0.85 = 39.44
    ("dumbbell-bench-press", "bench-press", "80", "24"),  # 80 x 0.37 x 0.85 = 25.16, a hand
]


@pytest.mark.parametrize(("exercise", "sister", "load", "begins"), WORKED)
def test_a_search_begins_at_85_percent_of_what_the_sister_lift_gives(
    exercise: str, sister: str, load: str, begins: str
) -> None:
    found = Looked(exercise).with_log(lift(sister, load, 5))

    assert (found.code, found.load) == (StartCode.SISTER, Mass.of(begins))
    assert found.facts["exercise"] == sister


def test_every_fraction_stands_in_the_table_of_worked_ones() -> None:
    assert sorted(SISTERS) == sorted(exercise for exercise, *_ in WORKED)
    assert all(CATALOGUE[one.of] and CATALOGUE[key] for key, one in SISTERS.items())


def test_what_a_sister_gives_is_told_with_the_set_it_comes_from() -> None:
    found = Looked("front-squat").with_log(lift("back-squat", "100", 5))

    assert found.facts == {
        "load": "100 kg",
        "reps": "5",
        "left": "3",
        "date": "2026-04-11",
        "exercise": "back-squat",
        "fraction": "80",
        "percent": "85",
    }


@pytest.mark.parametrize(
    ("done", "code", "begins"),
    [
        # As many to spare as are to be left: that load again.
        (lift("bench-press", "60", 8, 0), StartCode.OWN_LOAD, "60"),
        (lift("bench-press", "60", 5, 3), StartCode.OWN_LOAD, "60"),
        (lift("bench-press", "60", 40, None), StartCode.OWN_LOAD, "60"),
        # Too few to spare: 60 x (30 + 5) / 30 = 70; for eight to failure 70 / (38 / 30) = 55.26; 90 % is 49.74.
        (lift("bench-press", "60", 5, 0), StartCode.OWN_ESTIMATE, "47.5"),
        # No number of reps left: none is taken to have been left.
        (lift("bench-press", "60", 5, None), StartCode.OWN_ESTIMATE, "47.5"),
    ],
)
def test_her_own_log_gives_a_load_that_was_easy_enough_or_90_percent_of_an_estimate(
    done: Lift, code: StartCode, begins: str
) -> None:
    found = Looked("bench-press").with_log(done)

    assert (found.code, found.load) == (code, Mass.of(begins))


def test_her_own_log_goes_before_a_sister_lift_and_the_newest_day_before_an_older_one() -> None:
    looked = Looked("front-squat")
    sister = lift("back-squat", "140", 5)

    assert looked.with_log(sister, lift("front-squat", "60", 8)).load == Mass.of(60)
    newest = looked.with_log(lift("front-squat", "80", 8, days_ago=5), lift("front-squat", "60", 8), sister)
    assert (newest.code, newest.load) == (StartCode.OWN_LOAD, Mass.of(60))


def test_an_estimate_is_the_best_of_the_three_newest_days() -> None:
    days = [lift("back-squat", load, 5, days_ago=ago) for load, ago in (("100", 1), ("110", 2), ("90", 4))]

    found = Looked("front-squat").with_log(*days, lift("back-squat", "200", 5, days_ago=6))

    assert (found.facts["load"], found.facts["date"]) == ("110 kg", "2026-04-12")


@pytest.mark.parametrize(
    ("days_ago", "older", "begins"),
    [
        (7, False, "100"),
        (13, False, "100"),
        (14, False, "90"),
        (27, False, "90"),
        (28, False, "80"),
        (55, False, "80"),
        (56, False, None),
        (8, True, "90"),
        (14, True, "80"),
        (28, True, None),
    ],
)
def test_after_a_break_it_begins_with_less_and_after_eight_weeks_at_the_lightest(
    days_ago: int, *, older: bool, begins: str | None
) -> None:
    found = Looked("deadlift", older=older).with_log(lift("deadlift", "100", 8, days_ago=days_ago))

    assert found.load == (None if begins is None else Mass.of(begins))
    assert begins is not None or found.facts == {"cause": "long ago"}


def knee(score: int | None, site: Site = Site.KNEE) -> PainReport:
    at = datetime(2026, 4, 12, 8, tzinfo=UTC)
    return PainReport(row_id=1, site=site, score=score, on=at.date(), at=at)


@pytest.mark.parametrize(
    ("pain", "code"),
    [
        (knee(1), StartCode.FIND),
        (knee(None), StartCode.FIND),
        (knee(0), StartCode.SISTER),
        (knee(5, Site.FOREARM), StartCode.SISTER),
    ],
)
def test_pain_at_a_site_that_it_loads_begins_at_the_lightest(pain: PainReport, code: StartCode) -> None:
    found = Looked("front-squat", pain=[pain]).with_log(lift("back-squat", "100", 5))

    assert found.code is code
    assert code is StartCode.SISTER or found == Start(load=None, code=code, facts={"cause": "pain"})


@pytest.mark.parametrize(
    ("looked", "log", "cause"),
    [
        (Looked("front-squat"), [], "nothing known"),
        (Looked("goblet-squat"), [lift("back-squat", "100", 5)], "nothing known"),
        (Looked("farmer-carry", reps=None), [lift("farmer-carry", "20", 5)], "nothing known"),
        (Looked("front-squat", reps=13), [lift("back-squat", "100", 5)], "nothing known"),
        (Looked("front-squat"), [lift("back-squat", "100", 14, 0)], "nothing known"),
        (Looked("dip"), [lift("dip", "10", 5, 0)], "nothing known"),
        (Looked("overhead-press"), [lift("bench-press", "40", 5)], "kit"),
    ],
)
def test_where_nothing_says_a_load_that_there_is_it_begins_at_the_lightest(
    looked: Looked, log: list[Lift], cause: str
) -> None:
    assert looked.with_log(*log) == Start(load=None, code=StartCode.FIND, facts={"cause": cause})


def test_what_is_added_to_bodyweight_comes_from_her_own_log_alone() -> None:
    looked = Looked("pull-up")

    assert looked.with_log(lift("pull-up", "5", 8)).load == Mass.of(5)
    assert looked.with_log(lift("pull-up", "-20", 8, days_ago=20)).load == Mass.of(-25)  # 20 / 0.9 taken off


LIFTS = st.lists(
    st.builds(
        lift,
        st.sampled_from(["front-squat", "back-squat", "deadlift"]),
        st.integers(20, 200).map(str),
        st.integers(1, 20),
        st.none() | st.integers(0, 4),
        st.integers(0, 70),
    ),
    max_size=6,
)


@given(LIFTS, st.integers(1, 15))
def test_it_begins_with_a_load_of_the_kit_under_what_the_log_gives_in_whatever_order(
    lifts: list[Lift], reps: int
) -> None:
    looked = Looked("front-squat", reps=reps)
    found = looked.with_log(*lifts)

    assert looked.with_log(*reversed(lifts)) == found
    if found.load is None:
        assert found.code is StartCode.FIND
        return
    assert found.load in ladder_for(CATALOGUE["front-squat"], GYM).steps
    shown = [
        load_for(made.mass, 1)
        * (Decimal(1) if one.exercise == "front-squat" else SISTERS["front-squat"].fraction)
        for one in lifts
        if one.exercise != "deadlift" and (made := estimate(one.load, one.reps, one.left or 0)) is not None
    ]
    loads = [one.load for one in lifts if one.exercise == "front-squat"]
    assert found.load <= max([*shown, *loads])


def test_a_search_begins_where_a_sister_lift_says_and_says_so() -> None:
    asked = dose(3, "8", "find")
    lift = Lift(exercise="bench-press", load=Mass.of(80), reps=5, left=2, on=day(7))
    alone = inputs("overhead-press", asked)
    decided = next_decision(alone.model_copy(update={"lifts": (lift,)}))

    assert next_decision(alone).reasons[-1].facts["first"] == "20 kg"
    assert "sister" not in next_decision(alone).reasons[-1].facts
    assert decided.load == Load.find()
    assert decided.reasons[-1].facts["sister"] == "bench press"
    # 80 kg x 5 with 2 left is 98.7 kg once; 0.58 of what that gives for 8 with 3 left, and 85 % of it: 35.6 kg.
    assert decided.reasons[-1].facts["first"] == "35 kg"
    assert '"lifts"' not in alone.model_dump_json()
