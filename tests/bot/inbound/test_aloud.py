"""The fixed text of a stop sign without a row: to whom, how often, and what becomes of it when sending fails."""

import asyncio
from typing import Any

import pytest
from mailroom import CHAT, COACH_CHAT, NOW, populate
from telegram.error import TelegramError, TimedOut

from bot.clock import Activity
from bot.inbound.aloud import Aloud
from bot.inbound.intake import batch_of
from bot.store.inbox import NewUpdate
from bot.store.units import Units

STRANGER = 4711
SIGN = "my chest feels tight"


class Saying:
    """A bot whose sends fail as planned."""

    def __init__(self, *failures: TelegramError) -> None:
        self.failures = list(failures)
        self.said: list[tuple[int, str]] = []

    async def send_message(self, chat_id: int, text: str, **_: Any) -> None:
        self.said.append((chat_id, text.splitlines()[0]))
        if self.failures:
            raise self.failures.pop(0)


class Corner:
    def __init__(self, units: Units, *failures: TelegramError) -> None:
        self.bot = Saying(*failures)
        self.aloud = Aloud(self.bot, units, Activity())  # type: ignore[arg-type]

    async def begin(self, *rows: NewUpdate) -> None:
        for _ in range(2):
            self.aloud.begin(rows)  # a second time while the first is under way
        await asyncio.gather(*self.aloud.saying.values())


@pytest.fixture
def corner(units: Units):
    populate(units.engine)

    def build(*failures: TelegramError) -> Corner:
        return Corner(units, *failures)

    return build


def row(update_id: int, chat_id: int, text: str, kind: str = "message") -> NewUpdate:
    who = {"id": chat_id, "is_bot": False, "first_name": "Ada"}
    chat = {"id": chat_id, "type": "private"}
    body = {"message_id": 1, "chat": chat, "from": who, "text": text}
    return batch_of([{"update_id": update_id, kind: body}], NOW).rows[0]


EMERGENCY = "<b>Stop now. This may be an emergency.</b>"


async def test_whoever_writes_a_stop_sign_gets_its_text_once_and_nobody_else_gets_a_word(corner):
    made = corner()
    rows = (
        row(1, CHAT, SIGN),
        row(2, CHAT, "80 8 8 8"),
        row(3, STRANGER, SIGN),
        row(4, CHAT, SIGN, "edited_message"),
    )

    await made.begin(*rows)
    await made.begin(*rows)

    assert sorted(made.bot.said) == [(CHAT, EMERGENCY), (CHAT, EMERGENCY), (STRANGER, EMERGENCY)]


async def test_a_coach_who_writes_of_one_gets_none(corner):
    made = corner()

    await made.begin(row(1, COACH_CHAT, SIGN))

    assert made.bot.said == []


async def test_where_nobody_knows_whether_it_arrived_it_is_said_once_more_and_no_oftener(corner):
    made = corner(TimedOut(), TimedOut(), TimedOut())

    for _ in range(5):
        await made.begin(row(1, CHAT, SIGN))

    assert made.bot.said == [(CHAT, EMERGENCY)] * 2


async def test_a_database_that_cannot_be_read_either_keeps_nobody_from_the_text(corner, monkeypatch):
    made = corner()

    def broken(*_: Any) -> Any:
        raise RuntimeError("away")

    monkeypatch.setattr(made.aloud._units, "read", broken)

    await made.begin(row(1, CHAT, SIGN))

    assert made.bot.said == [(CHAT, EMERGENCY)]
