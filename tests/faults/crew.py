"""The whole program on a network of phones: two coaches, their clients with a block and a session that falls due."""

import asyncio
from collections.abc import AsyncIterator, Callable, Sequence
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

from set_up_once import set_up_once
from setting_out import House as Sitting
from sqlalchemy import select, update

from bot.assembly.house import House, Plan
from bot.clock import Clock, CountedIds, StoryClock
from bot.files.block_file import read_block
from bot.inbound.poll import Poll
from bot.inbound.way_in import WayIn
from bot.localchat.faults import Fault
from bot.localchat.network import Network
from bot.localchat.phone import Phone
from bot.localchat.server import Server
from bot.store.engine import make_engine
from bot.store.tables import item, logged_set, outbox, session
from bot.store.units import Units
from bot.usecases import setting_up

BLOCK = Path(__file__).parents[1] / "blocks" / "harbour-strength.xlsx"
TOKEN = "4100:crew"
MARIT, ORLA = 100, 900
ADA, BEN = 1, 901
BENS, ADAS = 1, 2
"""Ids of the clients: Ben joined first."""

BEFORE = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
"""When everybody joins: on the eve of the first session."""

JOINING = (
    "Go on",
    "I agree",
    "18–39",
    "Neither",
    "None of these",
    "Nothing",
    "kg",
    "Same clock as Lisbon",
    "07:00",
    "Mon",
    "Tue",
    "Thu",
    "Fri",
    "That is all",
    "60 min",
    "Gym",
    "Both",
    "Alone, with safety arms",
    "3 months or longer",
)
TRAINING = JOINING[9:13]
DUE = datetime(2026, 4, 7, 6, tzinfo=UTC)
"""Tuesday, 07:00 in Lisbon: the first session of both clients."""

FIRST = "90 8 8 8 8"
TYPED = (FIRST, "10 10 9", "16 10 10 10", "10 12 12 12", "40 15 14 13")
"""What a client types through the first session, an exercise after the other."""


GROUPS = (
    ((ADA, TYPED[0]), (BEN, TYPED[0])),
    ((ADA, TYPED[1]), (ADA, TYPED[2])),
    ((BEN, TYPED[1]), (ADA, "/help")),
)
"""What is said; between two groups the program comes to rest, if it lives."""


def sets(client: int, position: int, load: str | None, *reps: int) -> list[tuple[Any, ...]]:
    mass = Decimal(load) if load else None
    return [(client, position, set_no, mass, each) for set_no, each in enumerate(reps, 1)]


ALL_LOGGED = [
    *sets(BENS, 0, "90", 8, 8, 8, 8),
    *sets(BENS, 1, None, 10, 10, 9),
    *sets(ADAS, 0, "90", 8, 8, 8, 8),
    *sets(ADAS, 1, None, 10, 10, 9),
    *sets(ADAS, 2, "16", 10, 10, 10),
]


def settle_down(
    units: Units,
    crews: Sequence[tuple[str, int, Sequence[tuple[str, int]]]],
    *,
    now: datetime = BEFORE,
    zones: Sequence[str] = ("Europe/Lisbon", "Europe/Lisbon"),
    weekdays: Sequence[str] = TRAINING,
) -> None:
    """Have coaches and clients join, and put every client on the block; nothing is left in the queue.

    Args:
        units: The store.
        crews: Coaches with their clients.
        now: When they join, on the eve of the first session.
        zones: Whose wall clock each crew lives by.
        weekdays: On which they train.
    """
    sitting = Sitting(units, now=now)
    key = tuple((name, user_id, tuple(clients)) for name, user_id, clients in crews)
    set_up_once(
        sitting,
        (key, now, tuple(zones), tuple(weekdays)),
        lambda: _settle(sitting, crews, zones, weekdays),
    )


def _settle(
    sitting: Sitting,
    crews: Sequence[tuple[str, int, Sequence[tuple[str, int]]]],
    zones: Sequence[str],
    weekdays: Sequence[str],
) -> None:
    content = read_block(BLOCK.read_bytes(), BLOCK.name)
    first = (sitting.now + timedelta(days=1)).date()
    for (coach_name, coach_id, clients), zone in zip(crews, zones, strict=True):
        coach = sitting.coach(coach_name, coach_id, zone)
        coach.does(setting_up.block_read, setting_up.BlockRead(BLOCK.name, content))
        clock = f"Same clock as {zone.partition('/')[2].replace('_', ' ')}"
        for name, user_id in clients:
            client = sitting.invited(coach, name, user_id)
            for label in (*JOINING[:7], clock, "07:00", *weekdays, *JOINING[13:]):
                client.tap(label)
            coach.assign(f"{name}, Harbour strength, {first}")
            coach.tap("Start it")
    with sitting.units.engine.begin() as connection:
        connection.execute(update(outbox).values(state="cancelled"))


