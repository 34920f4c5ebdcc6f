from dataclasses import replace
from datetime import timedelta

import pytest
from mailroom import CHAT, CLIENT, COACH_CHAT, KEEPER, NOW, OTHER_CHAT, populate, send
from sqlalchemy import select, update

from bot.messages import Lane
from bot.store.tables import account, outbox
from bot.store.units import Units
from bot.usecases.undelivered import client_blocked, tell_of_doubt, tell_of_doubts


@pytest.fixture
def at_home(engine) -> Units:
    populate(engine)
    return Units(engine)


def in_doubt(units: Units, chat_id: int, text: str, coach_id: int | None = KEEPER):
    """A row that was given up in doubt."""
    with units.open(coach_id) as unit:
        row_id = unit.outbox.put(coach_id, send(text, chat_id), NOW)
        unit.connection.execute(update(outbox).where(outbox.c.id == row_id).values(state="doubtful"))
        return unit.outbox.get(row_id)


def queued(units: Units) -> list[tuple[int, str]]:
    with units.engine.connect() as connection:
        rows = connection.execute(select(outbox.c.chat_id, outbox.c.body).where(outbox.c.state == "queued"))
        return [(row.chat_id, row.body["html"]) for row in rows]


def test_the_coach_is_told_once_of_a_message_in_doubt(at_home):
    row = in_doubt(at_home, CHAT, "<b>Push</b> &lt; week 1\nBench press")

    for _ in range(2):
        tell_of_doubt(row, at_home, NOW)
    tell_of_doubts(at_home, NOW)

    [(chat_id, text)] = queued(at_home)
    assert chat_id == COACH_CHAT
    assert "<b>Liv</b>: “Push &lt; week 1”" in text
    assert "Bench press" not in text


def test_what_a_dead_process_did_not_tell_is_told_at_the_next_start(at_home):
    in_doubt(at_home, CHAT, "one")
    in_doubt(at_home, CHAT, "two")

    tell_of_doubts(at_home, NOW)

    assert len(queued(at_home)) == 2


def test_a_doubt_about_the_coach_s_own_message_is_told_and_a_doubt_about_that_is_not(at_home):
    tell_of_doubt(in_doubt(at_home, COACH_CHAT, "an alert"), at_home, NOW)
    [(chat_id, text)] = queued(at_home)
    assert (chat_id, "A message to you may not have arrived: “an alert”" in text) == (COACH_CHAT, True)

    with at_home.open(KEEPER) as unit:
        row = unit.outbox.next_row(NOW)
        unit.connection.execute(update(outbox).where(outbox.c.id == row.id).values(state="doubtful"))
    tell_of_doubt(row, at_home, NOW)

    assert queued(at_home) == []


def test_a_doubt_about_a_stranger_concerns_nobody(at_home):
    tell_of_doubt(in_doubt(at_home, 77, "how to be invited", coach_id=None), at_home, NOW)

    assert queued(at_home) == []


def test_a_client_who_blocks_is_marked_and_her_own_coach_is_told_once(at_home):
    for _ in range(2):
        client_blocked(CHAT, at_home, NOW)
    client_blocked(COACH_CHAT, at_home, NOW)
    client_blocked(77, at_home, NOW)

    [(chat_id, text)] = queued(at_home)
    assert (chat_id, "<b>Liv</b> has blocked me" in text) == (COACH_CHAT, True)
    with at_home.engine.connect() as connection:
        marked = select(account.c.chat_id, account.c.client_id).where(account.c.reachable.is_(False))
        assert connection.execute(marked).all() == [(CHAT, CLIENT)]
    with at_home.read(None) as house:
        assert house.chats.is_reachable(OTHER_CHAT)


def test_a_safety_message_in_doubt_is_told_at_once_and_again_until_it_is_seen(at_home):
    night = NOW.replace(hour=23)
    with at_home.open(KEEPER) as unit:
        row_id = unit.outbox.put(KEEPER, replace(send("Stop now.", CHAT), lane=Lane.SAFETY), night)
        unit.connection.execute(update(outbox).where(outbox.c.id == row_id).values(state="doubtful"))
        row = unit.outbox.get(row_id)

    for _ in range(2):
        tell_of_doubt(row, at_home, night)
    tell_of_doubts(at_home, night)

    [told] = [each for each in queued(at_home) if each[0] == COACH_CHAT]
    assert "I cannot tell whether a message reached <b>Liv</b>: “Stop now”." in told[1]
    with at_home.open(KEEPER) as unit:
        query = select(outbox.c.lane, outbox.c.due_at).where(outbox.c.state == "queued")
        assert [tuple(each) for each in unit.connection.execute(query)] == [("safety", night)]
        kept = unit.alerts.open_one(f"doubt:{row_id}")
        assert (kept.level, kept.due_at) == (3, night + timedelta(minutes=15))
        unit.alerts.close(kept.key, night)

    tell_of_doubts(at_home, night)  # the next start
    assert len(queued(at_home)) == 1
