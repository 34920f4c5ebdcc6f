"""The machine's clock is set forward by hours, or back, while the platform's goes on as it should.

1. A session's card goes out once, on its own day as the machine has it, and never at night.
2. A digest goes out once.
3. What waits when the clock is set back does not wait for the same hours a second time.
"""

import asyncio
import shutil
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from faults.crew import ADA, BEN, DUE, MARIT, ORLA, TYPED, Street, go_on, idle, open_house, street
from sqlalchemy import select

from bot.assembly.house import House
from bot.clock import StoryClock
from bot.localchat.faults import Fault, Kind
from bot.store.tables import inbox, outbox, session
from bot.usecases.effects import is_quiet
from core.policy import Policy

LISBON = ZoneInfo("Europe/Lisbon")
HOUR, MINUTE, SECOND = timedelta(hours=1), timedelta(minutes=1), timedelta(seconds=1)
MONDAY, TUESDAY, SUNDAY = (datetime(2026, 4, day, tzinfo=UTC) for day in (6, 7, 12))
CARD = "Lower A · week 1 of 4 · Tue 7 April"


class MachineClock:
    """A clock that can be set. Whoever sleeps finds out when she wakes, as on a machine."""

    def __init__(self, true: StoryClock) -> None:
        self.true = true
        self.off = timedelta(0)
        self.settings = [(true.now(), self.off)]

    def now(self) -> datetime:
        return self.true.now() + self.off

    async def sleep_until(self, instant: datetime) -> None:
        while instant > self.now():
            await self.true.sleep_until(instant - self.off)

    def set(self, off: timedelta) -> None:
        self.off = off
        self.settings.append((self.true.now(), off))

    def said_at(self, true: datetime) -> datetime:
        """What it said at a true instant."""
        return true + [off for since, off in self.settings if since <= true][-1]


class Machine:
    """A program on such a clock: ticks, and fetches that are answered."""

    def __init__(self, place: Street, house: House) -> None:
        self.place, self.house = place, house
        self.clock = place.house_clock
        self.fetched = self.clock.now()
        house.tick.rounds.attend(lambda: self.fetched, None)

    async def step(self, span: timedelta = timedelta(0)) -> None:
        """Go on, and look after everything as the running program does every few seconds."""
        await go_on(self.place, self.house, span)
        self.house.inbox_wake.set()
        self.house.outbox_wake.set()
        await self.house.tick.run()
        await idle(self.place, self.house)
        self.fetched = self.clock.now()

    async def go_to(self, instant: datetime) -> None:
        while self.place.clock.now() < instant:
            await self.step(min(30 * MINUTE, instant - self.place.clock.now()))


@pytest.fixture
def urls(joined: Path, tmp_path: Path) -> str:
    shutil.copyfile(joined, tmp_path / "plimsoll.db")
    return f"sqlite:///{tmp_path / 'plimsoll.db'}"


async def played(url: str, start: datetime, end: datetime, *settings: tuple[datetime, timedelta]) -> Street:
    """Let it run from one true instant to another, with a clock that is set on the way."""
    async with street(url, start) as place:
        place.house_clock = MachineClock(place.clock)
        async with open_house(place) as house:
            machine = Machine(place, house)
            for at, off in settings:
                await machine.go_to(at)
                place.house_clock.set(off)
                await machine.step()
            await machine.go_to(end)
    return place


def came(place: Street, *people: int) -> list[tuple[datetime, str, bool]]:
    """New messages: when by the machine's clock in Lisbon, what, whether they made a sound."""
    return [
        (place.house_clock.said_at(each.at).astimezone(LISBON), each.text, not each.silent)  # type: ignore[attr-defined]
        for each in place.network.record
        if each.sender == "bot" and each.kind in ("text", "photo") and each.chat_id in people
    ]


FORWARD_AND_BACK = [
    (TUESDAY + 5 * HOUR, 3 * HOUR, HOUR / 2),
    (TUESDAY + 5 * HOUR, 15 * HOUR, HOUR / 2),
    (TUESDAY + 4.5 * HOUR, 30 * HOUR, HOUR / 2),
    (MONDAY + 20 * HOUR, 5 * HOUR, HOUR),
    (MONDAY + 19 * HOUR, 11 * HOUR, HOUR),
    (MONDAY + 19 * HOUR, 12 * HOUR, HOUR),
    (MONDAY + 19 * HOUR, 30 * HOUR, HOUR),
    (MONDAY + 23.5 * HOUR, 8 * HOUR, 2 * HOUR),
    (TUESDAY + 6.1 * HOUR, 9 * HOUR, HOUR),
]
BACK_AND_FORWARD = [
    (TUESDAY + 6.1 * HOUR, -3 * HOUR, 2 * HOUR),
    (TUESDAY + 5.9 * HOUR, -3 * HOUR, 2 * HOUR),
    (TUESDAY + 6.1 * HOUR, -26 * HOUR, 2 * HOUR),
    (TUESDAY + 0.2 * HOUR, -2 * HOUR, HOUR),
    (TUESDAY + 5.5 * HOUR, -2 * HOUR, 30 * HOUR),
]


@pytest.mark.parametrize(("at", "off", "lasts"), [*FORWARD_AND_BACK, *BACK_AND_FORWARD])
async def test_a_session_goes_out_once_on_its_day_and_never_at_night(urls, at, off, lasts):
    place = await played(urls, MONDAY + 18 * HOUR, TUESDAY + 22 * HOUR, (at, off), (at + lasts, timedelta(0)))

    for user_id in (ADA, BEN):
        cards = [said for said, text, _ in came(place, user_id) if text.startswith(CARD)]
        assert len(cards) == 1, cards
        assert cards[0].date() == TUESDAY.date()
        assert 7 <= cards[0].hour <= Policy().late_latest.hour
    nights = [
        said
        for said, _, sounds in came(place, ADA, BEN, MARIT, ORLA)
        if sounds and is_quiet(said.time(), Policy())
    ]
    assert nights == []


