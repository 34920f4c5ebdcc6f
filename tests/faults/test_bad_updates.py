"""Bugs, nonsense, and a store that is away: what becomes of an update then, and of its chat.

1. A poison update (a bug of ours) is tried three times, answered with a reference, kept as failed with its payload, and
   its chat goes on.
2. A malformed update is set aside and its batch goes on.
3. A passing fault of the store is tried again, and nobody hears of it.
"""

import functools
import sqlite3
from typing import Any

import pytest
from faults.crew import ADA, ADAS, BEN, BENS, TYPED, both_sides_once, go_on, idle, open_house
from sqlalchemy import event, select
from sqlalchemy.exc import OperationalError

from bot.inbound import doors, handlers
from bot.store.tables import inbox
from bot.usecases import runner, talk

HEARD = talk.heard


def broken_for(text: str, patch: pytest.MonkeyPatch, error: Exception, times: int = 99) -> list[str]:
    """Have the use-case fail for what says `text`, so many times; returns what it was called with."""
    called: list[str] = []
    left = [times]

    @functools.wraps(HEARD)
    def heard(command: talk.Heard, *of: Any) -> Any:
        called.append(command.text)
        if command.text == text and left[0]:
            left[0] -= 1
            raise error
        return HEARD(command, *of)

    patch.setattr(talk, "heard", heard)
    return called


async def test_a_poison_update_is_tried_three_times_and_its_chat_goes_on(place, monkeypatch):
    called = broken_for("poison", monkeypatch, RuntimeError("a bug"))
    async with open_house(place) as house:
        place.phone(ADA).type("poison")
        place.phone(ADA).type(TYPED[0])
        place.phone(BEN).type(TYPED[0])

        await go_on(place, house)

    [(reference, payload)] = place.rows(
        select(inbox.c.reference, inbox.c.payload).where(inbox.c.state == "failed")
    )
    assert [text for text in called if text == "poison"] == ["poison"] * 3
    # Ben's chat did not wait for Ada's, and hers took its order up again.
    assert called.index(TYPED[0]) < len(called) - 1 - called[::-1].index("poison")
    assert called[-1] == TYPED[0]
    assert '"text":"poison"' in payload
    told = [text for text in place.texts(ADA) if "Something broke on my side" in text]
    assert len(told) == 1
    assert reference in told[0]
    assert [row[:2] for row in place.logged()] == [(BENS, 0)] * 4 + [(ADAS, 0)] * 4


async def test_a_bug_in_a_handler_is_counted_like_one_in_a_use_case(place, monkeypatch):
    arrival_of = doors.arrival_of

    def broken(update: Any) -> Any:
        if update.effective_message.text == "poison":
            raise RuntimeError("a bug")
        return arrival_of(update)

    monkeypatch.setattr(doors, "arrival_of", broken)
    async with open_house(place) as house:
        place.phone(ADA).type("poison")
        place.phone(ADA).type(TYPED[0])

        await go_on(place, house)

    states = select(inbox.c.state, inbox.c.attempts).order_by(inbox.c.update_id)
    assert place.rows(states) == [("failed", 3), ("done", 0)]
    assert sum("Something broke on my side" in text for text in place.texts(ADA)) == 1
    assert len(place.logged()) == 4


async def test_an_update_that_no_use_case_takes_is_set_aside_and_not_handed_out_for_ever(place, monkeypatch):
    async def deaf(update: Any, context: Any) -> None:
        """A handler that forgets what it was called for."""

    monkeypatch.setattr(handlers, "on_media", deaf)
    async with open_house(place) as house:
        place.phone(ADA).send_photo(b"a photo")
        place.phone(ADA).type(TYPED[0])

        await go_on(place, house)

    assert place.rows(select(inbox.c.state).order_by(inbox.c.update_id)) == [("failed",), ("done",)]
    assert len(place.logged()) == 4


ME = {"id": ADA, "is_bot": False, "first_name": "Ada"}
ODD = [
    {"message": {"message_id": 77, "from": ME, "chat": {"id": ADA, "type": "private"}, "text": "no date"}},
    {"message": {"message_id": 77, "chat": "nowhere"}},
    {"shape_of_tomorrow": {"from": ME}},
    {},
]


@pytest.mark.parametrize("odd", ODD)
async def test_a_malformed_update_is_set_aside_and_its_batch_goes_on(place, odd):
    place.phone(ADA).type(TYPED[0])
    place.network.offer_raw(odd)
    place.phone(ADA).type(TYPED[1])

    async with open_house(place) as house:
        await go_on(place, house)

    states = place.rows(select(inbox.c.state, inbox.c.payload.is_not(None)).order_by(inbox.c.update_id))
    assert states[0] == states[2] == ("done", False)
    assert states[1] in {("failed", True), ("quarantined", True)}
    assert [row[1] for row in both_sides_once(place.logged())] == [0] * 4 + [1] * 3


def locked() -> OperationalError:
    cause = sqlite3.OperationalError("database is locked")
    cause.sqlite_errorcode = sqlite3.SQLITE_BUSY
    return OperationalError("BEGIN IMMEDIATE", None, cause)


@pytest.mark.parametrize("times", [1, 3, 4, 9])
async def test_a_passing_fault_is_tried_again_and_nobody_hears_of_it(place, monkeypatch, times):
    monkeypatch.setattr(runner, "PASSING_WAITS_S", (0.001, 0.001, 0.001))
    called = broken_for(TYPED[0], monkeypatch, locked(), times)
    async with open_house(place) as house:
        place.phone(ADA).type(TYPED[0])
        place.phone(ADA).type(TYPED[1])

        await go_on(place, house)

    assert called == [TYPED[0]] * (times + 1) + [TYPED[1]]
    assert place.rows(select(inbox.c.state, inbox.c.attempts)) == [("done", 0), ("done", 0)]
    assert [row[1] for row in both_sides_once(place.logged())] == [0] * 4 + [1] * 3
    assert not any("broke" in text for text in place.texts(ADA))


async def test_while_another_program_holds_the_database_updates_wait_with_the_platform(place, tmp_path):
    async with open_house(place) as house:
        event.listen(house.engine, "connect", lambda raw, _: raw.execute("PRAGMA busy_timeout=0"))
        await idle(place, house)
        house.engine.dispose()
        holder = sqlite3.connect(tmp_path / "plimsoll.db", isolation_level=None, check_same_thread=False)
        holder.execute("BEGIN IMMEDIATE")
        refused: list[int] = []

        def lets_go(_: object) -> None:
            refused.append(place.network.unfetched)
            if len(refused) == 2:
                holder.execute("ROLLBACK")

        event.listen(house.engine, "handle_error", lets_go)
        place.phone(ADA).type(TYPED[0])
        await go_on(place, house)
        holder.close()
        event.remove(house.engine, "handle_error", lets_go)

    assert refused == [1, 1]
    assert len(place.logged()) == 4
