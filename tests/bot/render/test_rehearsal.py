from decimal import Decimal

import pytest

from bot.render.problems import problem_line
from bot.render.rehearsal import (
    CAVEAT,
    SOUND,
    Grid,
    breach_lines,
    closing,
    grids,
    heading,
    number,
    unit_words,
)
from core.loads.decision import Kind, next_decision
from core.oversight.rehearsal_result import (
    LiftLoads,
    MuscleWeek,
    PainCount,
    Rehearsal,
    RuleCount,
    SessionCount,
    Spread,
    Wait,
    WeekLoad,
)
from core.oversight.rehearsal_rules import Breach, Rule
from core.programme.muscles import Muscle
from core.programme.problems import Code, Place, problem
from core.units import Unit
from tests.core.loads.lifts import dose, inputs


def spread(low: str, middle: str, high: str) -> Spread:
    return Spread(low=Decimal(low), middle=Decimal(middle), high=Decimal(high))


def lift(
    key: str, *loads: Spread | None, unit: Unit = Unit.KG, instead: int = 0, unplaced: int = 0
) -> LiftLoads:
    weeks = tuple(
        WeekLoad(week=week, clients=0 if load is None else 20, load=load)
        for week, load in enumerate(loads, 1)
    )
    return LiftLoads(exercise=key, unit=unit, weeks=weeks, instead=instead, unplaced=unplaced)


def found(**more: object) -> Rehearsal:
    plain: dict[str, object] = {
        "block": "Slipway",
        "weeks": 2,
        "clients": 20,
        "new": 6,
        "older": 3,
        "kits": {"bar": 5, "both": 9, "dumbbells": 6},
        "decisions": 400,
        "kinds": {Kind.HOLD: 300, Kind.RAISE: 80, Kind.START: 20},
        "lifts": (lift("back-squat", spread("70", "72.5", "75"), spread("70", "73.75", "77.25")),),
        "rules": (RuleCount(code="done once", first=200, binding=150, clients=20),),
        "waits": (),
        "muscles": (
            MuscleWeek(muscle=Muscle.QUADS, week=1, planned=Decimal(9), done=Decimal("7.25")),
            MuscleWeek(muscle=Muscle.QUADS, week=2, planned=Decimal(12), done=Decimal("9.75")),
        ),
        "sessions": SessionCount(due=160, kept=140, missed=15, away=5, each=spread("6", "7", "8")),
        "pain": PainCount(clients=1, low=2, middle=1, high=0, held=1, locked=0),
        "warnings": (),
        "breaches": (),
    }
    return Rehearsal(**(plain | more))


def grid(title: str, rehearsal: Rehearsal) -> Grid:
    return next(each for each in grids(rehearsal) if each.title.startswith(title))


def test_the_heading_says_what_was_played_with_whom_and_what_it_is_not() -> None:
    first, second, third = heading(found(), 7)

    assert first == "Slipway: 2 weeks, 20 simulated clients, seed 7"
    assert second == (
        "6 in their first three months, 3 of 60 and over. Kit: 5 a gym without dumbbells, 9 a gym with everything, "
        "6 dumbbells at home."
    )
    assert third == CAVEAT
    assert heading(found(weeks=1, clients=1), 7)[0] == "Slipway: 1 week, 1 simulated client, seed 7"


def test_main_lifts_have_the_middle_and_the_middle_half_by_week() -> None:
    lifts = grid(
        "Loads",
        found(
            lifts=(
                lift("back-squat", spread("70", "72.5", "75"), spread("70", "73.75", "77.25"), instead=1),
                lift("dumbbell-bench-press", spread("35", "35", "40"), None, unit=Unit.LB, unplaced=2),
                lift("pull-up", spread("-10", "0", "2.5"), spread("-5", "2.5", "5")),
            )
        ),
    )

    assert lifts.headings == [
        "Week",
        "Back squat [kg]",
        "Dumbbell bench press [lb a hand]",
        "Pull-up [kg added]",
    ]
    assert lifts.rows == [
        ["1", "72.5 (70–75)", "35 (35–40)", "0 (-10–2.5)"],
        ["2", "73.8 (70–77.3)", "–", "2.5 (-5–5)"],
    ]
    assert lifts.notes == [
        "Back squat: 1 client with something else in its place.",
        "Dumbbell bench press: 2 clients with nothing for it. You would be asked.",
    ]


