"""`plimsoll backup`, `plimsoll restore`, `plimsoll inbox replay`."""

from collections.abc import Callable
from pathlib import Path

from rich.console import Console

from bot.assembly.refusals import REFUSALS
from bot.cli.given_settings import settings_or_none
from bot.cli.serving import prepare
from bot.clock import WallClock
from bot.settings import Settings
from bot.store.backup import NotBackedUp, back_up_into, backups_in, database_file, restore
from bot.store.engine import make_engine, take_lock
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.migrate import head
from bot.store.units import Units

NOT_SQLITE = "This is for SQLite in a file. Back up PostgreSQL with pg_dump, and restore it with pg_restore."

BACKING_UP = {
    "nothing_there": "There is no database yet: nothing to back up. Run plimsoll doctor.",
    "no_folder": "There is no such folder. Make it first: it may be a disk that is not mounted.",
    "target_exists": "There is a backup of this very second already.",
    "unwritable": "The copy could not be written. See to space on the disk, and to the folder's owner and mode.",
    "damaged": "The database is damaged, and no copy was made. Run plimsoll doctor.",
    "not_ours": "The database is no database of Plimsoll, or an empty one; no copy was made.",
}

RESTORING = {
    "nothing_there": "There is no such file. Nothing was changed.",
    "no_folder": "The folder of the database is not there. Nothing was changed.",
    "target_exists": "Another restoration runs. Nothing was changed.",
    "unwritable": "The backup could not be read, or its copy not be written. Nothing was changed.",
    "damaged": "The backup is damaged. Nothing was changed. Try an older one.",
    "not_ours": "The file is no backup of Plimsoll. Nothing was changed.",
    "itself": "That file is the database itself. Nothing was changed.",
}


def backup_now(to: Path | None, console: Console, errors: Console) -> int:
    """Make a backup now; rotates in the folder of the settings, and only there."""
    settings = settings_or_none(errors, token=False)
    if settings is None:
        return 2
    folder = to or settings.backup_dir
    if folder is None:
        return _refused(errors, "Say where to: plimsoll backup --to FOLDER, or set PLIMSOLL_BACKUP_DIR.")
    keep = settings.backups_kept if to is None else len(backups_in(folder)) + 1
    try:
        made = back_up_into(settings.database_url, folder, WallClock().now(), keep)
    except NotBackedUp as problem:
        return _not_done(errors, problem, BACKING_UP)
    if to is None:
        Heartbeat(settings.database_url).set(Mark.BACKUP_FAILED, None)
    console.print(f"The backup is whole: {made}", markup=False, highlight=False, soft_wrap=True)
    return 0


def restore_from(file: Path, console: Console, errors: Console) -> int:
    """Put a backup in the place of the database, and say what was done."""
    settings = settings_or_none(errors, token=False)
    if settings is None:
        return 2
    try:
        database_file(settings.database_url)  # before a lock: PostgreSQL need not be asked
        with take_lock(settings.database_url):
            done = restore(settings.database_url, file, WallClock().now())
    except NotBackedUp as problem:
        return _not_done(errors, problem, RESTORING)
    except FileNotFoundError:
        return _refused(errors, RESTORING["no_folder"])
    except REFUSALS as refusal:
        return _refused(errors, str(refusal))
    _say(console, f"The database is now what {file} holds (schema {done.revision}).")
    if done.revision != head():
        _say(console, "The next start brings it to this program's schema.")
    if done.aside is not None:
        _say(console, f"The one of before is kept: {done.aside}. Delete it when you no longer need it.")
    _say(
        console,
        "What happened after the backup is not in it: who left or withdrew consent since then must do so again, and "
        "what was still waiting to be sent then may go out twice.",
    )
    return 0


def replay(reference: str, console: Console, errors: Console) -> int:
    """Have a message that the program failed on worked on again."""
    settings = settings_or_none(errors, token=False)
    if settings is None:
        return 2
    try:
        prepare(settings)
    except REFUSALS as refusal:
        return _refused(errors, str(refusal))
    said = _within(settings, lambda units: _reopened(units, reference.strip()))
    if said is not None:
        errors.print(said, markup=False)
        return 1
    console.print("It is taken up again by plimsoll serve, within a minute where that runs.")
    return 0


def _within(settings: Settings, work: Callable[[Units], str | None]) -> str | None:
    engine = make_engine(settings.database_url)
    try:
        return work(Units(engine))
    finally:
        engine.dispose()


def _reopened(units: Units, reference: str) -> str | None:
    """Reopen a failed row; returns what stands against it."""
    with units.open(None) as house:
        row = house.inbox.by_reference(reference)
        if row is None:
            return "The program failed on no message with this reference."
        if row.payload is None:
            return "The words of this message are no longer kept: they are forgotten after 7 days."
        house.inbox.reopen(row.update_id)
    return None


def _say(console: Console, words: str) -> None:
    console.print(words, markup=False, highlight=False, soft_wrap=True)


def _refused(errors: Console, words: str) -> int:
    errors.print(words, markup=False, highlight=False, soft_wrap=True)
    return 2


def _not_done(errors: Console, problem: NotBackedUp, words: dict[str, str]) -> int:
    if problem.cause == "not_sqlite":
        return _refused(errors, NOT_SQLITE)
    errors.print(words[problem.cause], markup=False, highlight=False, soft_wrap=True)
    return 1
