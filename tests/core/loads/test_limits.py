"""Clinicians' limits: kept to, over everything but a stop sign and the health gate."""

from datetime import timedelta

import pytest

from core.loads.decision import Decision, Inputs, Kind, next_decision
from core.loads.limits import Clinician, Limit, LimitKind
from core.programme.catalogue import exercise
from core.programme.exercises import Pattern, Site
from core.programme.restrictions import Restriction
from core.units import Mass
from tests.core.loads.lifts import TODAY, brief, day, done, dose, hurt, inputs

EIGHTS = dose(3, "8", "100")
TWICE = (done(4, EIGHTS, "8 8 8", left=2), done(2, EIGHTS, "8 8 8", left=2))


def limit(kind: LimitKind = LimitKind.FORBIDDEN, row: int = 1, **more: object) -> Limit:
    return Limit.model_validate({"row_id": row, "kind": kind, "since": day(30), **more})


def most(load: str, unit: str = "kg", **more: object) -> Limit:
    return limit(LimitKind.MOST_LOAD, mass=Mass.of(load, unit), **more)


def under(found: Inputs, *limits: Limit) -> Decision:
    return next_decision(found.model_copy(update={"limits": limits}))


OVERHEAD = limit(LimitKind.RESTRICTION, restriction=Restriction.OVERHEAD)


@pytest.mark.parametrize(
    ("key", "set_by", "paused"),
    [
        ("back-squat", limit(), True),
        ("back-squat", limit(exercise="back-squat"), True),
        ("back-squat", limit(exercise="front-squat"), False),
        ("back-squat", limit(pattern=Pattern.SQUAT), True),
        ("back-squat", limit(pattern=Pattern.HINGE), False),
        ("back-squat", limit(site=Site.KNEE), True),
        ("back-squat", limit(site=Site.WRIST), False),
        ("overhead-press", OVERHEAD, True),
        ("bench-press", OVERHEAD, False),
        ("pull-up", OVERHEAD, True),
        ("back-squat", limit(until=TODAY), True),
        ("back-squat", limit(until=day(1)), False),
        ("back-squat", limit(since=TODAY + timedelta(days=1)), False),
        ("back-squat", limit(review_on=day(9)), True),
    ],
)
def test_what_a_limit_forbids_is_left_out_while_it_stands(key: str, set_by: Limit, paused: bool) -> None:
    decision = under(inputs(key, dose(3, "8", "bw" if key == "pull-up" else "40")), set_by)

    assert (decision.kind is Kind.PAUSE) is paused
    assert (decision.reasons[0].code == "limit forbids") is paused


def test_it_is_said_whose_it_is_until_when_and_that_it_is_to_be_looked_at() -> None:
    told = under(
        inputs("back-squat", EIGHTS),
        limit(by=Clinician.PHYSIOTHERAPIST, until=TODAY + timedelta(days=7), review_on=day(1)),
    )

    assert told.reasons[0].facts == {"by": "physiotherapist", "until": "2026-04-21", "review": "2026-04-13"}
    assert told.line.mass is None


def test_the_stop_sign_comes_before_a_limit_and_a_limit_before_pain() -> None:
    found = inputs("back-squat", EIGHTS, *TWICE, pain=(hurt(1, Site.KNEE, 8),))
    frozen = found.model_copy(update={"lifter": found.lifter.model_copy(update={"frozen": True})})

    assert under(found, limit()).reasons[0].code == "limit forbids"
    assert under(frozen, limit()).reasons[0].code == "frozen"


@pytest.mark.parametrize(
    ("key", "load", "set_by", "expected"),
    [
        ("back-squat", "100", most("100"), "hold 100 kg 3x8 left 2: limit load"),
        ("back-squat", "100", most("80"), "lower 80 kg 3x8 left 2: limit load"),
        ("back-squat", "100", most("200"), "raise 102.5 kg 3x8 left 2: raise done twice"),
        ("back-squat", "100", most("176", "lb"), "lower 77.5 kg 3x8 left 2: limit load, rounded down"),
        ("back-squat", "100", most("10"), "swap - 3x8 left 2: limit load, nothing light enough"),
        # Both hands together: half of it for each.
        ("dumbbell-bench-press", "20", most("24"), "lower 12 kg 3x8 left 2: limit load"),
    ],
)
def test_a_most_load_is_a_ceiling_and_told_where_it_bites(
    key: str, load: str, set_by: Limit, expected: str
) -> None:
    asked = dose(3, "8", load)
    history = (done(4, asked, "8 8 8", left=2), done(2, asked, "8 8 8", left=2))

    assert brief(under(inputs(key, asked, *history), set_by)) == expected


def test_of_bodyweight_the_most_is_what_is_added() -> None:
    asked = dose(3, "5-8", "bw+10")
    found = inputs("pull-up", asked, done(2, asked, "8 8 8", left=2))

    assert brief(under(found, most("5"))) == "lower bw+5 kg 3x5 left 2: limit load"
    assert str(under(found, most("0")).load) == "bw"


def test_the_lowest_of_several_wins_whatever_their_order() -> None:
    found = inputs("back-squat", EIGHTS, *TWICE)
    both = (most("90", row=2), most("80", row=1, pattern=Pattern.SQUAT))

    assert under(found, *both) == under(found, *reversed(both))
    assert str(under(found, *both).load) == "80 kg"


def test_a_load_is_looked_for_up_to_the_most_and_not_at_all_over_it() -> None:
    found = inputs("back-squat", dose(3, "8", "find"))
    search = under(found, most("60"))

    assert brief(search) == "start find 3x8 left 3: limit load, start find"
    assert str(search.line.mass) == "60 kg"
    assert brief(under(found, most("15"))) == "swap - 3x8 left 2: limit load, nothing light enough"


def test_a_limit_says_what_its_kind_needs_and_nothing_else() -> None:
    for strange in (
        {"kind": LimitKind.MOST_LOAD},
        {"kind": LimitKind.FORBIDDEN, "mass": Mass.of(5)},
        {"kind": LimitKind.RESTRICTION},
        {"kind": LimitKind.FORBIDDEN, "restriction": Restriction.OVERHEAD},
    ):
        with pytest.raises(ValueError, match="a most load has a mass"):
            limit(**strange)
    for strange in (
        {"kind": LimitKind.RESTRICTION, "restriction": Restriction.OVERHEAD, "site": Site.KNEE},
        {"kind": LimitKind.MOST_LOAD, "mass": Mass.of(-5)},
    ):
        with pytest.raises(ValueError, match="names no exercise"):
            limit(**strange)


def test_a_restriction_reads_the_catalogue() -> None:
    assert OVERHEAD.bears_on(exercise("overhead-press"))
    assert not OVERHEAD.bears_on(exercise("back-squat"))
