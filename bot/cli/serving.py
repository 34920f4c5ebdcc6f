"""Commands that work on the real database, or with the real platform."""

import asyncio
import contextlib
import functools
import logging
import os
import signal
import threading
from collections.abc import AsyncIterator, Callable
from typing import Any

from rich.console import Console
from rich.markup import escape

from bot.assembly.house import House, Plan
from bot.assembly.refusals import REFUSALS, DatabaseAway, PortTaken, TokenRefused
from bot.assembly.watch import FetchingDied, PartEnded, Watch, watched
from bot.cli.given_settings import settings_or_none
from bot.clock import RandomIds, WallClock
from bot.inbound.poll import Poll
from bot.inbound.way_in import WayIn
from bot.logs import configure
from bot.schedule.clockwork import Clockwork
from bot.schedule.nightly import Keeping, Nightly
from bot.settings import Settings
from bot.store.engine import make_engine, passing
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.migrate import upgrade
from bot.store.neighbours import hold, is_shared
from bot.store.tether import Spans
from bot.store.units import Units
from bot.usecases.coaches import add_coach as keep_coach
from core.errors import DomainError
from core.local_time import zone_named

log = logging.getLogger(__name__)

STOPPED_WITHIN_S = 60.0
"""How long stopping may take once something is broken. [s]"""


def serve(settings: Settings, errors: Console) -> int:
    """Run the bot until it is told to stop; 3 when it had to stop by itself."""
    configure(settings.log_format)
    try:
        with hold(settings.database_url, functools.partial(prepare, settings)):
            asyncio.run(_serve(settings))
    except (FetchingDied, PartEnded, DatabaseAway) as reason:
        errors.print(str(reason), markup=False)
        return 3
    except REFUSALS as refusal:
        errors.print(str(refusal), markup=False)
        return 2
    except Exception as error:
        if not passing(error):
            raise
        log.warning("database_away", exc_info=error)
        errors.print(str(DatabaseAway()), markup=False)
        return 3  # whatever starts services starts it again
    return 0


def prepare(settings: Settings) -> None:
    """Bring the database to this program's schema.

    Raises:
        DatabaseAway: It cannot be reached, or takes nothing.
    """
    engine = make_engine(settings.database_url)
    try:
        upgrade(engine)
    except Exception as error:
        if passing(error):
            raise DatabaseAway from error
        raise
    finally:
        engine.dispose()


async def _serve(settings: Settings) -> None:
    house = house_of(settings)
    stop = asyncio.Event()
    loop = asyncio.get_running_loop()
    for number in (signal.SIGINT, signal.SIGTERM):
        loop.add_signal_handler(number, stop.set)
    heartbeat = Heartbeat(settings.database_url)
    nightly = Nightly(house.units, house.write, house.clock, heartbeat, keeping_of(settings))
    house.led.fired = clockwork = Clockwork(house.tick, settings.tick_s, nightly)
    # Should stopping hang on what is broken, the process ends all the same.
    last_resort = threading.Timer(STOPPED_WITHIN_S, os._exit, (3,))
    last_resort.daemon = True
    house.way_in.fetched_before(heartbeat.at(Mark.FETCHED))
    house.tick.rounds.attend(lambda: house.way_in.last_good, heartbeat.at(Mark.FETCHED))
    heartbeat.set(Mark.STARTED, house.clock.now())
    try:
        _open(house, settings)
        async with _monitored(settings, house, clockwork):
            waiting = asyncio.create_task(stop.wait())
            if await _first(waiting, asyncio.create_task(house.start())):
                watch = Watch(house, heartbeat, settings.silence_s)
                await _first(waiting, asyncio.create_task(watched(house, heartbeat, watch)))
            waiting.cancel()
    except TokenRefused.causes() as error:
        raise TokenRefused from error
    except (FetchingDied, PartEnded):
        last_resort.start()
        raise
    finally:
        with contextlib.suppress(Exception):
            clockwork.stop()
        await house.stop()
        last_resort.cancel()