def test_five_lifts_make_two_tables() -> None:
    keys = ("back-squat", "bench-press", "deadlift", "barbell-row", "pull-up")
    tables = [
        each
        for each in grids(found(lifts=tuple(lift(key, spread("1", "1", "1")) for key in keys)))
        if each.title.startswith("Loads")
    ]

    assert [len(each.headings) for each in tables] == [5, 2]


def test_rules_are_named_in_words_and_the_ones_that_spoke_least_are_counted() -> None:
    rules = tuple(
        RuleCount(code=code, first=100 - place, binding=0, clients=20)
        for place, code in enumerate(("done once", "unheard of", *(f"x{one}" for one in range(16))))
    )
    silent = RuleCount(code="age", first=0, binding=0, clients=3)
    table = grid("How often", found(rules=(*rules, silent)))

    assert table.headings == ["Rule", "Told first", "Lowest ceiling", "Clients"]
    assert table.rows[:2] == [["all done once", "100", "0", "20"], ["unheard of", "99", "0", "20"]]
    assert (len(table.rows), table.notes) == (16, ["and 2 rules that spoke less often"])
    assert grid("How often", found()).notes == []


def test_raises_that_wait_are_shown_by_exercise() -> None:
    waits = tuple(
        Wait(exercise="curl", clients=9 - place, sessions=20, earned=3, bridges=0, percent="12.5")
        for place in range(9)
    )
    table = grid("Raises", found(waits=waits))

    assert table.headings == ["Exercise", "Clients", "Sessions", "Earned", "Usual step"]
    assert table.rows[0] == ["Curl", "9", "20", "3", "+12.5 %"]
    assert (len(table.rows), table.notes) == (8, ["and 1 exercise more"])


def test_sets_a_muscle_are_planned_and_done() -> None:
    table = grid("Hard sets", found())

    assert table.rows == [["quads", "9 to 12", "7.3 to 9.8", "8.5"]]
    assert table.headings == ["Muscle", "Planned", "Done", "Done on average"]


def test_a_table_without_a_row_is_left_out() -> None:
    assert [each.title for each in grids(found(lifts=(), rules=(), muscles=()))] == []


def test_the_closing_says_how_sessions_were_kept_what_was_decided_and_what_hurt() -> None:
    sessions, decisions, pain = closing(found())

    assert sessions == (
        "Sessions: 140 of 160 kept (88 %), 15 missed, 5 in weeks away. A client kept 7 of 8, the middle half 6 to 8."
    )
    assert decisions == "Decisions: 400; 20 % heavier, 75 % the same load, 5 % a first time."
    assert pain == (
        "Pain: 1 client told of some: 2 reports of 1 to 3, 1 of 4 to 6, 0 of 7 and over. It held 1 decision, 0 of them "
        "locked."
    )


def test_warnings_of_the_blocks_own_checks_stand_at_the_end() -> None:
    warning = problem(Code.LONG_WITHOUT_DELOAD, Place(), weeks="1-9", count=9, most=8)

    assert closing(found(warnings=(warning,)))[-3:] == ["", "The block's own checks:", problem_line(warning)]


def test_a_breach_is_called_a_fault_of_the_program() -> None:
    given = inputs("back-squat", dose(3, "5", "60"))
    breach = Breach(client=4, rule=Rule.THROUGH_PAIN, inputs=given, decision=next_decision(given))

    assert breach_lines(found()) == [SOUND]
    assert breach_lines(found(breaches=(breach, breach))) == [
        "2 decisions BROKE A RULE. That is a fault of this program and not of your block; please report it.",
        "Client 4: start, rises through pain.",
        "Client 4: start, rises through pain.",
    ]
    assert len(breach_lines(found(breaches=(breach,) * 30))) == 21


@pytest.mark.parametrize(
    ("value", "text"), [("70", "70"), ("73.75", "73.8"), ("-0.04", "0"), ("72.50", "72.5")]
)
def test_numbers_have_one_decimal_at_most(value: str, text: str) -> None:
    assert number(Decimal(value)) == text


def test_units_say_what_a_load_is_counted_by() -> None:
    assert unit_words(lift("back-squat")) == "kg"
    assert unit_words(lift("dumbbell-bench-press", unit=Unit.LB)) == "lb a hand"
    assert unit_words(lift("pull-up")) == "kg added"
