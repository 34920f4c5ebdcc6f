"""Three options, always all of them, each with the numbers for and against it; none of them is chosen."""

from decimal import Decimal

import pytest

from core.oversight.misses import Tally
from core.oversight.options import Code, EndFacts, OptionKind, options
from core.policy import Policy

WELL, BADLY = Tally(kept=9, due=12), Tally(kept=8, due=12)


def codes(kind: OptionKind, **facts: object) -> tuple[set[Code], set[Code]]:
    found = next(each for each in options(EndFacts(**facts), Policy()) if each.kind is kind)
    return {each.code for each in found.speaks_for}, {each.code for each in found.speaks_against}


def test_all_three_are_told_even_where_nothing_is_known() -> None:
    found = options(EndFacts(), Policy())

    assert [each.kind for each in found] == list(OptionKind)
    assert found[0].speaks_for == found[0].speaks_against == ()


def test_what_goes_up_and_is_kept_speaks_for_the_same_again() -> None:
    speaks_for, against = codes(OptionKind.SAME, rising=("Squat",), kept=WELL, reached=2, targets=2)

    assert speaks_for == {Code.RISING, Code.KEPT, Code.TARGETS}
    assert against == set()


def test_what_falls_stalls_hurts_or_is_missed_speaks_against_the_same_again() -> None:
    speaks_for, against = codes(
        OptionKind.SAME,
        falling=("Squat",),
        stalled=("Row",),
        kept=BADLY,
        pain=2,
        pain_worst=4,
        reached=1,
        targets=2,
        held=True,
    )

    assert speaks_for == set()
    assert against == {Code.HELD, Code.FALLING, Code.STALLED, Code.PAIN, Code.KEPT, Code.TARGETS}


@pytest.mark.parametrize(
    ("reps", "is_for", "is_against"),
    [("8", True, False), ("6", False, False), ("5", False, True)],
)
def test_many_reps_leave_room_for_fewer_with_more_load(reps: str, is_for: bool, is_against: bool) -> None:
    speaks_for, against = codes(OptionKind.FEWER_REPS, reps=Decimal(reps))

    assert (Code.REPS in speaks_for, Code.REPS in against) == (is_for, is_against)


@pytest.mark.parametrize(
    ("pain", "counts"),
    [
        ({"pain": 1, "pain_worst": 4}, True),
        ({"pain": 1, "pain_worst": 3, "pain_late": 1}, True),
        ({"pain": 1, "pain_worst": 3}, False),
        ({"pain": 1, "pain_late": 1}, True),
        ({}, False),
    ],
)
def test_pain_speaks_against_more_load_and_never_for_it(pain: dict[str, int], counts: bool) -> None:
    for kind in (OptionKind.SAME, OptionKind.FEWER_REPS):
        speaks_for, against = codes(kind, **pain)
        assert Code.PAIN not in speaks_for
        assert (Code.PAIN in against) is counts
    speaks_for, against = codes(OptionKind.LIGHTER, **pain)
    assert (Code.PAIN in speaks_for) is counts
    assert Code.PAIN not in against


def test_missed_sessions_and_unknown_lifts_speak_against_fewer_reps() -> None:
    _, against = codes(OptionKind.FEWER_REPS, kept=BADLY, unknown=("Squat",), falling=("Row",), held=True)

    assert against == {Code.KEPT, Code.NO_TREND, Code.FALLING, Code.HELD}


def test_a_lighter_block_is_spoken_for_by_what_goes_badly_and_by_weeks_without_a_lighter_one() -> None:
    speaks_for, against = codes(
        OptionKind.LIGHTER, kept=BADLY, stalled=("Row",), falling=("Squat",), weeks_since_lighter=8, pain=1
    )

    assert speaks_for == {Code.KEPT, Code.STALLED, Code.FALLING, Code.LIGHTER_SINCE}
    assert against == set()


def test_a_lighter_block_is_spoken_against_by_what_goes_well() -> None:
    _, against = codes(OptionKind.LIGHTER, kept=WELL, rising=("Squat",), weeks_since_lighter=7)

    assert against == {Code.KEPT, Code.RISING, Code.LIGHTER_SINCE, Code.NO_PAIN}


def test_each_number_stands_in_its_evidence() -> None:
    found = options(
        EndFacts(kept=WELL, pain=3, pain_worst=5, pain_late=1, stalled=("Row", "Squat")), Policy()
    )
    told = {each.code: each for each in (*found[0].speaks_for, *found[0].speaks_against)}

    assert (told[Code.KEPT].count, told[Code.KEPT].of) == (9, 12)
    assert (told[Code.PAIN].count, told[Code.PAIN].worst, told[Code.PAIN].late) == (3, 5, 1)
    assert (told[Code.STALLED].names, told[Code.STALLED].count) == (("Row", "Squat"), 2)
