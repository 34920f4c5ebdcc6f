"""The opening with a block of one's own: a fresh coach sends it, two clients join and are put on it, by messages."""

from datetime import UTC, date, datetime, time, timedelta

from bot.assembly.story import SETTLE, People, PersonCast, Script, Stage
from bot.render import tried_out as say
from bot.store.insight import Coming, coming_sessions
from bot.tryout.opening import Opening, stranger
from bot.usecases.writer import Priority
from core.local_time import instant_of
from core.programme.block import Block

ZONE = "Europe/Lisbon"
STARTS = datetime(2026, 4, 12, 9, tzinfo=UTC)
"""A Sunday; the block starts on the next day."""

BEGINS = date(2026, 4, 13)
BEFORE = timedelta(minutes=5)
"""How long before the first session the clock stands still."""

AHEAD = timedelta(days=14)

COACH = PersonCast(key="coach", name="Runa Vik", zone=ZONE, phone=4901)
CLIENTS = (
    PersonCast(key="alma", name="Alma", coach="coach", zone=ZONE, phone=5911),
    PersonCast(key="iver", name="Iver", coach="coach", zone=ZONE, phone=5912),
)

WEEKDAYS = {1: "Mon", 2: "Mon Thu", 3: "Mon Wed Fri", 4: "Mon Tue Thu Fri", 5: "Mon Tue Wed Thu Fri"}
"""When clients train, by how many days a block has; every day but Sunday where it has more."""

EVERY_DAY = "Mon Tue Wed Thu Fri Sat"

BEFORE_DAYS = (
    "Go on",
    "I agree",
    "18–39",
    "Neither",
    "None of these",
    "Nothing",
    "kg",
    "Same clock as Lisbon",
    "07:00",
)
AFTER_DAYS = (
    "That is all",
    "60 min",
    "Gym",
    "Both",
    "Alone, with safety arms",
    "3 months or longer",
)
"""Buttons that a client taps before and after her days: lifts at the hour of 07:00, with the usual kit of a gym."""

START = "Start"
"""How the button begins that puts a client on a block."""


class BlockRefused(Exception):
    """The program did not take the block, with its words."""


def block_opening(block: Block, name: str, content: bytes) -> Opening:
    """Return the opening with a block.

    Args:
        block: As it was read.
        name: What its file is called.
        content: The file, which was read without problems.
    """
    people = People(starts=STARTS, coaches=(COACH,), clients=(*CLIENTS, stranger(ZONE)))

    async def prepared(stage: Stage) -> datetime:
        return await _prepare(stage, block, name, content)

    opens = instant_of(BEGINS, time(6, 55), ZONE)
    return Opening(people, Script(acts=(), ends_on=BEGINS), opens, prepared)


async def _prepare(stage: Stage, block: Block, name: str, content: bytes) -> datetime:
    """Have everybody do what it takes; returns when the clock is to stand still.

    Raises:
        BlockRefused: The program does not take the block.
    """
    coach = stage.phone(COACH.key)
    coach.start(stage.codes[COACH.key])
    await _settle(stage)
    coach.send_document(name, content)
    await _settle(stage)
    for client in CLIENTS:
        coach.type(f"/invite {client.name}")
        await _settle(stage)
        phone = stage.phone(client.key)
        phone.start(stage.invitation(COACH.key, client.name))
        await _settle(stage)
        days = WEEKDAYS.get(len(block.days), EVERY_DAY).split()
        for label in (*BEFORE_DAYS, *days, *AFTER_DAYS):
            phone.tap(label)
            await _settle(stage)
    for client in CLIENTS:
        coach.type(f"/assign {client.name}, {block.name}, {BEGINS.isoformat()}")
        await _settle(stage)
        try:
            coach.tap(START, coach.last.message_id)
        except LookupError as error:
            raise BlockRefused(say.not_put_on(client.name, coach.last.text)) from error
        await _settle(stage)
    first = await stage.house.write(lambda: _first(stage), Priority.DUE)
    if first is None:
        raise BlockRefused(say.NO_SESSION)
    return first.due_at - BEFORE


async def _settle(stage: Stage) -> None:
    await stage.go_to(stage.clock.now() + SETTLE)


def _first(stage: Stage) -> Coming | None:
    """Return the first session of the block."""
    with stage.house.units.read(None) as house:
        found = coming_sessions(house.connection, stage.clock.now() + AHEAD, ("planned",))
    return found[0] if found else None