@pytest.fixture(scope="module")
def week(joined: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database of a week in which the cards of three sessions went out."""
    path = tmp_path_factory.mktemp("week") / "week.db"
    shutil.copyfile(joined, path)
    asyncio.run(played(f"sqlite:///{path}", TUESDAY + 6 * HOUR, SUNDAY + 14 * HOUR))
    return path


@pytest.mark.parametrize(
    ("at", "off", "lasts"),
    [
        (SUNDAY + 15 * HOUR, 3 * HOUR, HOUR / 2),
        (SUNDAY + 15 * HOUR, 96 * HOUR, HOUR / 2),
        (SUNDAY + 15 * HOUR, 8 * HOUR, HOUR / 2),
        (SUNDAY + 17.2 * HOUR, -2 * HOUR, HOUR),
        (SUNDAY + 17.2 * HOUR, -168 * HOUR, HOUR),
    ],
)
async def test_a_digest_goes_out_once(week, tmp_path, at, off, lasts):
    shutil.copyfile(week, tmp_path / "plimsoll.db")
    url, end = f"sqlite:///{tmp_path / 'plimsoll.db'}", SUNDAY + 34 * HOUR
    place = await played(url, SUNDAY + 14 * HOUR, end, (at, off), (at + lasts, timedelta(0)))

    for coach in (MARIT, ORLA):
        digests = [said for said, text, sounds in came(place, coach) if "Sun 12 April" in text and sounds]
        assert len(digests) == 1, came(place, coach)
        assert not is_quiet(digests[0].time(), Policy())


async def awake(place: Street, house: House, seconds: int) -> None:
    """So many true seconds go by; twice the program looks after what waits, as it does every fifteen."""
    for _ in range(2):
        await go_on(place, house, seconds / 2 * SECOND)
        house.inbox_wake.set()
        house.outbox_wake.set()
        await idle(place, house)


BACK = timedelta(hours=-5)


async def set_back(place: Street, house: House) -> None:
    place.house_clock.set(BACK)  # type: ignore[attr-defined]
    house.inbox_wake.set()
    house.outbox_wake.set()
    await idle(place, house)


@pytest.fixture
async def wrong(place: Street):
    """A street whose program has a clock that can be set."""
    place.house_clock = MachineClock(place.clock)
    return place


async def test_when_the_clock_is_set_back_answers_go_on_at_their_pace(wrong):
    async with open_house(wrong) as house:
        for _ in range(12):
            wrong.phone(ADA).type("/help")
        await idle(wrong, house)
        before = len(wrong.texts(ADA))
        await set_back(wrong, house)
        wrong.phone(BEN).type("/help")
        await awake(wrong, house, 30)

    assert before < 13, "some waited for their turn"
    assert sum("In a session" in text for text in wrong.texts(ADA)) == 12
    assert sum("In a session" in text for text in wrong.texts(BEN)) == 1


@pytest.mark.parametrize(
    "fault",
    [
        Fault(Kind.TOO_MANY, method="sendMessage", retry_after=90, times=2),
        Fault(Kind.SERVER_ERROR, method="sendMessage", status=500, times=3),
        Fault(Kind.DROP_BEFORE, method="sendMessage"),
    ],
)
async def test_when_the_clock_is_set_back_what_is_tried_again_is_tried_as_soon(wrong, fault):
    async with open_house(wrong) as house:
        await idle(wrong, house)
        wrong.network.faults.plan(fault)
        wrong.phone(ADA).type("/help")
        wrong.phone(BEN).type("/help")
        await idle(wrong, house)
        await set_back(wrong, house)
        wrong.phone(ADA).type("my chest feels tight")
        await awake(wrong, house, 240)

    for user_id in (ADA, BEN):
        assert sum("In a session" in text for text in wrong.texts(user_id)) == 1
    assert any("emergency number" in text for text in wrong.texts(ADA))
    assert set(wrong.rows(select(outbox.c.state))) <= {("sent",), ("cancelled",)}


async def test_when_the_clock_is_set_back_updates_that_wait_are_taken_up(wrong, monkeypatch):
    async with open_house(wrong) as house:
        await idle(wrong, house)

        def later(update_id: int) -> None:
            with house.units.open(None) as unit:
                unit.inbox.postpone(update_id, wrong.house_clock.now() + 15 * SECOND)

        head, taken = house.worker._handled, []

        async def waits_once(row: Any) -> None:
            taken.append(row.update_id)
            if len(taken) == 1:
                await house.write(lambda: later(row.update_id))
            else:
                await head(row)

        monkeypatch.setattr(house.worker, "_handled", waits_once)
        wrong.phone(ADA).type(TYPED[0])
        wrong.phone(ADA).type(TYPED[1])
        await idle(wrong, house)
        assert len(taken) == 1
        await set_back(wrong, house)
        await awake(wrong, house, 30)

    assert wrong.rows(select(inbox.c.state)) == [("done",)] * 2
    assert len(wrong.logged()) >= 7


async def test_a_card_of_a_day_that_never_came_is_still_there_for_its_day(urls):
    """The clock leaps a day and comes back: what was given up in that day is taken up again."""
    place = await played(
        urls,
        MONDAY + 18 * HOUR,
        DUE + MINUTE,
        (MONDAY + 19 * HOUR, 50 * HOUR),
        (MONDAY + 20 * HOUR, timedelta(0)),
    )

    states = select(session.c.state).where(session.c.local_on == TUESDAY.date())
    assert place.rows(states) == [("sent",)] * 2
