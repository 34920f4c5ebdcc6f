import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.programme.drill import Stage
from core.programme.drills import DRILLS
from core.programme.exercises import Implement, Pattern, Site, Station
from core.programme.prep import DAILY_MINUTES, JOINTS, MOST, PrepStep, daily_for, prep_for
from core.programme.restrictions import Restriction

GYM = frozenset({Implement.BAND, Station.BENCH, Station.PULL_UP_BAR})


def keys(steps: tuple[PrepStep, ...]) -> list[str]:
    return [step.drill for step in steps]


def seconds(steps: tuple[PrepStep, ...]) -> int:
    return sum(step.takes_s for step in steps)


def sites(steps: tuple[PrepStep, ...]) -> set[Site]:
    return {site for step in steps for site in DRILLS[step.drill].sites}


# What is loosened before what: common practice, no source.
@pytest.mark.parametrize(
    ("patterns", "loosened"),
    [
        ([Pattern.SQUAT], {Site.HIP, Site.ANKLE}),
        ([Pattern.HINGE], {Site.HIP, Site.ANKLE, Site.HAMSTRING}),
        ([Pattern.SQUAT, Pattern.HINGE, Pattern.LUNGE], {Site.HIP, Site.ANKLE, Site.HAMSTRING}),
        ([Pattern.HORIZONTAL_PRESS], {Site.CHEST, Site.UPPER_BACK, Site.SHOULDER}),
        ([Pattern.VERTICAL_PRESS, Pattern.DIP], {Site.CHEST, Site.UPPER_BACK, Site.SHOULDER}),
        ([Pattern.VERTICAL_PULL, Pattern.CURL], {Site.SHOULDER, Site.UPPER_BACK, Site.ELBOW}),
        ([Pattern.SHRUG, Pattern.CARRY], {Site.NECK, Site.SHOULDER, Site.LOW_BACK}),
    ],
)
def test_prep_follows_the_joints_that_the_day_loads(patterns: list[Pattern], loosened: set[Site]) -> None:
    steps = prep_for(patterns, GYM)
    loose = tuple(step for step in steps if DRILLS[step.drill].stage is Stage.LOOSEN)

    assert loosened - sites(loose) == set()


def test_a_day_of_legs_and_a_day_of_presses_begin_otherwise() -> None:
    assert keys(prep_for([Pattern.SQUAT, Pattern.HINGE, Pattern.LUNGE], GYM)) == [
        "half-kneeling-hip-stretch",
        "ankle-rock",
        "leg-swing",
        "hip-switch",
        "held-bridge",
        "band-side-step",
        "squat-to-seat",
        "hinge-to-wall",
    ]
    assert keys(prep_for([Pattern.HORIZONTAL_PRESS, Pattern.VERTICAL_PRESS], GYM)) == [
        "open-book",
        "shoulder-roll",
        "seated-turn",
        "wall-slide",
        "doorway-stretch",
        "wall-blade-push",
        "wall-push-up",
    ]


def test_every_pattern_has_its_joints_and_each_is_loosened_by_some_drill() -> None:
    loosened = {site for drill in DRILLS.values() if drill.stage is Stage.LOOSEN for site in drill.sites}

    assert set(JOINTS) == set(Pattern)
    assert {site for row in JOINTS.values() for site in row} - loosened == set()


def test_a_step_says_the_dose_of_its_drill() -> None:
    (step,) = daily_for([Site.CALF], minutes=1)

    assert step == PrepStep(drill="ankle-rock", reps=8, each_side=True, takes_s=58)


def test_what_was_trouble_once_is_loosened_first_where_the_day_loads_it() -> None:
    patterns = [Pattern.SQUAT, Pattern.HORIZONTAL_PRESS]
    short = prep_for(patterns, minutes=1, history={Site.CHEST, Site.ELBOW})

    assert sites(prep_for(patterns, minutes=1)) >= {Site.HIP}
    assert sites(short) >= {Site.CHEST}
    assert keys(prep_for(patterns, history={Site.NECK})) == keys(prep_for(patterns))


def test_without_a_day_or_without_time_there_is_nothing_to_do() -> None:
    assert prep_for([], GYM) == ()
    assert prep_for([Pattern.SQUAT], GYM, minutes=0) == ()
    assert prep_for([Pattern.SQUAT], drills={}) == ()
    assert daily_for([]) == ()


def test_the_usual_routine_of_a_whole_day_takes_five_to_seven_minutes() -> None:
    day = [Pattern.SQUAT, Pattern.HINGE, Pattern.LUNGE, Pattern.TRUNK]

    assert 300 <= seconds(prep_for(day, GYM)) <= 420


def test_a_daily_routine_only_loosens_and_takes_its_sites_in_turn() -> None:
    steps = daily_for([Site.SHOULDER, Site.NECK])

    assert keys(steps) == ["open-book", "shoulder-roll", "wall-slide", "chin-glide"]
    assert seconds(steps) <= DAILY_MINUTES * 60


DAYS = st.lists(st.sampled_from(Pattern), max_size=8)
KITS = st.frozensets(st.sampled_from([*Implement, *Station]))
LIMITS = st.frozensets(st.sampled_from(Restriction))
PLACES = st.lists(st.sampled_from(Site), max_size=6)


@given(DAYS, KITS, st.integers(0, 20), PLACES, LIMITS)
def test_a_routine_keeps_to_kit_time_and_restrictions(
    day: list[Pattern],
    kit: frozenset[Implement | Station],
    minutes: int,
    history: list[Site],
    limits: frozenset,
) -> None:
    steps = prep_for(day, kit, minutes, history=history, restrictions=limits)
    drills = [DRILLS[step.drill] for step in steps]

    assert steps == prep_for(day, kit, minutes, history=history, restrictions=limits)
    assert len(set(keys(steps))) == len(steps) <= MOST
    assert seconds(steps) <= minutes * 60
    assert [drill for drill in drills if drill.breaks & limits] == []
    assert [drill for drill in drills if drill.implement not in {*kit, Implement.BODYWEIGHT}] == []
    assert [drill for drill in drills if not drill.needs <= kit] == []
    assert [drill.stage for drill in drills] == sorted(
        (drill.stage for drill in drills), key=list(Stage).index
    )
    assert [d for d in drills if d.stage is not Stage.LOOSEN and not d.prepares & set(day)] == []


@given(PLACES, KITS, st.integers(0, 20), LIMITS)
def test_a_daily_routine_serves_only_its_sites_and_breaks_no_restriction(
    places: list[Site], kit: frozenset[Implement | Station], minutes: int, limits: frozenset
) -> None:
    steps = daily_for(places, kit, minutes, restrictions=limits)
    drills = [DRILLS[step.drill] for step in steps]

    assert seconds(steps) <= minutes * 60
    assert [drill for drill in drills if drill.breaks & limits or drill.stage is not Stage.LOOSEN] == []
    assert [drill for drill in drills if not drill.sites & set(places)] == []
