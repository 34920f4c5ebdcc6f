"""Wrong codes are counted: of one account, and of everybody; and after too many none is looked up."""

from datetime import UTC, datetime, timedelta

import pytest
from mailroom import COXSWAIN, populate
from sqlalchemy import Engine

from bot.clock import Activity, CountedIds, StoryClock, Wake
from bot.messages import Arrival
from bot.store.inbox import NewUpdate
from bot.store.units import Units
from bot.usecases.guesses import MOST_ALL, MOST_EACH, WITHIN, Guesses
from bot.usecases.join import Start
from bot.usecases.runner import Runner
from bot.usecases.writer import Writer

NOW = datetime(2026, 4, 6, 16, tzinfo=UTC)
SECOND = timedelta(seconds=1)


def test_after_so_many_wrong_codes_an_account_waits_and_others_do_not() -> None:
    guesses = Guesses()
    for _ in range(MOST_EACH):
        assert guesses.may_try(7, NOW)
        guesses.was_wrong(7, NOW)

    assert [guesses.may_try(who, NOW) for who in (7, 8)] == [False, True]
    assert [guesses.may_try(7, NOW + WITHIN + at) for at in (-SECOND, timedelta())] == [False, True]


def test_many_accounts_together_have_a_limit_too() -> None:
    guesses = Guesses()
    for who in range(MOST_ALL):
        assert guesses.may_try(who, NOW)
        guesses.was_wrong(who, NOW)

    assert not guesses.may_try(MOST_ALL, NOW)
    assert guesses.may_try(MOST_ALL, NOW + WITHIN)


def test_a_clock_that_is_set_back_shuts_nobody_out() -> None:
    guesses = Guesses()
    for _ in range(MOST_EACH):
        guesses.was_wrong(7, NOW)

    assert guesses.may_try(7, NOW - timedelta(days=1))


@pytest.mark.parametrize("code", ["good-code", "second-code"])
async def test_who_has_guessed_too_often_is_let_in_by_a_good_code_only_later(
    engine: Engine, code: str
) -> None:
    populate(engine)
    units, write, clock = Units(engine), Writer(), StoryClock(NOW)
    runner = Runner(
        units,
        write,
        clock,
        CountedIds(),
        activity=Activity(),
        inbox_wake=Wake(),
        outbox_wake=Wake(),
    )
    with units.open(COXSWAIN) as unit:
        unit.invites.add("good-code", "client", "Eir", NOW + timedelta(days=1), NOW)
        unit.seconds.name(COXSWAIN, "Jo", "second-code", NOW + timedelta(days=1))
    seen: list[str | None] = []

    async def comes(number: int, text: str) -> None:
        with units.open(None) as house:
            house.inbox.add([NewUpdate(number, 77, 77, "message", 0, "{}", "new", clock.now())])
        await runner.run(
            lambda command, *_: seen.append(command.invite_code) or [], Start(text), Arrival(number, 77, 77)
        )

    for number in range(MOST_EACH):
        await comes(900 + number, f"wrong{number}")
    await comes(950, code)
    clock.move_to(NOW + WITHIN)
    for number in range(MOST_EACH + 1):  # a good code counts for nothing, however often it comes
        await comes(960 + number, code)
    write.close()

    assert seen == [*(f"wrong{number}" for number in range(MOST_EACH)), None, *[code] * (MOST_EACH + 1)]