def _open(house: House, settings: Settings) -> None:
    """Listen where updates are to be brought, before anything is started.

    Raises:
        PortTaken: Nothing can listen there.
    """
    try:
        house.way_in.open()
    except OSError as error:
        raise PortTaken(settings.webhook_port, "PLIMSOLL_WEBHOOK") from error


@contextlib.asynccontextmanager
async def _monitored(settings: Settings, house: House, clockwork: Clockwork) -> AsyncIterator[None]:
    """Serve the monitoring meanwhile, where it is asked for; from before the platform is reached.

    Raises:
        PortTaken: Nothing can listen there.
    """
    port = settings.monitoring_port
    if port is None:
        yield
        return
    from bot.assembly.lookout import Lookout
    from bot.monitoring.door import Door

    async with contextlib.AsyncExitStack() as stack:
        try:
            door = Door(Lookout(house, clockwork), str(settings.monitoring_address), port)
            await stack.enter_async_context(door)
        except OSError as error:
            raise PortTaken(port) from error
        yield


def house_of(settings: Settings) -> House:
    """Build the program that the settings ask for."""
    return House(
        Plan(
            token=settings.token.get_secret_value() if settings.token else "",
            database_url=settings.database_url,
            api_url=str(settings.api_url),
            per_second=settings.messages_per_second,
            clock=WallClock(),
            ids=RandomIds(),
            way_in=way_in_of(settings),
            beside=Spans() if is_shared(settings.database_url) else None,
        )
    )


def way_in_of(settings: Settings) -> Callable[..., WayIn]:
    """Return what builds the one way in that the settings ask for: updates are fetched, or brought; never both."""
    url, secret = settings.webhook_url, settings.webhook_secret
    if url is None or secret is None:
        return Poll
    from bot.inbound.webhook import Hook, Webhook

    address = str(settings.webhook_address)
    return functools.partial(
        Webhook, Hook(str(url), secret.get_secret_value(), address, settings.webhook_port)
    )


def keeping_of(settings: Settings) -> Keeping | None:
    """Return where backups go each night; None where none are made."""
    if settings.backup_dir is None or not settings.database_url.startswith("sqlite"):
        return None
    return Keeping(settings.database_url, settings.backup_dir, settings.backups_kept)


async def _first(stop: "asyncio.Task[Any]", other: "asyncio.Future[Any]") -> bool:
    """Wait for either; True when it is the other that ended. What the other raised is raised."""
    await asyncio.wait({stop, other}, return_when=asyncio.FIRST_COMPLETED)
    if other.done():
        other.result()
        return True
    other.cancel()
    with contextlib.suppress(asyncio.CancelledError):
        await other
    return False


def migrate(console: Console, errors: Console) -> int:
    """Bring the database to this program's schema, and say so."""
    settings = settings_or_none(errors, token=False)
    if settings is None:
        return 2
    try:
        prepare(settings)
    except REFUSALS as refusal:
        errors.print(str(refusal), markup=False)
        return 2
    console.print("The database is at this program's schema.")
    return 0


def add_coach(name: str, zone: str, console: Console, errors: Console) -> int:
    """Add a coach and print her code."""
    settings = settings_or_none(errors, token=False)
    if settings is None:
        return 2
    try:
        zone_named(zone)
        prepare(settings)
    except DomainError:
        errors.print(f"No such time zone: {zone}. Give an IANA name, such as Europe/Lisbon.", markup=False)
        return 2
    except REFUSALS as refusal:
        errors.print(str(refusal), markup=False)
        return 2
    engine = make_engine(settings.database_url)
    try:
        code = RandomIds().word(20)
        keep_coach(name, zone, code, Units(engine), WallClock().now())
    finally:
        engine.dispose()
    console.print(
        f"[bold]{escape(name)}[/bold] is added. From her own account she sends the bot, within 7 days:"
    )
    console.print(f"/start {code}", highlight=False)
    return 0
