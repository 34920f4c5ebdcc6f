"""The digest's value: its numbers are the log's, safety is never cut, and praise is true."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.checkin.pain import PainReport
from core.loads.decision import Decision, Kind, LoadLine, Reason
from core.loads.reasons import ReasonCode
from core.oversight.digest import Change, digest, heaviest, rises
from core.oversight.facts import Ahead, Beside, CheckedIn, ClientFacts, Lifted
from core.oversight.misses import Tally
from core.oversight.waiting import (
    LiftCourse,
    RaiseWaiting,
    ReferralDue,
    Reminder,
    VideosWaiting,
    Waits,
)
from core.oversight.words import WhyCode, reasons_for_a_word
from core.policy import Policy
from core.programme.exercises import Side, Site
from core.programme.prescription import Load
from core.units import Mass
from tests.core.oversight.logs import log, noon

ON = date(2026, 4, 19)
MONDAY = date(2026, 4, 13)
POLICY = Policy()
LETTERS = "kpmtiacITuhs"


def client(name: str = "Ada", client_id: int = 1, **facts: object) -> ClientFacts:
    found = {
        "state": "active",
        "began_on": date(2025, 1, 1),
        "block": "Harbour",
        "block_ends": date(2026, 6, 1),
    }
    return ClientFacts(client_id=client_id, name=name, **(found | facts))


def hurt(score: int | None, on: date = MONDAY, row_id: int = 1, **facts: object) -> PainReport:
    found = {"site": Site.KNEE, "side": Side.LEFT, "score": score, "on": on, "at": noon(on)} | facts
    return PainReport(row_id=row_id, **found)


def lifted(exercise: str, on: date, load: Load, full: bool = True) -> Lifted:
    return Lifted(exercise=exercise, on=on, session_id=1, load=load, full=full)


def decided(kind: Kind, load: Load | None, code: str = "x", exercise: str = "hip-thrust") -> Ahead:
    decision = Decision(
        kind=kind, load=load, sets=3, target=8, left=2, line=LoadLine(mass=None), reasons=(Reason(code=code),)
    )
    return Ahead(exercise=exercise, decision=decision)


def codes(facts: ClientFacts) -> list[WhyCode]:
    return [each.code for each in reasons_for_a_word(facts, ON, POLICY)]


@given(st.lists(st.tuples(st.text(LETTERS, max_size=28), st.integers(0, 40)), max_size=6))
def test_the_numbers_are_the_logs(logs: list[tuple[str, int]]) -> None:
    people = [
        client(f"P{number}", number, past=log(text, ON - timedelta(days=start)))
        for number, (text, start) in enumerate(logs)
    ]
    value = digest(people, ON, POLICY)

    for each, person in zip(value.kept, people, strict=True):
        for counted, days in ((each.week, 7), (each.month, 28)):
            states = [
                (one.state, one.reason) for one in person.past if ON - timedelta(days=days) < one.on <= ON
            ]
            kept = sum(state in ("done", "partial") for state, _ in states)
            excused = ("ill", "away", "coach")
            lost = sum(state in ("left_out", "missed") and why not in excused for state, why in states)
            assert counted == Tally(
                kept=kept, due=kept + lost, pending=sum(state == "sent" for state, _ in states)
            )
    assert value.week == sum((each.week for each in value.kept), Tally())


@given(st.integers(0, 9), st.integers(0, 9))
def test_five_are_named_and_safety_is_never_cut(safe: int, other: int) -> None:
    people = [client(f"S{number}", number, frozen_on=MONDAY) for number in range(safe)]
    people += [client(f"M{number}", 100 + number, past=log("kmm", MONDAY)) for number in range(other)]
    value = digest(people[::-1], ON, POLICY)

    assert sum(each.reasons[0].is_safety for each in value.words) == safe
    assert len(value.words) == max(safe, min(5, safe + other))
    assert len(value.words) + value.more == safe + other
    assert [each.reasons[0].rank for each in value.words] == sorted(
        each.reasons[0].rank for each in value.words
    )


@each_row(
    ("facts", "expected"),
    [
        ({}, []),
        ({"frozen_on": MONDAY}, [WhyCode.STOP_SIGN]),
        ({"frozen_on": MONDAY, "frozen_by_health": True}, [WhyCode.HEALTH_QUESTION]),
        ({"frozen_on": MONDAY, "past": log("mmm", MONDAY)}, [WhyCode.STOP_SIGN]),
        ({"pain": (hurt(3),)}, []),
        ({"pain": (hurt(4),)}, [WhyCode.PAIN]),
        ({"pain": (hurt(4, date(2026, 4, 12)),)}, []),
        ({"pain": (hurt(None),)}, [WhyCode.PAIN]),
        ({"pain": (hurt(7, date(2026, 3, 1)),)}, [WhyCode.LOCKED]),
        ({"pain": (hurt(7, released_at=noon(ON)),)}, [WhyCode.PAIN]),
        ({"pain": (hurt(2, spreading=True),)}, [WhyCode.LOCKED]),
        ({"pain": (hurt(5, date(2026, 4, 20)),)}, []),
        ({"reachable": False, "past": log("mmm", MONDAY)}, [WhyCode.UNREACHABLE]),
        ({"past": log("kkmm", MONDAY)}, [WhyCode.RUN]),
        ({"past": log("kmmm", MONDAY)}, [WhyCode.SILENT]),
        ({"state": "paused", "past": log("kmmm", MONDAY), "heard_at": noon(ON)}, [WhyCode.SILENT]),
        ({"state": "paused"}, [WhyCode.SILENT]),
        ({"state": "paused", "paused_until": ON, "past": log("kmmm", MONDAY)}, []),
        ({"past": log("kttk", MONDAY)}, []),
        ({"past": log("ttkk", MONDAY)}, []),
        ({"past": log("tttkk", MONDAY)}, [WhyCode.HALF]),
        ({"past": log("km", MONDAY), "began_on": MONDAY}, [WhyCode.FIRST_WEEKS]),
        ({"ahead": (decided(Kind.HOLD, Load.of(50), ReasonCode.MISS_THIRD),)}, [WhyCode.COACH_DECIDES]),
        (
            {"pain": (hurt(4),), "past": log("kkmm", MONDAY), "frozen_on": MONDAY},
            [WhyCode.STOP_SIGN, WhyCode.PAIN],
        ),
    ],
)
def test_who_needs_a_word(facts: dict[str, object], expected: list[WhyCode]) -> None:
    assert codes(client(**facts)) == expected


def test_of_one_place_the_gravest_report_is_told_and_the_last_number() -> None:
    reports = (hurt(4, MONDAY, 1), hurt(6, MONDAY + timedelta(days=1), 2), hurt(2, ON, 3))
    (why,) = reasons_for_a_word(client(pain=reports), ON, POLICY)

    assert (why.pain, why.since) == (reports[1], 2)


def test_two_places_are_two_reasons() -> None:
    reports = (hurt(4), hurt(7, row_id=2, site=Site.SHOULDER))

    assert codes(client(pain=reports)) == [WhyCode.LOCKED, WhyCode.PAIN]


BEFORE = date(2026, 4, 6)
ROSE = (lifted("hip-thrust", BEFORE, Load.of(90)), lifted("hip-thrust", MONDAY, Load.of("92.5")))


@pytest.mark.parametrize(
    ("facts", "rose", "is_named"),
    [
        ({"lifted": ROSE}, 1, True),
        ({"lifted": ROSE, "pain": (hurt(2),)}, 1, False),
        ({"lifted": ROSE, "pain": (hurt(0),)}, 1, True),
        ({"lifted": ROSE, "pain": (hurt(3, BEFORE),)}, 1, True),
        ({"lifted": ROSE, "past": log("ki", MONDAY)}, 1, False),
        ({"lifted": ROSE, "frozen_on": MONDAY}, 1, False),
        ({"past": log("kk", MONDAY)}, 0, True),
        ({"past": log("k", MONDAY)}, 0, False),
        ({"past": log("kkt", MONDAY)}, 0, False),
        ({"lifted": (ROSE[0], lifted("hip-thrust", MONDAY, Load.of("92.5"), full=False))}, 0, False),
        ({"lifted": (ROSE[0], lifted("hip-thrust", MONDAY, Load.of(90)))}, 0, False),
        ({"lifted": ROSE[1:]}, 0, False),
        ({"lifted": ROSE[:1]}, 0, False),
    ],
)
def test_who_does_well_has_done_it(facts: dict[str, object], rose: int, is_named: bool) -> None:
    person = client(**facts)
    value = digest([person], ON, POLICY)

    assert len(rises(person.lifted, MONDAY, ON)) == rose
    assert [each.name for each in value.well] == (["Ada"] if is_named else [])


def test_loads_of_another_kind_are_not_compared() -> None:
    added = Load.bodyweight(Mass.of(5))

    assert heaviest([added, Load.of(95), Load.of("92.5")], Load.of(90)) == Load.of(95)
    assert heaviest([Load.bodyweight(Mass.of(2))], added) is None
    assert heaviest([added], Load.bodyweight()) == added
    assert heaviest([Load.of(200, "lb")], Load.of(90)) == Load(Load.of(1).kind, Mass(Decimal(200), "lb"))


@pytest.mark.parametrize(
    ("ahead", "facts", "expected"),
    [
        (decided(Kind.RAISE, Load.of("95")), {}, (Kind.RAISE, Load.of("95"))),
        (decided(Kind.HOLD, Load.of("90")), {}, (Kind.LOWER, Load.of("90"))),
        (decided(Kind.RAISE, Load.of("92.5")), {}, None),
        (decided(Kind.PAUSE, None), {}, (Kind.PAUSE, None)),
        (decided(Kind.SWAP, None), {}, (Kind.SWAP, None)),
        (decided(Kind.START, Load.find()), {}, None),
        (decided(Kind.HOLD, None), {}, None),
        (decided(Kind.RAISE, Load.of("95"), exercise="bench-press"), {}, None),
        (decided(Kind.RAISE, Load.of("95")), {"frozen_on": MONDAY}, None),
        (decided(Kind.RAISE, Load.of("95")), {"state": "paused"}, None),
    ],
)
def test_what_changes_is_what_differs_from_the_last_time(
    ahead: Ahead, facts: dict[str, object], expected: tuple[Kind, Load | None] | None
) -> None:
    value = digest([client(lifted=ROSE, ahead=(ahead,), **facts)], ON, POLICY)
    found = [(change.kind, change.now) for each in value.coming for change in each.changes]

    assert found == ([] if expected is None else [expected])


@pytest.mark.parametrize(
    ("ends", "is_named"),
    [(date(2026, 5, 3), True), (date(2026, 5, 4), False), (date(2026, 4, 1), True), (None, True)],
)
def test_who_runs_out_of_block_in_two_weeks_is_named(ends: date | None, is_named: bool) -> None:
    value = digest([client(block_ends=ends)], ON, POLICY)

    assert [each.ends for each in value.ending] == ([ends] if is_named else [])


@pytest.mark.parametrize(
    ("facts", "is_quiet"),
    [
        ({}, True),
        ({"past": log("kk", MONDAY)}, True),
        ({"past": log("kt", MONDAY)}, False),
        ({"past": log("ki", MONDAY)}, False),
        ({"pain": (hurt(4),)}, False),
        ({"block_ends": ON}, False),
        ({"past": log("kk", MONDAY), "lifted": ROSE}, True),
    ],
)
def test_a_week_is_quiet_when_there_is_nothing_to_do_about_it(
    facts: dict[str, object], is_quiet: bool
) -> None:
    assert digest([client(**facts)], ON, POLICY).is_quiet == is_quiet


def test_reasons_stand_once_and_names_in_order() -> None:
    people = [client("Öyvind", 2), client("ada", 1, past=log("ttT", MONDAY))]
    value = digest(people, ON, POLICY)

    assert [(each.name, each.reasons) for each in value.kept] == [("ada", ("time",)), ("Öyvind", ())]
    assert value.first == MONDAY


def test_a_change_holds_what_was_before() -> None:
    assert rises(ROSE, MONDAY, ON) == (
        Change(exercise="hip-thrust", before=Load.of(90), now=Load.of("92.5"), kind=Kind.RAISE),
    )


def test_what_came_after_the_week_is_not_counted() -> None:
    later = (*ROSE, lifted("hip-thrust", ON + timedelta(days=1), Load.of(100)))

    assert rises(later, MONDAY, ON)[0].now == Load.of("92.5")


def test_what_only_comes_back_to_where_it_was_has_not_risen() -> None:
    back = (
        lifted("hip-thrust", MONDAY - timedelta(days=14), Load.of(100)),
        lifted("hip-thrust", MONDAY - timedelta(days=7), Load.of(90)),
        lifted("hip-thrust", MONDAY, Load.of(100)),
    )
    assert rises(back, MONDAY, ON) == ()
    over = (*back, lifted("hip-thrust", MONDAY + timedelta(days=3), Load.of("102.5")))
    assert [(each.before, each.now) for each in rises(over, MONDAY, ON)] == [(Load.of(100), Load.of("102.5"))]
    long_ago = (lifted("hip-thrust", MONDAY - timedelta(days=40), Load.of(120)), *over)
    assert rises(long_ago, MONDAY, ON) == rises(over, MONDAY, ON)


def test_after_a_lighter_week_a_change_is_held_against_the_load_before_it() -> None:
    before, lighter = MONDAY - timedelta(days=7), MONDAY
    done = (lifted("hip-thrust", before, Load.of("92.5")), lifted("hip-thrust", lighter, Load.of("82.5")))
    over = Reason(code=ReasonCode.LIGHTER_OVER, facts={"load": "92.5 kg", "date": before.isoformat()})
    for reasons, held_against in (((over,), "92.5 kg"), ((), "82.5 kg")):
        stands = decided(Kind.RAISE, Load.of("97.5"))
        coming = stands.model_copy(
            update={"decision": stands.decision.model_copy(update={"reasons": reasons})}
        )
        (found,) = digest([client(lifted=done, ahead=(coming,))], ON, POLICY).coming
        assert [str(each.before) for each in found.changes] == [held_against]


def test_check_ins_are_told_by_what_became_of_them_and_such_a_week_is_not_quiet() -> None:
    said = (("How was your training week?", "hard"),)
    told = digest(
        [
            client("Ben", 2, check_in=CheckedIn(on=MONDAY)),
            client("Ada", 1, check_in=CheckedIn(on=MONDAY, said=said)),
            client("Cleo", 3),
        ],
        ON,
        POLICY,
    )

    assert [(each.name, each.said) for each in told.said] == [("Ada", said)]
    assert told.unanswered == ("Ben",)
    assert not told.is_quiet
    assert digest([client("Cleo", 3)], ON, POLICY).is_quiet


def test_other_training_is_told_and_changes_nothing_else() -> None:
    run = Beside(kind="run", on=MONDAY, minutes=40)
    told = digest([client(beside=(run,))], ON, POLICY)
    without = digest([client()], ON, POLICY)

    assert [(each.name, each.trained) for each in told.other] == [("Ada", (run,))]
    assert told.model_copy(update={"other": ()}) == without


def test_what_waits_is_told_by_name_and_such_a_week_is_not_quiet() -> None:
    videos = VideosWaiting(count=1, days=3)
    lifts = (LiftCourse(exercise="back-squat", since=MONDAY, times=6),)
    raises = (RaiseWaiting(exercise="back-squat", before=None, now=Load.of(100), since=MONDAY),)
    referrals = (ReferralDue(what="knee", review_on=ON),)
    many = [
        client("Dora", 4, videos=videos),
        client("Ada", 1, lifts=lifts),
        client("Ben", 2, raises_waiting=raises),
        client("Cleo", 3, referrals_due=referrals),
        client("Edda", 5),
    ]

    found = digest(many, ON, POLICY)

    assert found.waits == (
        Waits(name="Ada", lifts=lifts),
        Waits(name="Ben", raises=raises),
        Waits(name="Cleo", referrals=referrals),
        Waits(name="Dora", videos=videos),
    )
    assert not found.is_quiet
    assert digest([client("Edda", 5)], ON, POLICY).is_quiet


def test_reminders_come_soonest_first_and_such_a_week_is_not_quiet() -> None:
    reminders = [
        Reminder(text="b", on=ON),
        Reminder(text="a", on=ON, name="Ada"),
        Reminder(text="c", on=MONDAY, name="Ben"),
        Reminder(text="a", on=ON),
    ]

    found = digest([client()], ON, POLICY, reminders)

    assert [(each.text, each.name) for each in found.reminders] == [
        ("c", "Ben"),
        ("a", None),
        ("b", None),
        ("a", "Ada"),
    ]
    assert not found.is_quiet
