"""What comes of a last load that the coach has noted: where an exercise begins, what it is a share of, how long ago."""

from datetime import date, datetime, timedelta

import pytest
from dialogs.talks import LISBON, Talk

from bot.render.reasons import why_line
from bot.store.units import Unit, Units
from bot.usecases.decisions import LOOK_BACK, exposures, inputs_for, kit_of, last_trained
from core.loads.decision import Decision, Kind, Moment, next_decision, replay
from core.programme.last_loads import LastLoad
from core.programme.prescription import Dose, Load, LoadKind, PercentOf, Span
from core.units import Mass

TODAY = date(2026, 4, 7)


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def noted(
    play: Talk,
    exercise: str = "hip-thrust",
    load: Load | None = None,
    reps: int = 8,
    days: int = 3,
    who: str = "Ada",
    coach: str = "Marit",
) -> None:
    client = play.house.client_of(play.someone(coach), play.someone(who))
    with play.units.open(play.someone(coach).coach_id) as unit:
        value = LastLoad(
            exercise=exercise, load=load or Load.of(90), reps=reps, on=TODAY - timedelta(days=days)
        )
        unit.last_loads.keep(client.id, value, unit.exercises.get(exercise).basis.value, play.house.now)


def decided(
    play: Talk,
    exercise: str = "hip-thrust",
    load: Load | None = None,
    span: tuple[int, int] = (8, 8),
    today: date = TODAY,
) -> Decision:
    """What Ada would be given of three sets of an exercise."""
    dose = Dose(sets=3, reps=Span(low=span[0], high=span[1]), load=load or Load.find(), left=2)
    client = play.house.client_of(play.someone("Marit"), play.someone("Ada"))

    def look(unit: Unit) -> Decision:
        moment = Moment(today=today, week_no=1)
        inputs = inputs_for(client, exercise, dose, moment, kit_of(client, unit), unit)
        assert replay(inputs.model_dump_json()) == next_decision(inputs).model_dump_json()
        return next_decision(inputs)

    return play.house.reading(play.someone("Marit"), look)


def given(decision: Decision) -> str:
    return f"{decision.load} x {decision.target}"


def test_without_a_last_load_a_load_has_to_be_found(play: Talk) -> None:
    assert decided(play).load == Load.find()


def test_an_exercise_to_be_found_begins_from_its_last_load(play: Talk) -> None:
    noted(play)

    found = decided(play)

    assert given(found) == "90 kg x 8"
    assert found.kind is Kind.HOLD
    assert found.used == (-1,)
    assert why_line(found) == "The load that your coach noted."


def test_it_is_no_reason_to_raise_whatever_the_range(play: Talk) -> None:
    noted(play, reps=12)

    for span in ((8, 8), (8, 12), (12, 15), (5, 5)):
        mass = decided(play, span=span).load
        assert mass is not None
        assert mass.mass is not None
        assert mass.mass <= Mass.of(90)


def test_more_reps_than_it_was_done_for_bring_it_down_by_the_formula(play: Talk) -> None:
    noted(play, reps=5)

    found = decided(play, span=(10, 10))

    # (30 + 5 + 2) / (30 + 10 + 2) of 90 kg are 79.3 kg, and the bar takes 77.5 kg. Source: [Epley1985].
    assert given(found) == "77.5 kg x 10"
    assert why_line(found) == "Your coach noted 90 kg for 5 reps; 10 are asked, so 77.5 kg."


def test_fewer_reps_than_it_was_done_for_leave_it(play: Talk) -> None:
    noted(play, reps=10)

    assert (
        why_line(decided(play, span=(5, 5)))
        == "Your coach noted 90 kg for 10 reps; 5 are asked, so it stays."
    )


@pytest.mark.parametrize(("percent", "kg"), [(75, "85 kg"), (80, "90 kg")])
def test_a_share_of_the_estimate_has_a_maximum(play: Talk, percent: int, kg: str) -> None:
    noted(play, days=2)

    # 90 kg for 8 reps with nothing said of reps left: 114 kg. Source: [Epley1985].
    found = decided(play, load=Load.share(percent, PercentOf.ESTIMATE))

    assert str(found.load) == kg


def test_a_share_of_the_heaviest_single_has_one_where_a_single_was_noted(play: Talk) -> None:
    noted(play, reps=1, load=Load.of(120), days=2)

    found = decided(play, load=Load.share(70, PercentOf.MAX), span=(5, 5))

    assert found.load is not None
    assert found.load.kind is LoadKind.MASS


def test_a_step_up_from_last_time_counts_from_it_and_waits_for_work_that_was_done(play: Talk) -> None:
    noted(play)

    assert given(decided(play, load=Load.up(Mass.of("2.5")))) == "90 kg x 8"


