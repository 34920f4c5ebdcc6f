"""A copy of the database while the program runs."""

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import make_url


class NotBackedUp(Exception):
    """No good copy could be made.

    Attributes:
        cause: "not_sqlite", "nothing_there", "target_exists" or "damaged".
    """

    def __init__(self, cause: str) -> None:
        super().__init__(cause)
        self.cause = cause


def backup(url: str, target: Path) -> None:
    """Copy the SQLite database at `url` to `target`, and open the copy once.

    Copying the file itself would miss what is still in the write-ahead log.

    Raises:
        NotBackedUp: It is no SQLite database, it is not there, `target` is, or the copy is damaged.
    """
    parsed = make_url(url)
    if parsed.get_backend_name() != "sqlite" or parsed.database in {None, "", ":memory:"}:
        raise NotBackedUp("not_sqlite")
    source = Path(str(parsed.database))
    if not source.is_file():
        raise NotBackedUp("nothing_there")
    if target.exists():
        raise NotBackedUp("target_exists")
    # Under another name until it is whole: what stops half-way must not look like a backup.
    partial = target.with_name(target.name + ".partial")
    partial.unlink(missing_ok=True)
    try:
        with closing(sqlite3.connect(source)) as from_, closing(sqlite3.connect(partial)) as to:
            from_.backup(to)
            # Without a log of its own the copy is one file.
            to.execute("PRAGMA journal_mode=DELETE")
            found = to.execute("PRAGMA integrity_check").fetchall()
    except sqlite3.DatabaseError as error:
        partial.unlink(missing_ok=True)
        raise NotBackedUp("damaged") from error
    if found != [("ok",)]:
        partial.unlink()
        raise NotBackedUp("damaged")
    partial.replace(target)
