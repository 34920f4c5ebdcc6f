"""What a new version does to what is planned: dates, days and lifts follow it, and what was sent or chosen stays."""

from datetime import date
from typing import Any

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from examples import examples
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from bot.store.people import Client
from bot.store.units import Unit, Units
from bot.usecases.digest import facts_of
from bot.usecases.merging import written_for
from bot.usecases.session_view import prompt_of, view_of
from core.programme.block import Block
from tests.bot.usecases.new_versions import (
    asked,
    harbour,
    look,
    named,
    plan,
    rows,
    sends,
    steps,
    with_days,
    with_load,
)

TUESDAY = "tick 2026-04-07 07:00"
BLOCK = harbour()
LOWER_A, PUSH, LOWER_B, PULL = BLOCK.days


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, (TUESDAY,))


@pytest.fixture
def line(units: Units) -> Talk:
    return played_to(
        units,
        (
            "Marit: /settings",
            "Marit: next in line",
            TUESDAY,
        ),
    )


def applied(play: Talk, block: Block, when: str) -> str:
    """Send a block, apply it, and return what was said before."""
    sends(play, block)
    play.take(f"Marit: {when}")
    said = play.someone("Marit").sees
    play.take("Marit: apply")
    return said


def test_days_that_are_gone_are_dropped_new_ones_come_and_the_block_is_longer(play: Talk) -> None:
    core = named(PULL, "Core")
    said = applied(play, with_days(BLOCK, LOWER_A, PUSH, core, weeks=5), "next week")

    assert "Weeks: 5 (was 4)\n• New day: Core\n• Day gone: Lower B\n• Day gone: Pull\n" in said
    assert (
        "Ada: from Tue 14 April, week 2 of 5 instead of 4. New: Core (3 sessions). "
        "Gone: Lower B (3 sessions), Pull (3 sessions)."
    ) in said
    assert plan(play) == [
        "07 1 lower-a sent",
        "09 1 push planned",
        "10 1 lower-b planned",
        "13 1 pull planned",
        "14 2 lower-a planned",
        "16 2 push planned",
        "17 2 core planned",
        "21 3 lower-a planned",
    ]
    steps(play, ["tick 2026-04-20 07:00", "tick 2026-05-01 07:00"])
    assert [each for each in plan(play) if each.split()[1] == "5"] == [
        "05 5 lower-a planned",
        "07 5 push planned",
        "08 5 core planned",
    ]


def test_a_shorter_version_ends_sooner(play: Talk) -> None:
    said = applied(play, with_days(BLOCK, *BLOCK.days, weeks=1), "next week")

    assert "Ada: from Tue 14 April. Nothing comes from then on: 1 week instead of 4." in said
    assert [each.split()[1] for each in plan(play)] == ["1"] * 4
    facts = look(play, lambda unit, _: facts_of(unit, date(2026, 4, 9)))
    assert [(each.name, each.block_ends) for each in facts] == [("Ada", date(2026, 4, 13))]


def test_from_today_the_rest_of_the_week_is_new_without_what_it_has_had(play: Talk) -> None:
    said = applied(play, with_days(BLOCK, PULL, LOWER_B, LOWER_A, PUSH), "today")

    assert "Order of the days: Pull, Lower B, Lower A, Push" in said
    assert plan(play)[:5] == [
        "07 1 lower-a sent",
        "09 1 pull planned",
        "10 1 lower-b planned",
        "13 1 push planned",
        "14 2 pull planned",
    ]


def test_a_date_that_the_client_chose_stays_with_what_she_was_to_do(play: Talk) -> None:
    steps(play, ["Ada: not today", "Ada: no time", "Ada [Wed 8 April]"])
    said = applied(play, with_days(with_load(BLOCK, "bench-press", 65), *BLOCK.days[1:]), "today")

    assert "Gone: Pull (1 session), Lower A (3 sessions)." in said
    assert plan(play)[:3] == ["07 1 lower-a moved", "08 1 lower-a planned", "09 1 push planned"]
    assert asked(play, "hip-thrust")["08 planned"] == "90 kg"
    play.take("tick 2026-04-08 07:00")
    assert "Lower A · week 1 of 4 · Wed 8 April" in play.someone("Ada").sees