@pytest.mark.parametrize(
    ("days", "kg", "begins"),
    [
        (7, "90 kg", "The load that your coach noted."),
        (20, "80 kg", "20 days away: 90 % of 90 kg"),
        (35, "70 kg", "35 days away: 80 % of 90 kg"),
        (200, "70 kg", "200 days away: at most 80 % of 90 kg until your coach sets the way back."),
    ],
)
def test_the_longer_ago_the_lighter_it_begins(play: Talk, days: int, kg: str, begins: str) -> None:
    noted(play, days=days)

    found = decided(play)

    assert str(found.load) == kg
    assert why_line(found).startswith(begins)


def test_after_a_long_time_the_sets_are_cut_but_not_for_one_lift_among_others(play: Talk) -> None:
    noted(play, days=35)
    assert decided(play).sets == 1

    # Another exercise was done a few days ago: nothing but this lift is out of practice.
    noted(play, exercise="back-squat", days=4)
    assert decided(play).sets == 3


def test_a_lower_load_that_the_coach_wrote_wins(play: Talk) -> None:
    noted(play)

    found = decided(play, load=Load.of(80))

    assert given(found) == "80 kg x 8"
    assert why_line(found) == "Your coach wrote 80 kg."


def test_a_higher_load_that_the_coach_wrote_waits_for_work_that_was_done_here(play: Talk) -> None:
    noted(play)

    assert given(decided(play, load=Load.of(95))) == "90 kg x 8"


def test_without_a_last_load_the_written_one_is_given(play: Talk) -> None:
    assert given(decided(play, load=Load.of(95))) == "95 kg x 8"


@pytest.mark.parametrize(
    ("exercise", "load", "text"),
    [
        ("pull-up", Load.bodyweight(Mass.of(5)), "bw+5 kg"),
        ("pull-up", Load.bodyweight(), "bw"),
        ("one-leg-hinge", Load.of(16), "16 kg"),
    ],
)
def test_bodyweight_and_one_sided_work_begin_from_it_too(
    play: Talk, exercise: str, load: Load, text: str
) -> None:
    noted(play, exercise=exercise, load=load, reps=6)

    assert str(decided(play, exercise=exercise, span=(6, 6)).load) == text


def test_pain_holds_it_like_any_load(play: Talk) -> None:
    noted(play)
    play.take("Ada: pain left hip 5")

    found = decided(play)

    assert found.load is None or (found.load.mass is not None and found.load.mass <= Mass.of(90))


def test_it_is_the_oldest_exposure_with_numbers_that_no_set_of_the_log_has(play: Talk) -> None:
    noted(play)
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    play.take("Ada: 92.5 8 8 8 8")
    for step in ("Ada: skip", "Ada: skip", "Ada: skip", "Ada: skip", "Ada [Nothing hurts]"):
        play.take(step)
    client = play.house.client_of(play.someone("Marit"), play.someone("Ada"))

    def look(unit: Unit) -> list[tuple[int, list[int]]]:
        found = exposures(client.id, "hip-thrust", unit)
        assert last_trained(found) == TODAY
        return [(each.session_id, [one.row_id for one in each.sets]) for each in found]

    seeded, logged = play.house.reading(play.someone("Marit"), look)

    assert seeded == (-1, [-1])
    assert min(logged[0], *logged[1]) > 0


def test_what_was_logged_by_its_date_leaves_it_out(play: Talk) -> None:
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    play.take("Ada: 92.5 8 8 8 8")
    for step in ("Ada: skip", "Ada: skip", "Ada: skip", "Ada: skip", "Ada [Nothing hurts]"):
        play.take(step)
    noted(play, days=0, load=Load.of(120))
    client = play.house.client_of(play.someone("Marit"), play.someone("Ada"))

    found = play.house.reading(play.someone("Marit"), lambda unit: exposures(client.id, "hip-thrust", unit))

    assert [each.session_id > 0 for each in found] == [True]


def test_as_many_exposures_of_the_log_as_are_looked_at_leave_no_room_for_it(play: Talk) -> None:
    assert LOOK_BACK == 12
    noted(play)
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    play.take("Ada: 92.5 8 8 8 8")
    for step in ("Ada: skip", "Ada: skip", "Ada: skip", "Ada: skip", "Ada [Nothing hurts]"):
        play.take(step)
    client = play.house.client_of(play.someone("Marit"), play.someone("Ada"))

    found = play.house.reading(
        play.someone("Marit"), lambda unit: exposures(client.id, "hip-thrust", unit, limit=1)
    )

    assert [each.session_id > 0 for each in found] == [True]


def test_the_number_of_another_coachs_client_is_nobody_elses(play: Talk) -> None:
    noted(play, who="Ben", coach="Orla")

    assert decided(play).load == Load.find()


def test_a_correction_of_a_set_goes_with_it(play: Talk) -> None:
    noted(play)
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    play.take("Ada: 92.5 8 8 8 8")
    told = play.take("Ada edits: 92.5 8 8 8 6")

    assert any("8 8 8 6" in line for line in told)
