"""Kill the program at each step of taking updates in and handling them; after a restart its promises still hold.

1. Each update that was offered has its effect exactly once: a set is logged once, one answer is queued.
2. No update is lost, however often the process dies.
3. Order in a chat holds.
"""

import asyncio
import contextlib
import functools
import threading
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
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
    Street,
    both_sides_once,
    go_on,
    newest_card,
)
from sqlalchemy import select

from bot.assembly import house as assembly
from bot.store.tables import card, inbox, outbox
from bot.store.units import Unit, Units
from bot.usecases import talk
from bot.usecases.writer import Writer


class Killed(BaseException):
    """The process ends here."""


class Fate:
    """Ends the process at the nth time it comes to a point; whatever it does after that fails too."""

    def __init__(self, at: str | None = None, nth: int = 1) -> None:
        self.at, self.nth = at, nth
        self.met: Counter[str] = Counter()
        self.dead = False
        self.now = threading.local()

    def comes_to(self, point: str) -> None:
        if not self.dead:
            self.met[point] += 1
            self.dead = (point, self.met[point]) == (self.at, self.nth)
        if self.dead:
            raise Killed

    def step(self, what: str) -> None:
        """Come to a point of what the writer's thread is doing."""
        self.comes_to(f"{getattr(self.now, 'doing', 'else')}: {what}")


DOING = {
    "WayIn._kept.<locals>.add": "keep",
    "Worker._looked.<locals>.look": "look",
    "Runner.run.<locals>.<lambda>": "run",
}


class DoomedWriter(Writer):
    def __init__(self, threads: int, fate: Fate) -> None:
        super().__init__(threads)
        self._fate = fate

    async def __call__(self, work: Any, priority: int = 1) -> Any:
        def doomed() -> Any:
            self._fate.now.doing = DOING.get(work.__qualname__, "else")
            self._fate.step("begins")
            return work()

        return await super().__call__(doomed, priority)


class DoomedUnits(Units):
    def __init__(self, engine: Any, fate: Fate) -> None:
        super().__init__(engine)
        self._fate = fate

    @contextmanager
    def open(self, coach_id: int | None) -> Iterator[Unit]:
        with super().open(coach_id) as unit:
            self._fate.step("transaction begun")
            yield unit
            self._fate.step("before commit")
        self._fate.step("after commit")


class DoomedFetching:
    """Stands between the poll and the platform's client."""

    def __init__(self, bot: Any, fate: Fate) -> None:
        self._bot, self._fate = bot, fate

    async def raw_updates(self, asked: dict[str, Any], *, read_timeout: float) -> Any:
        self._fate.comes_to("fetch: asked, the offset moves")
        raw = await self._bot.raw_updates(asked, read_timeout=read_timeout)
        if raw:
            self._fate.comes_to("fetch: answered")
        return raw

    async def answer_callback_query(self, *of: Any, **facts: Any) -> Any:
        return await self._bot.answer_callback_query(*of, **facts)


def doomed(place: Street, fate: Fate, patch: pytest.MonkeyPatch) -> assembly.House:
    patch.setattr(assembly, "Writer", lambda threads: DoomedWriter(threads, fate))
    patch.setattr(assembly, "Units", lambda engine: DoomedUnits(engine, fate))
    heard = HEARD

    @functools.wraps(heard)
    def within(*of: Any) -> Any:
        fate.step("use-case begun")
        effects = list(heard(*of))
        fate.step("use-case ended")
        return effects

    patch.setattr(talk, "heard", within)
    house = place.house()
    house.way_in._bot = DoomedFetching(house.bot, fate)

    async def nothing() -> None:
        """Cards posted anew at a start would be counted among the answers."""

    house.way_in._after_outage = nothing
    return house


HEARD = talk.heard


async def perish(house: assembly.House) -> None:
    """Nothing is ended in order: what is begun is broken off."""
    tasks = [*house._tasks, *house.worker._busy.values(), *house.way_in._acks]
    for task in tasks:
        task.cancel()
    await asyncio.gather(*tasks, return_exceptions=True)
    if house.failed.done() and not house.failed.cancelled():
        house.failed.exception()
    await house.application.shutdown()
    house.write.close()
    house.engine.dispose()


async def live(place: Street, fate: Fate, patch: pytest.MonkeyPatch, groups: Any = ()) -> None:
    """One life of the process. People go on talking whether it lives or not."""
    house = doomed(place, fate, patch)
    place.network.on_quiet = house.activity.changed
    with contextlib.suppress(Killed):
        await house.start()
    for group in (*groups, ()):
        for user_id, text in group:
            place.phone(user_id).type(text)
        if not fate.dead:
            with contextlib.suppress(Killed):
                await go_on(place, house)
    await perish(house)


def check_promises(place: Street, deaths: int) -> None:
    assert both_sides_once(place.logged()) == ALL_LOGGED
    assert place.rows(select(inbox.c.state, inbox.c.payload)) == [("done", None)] * 6
    # Each reply has the card shown anew once: what a card wants counts the answers queued.
    wanted = place.rows(select(card.c.client_id, card.c.wanted).where(card.c.key.startswith("session:")))
    assert sorted(wanted) == [(BENS, 3), (ADAS, 4)]
    assert len(place.rows(select(outbox.c.id).where(outbox.c.key.contains(":help:")))) == 1
    assert 1 <= sum(text.startswith("In a session") for text in place.texts(ADA)) <= 1 + deaths
    assert "Noted: One-leg hinge" in newest_card(place, ADA)
    assert "Noted: Step-down" in newest_card(place, BEN)
    assert place.texts(MARIT) == place.texts(ORLA) == []


async def test_an_undisturbed_life_keeps_the_promises(place, monkeypatch):
    await live(place, Fate(), monkeypatch, GROUPS)

    check_promises(place, deaths=0)


# How often an undisturbed life comes to each point at least; batches, and so their number, are the network's.
POINTS = {
    "fetch: asked, the offset moves": 4,
    "fetch: answered": 3,
    "keep: begins": 3,
    "keep: transaction begun": 3,
    "keep: before commit": 3,
    "keep: after commit": 3,
    "look: begins": 4,
    "run: begins": 6,
    "run: transaction begun": 6,
    "run: use-case begun": 5,
    "run: use-case ended": 5,
    "run: before commit": 6,
    "run: after commit": 6,
}


@pytest.mark.parametrize(
    ("point", "nth"), spread([(point, nth) for point, times in POINTS.items() for nth in range(1, times + 1)])
)
async def test_killed_at_any_step_and_started_again(place, monkeypatch, point, nth):
    fate = Fate(point, nth)
    await live(place, fate, monkeypatch, GROUPS)
    assert fate.dead

    await live(place, Fate(), monkeypatch)

    check_promises(place, deaths=1)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("fetch: answered", "keep: after commit"),
        ("keep: after commit", "run: use-case ended"),
        ("run: after commit", "run: after commit"),
    ],
)
async def test_killed_and_killed_again(place, monkeypatch, first, second):
    for fate, groups in ((Fate(first, 2), GROUPS), (Fate(second), ())):
        await live(place, fate, monkeypatch, groups)

    await live(place, Fate(), monkeypatch)

    check_promises(place, deaths=2)