def test_a_chosen_date_gives_way_where_another_session_comes_to_stand_on_it(play: Talk) -> None:
    steps(play, ["Ada: not today", "Ada: no time", "Ada [Sat 11 April]", "Ada: /settings"])
    look(play, lambda unit, ada: unit.clients.change(ada.id, days=[1, 3, 5, 6]))
    applied(play, with_days(BLOCK, LOWER_A, LOWER_B, PUSH, PULL), "today")

    found = [each for each in plan(play) if each.endswith("planned") and each.split()[1] == "1"]
    assert len({each.split()[0] for each in found}) == len(found)


def test_a_day_under_another_name_does_not_come_twice(play: Talk) -> None:
    steps(play, ["Ada: not today", "Ada: no time", "Ada [Wed 8 April]"])
    said = applied(play, with_days(BLOCK, named(LOWER_A, "Lower one"), *BLOCK.days[1:]), "today")

    assert "Another name: Lower A is now Lower one" in said
    assert "Ada: from Wed 8 April, week 1 of 4. 3 sessions change." in said
    assert plan(play)[:5] == [
        "07 1 lower-a moved",
        "08 1 lower-a planned",
        "09 1 push planned",
        "10 1 lower-b planned",
        "13 1 pull planned",
    ]
    assert "14 2 lower-one planned" in plan(play)


def lifts(unit: Unit, client: Client) -> dict[str, list[str]]:
    return {
        f"{each.local_on:%d} {each.day_key}": [
            f"{line.order} {line.exercise} {line.dose.load}" for line in written_for(each, unit).lines[:2]
        ]
        for each in rows(unit, client)
        if each.state == "planned"
    }


def test_a_lift_that_goes_with_another_session_is_the_one_that_was_sent(play: Talk) -> None:
    steps(play, ["Ada: not today", "Ada: no time", "Ada [Main lift with Thu 9 April]"])
    newer = with_load(with_load(BLOCK, "hip-thrust", 120), "bench-press", 65)
    applied(play, newer, "today")

    assert look(play, lifts)["09 push"] == ["A bench-press 65 kg", "A+ hip-thrust 90 kg"]


def test_a_lift_that_the_other_session_no_longer_takes_is_not_said_to_come_with_it(play: Talk) -> None:
    steps(play, ["Ada: not today", "Ada: no time", "Ada [Main lift with Thu 9 April]"])
    push = PUSH.model_copy(update={"lines": (*PUSH.lines, *LOWER_A.lines[:1])})
    applied(play, with_days(BLOCK, LOWER_A, push, LOWER_B, PULL), "today")
    play.take("Ada: /week")
    assert "Tue  Lower A: left out" in play.someone("Ada").sees

    steps(play, ["Marit: undo", "Ada: /week"])
    assert "Tue  Lower A: main lift with Push, Thu 9 April" in play.someone("Ada").sees
    assert look(play, lifts)["09 push"][1] == "A+ hip-thrust 90 kg"


def test_in_line_the_version_begins_with_the_first_turn_of_the_week_after_the_one_begun(line: Talk) -> None:
    steps(line, ["tick 2026-04-08 12:00", "tick 2026-04-09 07:00"])
    core = named(PULL, "Core").model_copy(update={"lines": LOWER_B.lines})
    said = applied(line, with_days(BLOCK, core, LOWER_A, PUSH), "next week")

    assert "Ada: from Thu 16 April, week 2 of 4." in said
    assert plan(line)[:9] == [
        "07 1 lower-a missed",
        "09 1 lower-a sent",
        "10 1 push planned",
        "13 1 lower-b planned",
        "14 1 pull planned",
        "16 2 core planned",
        "17 2 lower-a planned",
        "21 2 push planned",
        "23 3 core planned",
    ]


