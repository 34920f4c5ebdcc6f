from collections.abc import Callable
from datetime import date
from itertools import pairwise

import numpy as np
import pytest

from core.checkin.pain import Band
from core.loads.decision import Ceiling, Decision, Inputs, Kind, LoadLine, Reason, next_decision
from core.loads.past import Outcome
from core.oversight.attendance import Attendance
from core.oversight.rehearsal_rules import Rule
from core.oversight.simulated_client import Played, planned_days, played, told_of, unit_of
from core.programme.block import Block
from core.programme.muscles import Muscle
from core.units import Mass, Unit
from tests.core.loads.lifts import dose, inputs
from tests.core.oversight.simulated import FULL, Scripted, block_of

MONDAY = date(2024, 1, 1)


def play(
    seed: int = 1,
    block: Block = FULL,
    weeks: int | None = None,
    decide: Callable[[Inputs], Decision] = next_decision,
) -> Played:
    chance = np.random.default_rng(seed)
    return played(block, block.weeks if weeks is None else weeks, seed, chance, decide=decide)


def seen(seed: int, block: Block = FULL) -> tuple[Played, list[Inputs]]:
    """A run, with the inputs of every decision in it."""
    asked: list[Inputs] = []

    def listening(given: Inputs) -> Decision:
        asked.append(given)
        return next_decision(given)

    return play(seed, block, decide=listening), asked


@pytest.mark.parametrize("seed", range(1, 9))
def test_the_same_stream_is_the_same_client(seed: int) -> None:
    assert play(seed) == play(seed)


def test_other_streams_are_other_clients() -> None:
    assert len({play(seed).lifter for seed in range(1, 9)}) == 8


@pytest.mark.parametrize("seed", range(1, 5))
def test_the_first_weeks_are_the_same_however_many_are_played(seed: int) -> None:
    long, short = play(seed), play(seed, weeks=2)

    assert short.told == long.told[: len(short.told)]
    assert short.sessions == long.sessions[:4]
    assert short.loads == {key: mass for key, mass in long.loads.items() if key[1] <= 2}


def test_the_client_in_the_middle_keeps_nothing_back_and_is_decided_for_each_session() -> None:
    run = played(FULL, 4, 7, Scripted())

    assert run.number == 7
    assert [came for _, came in run.sessions] == [Attendance.KEPT] * 8
    assert len(run.told) == 48
    assert run.told[0].codes[0] == "start written"
    assert (run.pains, run.breaches) == ((), ())
    assert run.loads["back-squat", 1] == Mass.of(70)
    assert run.sets[1, Muscle.QUADS] == 6
    # A gym without dumbbells: the overhead press is done with a bar, from the first day on.
    assert run.instead == {"dumbbell-overhead-press": "overhead-press"}
    assert ("overhead-press", 1) in run.loads


def test_what_was_done_is_in_the_next_decision() -> None:
    _, asked = seen(1)
    squats = [one for one in asked if one.exercise.key == "back-squat"]

    assert squats, "somebody with a bar"
    for before, after in pairwise(squats):
        assert after.history[:-1] == before.history
        assert after.history[-1].on == before.moment.today
        assert after.history[-1].written == before.dose.load
        assert before.moment.today in after.trained_on
    assert all(one.history[-1].outcome is not Outcome.SKIPPED for one in squats[1:])


def test_sessions_that_are_missed_leave_nothing_in_the_log() -> None:
    run, asked = seen(2)
    kept = sum(came is Attendance.KEPT for _, came in run.sessions)

    assert kept < len(run.sessions)
    assert len({one.moment.today for one in asked}) == kept


def test_pain_of_seven_ends_the_session_and_locks_until_it_is_released() -> None:
    for seed in range(1, 400):
        run, asked = seen(
            seed, block_of(*((key, dose(3, "8", "60")) for key in ("back-squat", "deadlift")), days=3)
        )
        if Band.HIGH in run.pains:
            break
    paused = [one for one in run.told if one.kind is Kind.PAUSE]
    ended = [one for given in asked for one in given.history if one.cause == "pain" and not one.sets]

    assert paused
    assert {one.codes[0] for one in paused} <= {"pain locked", "pain sudden", "pain spreading"}
    assert ended
    assert run.breaches == ()


