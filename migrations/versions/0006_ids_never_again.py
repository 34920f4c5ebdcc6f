"""Ids that never come again on SQLite: what an erased person's buttons and keys named is never somebody else's.

SQLite gives the highest id anew once its row is deleted, unless the column is declared AUTOINCREMENT. A declaration
changes only with its table, so each is copied as SQLite's own documentation has it (ALTER TABLE, "Making Other Kinds
Of Table Schema Changes"). PostgreSQL's sequences never go back.
"""

from collections.abc import Callable

from alembic import op
from sqlalchemy import Connection

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

FREE = "\tid INTEGER NOT NULL, \n"
KEPT = "\tid INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, \n"


def upgrade() -> None:
    """Declare every id AUTOINCREMENT."""
    _copy_tables(_kept)


def downgrade() -> None:
    """Declare the ids as they were."""
    _copy_tables(_free)


def _kept(name: str, sql: str) -> str:
    key = f"CONSTRAINT pk_{name} PRIMARY KEY (id)"
    bare = sql.replace(f"\t{key}, \n", "").replace(f", \n\t{key}", "")
    return bare.replace(FREE, KEPT)


def _free(name: str, sql: str) -> str:
    head, tail = sql.replace(KEPT, FREE).rsplit("\n)", 1)
    return f"{head}, \n\tCONSTRAINT pk_{name} PRIMARY KEY (id)\n){tail}"


def _copy_tables(declared: Callable[[str, str], str]) -> None:
    connection = op.get_bind()
    if connection.dialect.name != "sqlite":
        return
    rows = connection.exec_driver_sql(
        "SELECT type, tbl_name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY rowid"
    ).all()
    for name, sql in [(row.tbl_name, row.sql) for row in rows if row.type == "table"]:
        if FREE in sql or KEPT in sql:
            indexes = [row.sql for row in rows if row.type == "index" and row.tbl_name == name]
            _copy(connection, name, declared(name, sql)[sql.index("(") :], indexes)


def _copy(connection: Connection, name: str, body: str, indexes: list[str]) -> None:
    run = connection.exec_driver_sql
    run(f'CREATE TABLE "{name}_anew" {body}')
    run(f'INSERT INTO "{name}_anew" SELECT * FROM "{name}"')  # noqa: S608  (a name that the schema gave)
    run(f'DROP TABLE "{name}"')
    run(f'ALTER TABLE "{name}_anew" RENAME TO "{name}"')
    for index in indexes:
        run(index)