def test_in_line_a_day_that_slips_behind_its_version_comes_no_more(line: Talk) -> None:
    applied(line, with_days(BLOCK, LOWER_A, PUSH), "next week")
    assert [each for each in plan(line) if each.split()[1] == "1"] == [
        "07 1 lower-a sent",
        "09 1 push planned",
        "10 1 lower-b planned",
        "13 1 pull planned",
    ]
    steps(line, ["tick 2026-04-08 12:00", "tick 2026-04-09 07:00"])

    assert [each for each in plan(line) if each.split()[1] in "12"] == [
        "07 1 lower-a missed",
        "09 1 lower-a sent",
        "10 1 push planned",
        "13 1 lower-b planned",
        "14 2 lower-a planned",
        "16 2 push planned",
    ]


def test_in_line_it_is_taken_back_to_what_it_was(line: Talk) -> None:
    before = plan(line)
    applied(line, with_days(BLOCK, named(LOWER_B, "Core"), LOWER_A), "next week")
    assert plan(line) != before
    line.take("Marit: undo")

    assert plan(line) == before


@pytest.mark.parametrize("state", ["paused", "frozen"])
@pytest.mark.parametrize("style", ["by calendar", "next in line"])
def test_who_gets_no_sessions_now_gets_the_new_version_when_she_comes_back(
    play: Talk, state: str, style: str
) -> None:
    steps(play, ["Ada: all done", "Ada: nothing hurts", "Ada: 2", "Marit: /settings", f"Marit: {style}"])
    changes: dict[str, Any] = {"state": "paused"} if state == "paused" else {"frozen_at": play.house.now}
    look(play, lambda unit, ada: unit.clients.change(ada.id, **changes))
    applied(play, with_days(with_load(BLOCK, "bench-press", 65), *BLOCK.days[:2]), "today")
    look(play, lambda unit, ada: unit.clients.change(ada.id, state="active", frozen_at=None))
    applied(play, with_load(BLOCK, "bench-press", 65), "today")
    play.take("tick 2026-04-09 07:00")

    assert "Bench press  4 × 6 at 65 kg" in play.someone("Ada").sees


def seen(unit: Unit, client: Client) -> list[object]:
    """All that a client sees of what she was sent."""
    sent = [each for each in rows(unit, client) if each.sent_at is not None]
    return [
        (view, written_for(each, unit))
        for each in sent
        for view in (view_of(each, prompt_of(each.id, unit), unit),)
    ]


VERSIONS = st.lists(
    st.tuples(
        st.permutations(range(4)),
        st.integers(1, 4),
        st.integers(1, 6),
        st.integers(50, 90),
        st.sampled_from(["today", "next week", "2026-04-10", "2026-04-15"]),
        st.booleans(),
    ),
    min_size=1,
    max_size=3,
)


@given(VERSIONS, st.sampled_from(["by calendar", "next in line"]), st.sampled_from(["done", "moved", "lift"]))
@examples(12, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_session_that_was_sent_is_the_same_before_and_after_any_version(
    sqlite_files: Any, tmp_path_factory: pytest.TempPathFactory, versions: list[Any], style: str, done: str
) -> None:
    from bot.store.engine import make_engine  # noqa: PLC0415

    engine = make_engine(sqlite_files.copy(tmp_path_factory.mktemp("play") / "plimsoll.db"))
    play = Talk(Units(engine))
    steps(play, ["Marit: /settings", f"Marit: {style}", TUESDAY])
    if done == "done":
        steps(play, ["Ada: all done", "Ada: nothing hurts"])
    elif style == "by calendar":
        steps(play, ["Ada: not today", "Ada: no time"])
        play.take("Ada [Wed 8 April]" if done == "moved" else "Ada [Main lift with Thu 9 April]")
    play.take("tick 2026-04-09 07:00")
    for order, count, weeks, kg, when, back in versions:
        before = look(play, seen)
        days = [with_load(BLOCK, "bench-press", kg).days[place] for place in order[:count]]
        sends(play, with_days(BLOCK, *days, weeks=weeks))
        steps(play, [f"Marit: {when}", "Marit: apply", *(["Marit: undo"] if back else [])])

        assert look(play, seen) == before
    engine.dispose()
