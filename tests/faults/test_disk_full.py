"""The disk is full: the database refuses every write that needs room, wherever the program just is.

1. The offset does not move over what could not be kept, and nothing half-done is stored.
2. Once there is room again, all that was said meanwhile is answered, once.
3. A stop sign gets its fixed text at once, without a row; all the rest of it follows when there is room.

SQLite is told that its file may have no more pages, so that its own "database or disk is full" is what the program
meets.
"""

import logging
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from examples import spread
from faults.crew import (
    ADA,
    ADAS,
    ALL_LOGGED,
    BEN,
    BENS,
    GROUPS,
    MARIT,
    ORLA,
    TYPED,
    Street,
    both_sides_once,
    go_on,
    idle,
    newest_card,
    open_house,
)
from sqlalchemy import event, select

from bot.assembly.house import House
from bot.assembly.watch import FetchingDied, Watch, watched
from bot.inbound import poll
from bot.outbound import sender
from bot.render.safety import EMERGENCY_NOW, HOLD, stop_text
from bot.store.heartbeat import Heartbeat
from bot.store.tables import card, client, inbox, outbox
from bot.usecases import runner
from core.checkin.urgency import Urgency

WRITES = ("INSERT", "UPDATE", "DELETE")
"""How a statement that writes begins."""


LISTENING: list[tuple[Any, str, Any]] = []
"""Who hears of errors: all databases of the tests share what tells of them (`tests/statements.py`)."""


class Disk:
    """The disk under a program's database: from one of its writes on SQLite refuses every one.

    Before each write, in the same transaction, something is written that the file has no page for.

    Attributes:
        full_from: The write from which there is no room; None while there is.
        writes: How many there were.
        refused: What the program was about whenever it was refused.
        has_room_after: How many refusals it takes until somebody makes room.
    """

    def __init__(self, house: House, path: Path) -> None:
        self.full_from: int | None = None
        self.writes = 0
        self.refused: list[str] = []
        self.has_room_after: int | None = None
        self.on_refusal: Callable[[], None] = lambda: None
        self._about = ""
        with closing(sqlite3.connect(path)) as connection:
            connection.execute("CREATE TABLE ballast(weight)")
        event.listen(house.engine, "before_cursor_execute", self._writes)
        event.listen(house.engine, "handle_error", self._refuses)
        LISTENING.append((house.engine, "handle_error", self._refuses))

    def is_full(self) -> bool:
        return self.full_from is not None and self.writes >= self.full_from

    def fill(self) -> None:
        self.full_from = 0

    def empty(self) -> None:
        self.full_from = None

    def _writes(self, connection: Any, cursor: Any, statement: str, *_: Any) -> None:
        if not statement.startswith(WRITES) or "ballast" in statement:
            return
        self.writes += 1
        self._about = statement
        if self.is_full():
            pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
            connection.exec_driver_sql(f"PRAGMA max_page_count={pages}")
            try:
                connection.exec_driver_sql("INSERT INTO ballast VALUES (zeroblob(1000000))")
            finally:
                cursor.execute(f"PRAGMA max_page_count={2**30}")

    def _refuses(self, context: Any) -> None:
        if not isinstance(context.original_exception, sqlite3.Error):
            return  # the same, on its way out of the statement before which it was met
        assert context.original_exception.sqlite_errorname == "SQLITE_FULL"
        self.refused.append("intake" if self._about.startswith("INSERT INTO inbox") else "else")
        self.on_refusal()
        if len(self.refused) == self.has_room_after:
            self.empty()


