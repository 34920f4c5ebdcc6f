"""At most two hard sets a muscle, or 20 %, more than in the weeks before: a ceiling on sets, where those are known."""

from decimal import Decimal

import pytest

from core.loads.decision import Decision, next_decision
from core.loads.order import CoachOrder, OrderKind
from core.loads.past import MuscleSets
from core.policy import Policy
from core.programme.muscles import Muscle
from core.programme.prescription import Dose
from tests.core.loads.lifts import brief, codes, dose, inputs

FIVE = dose(5, "8", "60")


def known(muscle: Muscle, before: str, now: str = "0") -> MuscleSets:
    return MuscleSets(muscle=muscle, before=Decimal(before), now=Decimal(now))


def pressed(*week_sets: MuscleSets, asked: Dose = FIVE, **more: object) -> Decision:
    found = inputs("bench-press", asked).model_copy(update={"week_sets": week_sets, **more})
    return next_decision(found)


CHEST = Muscle.CHEST


@pytest.mark.parametrize(
    ("week", "sets"),
    [
        ((), 5),
        # 8 a week before: 10 this week at most, of which 6 are done.
        ((known(CHEST, "8", "6"),), 4),
        ((known(CHEST, "8", "5"),), 5),
        # 20 % of 20 is more than two: 24.
        ((known(CHEST, "20", "20"),), 4),
        ((known(CHEST, "20", "19"),), 5),
        # A half set for a muscle that helps: room for one set is room for two.
        ((known(Muscle.TRICEPS, "3", "4"),), 2),
        # The muscle with the least room decides; one set is always left.
        ((known(CHEST, "8", "8"), known(Muscle.TRICEPS, "3", "4")), 2),
        ((known(CHEST, "8", "14"),), 1),
        # What a muscle has that this exercise is not for says nothing.
        ((known(Muscle.CALVES, "2", "9"),), 5),
    ],
)
def test_sets_stay_within_what_the_weeks_before_leave(week: tuple[MuscleSets, ...], sets: int) -> None:
    assert pressed(*week).sets == sets


def test_it_is_told_where_it_cuts_and_nowhere_else() -> None:
    cut = pressed(known(CHEST, "8", "7.5"))

    assert brief(cut) == "start 60 kg 2x8 left 2: start written, sets week"
    assert cut.reasons[1].facts == {"sets": "2", "muscle": "chest", "before": "8", "most": "10"}
    assert codes(pressed(known(CHEST, "8"))) == ["start written"]


def test_sets_with_more_than_four_left_are_no_hard_sets() -> None:
    assert pressed(known(CHEST, "8", "9"), asked=dose(5, "8", "60", 5)).sets == 5


def test_what_else_cuts_sets_more_is_what_counts() -> None:
    order = CoachOrder(row_id=1, kind=OrderKind.EASE)

    assert pressed(known(CHEST, "8", "7"), asked=dose(3, "8", "60"), orders=(order,)).sets == 2


def test_the_coach_sets_how_much_more_there_may_be() -> None:
    more = Policy(sets_rise=4)
    share = Policy(sets_rise_share=Decimal("0.5"))

    assert pressed(known(CHEST, "8", "8"), policy=more).sets == 4
    assert pressed(known(CHEST, "10", "10"), policy=share).sets == 5


def test_the_weeks_before_are_known_only_where_there_was_something() -> None:
    with pytest.raises(ValueError, match="greater than 0"):
        known(CHEST, "0")
