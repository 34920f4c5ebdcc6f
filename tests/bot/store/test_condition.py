from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import Engine, insert, text

from bot.store import condition as condition_module
from bot.store.condition import Condition, Standing, condition_of
from bot.store.engine import is_served, take_lock
from bot.store.migrate import head
from bot.store.tables import client, coach, inbox, outbox, rule

AT = datetime(2026, 4, 6, 7, tzinfo=UTC)


def test_an_empty_roster_is_at_head(database_url: str) -> None:
    assert condition_of(database_url) == Condition(Standing.AT_HEAD, head())


def test_everything_that_is_counted_is_counted(database_url: str, engine: Engine) -> None:
    message = {"kind": "message", "received_at": AT}
    call = {"chat_id": 1, "op": "send", "lane": "talk", "rank": 1, "due_at": AT, "created_at": AT}
    with engine.begin() as connection:
        connection.execute(insert(coach).values(id=1, name="Orla", zone="Europe/Lisbon", created_at=AT))
        for zone in ("Europe/Lisbon", "Mars/Quay", None):
            row = {"coach_id": 1, "name": "Ada", "state": "active", "created_at": AT}
            connection.execute(insert(client).values(zone=zone, **row))
        for number, (state, payload) in enumerate(
            [("failed", "{}"), ("failed", None), ("new", "{}"), ("quarantined", "{}"), ("failed", "{}")]
        ):
            row = {"update_id": number, "state": state, "payload": payload, "reference": f"ref{number}"}
            connection.execute(insert(inbox).values(**message, **row))
        for state in ("doubtful", "sent", "doubtful"):
            key = connection.execute(text("SELECT count(*) FROM outbox")).scalar()
            connection.execute(insert(outbox).values(state=state, key=str(key), **call))

        for key, value in (("policy:miss_run", {"is": 99}), ("policy:cold_days", {"is": 9}), ("other", 1)):
            row = {"coach_id": 1, "key": key, "value": value, "by_user_id": 1, "at": AT}
            connection.execute(insert(rule).values(**row))

    found = condition_of(database_url)

    assert found.zones == {"Europe/Lisbon": 2, "Mars/Quay": 1}
    assert (found.failed, found.doubtful, found.left_out) == (["ref0", "ref4"], 2, 1)


def test_an_earlier_schema_is_told(database_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(condition_module, "head", lambda: "0099")

    assert condition_of(database_url) == Condition(Standing.BEHIND, head())


def test_a_later_schema_is_told(database_url: str, engine: Engine) -> None:
    with engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = 'zz99'"))

    assert condition_of(database_url) == Condition(Standing.NEWER, "zz99")


def test_an_empty_database_is_told(database_url: str, engine: Engine) -> None:
    with engine.begin() as connection:
        connection.execute(text("DELETE FROM alembic_version"))

    assert condition_of(database_url).standing is Standing.EMPTY


def test_a_server_that_is_away_is_told() -> None:
    assert condition_of("postgresql://nobody@127.0.0.1:9/x") == Condition(Standing.UNREACHABLE)


def test_a_missing_driver_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(_: str) -> None:
        raise ModuleNotFoundError

    monkeypatch.setattr(condition_module, "make_engine", fail)

    assert condition_of("postgresql://nobody@/x") == Condition(Standing.NO_DRIVER)


def test_looking_makes_no_database(tmp_path: Path) -> None:
    assert condition_of(f"sqlite:///{tmp_path / 'plimsoll.db'}") == Condition(Standing.ABSENT)
    assert list(tmp_path.iterdir()) == []


def test_whether_it_is_served_is_seen_from_outside(database_url: str) -> None:
    seen = [is_served(database_url)]
    with take_lock(database_url):
        seen.append(is_served(database_url))
    seen.append(is_served(database_url))

    assert seen == [False, True, False]
