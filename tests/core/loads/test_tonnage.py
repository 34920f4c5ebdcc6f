from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.past import SetDone
from core.loads.tonnage import LeftOut, NotReckoned, Tonnage, Weighing, tonnage
from core.loads.work_done import WorkDone, within
from core.programme.catalogue import exercise
from core.programme.exercises import Basis
from core.programme.prescription import Load, PercentOf
from core.units import Mass, Unit
from tests.core.loads.lifts import TODAY, load_of
from tests.core.loads.worked import of_sets, one_set, sets_done, with_set, work, works

WEIGHED = [Weighing(on=TODAY - timedelta(days=20), mass=Mass.of(80))]


def weighing(days_ago: int, kg: str) -> Weighing:
    return Weighing(on=TODAY - timedelta(days=days_ago), mass=Mass.of(kg))


@pytest.mark.parametrize(
    ("key", "one", "sided", "kg"),
    [
        ("bench-press", one_set(8, "60"), False, "480"),
        ("bench-press", one_set(0, "60"), False, "0"),
        ("curl", one_set(8, "10"), False, "160"),
        ("curl", one_set(8, "10"), True, "160"),  # in turn: one hand at a time, both of them
        ("curl", one_set(8, "10", side="L"), False, "80"),
        ("one-arm-row", one_set(8, "20"), False, "320"),
        ("one-arm-row", one_set(8, "20", side="R"), False, "160"),
        ("kettlebell-press", one_set(5, "16"), False, "160"),
        ("split-squat", one_set(8, "20"), False, "640"),
        ("split-squat", one_set(8, "20", side="L"), False, "320"),
        ("barbell-reverse-lunge", one_set(8, "40"), False, "640"),
        ("goblet-squat", one_set(8, "20"), False, "160"),
        ("pushdown", one_set(12, "25"), False, "300"),
    ],
)
def test_a_set_moves_what_its_hands_and_sides_moved(key: str, one: SetDone, sided: bool, kg: str) -> None:
    found = tonnage([of_sets(key, one, each_side=sided)])

    assert found == Tonnage(mass=Mass.of(kg), sets=1)


@pytest.mark.parametrize(
    ("load", "bar", "found"),
    [
        ("40", Mass.of(20), Tonnage(mass=Mass.of(1000), sets=1)),
        ("0", Mass.of(20), Tonnage(mass=Mass.of(200), sets=1)),
        ("40", Mass.of(45, "lb"), Tonnage(mass=Mass.of("1004.1165665"), sets=1)),
        ("90 lb", Mass.of(20), Tonnage(mass=Mass.of("1016.466266"), sets=1)),
        ("40", None, Tonnage(mass=None, sets=0, left_out=(LeftOut(why=NotReckoned.NO_BAR, sets=1),))),
    ],
)
def test_a_load_a_side_of_a_bar_counts_for_both_sides_and_the_bar(
    load: str, bar: Mass | None, found: Tonnage
) -> None:
    press = exercise("bench-press").model_copy(update={"basis": Basis.PER_SIDE})
    done = of_sets("bench-press", one_set(10, load)).model_copy(update={"exercise": press, "bar": bar})

    assert tonnage([done]) == found


@pytest.mark.parametrize(
    ("key", "one", "why"),
    [
        ("bench-press", one_set(8), NotReckoned.NO_LOAD),
        ("split-squat", one_set(8, "bw"), NotReckoned.NO_SHARE),
        ("farmer-carry", one_set(None, "24", seconds=40), NotReckoned.TIMED),
        ("farmer-carry", one_set(None, "24", metres=40), NotReckoned.DISTANCE),
        ("plank", one_set(None, "bw", seconds=60), NotReckoned.TIMED),
        ("band-row", one_set(12), NotReckoned.BAND),
        ("pull-up", one_set(5, "bw"), NotReckoned.NOT_WEIGHED),
        ("pull-up", one_set(5, "bw+10"), NotReckoned.NOT_WEIGHED),
        ("bodyweight-squat", one_set(20), NotReckoned.NO_SHARE),
    ],
)
def test_what_cannot_be_reckoned_is_left_out_and_said(key: str, one: SetDone, why: NotReckoned) -> None:
    found = tonnage([of_sets(key, one, one)])

    assert found == Tonnage(mass=None, sets=0, left_out=(LeftOut(why=why, sets=2),))


@pytest.mark.parametrize(
    ("load", "why"),
    [
        (Load.banded("light"), NotReckoned.BAND),
        (Load.find(), NotReckoned.NO_LOAD),
        (Load.up(Mass.of(5)), NotReckoned.NO_LOAD),
        (Load.share(80, PercentOf.ESTIMATE), NotReckoned.NO_LOAD),
    ],
)
@pytest.mark.parametrize("key", ["pull-up", "bench-press"])
def test_a_load_that_is_no_mass_is_not_taken_for_one(key: str, load: Load, why: NotReckoned) -> None:
    found = tonnage([of_sets(key, one_set(5), load=load)], WEIGHED)

    expected = why if key == "pull-up" else NotReckoned.NO_LOAD
    assert found.left_out == (LeftOut(why=expected, sets=1),)


