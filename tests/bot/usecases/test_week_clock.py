"""When the week's questions wait: once, on the coach's day, on the client's clock, inside the block."""

from datetime import UTC, date, datetime, time

import pytest
from dialogs.talks import Talk

from bot.store.due_questions import DueQuestion
from bot.store.units import Units
from bot.usecases import week_clock
from bot.usecases.layout import lay_out
from bot.usecases.week_clock import BLOCK_END, CHECK_IN, PLAN

ADA, BEN = (100, 1), (900, 901)


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def known(play: Talk, kind: str, who: tuple[int, int] = ADA) -> list[DueQuestion]:
    coach, client = (play.house.someone(each) for each in who)
    client_id = play.house.client_of(coach, client).id
    return play.house.reading(coach, lambda unit: unit.due_questions.of_client(client_id, kind, date.min))


def dates(play: Talk, kind: str, who: tuple[int, int] = ADA) -> list[date]:
    return [
        each.local_on for each in known(play, kind, who) if each.sent_at is None and each.dropped_at is None
    ]


def planned(play: Talk) -> None:
    coach, client = play.house.someone(100), play.house.someone(1)
    client_id = play.house.client_of(coach, client).id
    with play.units.open(coach.coach_id) as unit:
        week_clock.planned(client_id, unit, play.house.now)


def changed(play: Talk, **values: object) -> None:
    coach, client = play.house.someone(100), play.house.someone(1)
    client_id = play.house.client_of(coach, client).id
    with play.units.open(coach.coach_id) as unit:
        unit.clients.change(client_id, **values)


def test_one_of_each_waits_from_when_a_block_is_laid_out(play: Talk) -> None:
    assert dates(play, CHECK_IN) == [date(2026, 4, 12)]
    assert dates(play, PLAN) == [date(2026, 4, 12)]
    assert dates(play, BLOCK_END) == [date(2026, 5, 5)]


def test_they_are_due_on_the_clients_own_clock_the_check_in_first(play: Talk) -> None:
    (check_in,), (plan,) = known(play, CHECK_IN), known(play, PLAN)

    assert check_in.due_at == datetime(2026, 4, 12, 17, 0, tzinfo=UTC)
    assert plan.due_at == datetime(2026, 4, 12, 17, 1, tzinfo=UTC)


def test_twice_changes_nothing(play: Talk) -> None:
    before = [known(play, kind) for kind in week_clock.KINDS]
    planned(play)
    planned(play)

    assert [known(play, kind) for kind in week_clock.KINDS] == before


def test_the_next_waits_from_when_one_is_due_and_a_second_tick_asks_nothing(play: Talk) -> None:
    play.take("tick 2026-04-12 18:00")
    again = play.take("tick 2026-04-12 18:00")

    assert dates(play, CHECK_IN) == [date(2026, 4, 19)]
    assert [each.local_on for each in known(play, CHECK_IN)] == [date(2026, 4, 12), date(2026, 4, 19)]
    assert again == []


def test_one_that_nobody_was_asked_is_followed_by_the_next_too(play: Talk) -> None:
    changed(play, state="paused")
    asked = play.take("tick 2026-04-12 18:01")

    assert asked == []
    assert dates(play, CHECK_IN) == dates(play, PLAN) == [date(2026, 4, 19)]


def test_a_day_that_was_slept_through_is_over_and_not_made_up_for(play: Talk) -> None:
    play.take("tick 2026-04-13 06:00")

    (first, second) = known(play, CHECK_IN)
    assert first.dropped_at is not None
    assert second.local_on == date(2026, 4, 19)


def test_a_changed_day_moves_what_waits_and_only_of_that_coachs_clients(play: Talk) -> None:
    play.take("Marit: /settings")
    play.take("Marit: check-in fri")

    assert dates(play, CHECK_IN) == [date(2026, 4, 10)]
    assert dates(play, PLAN) == [date(2026, 4, 12)]
    assert dates(play, CHECK_IN, BEN) == [date(2026, 4, 12)]
    play.take("Marit: check-in sunday")
    assert dates(play, CHECK_IN) == [date(2026, 4, 12)]


