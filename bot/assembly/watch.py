"""Watches over the running program: the way in may die while everything else looks well."""

import asyncio
import contextlib
import logging
from collections.abc import Awaitable, Callable, Sequence
from datetime import timedelta

from telegram.constants import ParseMode

from bot.assembly.house import House
from bot.assembly.refusals import TokenRefused
from bot.inbound.way_in import Trouble
from bot.render.outage import stopping
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.neighbours import others_serve
from bot.usecases.writer import Priority

log = logging.getLogger(__name__)

LOOK_S = 15.0
"""How often it looks. [s]"""

FAREWELL_S = 5.0
"""How long telling the coaches may take, all of them together. [s]"""

KNOWN_FOR_S = 600.0
"""How long the coaches' chats are taken to be as they were: whom to tell is needed when the database is away. [s]"""

TOLD_FOR = timedelta(hours=6)
"""How long coaches are not told again: a program that is started anew and dies again must not ring each time."""


REASONS = {
    None: "",
    Trouble.PLATFORM: "The platform did not answer. ",
    Trouble.ANOTHER: "Another program fetches with the same token: stop it, or have the platform give a new token. ",
    Trouble.STORE: "The database takes nothing: see to space on its disk, and to its owner and mode. ",
    Trouble.ADDRESS: "The platform takes no webhook at PLIMSOLL_WEBHOOK_URL: set it to an address it can reach. ",
    Trouble.UNDELIVERED: "The platform does not get through to PLIMSOLL_WEBHOOK_URL: see to the proxy before it. ",
}


class FetchingDied(Exception):
    """Nothing was taken in for too long: the platform did not answer or bring anything, or what came could not be kept.

    Attributes:
        silent_s: For how long. [s]
        trouble: What kept it, as far as that is known.
    """

    def __init__(self, silent_s: float, trouble: Trouble | None = None) -> None:
        super().__init__(silent_s, trouble)
        self.silent_s = silent_s
        self.trouble = trouble

    def __str__(self) -> str:
        return (
            f"Stopped: no message could be taken in for {self.silent_s / 60:.0f} minutes. "
            f"{REASONS[self.trouble]}Run plimsoll doctor to see why, and start again."
        )


class PartEnded(Exception):
    """A part of the program ended by itself.

    Attributes:
        part: Which one.
        cause: What kind of error ended it; never its words.
    """

    def __init__(self, part: str, cause: str) -> None:
        super().__init__(part, cause)
        self.part = part
        self.cause = cause

    def __str__(self) -> str:
        return (
            f"Stopped: the {self.part} ended by itself ({self.cause}). "
            "The log says where. Run plimsoll doctor, and start again."
        )


Sleep = Callable[[float], Awaitable[None]]


class Watch:
    """Counts for how long nothing good was fetched, and leaves the heartbeat.

    Args:
        house: The running program.
        heartbeat: Where it marks what it saw.
        limit_s: How long without a good fetch is too long. [s]
        time: Network seconds: the loop's own clock unless given. [s]
        sleep: Waits.
    """

    def __init__(
        self,
        house: House,
        heartbeat: Heartbeat,
        limit_s: float,
        *,
        time: Callable[[], float] | None = None,
        sleep: Sleep = asyncio.sleep,
    ) -> None:
        self._house = house
        self._heartbeat = heartbeat
        self._limit_s = limit_s
        self._time = time if time is not None else asyncio.get_running_loop().time
        self._sleep = sleep
        self._looked_at = self._time()
        self._seen = house.way_in.good_at
        self._silent_s = 0.0
        self._known_at: float | None = None
        self.chats: tuple[int, ...] = ()
        """The coaches' chats, as they were known last."""

    async def run(self) -> None:
        """Look until cancelled.

        Raises:
            FetchingDied: Nothing good was fetched for too long.
        """
        while True:
            await self._learn_chats()
            await self._sleep(LOOK_S)
            silent_s = self.look()
            if silent_s >= self._limit_s:
                log.critical("fetching_died", extra={"took_s": round(silent_s)})
                raise FetchingDied(silent_s, self._house.trouble)
            # What another process puts back into the inbox rouses nobody here, and neither does a clock that is set.
            self._house.inbox_wake.set()
            self._house.outbox_wake.set()

    async def _learn_chats(self) -> None:
        """Remember whom to tell, while the database can say so."""
        if self._known_at is not None and self._time() - self._known_at < KNOWN_FOR_S:
            return
        with contextlib.suppress(Exception):
            self.chats = tuple(await self._house.write(lambda: _coaches_chats(self._house), Priority.DUE))
            self._known_at = self._time()

    def look(self) -> float:
        """Return for how long nothing good was fetched, and mark what was. [s]

        Only time in which the loop ran counts: a process that was halted could not fetch.
        """
        now, good_at = self._time(), self._house.way_in.good_at
        passed_s, self._looked_at = min(now - self._looked_at, 2 * LOOK_S), now
        if good_at == self._seen:
            self._silent_s += passed_s
            return self._silent_s
        self._seen, self._silent_s = good_at, 0.0
        self._heartbeat.set(Mark.FETCHED, self._house.way_in.last_good)
        return 0.0


