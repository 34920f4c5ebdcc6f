"""Copies of the database: made while the program runs, checked, counted, and put back. SQLite alone."""

import contextlib
import os
import re
import shutil
import sqlite3
import stat
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import make_url

from bot.store.migrate import NewerSchema, knows

STAMP = "%Y%m%d-%H%M%S"
NAME = re.compile(r"plimsoll-(\d{8}-\d{6})\.db")
PRIVATE = 0o600
"""Mode of a copy: it holds people's health data."""


class NotBackedUp(Exception):
    """No good copy could be made, or a file is no good copy.

    Attributes:
        cause: "not_sqlite", "nothing_there", "target_exists", "no_folder", "unwritable", "damaged", "not_ours" or
            "itself".
    """

    def __init__(self, cause: str) -> None:
        super().__init__(cause)
        self.cause = cause


@dataclass(frozen=True, slots=True)
class Restored:
    """What a restoration did.

    Attributes:
        revision: Schema of what was put back.
        aside: Where the database of before is now; None when there was none.
    """

    revision: str
    aside: Path | None


def database_file(url: str) -> Path:
    """Return where the SQLite database at `url` is.

    Raises:
        NotBackedUp: It is no SQLite database in a file.
    """
    parsed = make_url(url)
    if parsed.get_backend_name() != "sqlite" or parsed.database in {None, "", ":memory:"}:
        raise NotBackedUp("not_sqlite")
    return Path(str(parsed.database))


def backup(url: str, target: Path) -> str:
    """Copy the SQLite database at `url` to `target`, open the copy once, and return its schema.

    Copying the file itself would miss what is still in the write-ahead log.

    Raises:
        NotBackedUp: It is no SQLite database, it is not there, `target` is, or the copy is no good.
    """
    source = database_file(url)
    if not source.is_file():
        raise NotBackedUp("nothing_there")
    if target.exists():
        raise NotBackedUp("target_exists")
    if not target.parent.is_dir():
        raise NotBackedUp("no_folder")
    # Under another name until it is whole: what stops half-way must not look like a backup.
    partial = target.with_name(target.name + ".partial")
    try:
        revision = _copied(source, partial)
        partial.replace(target)
        _keep_names(target.parent)
    except OSError as error:
        raise NotBackedUp("unwritable") from error
    finally:
        for left in (partial, Path(f"{partial}-journal")):
            left.unlink(missing_ok=True)
    return revision


def _copied(source: Path, target: Path) -> str:
    target.unlink(missing_ok=True)
    os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, PRIVATE))
    try:
        with closing(sqlite3.connect(source)) as from_, closing(sqlite3.connect(target)) as to:
            from_.backup(to)
            # Without a log of its own the copy is one file.
            to.execute("PRAGMA journal_mode=DELETE")
        return revision_of(target)
    except sqlite3.OperationalError as error:
        raise NotBackedUp("unwritable") from error
    except sqlite3.DatabaseError as error:
        raise NotBackedUp("damaged") from error


def revision_of(copy: Path) -> str:
    """Open a copy once, look through all of it, and return its schema.

    Raises:
        NotBackedUp: It is damaged, or no database of this program.
    """
    try:
        # Not read-only: SQLite then leaves out whether rows hold what their tables forbid (measured on 3.40).
        with closing(sqlite3.connect(copy)) as database:
            if database.execute("PRAGMA integrity_check").fetchall() != [("ok",)]:
                raise NotBackedUp("damaged")
            if not database.execute("SELECT 1 FROM sqlite_master WHERE name='alembic_version'").fetchone():
                raise NotBackedUp("not_ours")
            found = database.execute("SELECT version_num FROM alembic_version").fetchone()
    except sqlite3.DatabaseError as error:
        raise NotBackedUp("damaged") from error
    if found is None:
        raise NotBackedUp("not_ours")
    return str(found[0])


def back_up_into(url: str, folder: Path, now: datetime, keep: int) -> Path:
    """Make a backup in `folder`, forget the oldest when there are more than `keep`, and return it.

    Raises:
        NotBackedUp: There is no such folder, or no good copy could be made; then nothing is forgotten.
    """
    target = folder / f"plimsoll-{now.astimezone(UTC).strftime(STAMP)}.db"
    backup(url, target)
    for old in backups_in(folder)[keep:]:
        old.unlink(missing_ok=True)
    return target


def backups_in(folder: Path) -> list[Path]:
    """Return the backups in `folder`, newest first; files with other names are somebody else's."""
    found = [path for path in folder.iterdir() if NAME.fullmatch(path.name)] if folder.is_dir() else []
    return sorted(found, key=lambda path: path.name, reverse=True)


def made_at(copy: Path) -> datetime | None:
    """Return when a backup was made, by its name; None for a name that is no instant."""
    found = NAME.fullmatch(copy.name)
    with contextlib.suppress(ValueError):
        return datetime.strptime(found[1], STAMP).replace(tzinfo=UTC) if found else None
    return None


def restore(url: str, copy: Path, now: datetime) -> Restored:
    """Put a backup in the place of the database at `url`, and keep that one aside.

    The caller holds the lock of the database (`bot.store.engine.take_lock`). Until the last step, which is one
    rename, the present database stays in its place.

    Raises:
        NotBackedUp: It is no SQLite database, or `copy` is not there, not ours or damaged.
        NewerSchema: A later version of the program wrote `copy`.
    """
    present = database_file(url)
    if not copy.is_file():
        raise NotBackedUp("nothing_there")
    if present.exists() and present.samefile(copy):
        raise NotBackedUp("itself")
    stamp = now.astimezone(UTC).strftime(STAMP)
    coming = present.with_name(f"{present.name}.restored-{stamp}")
    # Copied, not moved: a copy of a running database's files may come with a log of its own.
    revision = backup(f"sqlite:///{copy}", coming)
    try:
        if not knows(revision):
            raise NewerSchema(revision)
        aside = _aside(present, coming, stamp) if present.exists() else None
        coming.replace(present)
        _keep_names(present.parent)
    finally:
        coming.unlink(missing_ok=True)
    return Restored(revision, aside)


def _aside(present: Path, coming: Path, stamp: str) -> Path:
    was = present.stat()
    coming.chmod(stat.S_IMODE(was.st_mode))
    with contextlib.suppress(PermissionError):
        os.chown(coming, was.st_uid, was.st_gid)  # whoever restores need not be whoever serves
    aside = present.with_name(f"{present.name}.before-{stamp}")
    if aside.exists():
        raise NotBackedUp("target_exists")
    log, kept_log = Path(f"{present}-wal"), Path(f"{aside}-wal")
    if log.exists():
        shutil.copy2(log, kept_log)
    if _is_folded(present):
        kept_log.unlink(missing_ok=True)
    try:
        aside.hardlink_to(present)
    except OSError:  # a disk without links
        shutil.copy2(present, aside)
    # A log that stays is that of a damaged database. It must not be taken for one of what comes in its place.
    for left in (log, Path(f"{present}-shm")):
        left.unlink(missing_ok=True)
    return aside


def _is_folded(path: Path) -> bool:
    """Fold the log of a database into its file; False where that cannot be done."""
    try:
        with closing(sqlite3.connect(path, timeout=1.0)) as database:
            busy: int = database.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
    except sqlite3.DatabaseError:
        return False
    return busy == 0


def _keep_names(folder: Path) -> None:
    # A rename outlives a power cut once the folder itself is on the disk.
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