def test_a_changed_day_does_not_ask_twice_in_a_row(play: Talk) -> None:
    play.take("tick 2026-04-12 18:00")
    play.take("Marit: /settings")
    play.take("Marit: check-in tue")

    assert dates(play, CHECK_IN) == [date(2026, 4, 21)]


def test_what_is_due_already_is_not_moved_away(play: Talk) -> None:
    play.house.now = datetime(2026, 4, 12, 17, 0, 30, tzinfo=UTC)
    planned(play)

    assert dates(play, CHECK_IN) == [date(2026, 4, 12)]


def test_what_waits_follows_the_clients_clock(play: Talk) -> None:
    changed(play, zone="America/New_York")
    planned(play)

    (check_in,) = known(play, CHECK_IN)
    assert check_in.due_at == datetime(2026, 4, 12, 22, 0, tzinfo=UTC)


def test_nothing_waits_for_somebody_without_a_block_or_who_has_left(play: Talk) -> None:
    marit = play.house.someone(100)
    new = play.house.invited(marit, "Cleo", 3)
    changed(play, state="stopped")
    before = known(play, CHECK_IN)
    planned(play)

    assert known(play, CHECK_IN) == before
    assert known(play, CHECK_IN, (100, new.user_id)) == []
    with play.units.open(marit.coach_id) as unit:
        week_clock.planned_for_all(unit, play.house.now)


def test_no_check_in_waits_past_the_end_of_a_block(play: Talk) -> None:
    for day in ("04-12", "04-19", "04-26", "05-03", "05-05"):
        play.take(f"tick 2026-{day} 18:01")

    assert dates(play, CHECK_IN) == dates(play, PLAN) == dates(play, BLOCK_END) == []
    assert [each.local_on for each in known(play, BLOCK_END) if each.sent_at] == [date(2026, 5, 5)]


def test_a_block_that_another_follows_early_ends_when_that_one_begins(play: Talk) -> None:
    play.take("tick 2026-04-12 18:01")
    play.house.someone(100).assign("Ada, Harbour strength, 2026-04-20")
    play.take("Marit [Start it]")

    found = sorted((each.local_on, each.subject) for each in known(play, BLOCK_END))
    assert [on for on, _ in found] == [date(2026, 4, 20), date(2026, 5, 18)]
    assert found[0][1] != found[1][1]


def test_the_end_follows_the_last_session_next_in_line(units: Units) -> None:
    play = Talk(units)
    play.take("Marit: /settings")
    play.take("Marit [Next in line]")
    play.take("tick 2026-04-09 07:00")

    assert dates(play, BLOCK_END)[0] > date(2026, 5, 5)


def test_the_end_is_not_asked_while_a_session_is_still_to_come(play: Talk) -> None:
    coach = play.house.someone(100)
    (end,) = known(play, BLOCK_END)
    play.house.now = datetime(2026, 5, 1, 12, tzinfo=UTC)
    client = play.house.client_of(coach, play.house.someone(1))
    with play.units.open(coach.coach_id) as unit:
        lay_out(client.id, unit, play.house.now)
        last = unit.sessions.of_client(client.id, ("planned",))[0]
        unit.sessions.change(last.id, local_on=date(2026, 5, 8), due_at=datetime(2026, 5, 8, 6, tzinfo=UTC))
        unit.due_questions.put_on(end.id, date(2026, 5, 5), datetime(2026, 5, 5, 17, tzinfo=UTC))
    lines = play.take("tick 2026-05-05 18:00")

    assert not any("The end of your block" in line for line in lines)
    assert dates(play, BLOCK_END) == [date(2026, 5, 9)]


def test_two_ends_on_one_date_are_asked_on_two(play: Talk) -> None:
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    (mine,) = known(play, BLOCK_END)
    with play.units.open(coach.coach_id) as unit:
        unit.due_questions.put_on(mine.id, date(2026, 5, 20), mine.due_at)
        other = unit.due_questions.plan(
            client.id, BLOCK_END, date(2026, 5, 5), mine.due_at, play.house.now, subject=999
        )
        unit.due_questions.sent(other or 0, play.house.now)
    planned(play)

    assert dates(play, BLOCK_END) == [date(2026, 5, 6)]


def test_it_is_asked_at_a_decent_hour() -> None:
    assert week_clock.due_at(CHECK_IN, date(2026, 1, 1), "UTC").time() == time(18)