async def watched(house: House, heartbeat: Heartbeat, watch: Watch) -> None:
    """Wait until the program cannot go on, and tell the coaches, if that is possible.

    Raises:
        FetchingDied: It gets no messages any more.
        PartEnded: A part of it ended by itself.
        telegram.error.TelegramError: The platform refused the token; nothing can be sent either.
    """
    watching = asyncio.create_task(watch.run())
    try:
        await asyncio.wait({watching, house.failed}, return_when=asyncio.FIRST_COMPLETED)
    finally:
        watching.cancel()
    error = house.failed.exception() if house.failed.done() else watching.exception()
    if isinstance(error, TokenRefused.causes()):
        raise error
    if isinstance(error, FetchingDied) or not await _goes_on_elsewhere(house):
        await farewell(house, heartbeat, known=watch.chats)
    if isinstance(error, FetchingDied):
        raise error
    raise PartEnded(house.ended or "watch", type(error).__name__) from error


async def _goes_on_elsewhere(house: House) -> bool:
    """Return whether other processes serve the same database, as far as it can say so in time."""

    def look() -> bool:
        with house.units.read(None) as unit:
            return others_serve(unit.connection)

    with contextlib.suppress(Exception):
        async with asyncio.timeout(FAREWELL_S):
            return house.leading is not None and await house.write(look, Priority.SAFETY)
    return False


async def farewell(
    house: House, heartbeat: Heartbeat, limit_s: float = FAREWELL_S, known: Sequence[int] = ()
) -> int:
    """Tell every coach that the program stops, if a send still works; returns how many were told. Never raises.

    One try each, past the queue: what waits in the queue goes out after the next start, when it is no longer true.
    Where the database cannot say who the coaches are, those in the chats `known` from before are told.
    """
    now, told = house.clock.now(), heartbeat.at(Mark.COACHES_TOLD)
    if told is not None and timedelta(0) <= now - told < TOLD_FOR:
        return 0
    sent: list[int] = []
    with contextlib.suppress(Exception):
        async with asyncio.timeout(limit_s):
            chats = await _chats_or(house, known, limit_s / 2)
            await asyncio.gather(*(_tell(house, chat_id, sent) for chat_id in chats))
    if sent:
        heartbeat.set(Mark.COACHES_TOLD, now)
    log.info("coaches_told", extra={"count": len(sent)})
    return len(sent)


async def _chats_or(house: House, known: Sequence[int], limit_s: float) -> Sequence[int]:
    try:
        async with asyncio.timeout(limit_s):
            return await house.write(lambda: _coaches_chats(house), Priority.SAFETY)
    except Exception:  # noqa: BLE001  (whatever keeps the database from answering)
        return known


def _coaches_chats(house: House) -> list[int]:
    with house.units.read(None) as unit:
        accounts = [unit.accounts.coach(coach_id) for coach_id in unit.coaches.ids()]
    return [each.chat_id for each in accounts if each is not None and each.reachable]


async def _tell(house: House, chat_id: int, sent: list[int]) -> None:
    with contextlib.suppress(Exception):
        await house.bot.send_message(chat_id, stopping().html, parse_mode=ParseMode.HTML)
        sent.append(chat_id)
