"""A coach with as many clients as one likes, filled in by the database itself."""

from pathlib import Path

from faults.crew import ADA, two_crews
from set_up_once import with_raw
from sqlalchemy import Engine, Table, select

from bot.store import tables
from bot.store.engine import make_engine
from bot.store.units import Units

FIRST_USER = 10_000
"""Account and chat of the first copy; the others follow one by one."""
COPIED = ("client", "account", "consent", "assignment", "kit", "session")
"""What a client has before her first session, those that others point to first."""
LATER = "strftime('%Y-%m-%d %H:%M:%S.000000', due_at, '+1 day')"


def full_house(path: Path, count: int, due: int) -> Engine:
    """Fill a migrated file with copies of a client who waits for her first session.

    Args:
        path: The file.
        count: How many clients are added; accounts from `FIRST_USER` on.
        due: How many of them, the first ones, have a session at her hour. The others' is due a day later.
    """
    engine = make_engine(f"sqlite:///{path}")
    two_crews(Units(engine))
    with engine.connect() as connection:
        ada = connection.execute(
            select(tables.account.c.client_id).where(tables.account.c.user_id == ADA)
        ).scalar_one()
        of_hers = select(tables.session.c.id).where(tables.session.c.client_id == ada)
        first = connection.execute(of_hers.order_by(tables.session.c.due_at).limit(1)).scalar_one()
    with_raw(engine, lambda raw: _filled(raw, ada, first, count, due))
    return engine


def _filled(raw, ada: int, first: int, count: int, due: int) -> None:  # type: ignore[no-untyped-def]
    tops: dict[str, int] = {}
    raw.execute("PRAGMA synchronous=OFF")
    raw.execute("BEGIN IMMEDIATE")
    for name in COPIED:
        table = tables.metadata.tables[name]
        if "id" in table.c:
            tops[name] = raw.execute(f"SELECT coalesce(max(id), 0) + 1 FROM {name}").fetchone()[0]  # noqa: S608
        columns, values = zip(*_copied(table, tops, due).items(), strict=True)
        which = {"client": "id = :ada", "session": "id = :first"}.get(name, "client_id = :ada")
        if name == "assignment":
            which += " AND ended_at IS NULL"
        raw.execute(
            "WITH RECURSIVE copy(n) AS (SELECT 0 UNION ALL SELECT n + 1 FROM copy WHERE n + 1 < :count)"  # noqa: S608
            f" INSERT INTO {name} ({', '.join(columns)})"
            f" SELECT {', '.join(values)} FROM copy CROSS JOIN"
            f" (SELECT *, row_number() OVER () - 1 AS place, count(*) OVER () AS of_it FROM {name} WHERE {which})",
            {"ada": ada, "first": first, "count": count},
        )
    raw.execute("COMMIT")
    raw.execute("PRAGMA synchronous=FULL")


def _copied(table: Table, tops: dict[str, int], due: int) -> dict[str, str]:
    """What each column of a copy holds, in SQL."""
    values = {each.name: f'"{each.name}"' for each in table.columns}
    if "id" in values:
        values["id"] = f"{tops[table.name]} + n * of_it + place"
    if "client_id" in values:
        values["client_id"] = f"{tops['client']} + n"
    if "assignment_id" in values:
        values["assignment_id"] = f"{tops['assignment']} + n"
    match table.name:
        case "client":
            values["name"] = "'Client ' || n"
        case "account":
            values |= {"user_id": f"{FIRST_USER} + n", "chat_id": f"{FIRST_USER} + n"}
        case "session":
            values["due_at"] = f"CASE WHEN n < {due} THEN due_at ELSE {LATER} END"
        case _:
            pass
    return values
