"""The best so far: tables of what is one and what is none, and what holds whatever was logged."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.oversight.records import LoggedLift, Record, RecordKind, newest, records
from core.programme.exercises import Basis
from core.units import Mass

BEGAN = date(2026, 3, 3)
LOAD, REPS, ESTIMATE = RecordKind.LOAD, RecordKind.REPS, RecordKind.ESTIMATE


def lift(session: int, load: str, reps: int, set_no: int = 1, **facts: object) -> LoggedLift:
    given_facts = {
        "set_id": 100 * session + set_no,
        "session_id": session,
        "item_id": session,
        "on": BEGAN + timedelta(days=7 * (session - 1)),
        "set_no": set_no,
        "load": Mass.of(load),
        "basis": Basis.TOTAL,
        "reps": reps,
    }
    return LoggedLift.model_validate(given_facts | facts)


def said(found: tuple[Record, ...]) -> list[tuple[str, str, str]]:
    """Kind, the set, and what was before it."""
    return [
        (one.kind, f"{one.lift.load} x {one.lift.reps}", f"{one.before.load} x {one.before.reps}")
        for one in found
    ]


BEFORE = (lift(1, "80", 6),)


@each_row(
    ("done", "bests"),
    [
        # Heavier for as many reps: the estimate is higher too.
        ((lift(2, "82.5", 6),), [(ESTIMATE, "82.5 kg x 6", "80 kg x 6"), (LOAD, "82.5 kg x 6", "80 kg x 6")]),
        # Heavier for fewer reps is the heaviest, and no higher estimate.
        ((lift(2, "82.5", 3),), [(LOAD, "82.5 kg x 3", "80 kg x 6")]),
        # More reps at the load: nothing before had as many, so that no load was beaten.
        ((lift(2, "80", 7),), [(ESTIMATE, "80 kg x 7", "80 kg x 6"), (REPS, "80 kg x 7", "80 kg x 6")]),
        # The same again, less, and more reps at a load that was never done.
        ((lift(2, "80", 6),), []),
        ((lift(2, "80", 5),), []),
        ((lift(2, "60", 8),), []),
        # Over 12 reps with those left there is no estimate; 12 is the last one that counts.
        ((lift(2, "80", 7, left=6),), [(REPS, "80 kg x 7", "80 kg x 6")]),
        ((lift(2, "70", 12),), [(ESTIMATE, "70 kg x 12", "80 kg x 6")]),
        ((lift(2, "75", 13),), []),
        # A set without a rep, with pauses or steps down, or of a search.
        ((lift(2, "82.5", 0),), []),
        ((lift(2, "82.5", 6, paused=True),), []),
        ((lift(2, "82.5", 6, search=True),), []),
        # Counted in another way, or where the body is the load: another line.
        ((lift(2, "82.5", 6, basis=Basis.PER_HAND),), []),
        ((lift(2, "82.5", 6, bodyweight=True),), []),
        # Far over anything before: a lost decimal point, another unit, a slip of a digit in the reps.
        ((lift(2, "825", 6),), []),
        ((lift(2, "97", 6),), []),
        ((lift(2, "80", 50),), []),
        # Up to a fifth over the heaviest is believed.
        ((lift(2, "96", 6),), [(ESTIMATE, "96 kg x 6", "80 kg x 6"), (LOAD, "96 kg x 6", "80 kg x 6")]),
        # Of one session the heaviest set, and the most reps, stand for it.
        (
            (lift(2, "82.5", 6), lift(2, "85", 3, 2), lift(2, "82.5", 6, 3), lift(2, "80", 7, 4)),
            [
                (ESTIMATE, "82.5 kg x 6", "80 kg x 6"),
                (LOAD, "85 kg x 3", "80 kg x 6"),
                (REPS, "80 kg x 7", "80 kg x 6"),
            ],
        ),
    ],
)
def test_a_set_is_held_against_all_that_was_done_before(done, bests):
    assert sorted(said(records((*BEFORE, *done)))) == sorted(bests)


def test_a_first_time_is_no_best_and_nothing_gives_none():
    assert records(()) == ()
    assert records((lift(1, "60", 5), lift(1, "70", 3, 2))) == ()


def test_two_alike_in_a_session_give_the_first_of_them():
    (found,) = (
        one for one in records((*BEFORE, lift(2, "80", 7, 2), lift(2, "80", 7, 1))) if one.kind is REPS
    )

    assert found.lift.set_no == 1


def test_on_the_way_back_nothing_is_a_best_until_the_old_one_is_passed():
    climb = [lift(2 + step, load, 6) for step, load in enumerate(("72.5", "75", "77.5", "80", "82.5"))]

    found = records((*BEFORE, *climb))

    assert {one.lift.session_id for one in found} == {6}


def test_a_jump_counts_once_a_second_session_has_come_near_it():
    found = records((*BEFORE, lift(2, "100", 6), lift(3, "100", 6)))

    assert [(one.kind, one.lift.session_id, one.before.session_id) for one in found] == [
        (ESTIMATE, 3, 1),
        (LOAD, 3, 1),
    ]


def test_a_slip_sets_no_bar_for_later_sets():
    found = records((*BEFORE, lift(2, "800", 6), lift(3, "82.5", 6)))

    assert said(found)[0] == (ESTIMATE, "82.5 kg x 6", "80 kg x 6")


def test_what_was_found_in_a_search_counts_as_done():
    found = records((lift(1, "80", 6, search=True), lift(2, "80", 6), lift(3, "82.5", 6)))

    assert {one.lift.session_id for one in found} == {3}


def test_another_place_has_other_stacks_and_the_same_bar():
    there = {"place": "hotel"}
    stack = {"basis": Basis.STACK}

    assert records((lift(1, "40", 10, **stack), lift(2, "45", 10, **stack, **there))) == ()
    assert records((lift(1, "40", 10), lift(2, "45", 10, **there))) != ()


def test_of_two_sides_the_weaker_counts_and_one_alone_does_not():
    sides = [lift(1, "16", 8, side=side) for side in "LR"]
    uneven = [lift(2, "16", 10, side="L", left=2), lift(2, "16", 9, side="R", left=1)]

    found = records((*sides, *uneven, lift(3, "16", 12, side="L")))

    assert [(one.kind, one.lift.reps, one.lift.side, one.lift.left) for one in found] == [
        (ESTIMATE, 9, "R", 1),
        (REPS, 9, "R", 1),
    ]


def test_what_is_added_to_the_body_gives_no_estimate():
    found = records((lift(1, "5", 6, bodyweight=True), lift(2, "10", 6, bodyweight=True)))

    assert said(found) == [(LOAD, "10 kg x 6", "5 kg x 6")]


def test_help_that_grows_less_is_a_heavier_load():
    found = records((lift(1, "-20", 6, bodyweight=True), lift(2, "-15", 6, bodyweight=True)))

    assert said(found) == [(LOAD, "-15 kg x 6", "-20 kg x 6")]


def test_pounds_and_kilograms_are_held_against_each_other():
    pounds = lift(2, "1", 6).model_copy(update={"load": Mass.of(185, "lb")})

    found = records((*BEFORE, pounds))

    assert said(found)[0] == (ESTIMATE, "185 lb x 6", "80 kg x 6")


def test_an_estimate_is_better_only_where_that_shows():
    found = records((lift(1, "80", 6), lift(2, "80.1", 6)))

    assert [one.kind for one in found] == [LOAD]


@pytest.mark.parametrize(
    ("before", "done", "is_best"),
    [
        # Left was not said before: the same set with 2 left is the same set.
        ((80, 6, None), (80, 6, 2), False),
        ((80, 6, 2), (80, 6, 3), True),
        ((80, 6, 2), (80, 6, None), False),
        ((80, 6, None), (82.5, 6, 2), True),
        # As hard as the new one, the old one would be past 12 reps: then it counts as it was said.
        ((80, 9, None), (85, 8, 4), True),
    ],
)
def test_to_say_reps_left_makes_no_one_stronger(before, done, is_best):
    sets = [
        lift(number, str(load), reps, left=left)
        for number, (load, reps, left) in enumerate((before, done), 1)
    ]

    assert any(one.kind is ESTIMATE for one in records(sets)) is is_best


def test_the_newest_of_each_kind_stands():
    found = records((*BEFORE, lift(2, "82.5", 6), lift(3, "85", 6)))

    assert [(one.kind, one.lift.session_id) for one in newest(found)] == [(ESTIMATE, 3), (LOAD, 3)]


sets = st.builds(
    lift,
    st.integers(1, 5),
    st.integers(20, 60).map(lambda number: str(number * 2.5)),
    st.integers(0, 15),
    st.integers(1, 6),
    left=st.none() | st.integers(0, 4),
    paused=st.booleans(),
    search=st.booleans(),
    side=st.sampled_from(("", "L", "R")),
)
logs = st.lists(sets, max_size=20, unique_by=lambda one: (one.session_id, one.set_no, one.side))


@given(logs, st.randoms())
def test_the_order_of_logging_makes_no_difference(log, chance):
    mixed = list(log)
    chance.shuffle(mixed)

    assert records(mixed) == records(log)


@given(logs)
def test_sets_that_were_taken_back_and_said_again_give_the_same_bests(log):
    again = [one.model_copy(update={"set_id": one.set_id + 10_000}) for one in log]

    assert said(records(again)) == said(records(log))


@given(logs)
def test_a_best_is_over_what_was_before_and_comes_after_it(log):
    for one in records(log):
        assert (one.before.on, one.before.session_id) < (one.lift.on, one.lift.session_id)
        assert one.lift.comparable == one.before.comparable
        assert one.lift.reps > 0
        assert not one.lift.paused
        assert not one.lift.search
        if one.kind is LOAD:
            assert one.lift.load > one.before.load
        elif one.kind is REPS:
            assert (one.lift.load, one.lift.reps > one.before.reps) == (one.before.load, True)
        else:
            assert one.lift.maximum > one.before.maximum


@given(logs)
def test_of_each_kind_a_session_gives_at_most_one(log):
    places = [(one.lift.session_id, one.kind, one.lift.comparable) for one in records(log)]

    assert len(places) == len(set(places))


@given(logs)
def test_leaving_out_the_last_session_changes_no_earlier_best(log):
    last = max((one.session_id for one in log), default=0)
    earlier = [one for one in log if one.session_id < last]

    assert records(earlier) == tuple(one for one in records(log) if one.lift.session_id < last)
