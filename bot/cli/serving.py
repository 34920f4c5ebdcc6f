"""Commands that work on the real database, or with the real platform."""

import asyncio
import contextlib
import html
import os
import re
import signal
from pathlib import Path
from typing import Any

from rich.console import Console
from rich.markup import escape

from bot.assembly.house import House, Plan
from bot.assembly.refusals import REFUSALS, TokenRefused
from bot.clock import RandomIds, WallClock
from bot.files.from_xlsx import read_block
from bot.logs import configure
from bot.render.blocks import block_preview
from bot.render.problems import problem_line
from bot.schedule.clockwork import Clockwork
from bot.settings import Settings, SettingsProblem, read_settings
from bot.store.engine import make_engine, take_lock
from bot.store.migrate import upgrade
from bot.store.units import Units
from bot.usecases.coaches import add_coach as keep_coach
from core.errors import DomainError
from core.local_time import zone_named
from core.programme.problems import Severity


def settings_or_none(errors: Console, *, token: bool) -> Settings | None:
    """Read the settings; print what to set where they cannot be read."""
    try:
        return read_settings(os.environ, token_needed=token)
    except SettingsProblem as problem:
        errors.print(str(problem), markup=False)
        return None


def serve(errors: Console) -> int:
    """Run the bot until it is told to stop."""
    settings = settings_or_none(errors, token=True)
    if settings is None:
        return 2
    configure(settings.log_format)
    try:
        with take_lock(settings.database_url):
            prepare(settings)
            asyncio.run(_serve(settings))
    except REFUSALS as refusal:
        errors.print(str(refusal), markup=False)
        return 2
    return 0


def prepare(settings: Settings) -> None:
    """Bring the database to this program's schema."""
    engine = make_engine(settings.database_url)
    try:
        upgrade(engine)
    finally:
        engine.dispose()


async def _serve(settings: Settings) -> None:
    token = settings.token.get_secret_value() if settings.token else ""
    house = House(
        Plan(
            token=token,
            database_url=settings.database_url,
            api_url=str(settings.api_url),
            per_second=settings.messages_per_second,
            clock=WallClock(),
            ids=RandomIds(),
        )
    )
    stop = asyncio.Event()
    loop = asyncio.get_running_loop()
    for number in (signal.SIGINT, signal.SIGTERM):
        loop.add_signal_handler(number, stop.set)
    clockwork = Clockwork(house.tick, settings.tick_s)
    try:
        waiting = asyncio.create_task(stop.wait())
        if await _first(waiting, asyncio.create_task(house.start())):
            clockwork.start()
            await _first(waiting, house.failed)
        waiting.cancel()
    except TokenRefused.causes() as error:
        raise TokenRefused from error
    finally:
        with contextlib.suppress(Exception):
            clockwork.stop()
        await house.stop()


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


def check_block(file: Path, console: Console, errors: Console) -> int:
    """Print what is in a block, or every problem."""
    try:
        content = file.read_bytes()
    except OSError as error:
        errors.print(f"Cannot read {file}: {error.strerror}.", markup=False)
        return 2
    result = read_block(content, file.name)
    if isinstance(result, list):
        for problem in result:
            errors.print(problem_line(problem), markup=False)
        wrong = sum(problem.severity is Severity.ERROR for problem in result)
        errors.print(f"{wrong} to mend. Nothing is stored.", markup=False)
        return 1
    console.print(html.unescape(re.sub(r"<[^>]+>", "", block_preview(result.block))), markup=False)
    for warning in result.warnings:
        console.print(problem_line(warning), markup=False)
    return 0