@pytest.mark.parametrize(
    ("key", "load", "kg"),
    [
        ("pull-up", "bw", "400"),  # all of 80 kg, 5 times
        ("pull-up", None, "400"),
        ("pull-up", "bw+10", "450"),
        ("pull-up", "10", "450"),
        ("pull-up", "bw-20", "300"),
        ("pull-up", "bw-90", "0"),
        ("push-up", "bw", "276"),  # 0.69 of it: [Ebben2011]
        ("knee-push-up", "bw", "216"),  # 0.54: [Mier2014]
        ("pull-up", "bw+10 lb", "422.6796185"),
    ],
)
def test_bodyweight_counts_by_the_share_that_moves(key: str, load: str | None, kg: str) -> None:
    found = tonnage([of_sets(key, one_set(5).model_copy(update={"load": loaded(load)}))], WEIGHED).mass

    assert found is not None
    assert (found.unit, found.value) == (Unit.KG, Decimal(kg))


def loaded(text: str | None) -> Load | None:
    if text == "bw+10 lb":
        return Load.bodyweight(Mass.of(10, "lb"))
    return load_of(text)


@pytest.mark.parametrize(
    ("weighed", "kg"),
    [
        ([weighing(3, "80"), weighing(30, "84")], "80"),
        ([weighing(30, "84"), weighing(3, "80")], "80"),
        ([weighing(0, "79"), weighing(3, "80")], "79"),
        ([weighing(-1, "78"), weighing(3, "80")], "80"),  # tomorrow's says nothing of today
        ([weighing(56, "84")], "84"),
        ([weighing(57, "84")], None),
        ([weighing(-1, "78")], None),
        ([weighing(3, "80"), weighing(3, "81")], "81"),
        ([weighing(3, "81"), weighing(3, "80")], "81"),
    ],
)
def test_the_newest_weighing_of_eight_weeks_counts(weighed: list[Weighing], kg: str | None) -> None:
    found = tonnage([of_sets("pull-up", one_set(1, "bw"))], weighed).mass

    assert found == (None if kg is None else Mass.of(kg))


def test_a_set_without_a_load_of_its_own_was_done_at_the_load_asked() -> None:
    assert tonnage([of_sets("bench-press", one_set(8), load=Load.of(60))]).mass == Mass.of(480)


def test_one_unit_stays_and_two_meet_in_exact_kilograms() -> None:
    pounds = work("bench-press", "5 5", "225 lb")
    kilos = work("deadlift", "5", "100")

    assert tonnage([pounds]).mass == Mass.of(2250, "lb")
    assert str(tonnage([pounds]).mass) == "2250 lb"
    assert str(tonnage([pounds, kilos]).mass) == "1520.5828325 kg"


def test_every_reason_is_counted_by_itself() -> None:
    week = [
        work("bench-press", "8 8", "60"),
        of_sets("plank", one_set(None, seconds=60), one_set(None, seconds=45)),
        of_sets("pull-up", one_set(5, "bw")),
    ]
    left_out = (LeftOut(why=NotReckoned.TIMED, sets=2), LeftOut(why=NotReckoned.NOT_WEIGHED, sets=1))

    assert tonnage(week) == Tonnage(mass=Mass.of(960), sets=2, left_out=left_out)
    assert tonnage([]) == Tonnage(mass=None, sets=0)


def kilos(found: Tonnage) -> Decimal:
    return Decimal(0) if found.mass is None else found.mass.kg


@given(st.lists(works(), max_size=5), st.randoms(use_true_random=False))
def test_the_order_of_logging_does_not_matter(week: list[WorkDone], random: object) -> None:
    mixed = random.sample(week, len(week))  # type: ignore[attr-defined]

    assert tonnage(mixed, WEIGHED) == tonnage(week, WEIGHED)


@given(st.lists(works(), max_size=6))
def test_the_days_add_up_to_the_week(week: list[WorkDone]) -> None:
    first = TODAY - timedelta(days=6)
    days = [tonnage(within(week, on(first, place), 1), WEIGHED) for place in range(7)]
    whole = tonnage(week, WEIGHED)

    assert sum(kilos(each) for each in days) == kilos(whole)
    assert sum(each.sets for each in days) == whole.sets
    assert whole.sets + sum(each.sets for each in whole.left_out) == sum(
        len(one.exposure.sets) for one in week
    )


def on(first: date, place: int) -> date:
    return first + timedelta(days=place)


@given(st.lists(works(), min_size=1, max_size=4), sets_done(), st.data())
def test_adding_a_set_never_lowers_tonnage(week: list[WorkDone], more: SetDone, data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(week) - 1))
    fuller = [with_set(one, more) if where == place else one for where, one in enumerate(week)]

    assert kilos(tonnage(fuller, WEIGHED)) >= kilos(tonnage(week, WEIGHED))


@given(st.lists(st.integers(1, 20), min_size=1, max_size=6), st.integers(1, 400), st.integers(2, 9))
def test_a_load_so_many_times_as_heavy_moves_so_many_times_as_much(
    counts: list[int], load: int, times: int
) -> None:
    reps = " ".join(str(each) for each in counts)
    once, heavier = (tonnage([work("curl", reps, str(each))]) for each in (load, load * times))

    assert once.mass is not None
    assert heavier.mass == once.mass * times