def two_crews(units: Units) -> None:
    """Marit with Ada, and Orla with Ben next door."""
    settle_down(units, [("Orla", ORLA, [("Ben", BEN)]), ("Marit", MARIT, [("Ada", ADA)])])


PEOPLE = ((MARIT, "Marit"), (ORLA, "Orla"), (ADA, "Ada"), (BEN, "Ben"))


class Street:
    """The network, the clock and the database, which outlive every process.

    Attributes:
        house_clock: The program's clock; the network's unless the machine's goes wrong.
        way_in: How updates come in: they are fetched unless it is set otherwise.
        calls: Every call of the bot but fetches, whatever became of it: when, how, in which chat.
    """

    def __init__(self, url: str, start: datetime = DUE, people: Sequence[tuple[int, str]] = PEOPLE) -> None:
        self.url = url
        self.clock = StoryClock(start)
        self.network = Network(self.clock, TOKEN)
        self.api_url = ""
        for user_id, name in people:
            self.network.phone(user_id, name).started = True
        self.house_clock: Clock = self.clock
        self.way_in: Callable[..., WayIn] = Poll
        self.calls: list[tuple[datetime, str, object]] = []
        self._next_fault = self.network.faults.next_for
        self.network.faults.next_for = self._called  # type: ignore[method-assign]

    def _called(self, method: str, chat_id: object) -> Fault | None:
        if method != "getUpdates":
            self.calls.append((self.clock.now(), method, chat_id))
        return self._next_fault(method, chat_id)

    def phone(self, user_id: int) -> Phone:
        return self.network.phone(user_id, "")

    def house(self) -> House:
        return House(
            Plan(
                token=TOKEN,
                database_url=self.url,
                api_url=self.api_url,
                per_second=25,
                clock=self.house_clock,
                ids=CountedIds(),
                way_in=self.way_in,
            )
        )

    def rows(self, query: Any) -> list[tuple[Any, ...]]:
        engine = make_engine(self.url)
        with engine.connect().execution_options(readonly=True) as connection:
            found = [tuple(row) for row in connection.execute(query)]
        engine.dispose()
        return found

    def logged(self) -> list[tuple[Any, ...]]:
        """Every standing set: client, place of the exercise, which set, load, reps."""
        return self.rows(
            select(
                session.c.client_id,
                item.c.position,
                logged_set.c.set_no,
                logged_set.c.load,
                logged_set.c.reps,
            )
            .join_from(logged_set, item, item.c.id == logged_set.c.item_id)
            .join(session, session.c.id == item.c.session_id)
            .where(logged_set.c.voided_at.is_(None))
            .order_by(session.c.client_id, item.c.position, logged_set.c.set_no)
        )

    def texts(self, user_id: int) -> list[str]:
        """What the bot said to somebody as new messages, oldest first."""
        return [shown.text for shown in self.phone(user_id).screen if not shown.mine]


@asynccontextmanager
async def street(
    url: str, start: datetime = DUE, people: Sequence[tuple[int, str]] = PEOPLE
) -> AsyncIterator[Street]:
    """A street whose network is on the wire."""
    found = Street(url, start, people)
    async with Server(found.network) as server:
        found.api_url = server.url
        yield found


@asynccontextmanager
async def open_house(place: Street) -> AsyncIterator[House]:
    """A program that runs, and is stopped in order."""
    house = place.house()
    place.network.on_quiet = house.activity.changed
    try:
        await house.start()
        yield house
    finally:
        await house.stop()


async def idle(place: Street, house: House) -> None:
    """Wait until nothing moves by itself; a part that has ended raises what it raised."""
    quiet = asyncio.create_task(
        house.activity.until(lambda: place.network.unfetched == 0 and house.quiet()), name="quiet"
    )
    await asyncio.wait({quiet, house.failed}, return_when=asyncio.FIRST_COMPLETED)
    quiet.cancel()
    if house.failed.done():
        house.failed.result()


async def go_on(place: Street, house: House, span: timedelta = timedelta(minutes=1)) -> None:
    """Let the story run on, stopping wherever somebody sleeps."""
    end = place.clock.now() + span
    await idle(place, house)
    while (waking := place.clock.next_waking()) is not None and waking <= end:
        place.clock.move_to(max(waking, place.clock.now()))
        await idle(place, house)
    place.clock.move_to(end)
    await idle(place, house)


def both_sides_once(rows: list[tuple[Any, ...]]) -> list[tuple[Any, ...]]:
    """Sets done on each side are two rows; here they count once."""
    return list(dict.fromkeys(rows))


def newest_card(place: Street, user_id: int) -> str:
    return next(shown.text for shown in reversed(place.phone(user_id).screen) if shown.buttons)