@pytest.fixture(autouse=True)
def soon(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """What waits for the database on the machine's clock waits less here; and nobody hears of errors afterwards."""
    monkeypatch.setattr(runner, "PASSING_WAITS_S", (0.001,) * 3)
    monkeypatch.setattr(runner, "LATER", timedelta(milliseconds=1))
    monkeypatch.setattr(sender, "STORE_WAITS_S", (0.001,))
    monkeypatch.setattr(poll, "KEEP_AGAIN_S", 0.001)
    monkeypatch.setattr(poll, "SLOWEST_RETRY_S", 0.01)
    yield
    while LISTENING:
        event.remove(*LISTENING.pop())


@contextmanager
def events(caplog: pytest.LogCaptureFixture) -> Iterator[list[str]]:
    """The events that the program logs, while it does."""
    found: list[str] = []
    with caplog.at_level(logging.INFO):
        yield found
    found += [record.message for record in caplog.records if record.name.startswith("bot.")]


def path_of(place: Street) -> Path:
    return Path(place.url.removeprefix("sqlite:///"))


def whole(place: Street) -> bool:
    """Whether each exercise has all of its sets or none."""
    counts: dict[tuple[int, int], int] = {}
    for client_id, position, *_ in both_sides_once(place.logged()):
        counts[client_id, position] = counts.get((client_id, position), 0) + 1
    return set(counts.items()) <= {
        ((BENS, 0), 4),
        ((BENS, 1), 3),
        ((ADAS, 0), 4),
        ((ADAS, 1), 3),
        ((ADAS, 2), 3),
    }


async def spoken_to(place: Street, full_from: int | None, refusals: int) -> Disk:
    """Everybody says everything, and the room ends at one of the program's writes."""
    async with open_house(place) as house:
        await idle(place, house)
        house.way_in.fetched_before(place.clock.now())  # or cards would be posted anew
        disk = Disk(house, path_of(place))
        stored: list[bool] = []
        disk.on_refusal = lambda: stored.append(whole(place))
        disk.full_from, disk.has_room_after = full_from, refusals
        for user_id, text in sum(GROUPS, ()):
            place.phone(user_id).type(text)
        await go_on(place, house)
    assert stored == [True] * len(disk.refused), "nothing half-done"
    return disk


WRITTEN = 70
"""Writes of an undisturbed evening at least, counted below."""


async def test_every_write_is_one_at_which_the_room_ends(place):
    disk = await spoken_to(place, None, 0)

    assert disk.writes >= WRITTEN


@pytest.mark.parametrize(("full_from", "refusals"), spread([(at, 1 + at % 7) for at in range(1, WRITTEN, 2)]))
async def test_wherever_the_room_ends_all_that_was_said_is_answered_once(place, full_from, refusals):
    disk = await spoken_to(place, full_from, refusals)

    assert len(disk.refused) == refusals
    assert both_sides_once(place.logged()) == ALL_LOGGED
    assert place.rows(select(inbox.c.state, inbox.c.attempts)) == [("done", 0)] * 6
    wanted = place.rows(select(card.c.client_id, card.c.wanted).where(card.c.key.startswith("session:")))
    assert sorted(wanted) == [(BENS, 3), (ADAS, 4)]
    assert sum(text.startswith("In a session") for text in place.texts(ADA)) == 1
    assert "Noted: One-leg hinge" in newest_card(place, ADA)
    assert "Noted: Step-down" in newest_card(place, BEN)
    assert place.texts(MARIT) == place.texts(ORLA) == []
    assert set(place.rows(select(outbox.c.state))) <= {("sent",), ("cancelled",)}


async def test_without_room_for_a_row_the_platform_keeps_the_message(place, caplog):
    with events(caplog) as logged:
        async with open_house(place) as house:
            await idle(place, house)
            disk = Disk(house, path_of(place))
            disk.fill()
            disk.has_room_after = 4
            unfetched: list[int] = []
            disk.on_refusal = lambda: unfetched.append(place.network.unfetched)
            place.phone(ADA).type("slept badly, no note")
            place.phone(ADA).type(TYPED[0])
            await go_on(place, house)

    assert disk.refused == ["intake"] * 4
    assert unfetched == [2] * 4
    assert len(place.logged()) == 4
    assert place.rows(select(inbox.c.state)) == [("done",)] * 2
    assert logged.count("intake_waits") == 4


@pytest.mark.parametrize("kept", [False, True])
async def test_a_stop_sign_gets_its_text_while_nothing_can_be_written_and_the_rest_later(place, caplog, kept):
    spoken: list[list[str]] = []

    def look() -> None:
        spoken.append(place.texts(ADA)[before:])
        if spoken[-1]:
            disk.empty()

    with events(caplog) as logged:
        async with open_house(place) as house:
            await idle(place, house)
            before = len(place.texts(ADA))
            disk = Disk(house, path_of(place))
            disk.on_refusal = look
            disk.full_from = disk.writes + (2 if kept else 0)
            place.phone(ADA).type("my chest feels tight")
            await go_on(place, house)

    at_once, later = place.texts(ADA)[before:]
    # Neither is done yet, and so neither is said: that the plan is on hold, that the coach was told.
    assert at_once == plain(EMERGENCY_NOW).replace(f"\n\n{HOLD}", "")
    assert later == plain(stop_text(Urgency.EMERGENCY_NOW, zone="Europe/Lisbon").html)
    assert spoken[-1] == [at_once]
    assert ("intake" in disk.refused) is not kept
    assert place.rows(select(client.c.frozen_for).where(client.c.id == ADAS)) == [("emergency now",)]
    assert sum("stop sign" in text for text in place.texts(MARIT)) == 1
    assert logged.count("stop_sign_said_without_row") == 1


def plain(html: str) -> str:
    return html.replace("<b>", "").replace("</b>", "")


async def test_a_disk_that_stays_full_ends_the_program_and_the_coaches_are_told(place):
    async with open_house(place) as house:
        await idle(place, house)
        disk = Disk(house, path_of(place))
        disk.fill()
        heartbeat, looks = Heartbeat(place.url), iter(range(0, 10_000, 15))
        begun = house.way_in.good_at

        async def look_again(_: float) -> None:
            """Fifteen seconds go by as soon as one more try was refused."""
            tried = len(disk.refused)
            while len(disk.refused) == tried:
                await turn()

        async def turn() -> None:
            await house.write(lambda: None)

        watch = Watch(house, heartbeat, 120, time=lambda: float(next(looks)), sleep=look_again)
        place.phone(ADA).type("slept badly, no note")
        with pytest.raises(FetchingDied, match=r"for 2 minutes\. The database takes nothing: see to space"):
            await watched(house, heartbeat, watch)

    assert house.way_in.good_at == begun
    assert [text.splitlines()[0] for text in (*place.texts(MARIT), *place.texts(ORLA))] == [
        "Plimsoll stops: it gets no messages any more."
    ] * 2
    assert place.network.unfetched == 1