def test_a_decision_that_breaks_a_rule_is_kept_with_what_it_rests_on() -> None:
    def heavy(given: Inputs) -> Decision:
        decision = next_decision(given)
        too_low = LoadLine(mass=Mass.of(1), ceilings=decision.line.ceilings)
        return (
            decision.model_copy(update={"line": too_low}) if given.exercise.key == "back-squat" else decision
        )

    run = played(FULL, 1, 3, Scripted(), decide=heavy)

    assert [(one.client, one.rule, one.inputs.exercise.key) for one in run.breaches] == [
        (3, Rule.OVER_LINE, "back-squat"),
        (3, Rule.OVER_LINE, "back-squat"),
    ]


def test_what_cannot_be_loaded_is_left_out_for_the_kit() -> None:
    def nowhere(given: Inputs) -> Decision:
        decision = next_decision(given)
        return decision.model_copy(update={"kind": Kind.SWAP, "load": None})

    asked: list[Inputs] = []

    def listening(given: Inputs) -> Decision:
        asked.append(given)
        return nowhere(given)

    run = played(block_of(("curl", dose(3, "8", "find"))), 2, 1, Scripted(), decide=listening)
    own = [one for one in asked if one.exercise.key == run.instead["curl"]]

    assert {(one.cause, one.sets) for given in own for one in given.history} == {("kit", ())}
    assert (run.loads, run.sets) == ({}, {})
    assert asked[-1].trained_on == ()


def test_a_band_has_no_load_and_its_sets_count() -> None:
    run = played(block_of(("band-pull-apart", dose(2, "15"))), 1, 1, Scripted())

    assert run.loads == {}
    assert run.sets[1, Muscle.REAR_DELTS] == 2


@pytest.mark.parametrize(
    ("days", "expected"),
    [(1, [0, 7]), (2, [0, 3, 7, 10]), (4, [0, 1, 3, 4, 7, 8, 10, 11]), (7, list(range(14)))],
)
def test_sessions_are_spread_over_the_week(days: int, expected: list[int]) -> None:
    block = block_of(("curl", dose(3, "8")), days=days)

    assert [(one.on - MONDAY).days for one in planned_days(block, 2)] == expected


def test_kit_is_marked_in_the_unit_of_the_block() -> None:
    assert unit_of(block_of(("curl", dose(3, "8", "20 lb")))) is Unit.LB
    assert unit_of(block_of(("curl", dose(3, "8", "find")), ("curl", dose(3, "8")))) is Unit.KG


def test_what_is_kept_of_a_decision_names_the_lowest_ceiling_of_most_authority() -> None:
    given = inputs("back-squat", dose(3, "8", "60"))
    plain = next_decision(given)

    def bound(*ceilings: tuple[str, str | None]) -> str | None:
        listed = tuple(
            Ceiling(reason=Reason(code=code), mass=None if mass is None else Mass.of(mass))
            for code, mass in ceilings
        )
        return told_of(given, plain.model_copy(update={"line": LoadLine(mass=None, ceilings=listed)})).binding

    assert bound(("a", "70"), ("b", "60"), ("c", "60")) == "b"
    assert bound(("a", "60"), ("b", None), ("c", None)) == "b"
    assert bound() is None


def test_what_is_kept_of_a_decision_says_what_waits_for_a_step() -> None:
    given = inputs("back-squat", dose(3, "8", "60"))
    caps = (
        Reason(code="cap", facts={"load": "14 kg", "percent": "20", "reps": "15"}),
        Reason(code="cap", facts={"load": "14 kg", "cap": "15 kg", "percent": "7"}),
    )
    waiting = next_decision(given).model_copy(update={"reasons": caps})
    stopped = next_decision(given).model_copy(update={"reasons": caps[1:]})

    assert told_of(given, waiting).waits == "20"
    assert told_of(given, waiting).codes == ("cap", "cap")
    assert told_of(given, stopped).waits is None


def test_nobody_breaks_a_rule_in_forty_runs() -> None:
    runs = [play(seed) for seed in range(1, 41)]

    assert sum(len(run.told) for run in runs) > 1000
    assert [breach for run in runs for breach in run.breaches] == []
    assert {attendance for run in runs for _, attendance in run.sessions} == set(Attendance)
