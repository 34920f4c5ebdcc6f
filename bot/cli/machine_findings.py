"""Looks at the machine: time zones, space on the disk, backups."""

import shutil
import tempfile
from datetime import datetime, timedelta
from pathlib import Path

from bot.cli.findings import Finding, good, span, told, wrong
from bot.schedule.nightly import OVERDUE, newest_age
from bot.settings import Settings
from bot.store.backup import NotBackedUp, backups_in, database_file
from bot.store.heartbeat import Heartbeat, Mark
from core.errors import UnknownZone
from core.local_time import zone_named

LEAST_FREE = 200_000_000
"""Space that must be free: some months of a big roster. Our proposal. [B]"""

SAMPLE_ZONES = ("Europe/Lisbon", "America/St_Johns", "Pacific/Auckland")


def machine_findings(settings: Settings, heartbeat: Heartbeat, now: datetime) -> list[Finding]:
    """Look at the machine."""
    found = [_zones()]
    try:
        database = database_file(settings.database_url)
    except NotBackedUp:
        return [*found, _others_backups(settings)]
    found.append(_space("disk of the database", database.absolute().parent))
    if settings.backup_dir is None:
        return [
            *found,
            told("backups", "none are made. Set PLIMSOLL_BACKUP_DIR to a folder, best on another disk."),
        ]
    return [*found, *_backups(settings.backup_dir, heartbeat, now)]


def _zones() -> Finding:
    try:
        for zone in SAMPLE_ZONES:
            zone_named.__wrapped__(zone)
    except UnknownZone:
        return wrong(
            "time zones", "this machine knows none. Install the package tzdata beside plimsoll again."
        )
    return good("time zones")


def _space(name: str, folder: Path) -> Finding:
    try:
        free = shutil.disk_usage(folder).free
    except OSError:
        return wrong(name, "its folder is not there, or cannot be read. Make it, or mend its mode.")
    if free < LEAST_FREE:
        return wrong(
            name,
            f"{free // 1_000_000} MB are free, and {LEAST_FREE // 1_000_000} MB are the least. Make space: without "
            "it nothing more is kept, and nobody gets an answer.",
        )
    return good(name, f"{free // 1_000_000} MB free")


def _others_backups(settings: Settings) -> Finding:
    if settings.backup_dir is None:
        return told("backups", "make them with pg_dump: the program makes none of PostgreSQL.")
    return wrong(
        "backups",
        "PLIMSOLL_BACKUP_DIR is set and has no effect on PostgreSQL. Make backups with pg_dump, and unset it.",
    )


def _backups(folder: Path, heartbeat: Heartbeat, now: datetime) -> list[Finding]:
    name = "folder for backups"
    if not folder.is_dir():
        return [wrong(name, "it is not there. Make it, or set PLIMSOLL_BACKUP_DIR to one that is there.")]
    try:
        with tempfile.TemporaryFile(dir=folder):
            pass
    except OSError:
        return [wrong(name, "it cannot be written. Mend its owner or mode, or make space on its disk.")]
    return [good(name), _space("disk for backups", folder), _newest(folder, heartbeat, now)]


def _newest(folder: Path, heartbeat: Heartbeat, now: datetime) -> Finding:
    do = "See the log of plimsoll serve, and make one now with plimsoll backup."
    if not backups_in(folder):
        return wrong("backups", f"there is none yet. {do}")
    age = newest_age(folder, now, or_else=timedelta.max)
    if heartbeat.at(Mark.BACKUP_FAILED) is not None:
        return wrong("backups", f"the last one failed; the newest good one is {span(age)} old. {do}")
    if age >= OVERDUE:
        return wrong("backups", f"the newest is {span(age)} old. {do}")
    return good("backups", f"{len(backups_in(folder))} kept, the newest {span(age)} old")
