from datetime import timedelta

import pytest
from mailroom import CHAT, NOW, OTHER_CHAT, populate
from sqlalchemy import Engine, select

from bot.store.chats import Chats
from bot.store.tables import account

SECOND = timedelta(seconds=1)


@pytest.fixture
def chats(engine: Engine):
    populate(engine)
    with engine.begin() as connection:
        yield Chats(connection)


def test_a_pause_never_gets_shorter(chats):
    assert chats.paused_until(CHAT) is None
    for seconds, expected in ((5, 5), (3, 5), (8, 8)):
        chats.pause(CHAT, NOW + seconds * SECOND)
        assert chats.paused_until(CHAT) == NOW + expected * SECOND


def test_the_last_message_of_a_chat_is_noted(chats):
    assert chats.last_sent_at(CHAT) is None
    chats.sent(CHAT, NOW)
    chats.sent(CHAT, NOW + SECOND)
    assert chats.last_sent_at(CHAT) == NOW + SECOND


def test_a_stranger_is_answered_once_in_a_while(chats):
    minutes = [0, 1, 59, 60, 61, 121]
    hour = timedelta(hours=1)
    answered = [chats.may_answer_stranger(900, NOW + timedelta(minutes=each), hour) for each in minutes]
    assert answered == [True, False, False, True, False, True]
    assert chats.may_answer_stranger(901, NOW, hour)


def test_a_chat_is_shut_once_and_a_stranger_is_never_known_to_be(chats):
    chats.shut(CHAT, NOW)
    chats.shut(CHAT, NOW + SECOND)
    assert [chats.is_reachable(chat) for chat in (CHAT, OTHER_CHAT, 999)] == [False, True, True]
    query = select(account.c.unreachable_at).where(account.c.chat_id == CHAT)
    assert chats.connection.execute(query).scalar() == NOW
