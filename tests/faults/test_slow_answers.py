"""The platform answers late: calls that take long, calls that are given up before they are answered.

1. A send that is given up is in doubt: it goes out once more at most, and in doubt again it is told to the coach.
2. Other chats do not wait for the one that hangs.
3. Fetches that are given up lose nothing and double nothing.

The service holds its answers for fractions of a second, and the program's patience is cut to fit.
"""

import pytest
from faults.crew import (
    ADA,
    ADAS,
    ALL_LOGGED,
    BEN,
    GROUPS,
    MARIT,
    ORLA,
    TYPED,
    both_sides_once,
    go_on,
    idle,
    newest_card,
    open_house,
)
from sqlalchemy import select

from bot.inbound import app, poll
from bot.localchat.faults import Fault, Kind
from bot.store.tables import inbox, outbox

PATIENCE_S = 0.3


@pytest.fixture(autouse=True)
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """The program gives up after fractions of a second, on a send and on a fetch."""
    monkeypatch.setattr(app, "READ_TIMEOUT_S", PATIENCE_S)
    monkeypatch.setattr(poll, "PATIENCE_S", PATIENCE_S - poll.LONG_POLL_S)
    monkeypatch.setattr(poll, "FIRST_RETRY_S", 0.01)


HELP = "In a session\n"


@pytest.mark.parametrize(("times", "state"), [(1, "sent"), (2, "doubtful"), (9, "doubtful")])
async def test_a_send_that_is_given_up_goes_out_once_more_at_most(place, times, state):
    async with open_house(place) as house:
        await idle(place, house)
        late = Fault(Kind.SLOW, method="sendMessage", chat_id=ADA, times=times, seconds=2 * PATIENCE_S)
        place.network.faults.plan(late)
        place.phone(ADA).type("/help")
        place.phone(BEN).type("/help")
        await go_on(place, house)

    helped = [sum(text.startswith(HELP) for text in place.texts(each)) for each in (ADA, BEN)]
    assert helped == [2, 1]
    states = select(outbox.c.state).where(outbox.c.key.contains(":help:")).order_by(outbox.c.id)
    assert place.rows(states) == [(state,), ("sent",)]
    told = [text for text in place.texts(MARIT) if "Ada" in text]
    assert len(told) == (state == "doubtful")
    assert place.texts(ORLA) == []


async def test_other_chats_do_not_wait_for_the_one_that_hangs(place):
    async with open_house(place) as house:
        await idle(place, house)
        place.network.faults.plan(
            Fault(Kind.SLOW_BEFORE, method="sendMessage", chat_id=ADA, seconds=PATIENCE_S / 2)
        )
        begun = len(place.network.record)
        place.phone(ADA).type("/help")
        for user_id in (BEN, MARIT, ORLA):
            place.phone(user_id).type("/help")
        await go_on(place, house)

    helped = [each for each in place.network.record[begun:] if each.sender == "bot"]
    assert [each.chat_id for each in helped][-1] == ADA
    assert sorted(each.chat_id for each in helped) == sorted((ADA, BEN, MARIT, ORLA))


async def test_where_everything_is_slow_everything_comes_once(place):
    async with open_house(place) as house:
        await idle(place, house)
        house.way_in.fetched_before(place.clock.now())
        place.network.faults.plan(Fault(Kind.SLOW, times=100_000, seconds=PATIENCE_S / 20))
        for group in GROUPS:
            for user_id, text in group:
                place.phone(user_id).type(text)
            await go_on(place, house)

    assert both_sides_once(place.logged()) == ALL_LOGGED
    assert sum(text.startswith(HELP) for text in place.texts(ADA)) == 1
    assert "Noted: One-leg hinge" in newest_card(place, ADA)
    assert place.texts(MARIT) == place.texts(ORLA) == []
    assert set(place.rows(select(outbox.c.state))) <= {("sent",), ("cancelled",)}


async def test_where_nothing_is_answered_in_time_nothing_comes_more_than_twice_and_it_ends(place):
    async with open_house(place) as house:
        await idle(place, house)
        for method in ("sendMessage", "editMessageText", "editMessageReplyMarkup"):
            place.network.faults.plan(Fault(Kind.SLOW, method=method, times=6, seconds=2 * PATIENCE_S))
        for user_id in (ADA, BEN):
            place.phone(user_id).type(TYPED[0])
            place.phone(user_id).type("/help")
        await go_on(place, house)
        place.network.faults.planned.clear()
        place.phone(ADA).type(TYPED[1])
        await go_on(place, house)

    for user_id in (ADA, BEN):
        assert 1 <= sum(text.startswith(HELP) for text in place.texts(user_id)) <= 2
    assert "Noted: Step-down" in newest_card(place, ADA)
    assert {state for (state,) in place.rows(select(outbox.c.state))} <= {"sent", "cancelled", "doubtful"}


@pytest.mark.parametrize("seconds", [PATIENCE_S / 2, 2 * PATIENCE_S])
async def test_fetches_that_are_answered_late_or_given_up_lose_nothing_and_double_nothing(place, seconds):
    async with open_house(place) as house:
        await idle(place, house)
        place.network.faults.plan(Fault(Kind.SLOW, method="getUpdates", times=3, seconds=seconds))
        for text in (*TYPED[:3], "/help"):
            place.phone(ADA).type(text)
            await go_on(place, house)

    assert place.network.faults.planned == [], "it happened"
    logged = both_sides_once(place.logged())
    assert logged == [each for each in ALL_LOGGED if each[0] == ADAS]
    assert place.rows(select(inbox.c.state)) == [("done",)] * 4
    assert sum(text.startswith(HELP) for text in place.texts(ADA)) == 1
