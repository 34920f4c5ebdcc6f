from datetime import timedelta

import pytest

from core.loads.decision import Ceiling, Decision, Inputs, Kind, LoadLine, Reason, next_decision
from core.loads.outcome import LastSet, PlannedSet, SetPlan
from core.oversight.rehearsal_rules import Rule, broken_rules
from core.programme.exercises import Site
from core.programme.prescription import Load
from core.units import Mass
from tests.core.loads.lifts import HOME, done, dose, hurt, inputs, load_of

ASKED = dose(3, "8", "60")
PAST = done(3, ASKED, "8 8 8")
SQUAT = inputs("back-squat", ASKED, PAST)


def decided(given: Inputs, load: str | None, **more: object) -> Decision:
    """What the rules decided, with another load and whatever else a fault would have made of it."""
    return next_decision(given).model_copy(update={"load": load_of(load), **more})


def line(mass: str | None, *ceilings: str | None) -> LoadLine:
    return LoadLine(
        mass=None if mass is None else Mass.of(mass),
        ceilings=tuple(
            Ceiling(reason=Reason(code="x"), mass=None if one is None else Mass.of(one)) for one in ceilings
        ),
    )


def test_what_the_rules_decide_breaks_none() -> None:
    assert broken_rules(SQUAT, next_decision(SQUAT)) == ()


@pytest.mark.parametrize(
    ("load", "over"),
    [
        (line("60", "60", "70"), False),
        (line("59.9"), True),
        (line("60", "60", "59.9"), True),
        (line(None, "60"), False),
        (line(None, None), True),
    ],
)
def test_a_load_over_its_line_or_over_any_ceiling_is_found(load: LoadLine, over: bool) -> None:
    found = broken_rules(SQUAT, decided(SQUAT, "60", line=load))

    assert found == ((Rule.OVER_LINE,) if over else ())


@pytest.mark.parametrize(
    ("key", "load", "fault"),
    [
        ("back-squat", "60.1", True),
        ("back-squat", "bw", True),
        ("dumbbell-overhead-press", "14", False),
        ("dumbbell-overhead-press", "13", True),
        ("pull-up", "bw", False),
        ("pull-up", "bw+0.3", True),
        ("band-pull-apart", "bw", False),
        ("back-squat", None, False),
        ("back-squat", "find", False),
    ],
)
def test_a_load_that_cannot_be_made_is_found(key: str, load: str | None, fault: bool) -> None:
    given = inputs(key, dose(3, "8", "find" if key != "pull-up" else "bw"))
    found = broken_rules(given, decided(given, load, line=line(None)))

    assert found == ((Rule.NOT_LOADABLE,) if fault else ())


def test_a_lift_that_was_done_with_nothing_may_be_again() -> None:
    bare = inputs("one-leg-hinge", dose(3, "8", "bw"))
    after = inputs("one-leg-hinge", dose(3, "8", "12"), done(3, dose(3, "8", "bw"), "8 8 8"), kit=HOME)

    assert broken_rules(bare, decided(bare, "bw", line=line(None))) == ()
    assert broken_rules(after, decided(after, "bw", line=line(None))) == ()


def test_loads_of_a_plan_are_looked_at_too() -> None:
    plan = SetPlan(
        table="x",
        sets=(PlannedSet(load=Load.of("30.3"), reps=10),),
        last=(LastSet(reps_from=0, load=Load.of("60")),),
    )

    assert broken_rules(SQUAT, decided(SQUAT, "60", plan=plan, line=line("60"))) == (Rule.NOT_LOADABLE,)


@pytest.mark.parametrize(
    ("days_ago", "sessions", "score", "fault"),
    [
        (3, (3,), 4, True),
        (3, (3,), 3, False),
        (3, (3,), None, True),
        (4, (4, 2), 5, True),
        (6, (6, 4, 2), 5, False),
        (-1, (3,), 5, False),
    ],
)
def test_a_rise_through_pain_is_found_until_two_sessions_after_it(
    days_ago: int, sessions: tuple[int, ...], score: int | None, fault: bool
) -> None:
    given = inputs(
        "back-squat",
        ASKED,
        *(done(one, ASKED, "8 8 8") for one in sessions),
        pain=(hurt(days_ago, Site.KNEE, score),),
    )
    found = broken_rules(given, decided(given, "62.5", kind=Kind.RAISE, line=line("62.5")))

    assert found == ((Rule.THROUGH_PAIN,) if fault else ())


def test_a_rise_is_seen_whatever_a_decision_calls_itself() -> None:
    given = inputs("back-squat", ASKED, PAST, pain=(hurt(3, Site.KNEE, 5),))

    assert broken_rules(given, decided(given, "62.5", kind=Kind.HOLD, line=line("62.5"))) == (
        Rule.THROUGH_PAIN,
    )
    assert broken_rules(given, decided(given, "60", kind=Kind.HOLD, line=line("60"))) == ()
    assert broken_rules(given, decided(given, None, kind=Kind.HOLD, line=line(None))) == ()


def test_pain_elsewhere_stops_no_rise() -> None:
    given = inputs("back-squat", ASKED, PAST, pain=(hurt(3, Site.CALF, 5),))

    assert broken_rules(given, decided(given, "62.5", kind=Kind.RAISE, line=line("62.5"))) == ()


def test_what_is_locked_is_never_given() -> None:
    locked = inputs("back-squat", ASKED, PAST, pain=(hurt(3, Site.KNEE, 8),))
    released = hurt(3, Site.KNEE, 8, released_at=hurt(1, Site.KNEE, 1).at + timedelta(hours=1))

    assert broken_rules(locked, next_decision(locked)) == ()
    assert broken_rules(locked, decided(locked, "40", kind=Kind.LOWER, line=line("40"))) == (Rule.LOCKED,)
    freed = inputs("back-squat", ASKED, PAST, pain=(released,))
    assert broken_rules(freed, decided(freed, "40", kind=Kind.LOWER, line=line("40"))) == ()
