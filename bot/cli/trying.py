"""`plimsoll try`: the program with people to be, in a browser on this machine alone."""

import asyncio
import contextlib
import gc
import os
import shutil
import signal
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from importlib.resources import as_file, files
from pathlib import Path

from rich.console import Console

from bot.cli.blocks import opened_block
from bot.clock import RandomIds
from bot.tryout.block_opening import BlockRefused, block_opening
from bot.tryout.door import TryDoor
from bot.tryout.feed import Feed
from bot.tryout.opening import Opening, story_opening
from bot.tryout.trial import Trial

ENDED_WITHIN_S = 1.0
"""How long ending may take before the process ends all the same. [s]"""

DATABASE = "plimsoll.db"


def try_out(keep: Path | None, block: Path | None, port: int, console: Console, errors: Console) -> int:
    """Serve the page until it is told to stop; returns the exit status."""
    written = None
    if block is not None:
        found = opened_block(block, errors)
        if isinstance(found, int):
            return 2
        if found.block is None:
            return _refused(errors, f"There is no block in {block.name}.")
        written = found.block.block
    try:
        if keep is not None and not _is_made(keep):
            return _refused(
                errors, f"{keep} is there and is not an empty folder. Give another to keep it in."
            )
    except OSError as error:
        return _refused(errors, f"Cannot keep it in {keep}: {error.strerror}.")
    with _folder(keep) as folder, as_file(files("demo_scenario")) as scenario:
        if block is not None and written is not None:
            opening = block_opening(written, block.name, block.read_bytes())
        else:
            opening = story_opening(scenario)
        try:
            asyncio.run(_served(opening, scenario, folder, keep is not None, port, console))
        except PortTaken:
            return _refused(
                errors, f"Port {port} is taken or not allowed. Give another, or leave --port out."
            )
        except BlockRefused as refused:
            return _refused(errors, str(refused))
    gc.freeze()  # the interpreter would look through all of it once more before it ends: seconds on a busy machine
    return 0


class PortTaken(Exception):
    """Nothing can listen there."""


async def _served(
    opening: Opening, scenario: Path, folder: Path, kept: bool, port: int, console: Console
) -> None:
    stop = asyncio.Event()
    loop = asyncio.get_running_loop()

    def end(_number: int, _frame: object) -> None:
        _end_soon(folder, kept)
        loop.call_soon_threadsafe(stop.set)

    feed = Feed()
    trial = Trial(opening, feed.changed)
    door = TryDoor(trial, feed, RandomIds(), port)
    async with contextlib.AsyncExitStack() as stack:
        try:
            await stack.enter_async_context(door)
        except OSError as error:
            raise PortTaken from error
        stack.enter_context(_signals_to(end))
        _say(console, door.address, folder, kept)
        running = asyncio.create_task(trial.run(scenario, f"sqlite:///{folder / DATABASE}"))
        stopping = asyncio.create_task(stop.wait())
        await asyncio.wait({running, stopping}, return_when=asyncio.FIRST_COMPLETED)
        stopping.cancel()
        if running.done():
            running.result()
        feed.end()
        running.cancel()
        await asyncio.wait({running})


@contextlib.contextmanager
def _signals_to(end: Callable[[int, object], None]) -> Iterator[None]:
    """Have signals end it. They are not left to the loop, which would hear of them late while it is busy."""
    before = {number: signal.signal(number, end) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def _end_soon(folder: Path, kept: bool) -> None:
    """End the process all the same, should a picture that is being drawn hold it."""

    def end() -> None:
        if not kept:
            shutil.rmtree(folder, ignore_errors=True)
        sys.stdout.flush()
        os._exit(0)

    last_resort = threading.Timer(ENDED_WITHIN_S, end)
    last_resort.daemon = True
    last_resort.start()


def _say(console: Console, address: str, folder: Path, kept: bool) -> None:
    """Print where it is, what it keeps and how to end it."""
    kept_words = "kept" if kept else "removed at the end; --keep DIR keeps it"
    for line in (
        f"Open in a browser: {address}",
        f"Its database: {folder / DATABASE} ({kept_words})",
        "Nothing leaves this machine. End it with Ctrl-C.",
    ):
        console.print(line, markup=False, highlight=False, soft_wrap=True)


@contextlib.contextmanager
def _folder(keep: Path | None) -> Iterator[Path]:
    """Return the folder of the database, which is removed at the end unless it is to be kept."""
    if keep is not None:
        yield keep.resolve()
        return
    folder = Path(tempfile.mkdtemp(prefix="plimsoll-try-"))
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _is_made(folder: Path) -> bool:
    """Make a folder where there is none; False where something is there that is no empty folder.

    Raises:
        OSError: It cannot be made, or not looked into.
    """
    if folder.exists() and not (folder.is_dir() and not any(folder.iterdir())):
        return False
    folder.mkdir(parents=True, exist_ok=True)
    return True


def _refused(errors: Console, words: str) -> int:
    errors.print(words, markup=False, highlight=False, soft_wrap=True)
    return 2
