"""How the database is: what whoever looks after the program must know, in numbers and ids."""

import sqlite3
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from pathlib import Path

from sqlalchemy import Engine, func, select, text
from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from bot.store.backup import NotBackedUp, database_file
from bot.store.engine import make_engine
from bot.store.migrate import current, head, knows
from bot.store.rules import left_out_anywhere
from bot.store.tables import account, client, coach, inbox, outbox
from bot.store.workload import workload_of

UNBOUND = (
    select(func.count())
    .select_from(coach)
    .where(
        ~select(account.c.user_id)
        .where(account.c.coach_id == coach.c.id, account.c.role == "coach", account.c.reachable)
        .exists()
    )
)


class Standing(StrEnum):
    """Where the database stands against this program."""

    AT_HEAD = "at head"
    BEHIND = "behind"
    EMPTY = "empty"
    NEWER = "newer"
    ABSENT = "absent"
    UNREACHABLE = "unreachable"
    DAMAGED = "damaged"
    NO_DRIVER = "no driver"


@dataclass(frozen=True, slots=True)
class Condition:
    """How the database is. Only one that stands at head is looked into.

    Attributes:
        standing: Where it stands.
        revision: Its schema, where it has one.
        writable: Whether a writing transaction could begin.
        zones: Every zone somebody lives in, with how many do.
        failed: References of messages that the program failed on, as far as their words are kept.
        doubtful: How many messages nobody knows to have arrived.
        left_out: How many rules of coaches do not fit any more, so that the default holds.
        unbound: How many coaches have no account that the bot could write to.
        waits_since: When the oldest message that waits for an answer came; None when none waits.
    """

    standing: Standing
    revision: str | None = None
    writable: bool = True
    zones: dict[str, int] = field(default_factory=dict)
    failed: list[str] = field(default_factory=list)
    doubtful: int = 0
    left_out: int = 0
    unbound: int = 0
    waits_since: datetime | None = None


def condition_of(url: str) -> Condition:
    """Look at the database at `url`; never makes or mends one."""
    file = _file(url)
    if file is not None and not file.is_file():
        return Condition(Standing.ABSENT)
    try:
        engine = make_engine(url)
    except ModuleNotFoundError:
        return Condition(Standing.NO_DRIVER)
    try:
        return _looked_into(engine)
    except DBAPIError as error:
        return Condition(Standing.DAMAGED if _is_damage(error) else Standing.UNREACHABLE)
    except SQLAlchemyError:
        return Condition(Standing.UNREACHABLE)
    finally:
        engine.dispose()


def _file(url: str) -> Path | None:
    try:
        return database_file(url)
    except NotBackedUp:
        return None


def _is_damage(error: DBAPIError) -> bool:
    code = getattr(error.orig, "sqlite_errorcode", None)
    return code is not None and code & 0xFF in {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}


def _looked_into(engine: Engine) -> Condition:
    revision = current(engine)
    if not _is_whole(engine):
        return Condition(Standing.DAMAGED, revision)
    if revision is None:
        return Condition(Standing.EMPTY)
    if not knows(revision):
        return Condition(Standing.NEWER, revision)
    writable = _is_writable(engine)
    if revision != head():
        return Condition(Standing.BEHIND, revision, writable)
    with engine.connect().execution_options(readonly=True, postgresql_readonly=True) as connection:
        zones: dict[str, int] = {}
        for table in (coach, client):
            query = select(table.c.zone, func.count()).where(table.c.zone.is_not(None)).group_by(table.c.zone)
            for zone, count in connection.execute(query):
                zones[zone] = zones.get(zone, 0) + count
        kept = inbox.c.state == "failed", inbox.c.payload.is_not(None)
        failed = connection.execute(select(inbox.c.reference).where(*kept).order_by(inbox.c.update_id))
        doubtful = select(func.count()).select_from(outbox).where(outbox.c.state == "doubtful")
        return Condition(
            Standing.AT_HEAD,
            revision,
            writable,
            zones,
            [str(each) for each in failed.scalars()],
            int(connection.execute(doubtful).scalar_one()),
            left_out_anywhere(connection),
            int(connection.execute(UNBOUND).scalar_one()),
            workload_of(connection).oldest_open,
        )


def _is_whole(engine: Engine) -> bool:
    if engine.dialect.name != "sqlite":
        return True  # PostgreSQL checks its own pages
    with engine.connect().execution_options(readonly=True) as connection:
        return connection.exec_driver_sql("PRAGMA quick_check(1)").scalar() == "ok"


def _is_writable(engine: Engine) -> bool:
    try:
        with engine.connect() as connection:
            connection.execute(text("UPDATE alembic_version SET version_num = version_num"))
            connection.rollback()
    except DBAPIError as error:
        if _is_damage(error):
            raise
        return False
    return True
