"""Brings a database to this program's schema."""

from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import as_file, files

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from alembic.util import CommandError
from sqlalchemy import Connection, Engine, text

_LOCK_KEY = 0x706C696E


class NewerSchema(Exception):
    """The database was written by a later version of this program.

    Attributes:
        revision: The schema it has.
    """

    def __init__(self, revision: str) -> None:
        super().__init__(revision)
        self.revision = revision

    def __str__(self) -> str:
        return (
            f"The database has schema {self.revision}, which this version of Plimsoll does not know: a later "
            "version has written it. Install that version, or use a backup from before."
        )


class BrokenReferences(Exception):
    """A migration would leave rows that refer to nothing; it was rolled back.

    Attributes:
        tables: Where such rows are.
    """

    def __init__(self, tables: list[str]) -> None:
        super().__init__(f"rows of {', '.join(tables)} refer to rows that are not there")
        self.tables = tables


def upgrade(engine: Engine) -> None:
    """Bring the database to the newest schema; whole or not at all.

    Raises:
        NewerSchema: A later version of the program wrote the database.
        BrokenReferences: Rows would refer to nothing.
    """
    with building(engine):
        pass


@contextmanager
def building(engine: Engine) -> Iterator[Connection]:
    """Bring the database to the newest schema, and hand out the transaction that does it, to go on in.

    What is done in it stands or falls with the schema. On SQLite references are not checked before its end.

    Raises:
        NewerSchema: A later version of the program wrote the database.
        BrokenReferences: Rows would refer to nothing.
    """
    with _migrating(engine) as (connection, config):
        revision = MigrationContext.configure(connection).get_current_revision()
        if not _is_known(config, revision):
            raise NewerSchema(str(revision))
        command.upgrade(config, "head")
        yield connection


def downgrade(engine: Engine, revision: str = "base") -> None:
    """Take the database back to `revision`; what later tables hold is lost."""
    with _migrating(engine) as (_, config):
        command.downgrade(config, revision)


def head() -> str:
    """Return the revision of the newest schema."""
    with _config() as config:
        return str(ScriptDirectory.from_config(config).get_current_head())


def current(engine: Engine) -> str | None:
    """Return the revision of the database; None when it is empty."""
    with engine.connect().execution_options(readonly=True) as connection:
        return MigrationContext.configure(connection).get_current_revision()


def is_newer(engine: Engine) -> bool:
    """Return whether a later version of the program wrote the database."""
    return not knows(current(engine))


def knows(revision: str | None) -> bool:
    """Return whether this program knows a schema, or can begin from nothing."""
    with _config() as config:
        return _is_known(config, revision)


def _is_known(config: Config, revision: str | None) -> bool:
    if revision is None:
        return True
    try:
        ScriptDirectory.from_config(config).get_revision(revision)
    except CommandError:
        return False
    return True


@contextmanager
def _config() -> Iterator[Config]:
    with as_file(files("migrations")) as folder:
        config = Config()
        config.set_main_option("script_location", str(folder).replace("%", "%%"))
        config.set_main_option("path_separator", "os")
        yield config


@contextmanager
def _migrating(engine: Engine) -> Iterator[tuple[Connection, Config]]:
    # One transaction for all migrations: on both databases changes to tables roll back with the rest.
    options = {} if _is_sqlite(engine) else {"isolation_level": "READ COMMITTED"}
    with (
        _config() as config,
        engine.connect().execution_options(**options) as connection,
        _references_unchecked(connection),
        connection.begin(),
    ):
        if not _is_sqlite(engine):
            connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": _LOCK_KEY})
        config.attributes["connection"] = connection
        yield connection, config
        if _is_sqlite(engine):
            _check_references(connection)


def _is_sqlite(engine: Engine) -> bool:
    return engine.dialect.name == "sqlite"


@contextmanager
def _references_unchecked(connection: Connection) -> Iterator[None]:
    # SQLite changes a table by copying and dropping it, and dropping it would delete or refuse what refers to it.
    # The pragma does nothing inside a transaction, so it goes to the driver before one begins.
    if connection.dialect.name != "sqlite":
        yield
        return
    driver = connection.connection.cursor()
    driver.execute("PRAGMA foreign_keys=OFF")
    try:
        yield
    finally:
        driver.execute("PRAGMA foreign_keys=ON")
        driver.close()


def _check_references(connection: Connection) -> None:
    rows = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
    if rows:
        raise BrokenReferences(sorted({row[0] for row in rows}))
