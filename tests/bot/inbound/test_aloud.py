"""The fixed text of a stop sign without a row: to whom, how often, and what becomes of it when sending fails."""

import asyncio
from datetime import timedelta
from typing import Any

import pytest
from mailroom import CHAT, COACH_CHAT, KEEPER, NOW, SAFETY, populate, send
from telegram.error import TelegramError, TimedOut

from bot.clock import Activity, StoryClock
from bot.inbound import aloud
from bot.inbound.aloud import Aloud
from bot.inbound.intake import batch_of
from bot.store.inbox import NewUpdate
from bot.store.units import Unit, Units

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
        self.aloud = Aloud(self.bot, units, Activity(), StoryClock(NOW))  # type: ignore[arg-type]

    async def begin(self, *rows: NewUpdate) -> None:
        for _ in range(2):
            self.aloud.begin(rows)  # a second time while the first is under way
        await asyncio.gather(*self.aloud.saying.values())

    async def watch(self, row: NewUpdate) -> None:
        """Watch over a row until the time for its text is over."""
        for _ in range(2):
            self.aloud.watch([row])
        await asyncio.gather(*self.aloud._watches.values())
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


def _away(*_: Any) -> Any:
    raise RuntimeError("away")


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
    monkeypatch.setattr(made.aloud._units, "read", _away)

    await made.begin(row(1, CHAT, SIGN))

    assert made.bot.said == [(CHAT, EMERGENCY)]


def _kept(house: Unit) -> None:
    house.inbox.add([row(1, CHAT, SIGN)])


def _handled(house: Unit) -> None:
    _kept(house)
    house.inbox.done(1, NOW)
    house.outbox.put(KEEPER, send("stop", lane=SAFETY), NOW)


def _begun(house: Unit) -> None:
    _handled(house)
    waiting = house.outbox.next_row(NOW)
    assert waiting is not None
    house.outbox.claim(waiting.id, "somebody", NOW)


def _refused_for_now(house: Unit) -> None:
    _handled(house)
    house.chats.pause(CHAT, NOW + timedelta(seconds=9))


@pytest.mark.parametrize(
    ("stands", "is_said"), [(_kept, True), (_handled, True), (_begun, False), (_refused_for_now, False)]
)
async def test_a_sign_whose_text_nobody_has_begun_to_send_is_said_after_some_seconds(
    corner, units, monkeypatch, stands, is_said
):
    monkeypatch.setattr(aloud, "SAY_WITHOUT_S", 0.01)
    made = corner()
    with units.open(None) as house:
        stands(house)

    await made.watch(row(1, CHAT, SIGN))
    await made.watch(row(2, CHAT, "80 8 8 8"))

    assert made.bot.said == [(CHAT, EMERGENCY)] * is_said


async def test_a_sign_of_which_nothing_can_be_read_is_said(corner, monkeypatch):
    monkeypatch.setattr(aloud, "SAY_WITHOUT_S", 0.01)
    made = corner()
    monkeypatch.setattr(made.aloud._units, "read", _away)

    await made.watch(row(1, CHAT, SIGN))

    assert made.bot.said == [(CHAT, EMERGENCY)]
