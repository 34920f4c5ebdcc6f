"""Databases for tests: a copy each of one that was migrated once, on SQLite and on PostgreSQL.

PostgreSQL is a server at `TEST_POSTGRES_URL`, or else a throw-away cluster on a socket, started from the binaries in
`PG_BIN` or where Debian puts them. With neither the tests run on SQLite alone, the summary says so, and
`TEST_POSTGRES_REQUIRED=1` makes it an error.
"""

import contextlib
import itertools
import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

from sqlalchemy import NullPool, create_engine, make_url, text

from bot.store.engine import make_engine
from bot.store.migrate import upgrade


def postgres_binaries() -> Path | None:
    """The newest PostgreSQL on this machine."""
    if named := os.environ.get("PG_BIN"):
        return Path(named)
    found = Path("/usr/lib/postgresql").glob("*/bin/initdb")
    by_version = sorted(found, key=lambda path: float(path.parts[-3]), reverse=True)
    return by_version[0].parent if by_version else None


HAS_POSTGRES = "TEST_POSTGRES_URL" in os.environ or postgres_binaries() is not None
REQUIRES_POSTGRES = os.environ.get("TEST_POSTGRES_REQUIRED", "") not in {"", "0"}
KINDS = ["sqlite", "postgresql"] if HAS_POSTGRES else ["sqlite"]
SHARED = KINDS[1:]
"""Those that several processes may serve."""
ABSENT = "PostgreSQL is not here: set TEST_POSTGRES_URL to a server, or PG_BIN to the folder of its binaries"


class SqliteFiles:
    """Copies of a migrated file."""

    def __init__(self, folder: Path) -> None:
        self.template = folder / "template.db"
        engine = make_engine(f"sqlite:///{self.template}")
        upgrade(engine)
        engine.dispose()  # the last one out folds the write-ahead log into the file

    def copy(self, target: Path) -> str:
        """The URL of a migrated database of one's own."""
        shutil.copyfile(self.template, target)
        return f"sqlite:///{target}"


class PostgresServer:
    """A server on which databases come and go."""

    def __init__(self, url: str) -> None:
        self._url = make_url(url)
        self._admin = create_engine(self._url, isolation_level="AUTOCOMMIT", poolclass=NullPool)
        self._names = (f"plimsoll_test_{os.getpid()}_{number}" for number in itertools.count())
        with self._admin.connect() as connection:
            self.version = str(connection.scalar(text("SHOW server_version"))).partition(" ")[0]
        self._template = self._create("template0")
        engine = make_engine(self._at(self._template))
        upgrade(engine)
        engine.dispose()

    def _at(self, name: str) -> str:
        return self._url.set(database=name).render_as_string(hide_password=False)

    def _create(self, template: str) -> str:
        name = next(self._names)
        self._run(f"CREATE DATABASE {name} TEMPLATE {template}")
        return name

    def _run(self, statement: str) -> None:
        with self._admin.connect() as connection:
            connection.execute(text(statement))

    @contextlib.contextmanager
    def database(self, *, migrated: bool = True, like: str | None = None) -> Iterator[str]:
        """The URL of a database of one's own, dropped afterwards; `like` is the URL of one that is copied."""
        empty = self._template if migrated else "template0"
        name = self._create(empty if like is None else str(make_url(like).database))
        try:
            yield self._at(name)
        finally:
            self._run(f"DROP DATABASE {name} WITH (FORCE)")

    def checkpoint(self) -> None:
        """Have all that was written so far be in the files."""
        self._run("CHECKPOINT")

    def close(self) -> None:
        """Leave nothing behind."""
        self._run(f"DROP DATABASE {self._template} WITH (FORCE)")
        self._admin.dispose()


@contextlib.contextmanager
def postgres_server() -> Iterator[PostgresServer]:
    """A server for one run of the tests."""
    with contextlib.ExitStack() as stack:
        url = os.environ.get("TEST_POSTGRES_URL")
        if url is None:
            binaries = postgres_binaries()
            if binaries is None:
                raise RuntimeError(ABSENT)
            url = stack.enter_context(cluster(binaries)).url
        server = PostgresServer(url)
        try:
            yield server
        finally:
            server.close()


class Cluster:
    """A server of one's own, which can be stopped and started.

    Attributes:
        url: Of the database that it begins with.
    """

    def __init__(self, folder: Path, run: "_Programs", options: str) -> None:
        self.url = f"postgresql+psycopg://postgres@/postgres?host={folder}&port=5432"
        self._run = run
        self._data = folder / "data"
        self._start = ("-w", "-t", "30", "-l", folder / "log", "-o", f"-p 5432 {options}")

    def start(self) -> None:
        self._run("pg_ctl", "-D", self._data, *self._start, "start")

    def stop(self, mode: str) -> None:
        """Stop it: `fast` ends connections in order, `immediate` is a crash."""
        self._run("pg_ctl", "-D", self._data, "-m", mode, "-w", "stop")


@contextlib.contextmanager
def cluster(binaries: Path, *, keeps_commits: bool = False) -> Iterator[Cluster]:
    """A throw-away cluster; with `keeps_commits` it loses none when it crashes."""
    # Directly under /tmp: the path of a socket has at most 107 bytes.
    folder = Path(tempfile.mkdtemp(prefix="plimsoll-pg-", dir="/tmp"))
    settings = {
        "listen_addresses": "''",
        "unix_socket_directories": folder,
        "fsync": "off",
        "synchronous_commit": "on" if keeps_commits else "off",
        "full_page_writes": "off",
        "max_connections": 50,
    }
    options = " ".join(f"-c {name}={value}" for name, value in settings.items())
    locale = ("-E", "UTF8", "--no-sync", "--locale=C.UTF-8")
    try:
        run = _Programs(binaries, folder)
        run("initdb", "-D", folder / "data", "-U", "postgres", "-A", "trust", *locale)
        found = Cluster(folder, run, options)
        found.start()
        try:
            yield found
        finally:
            found.stop("immediate")
    finally:
        shutil.rmtree(folder)


class _Programs:
    """Runs the programs of PostgreSQL, which refuses to work for root."""

    def __init__(self, binaries: Path, folder: Path) -> None:
        self.binaries, self.folder = binaries, folder
        self.prefix: list[str] = []
        if os.geteuid() == 0:
            name = "postgres" if any(each.pw_name == "postgres" for each in pwd.getpwall()) else "nobody"
            shutil.chown(folder, name)
            group = str(pwd.getpwnam(name).pw_gid)
            self.prefix = ["setpriv", "--reuid", name, "--regid", group, "--clear-groups"]

    def __call__(self, program: str, *arguments: object) -> None:
        # What it starts would hold a pipe open for ever, so that its output goes to a file.
        said = self.folder / "said"
        with said.open("wb") as out:
            done = subprocess.run(  # noqa: S603  (programs of PostgreSQL)
                [*self.prefix, str(self.binaries / program), *map(str, arguments)],
                check=False,
                cwd=self.folder,
                env={"PATH": f"{self.binaries}:/usr/bin:/bin", "LC_ALL": "C.UTF-8", "HOME": str(self.folder)},
                stdin=subprocess.DEVNULL,
                stdout=out,
                stderr=subprocess.STDOUT,
            )
        if done.returncode:
            raise RuntimeError(f"{program} ended with {done.returncode}: {said.read_text(errors='replace')}")
