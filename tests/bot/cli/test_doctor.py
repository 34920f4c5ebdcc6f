import asyncio
import sys
import zoneinfo
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from io import StringIO
from pathlib import Path
from types import SimpleNamespace

import httpx
import pytest
from rich.console import Console
from sqlalchemy import insert
from ward import Ward, examined, say_the_time

from bot.cli import machine_findings
from bot.cli.doctor import doctor
from bot.cli.findings import State
from bot.cli.platform_findings import webhook_finding
from bot.clock import WallClock
from bot.localchat.faults import Fault, Kind
from bot.settings import read_settings
from bot.store import engine as engine_module
from bot.store.engine import make_engine
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.tables import account, client, coach, inbox, outbox, rule


async def test_in_good_health_every_line_says_so(ward: Ward) -> None:
    Heartbeat(ward.url).set(Mark.FETCHED, ward.now() - timedelta(minutes=3))
    status, lines = await examined(ward)

    assert status == 0
    assert list(lines) == [
        "settings",
        "platform",
        "token",
        "webhook",
        "clock",
        "database",
        "schema",
        "writing",
        "zones of people",
        "incoming messages",
        "outgoing messages",
        "serving",
        "last good fetch",
        "time zones",
        "disk of the database",
        "folder for backups",
        "disk for backups",
        "backups",
        "",
    ]
    not_plainly_good = {name: said for name, said in lines.items() if not said.startswith("good")}
    assert not_plainly_good == {
        "serving": "plimsoll serve does not run on this database now.",
        "last good fetch": "3 min ago.",
        "": "Nothing is wrong.",
    }


async def test_what_was_never_fetched_is_said_plainly(ward: Ward) -> None:
    status, lines = await examined(ward)

    assert (status, lines["last good fetch"]) == (0, "never.")


def with_setting(**values: str) -> Callable[[Ward], None]:
    return lambda ward: ward.environ.update({f"PLIMSOLL_{name}": value for name, value in values.items()})


def without(name: str) -> Callable[[Ward], None]:
    return lambda ward: ward.environ.pop(f"PLIMSOLL_{name}") and None


def planned(kind: Kind, **values: int) -> Callable[[Ward], None]:
    return lambda ward: ward.network.faults.plan(Fault(kind, **values))  # type: ignore[arg-type]


def rows(*statements: object) -> Callable[[Ward], None]:
    return lambda ward: ward.run(*statements)


def _file(ward: Ward) -> Path:
    return ward.folder / "plimsoll.db"


def _damaged(ward: Ward) -> None:
    with _file(ward).open("r+b") as file:
        file.seek(_file(ward).stat().st_size // 2)
        file.write(b"\xff" * 20_000)


def _no_database(ward: Ward) -> None:
    _file(ward).write_bytes(b"somebody's letter " * 400)


def _emptied(ward: Ward) -> None:
    _file(ward).write_bytes(b"")


def _set_ahead(**apart: int) -> Callable[[Ward], None]:
    def plant(ward: Ward) -> None:
        ward.ahead = timedelta(**apart)

    return plant


def _backups_are(plant: Callable[[Path], object]) -> Callable[[Ward], None]:
    def planting(ward: Ward) -> None:
        for each in ward.backups.iterdir():
            each.unlink()
        plant(ward.backups)

    return planting


def _a_file_in_place_of_a_folder(folder: Path) -> None:
    folder.rmdir()
    folder.write_text("no folder")


def _old_backup(folder: Path) -> None:
    (folder / "plimsoll-20260406-030000.db").write_bytes(b"")


def _failed_backup(ward: Ward) -> None:
    Heartbeat(ward.url).set(Mark.BACKUP_FAILED, ward.now())


def _port_taken(ward: Ward) -> None:
    ward.environ["PLIMSOLL_MONITORING_PORT"] = ward.server.url.rpartition(":")[2]


HOOK = {"WEBHOOK_URL": "https://quay.example/in", "WEBHOOK_SECRET": "anchor-watch-at-the-quay"}


def _brought_elsewhere(ward: Ward) -> None:
    with_setting(**HOOK)(ward)
    ward.network.webhook = "https://elsewhere.example"


def _webhook_port_taken(ward: Ward) -> None:
    with_setting(**HOOK, WEBHOOK_PORT=ward.server.url.rpartition(":")[2])(ward)


AT = datetime(2026, 4, 6, 7, tzinfo=UTC)
ORLA = insert(coach).values(id=1, name="Orla Quill", zone="Europe/Lisbon", created_at=AT)
ADA = insert(client).values(coach_id=1, name="Ada", state="active", zone="Mars/Quay", created_at=AT)
FAILED = insert(inbox).values(
    update_id=7, kind="message", state="failed", payload="{}", reference="abcd2345", received_at=AT
)


@pytest.mark.parametrize(
    ("plant", "where", "word"),
    [
        (with_setting(TOKN="4100:anchor-watch"), "settings", "Did you mean PLIMSOLL_TOKEN?"),
        (with_setting(TICK_S="soon"), "settings", "PLIMSOLL_TICK_S cannot be used"),
        (without("TOKEN"), "token", "Set PLIMSOLL_TOKEN"),
        (with_setting(TOKEN="4100:another-anchor-watch"), "token", "the platform refused it"),
        (with_setting(TOKEN="anchor-watch"), "token", "the platform refused it"),
        (with_setting(API_URL="http://127.0.0.1:9"), "platform", "cannot be reached (ConnectError)"),
        (planned(Kind.REFUSE), "platform", "cannot be reached"),
        (planned(Kind.SERVER_ERROR, status=502), "token", "answered with HTTP 502"),
        (planned(Kind.TOO_MANY), "token", "answered with HTTP 429"),
        (
            lambda ward: setattr(ward.network, "webhook", "https://elsewhere.example"),
            "webhook",
            "deleteWebhook",
        ),
        (_brought_elsewhere, "webhook", "to another address than PLIMSOLL_WEBHOOK_URL"),
        (_webhook_port_taken, "webhook door", "Set PLIMSOLL_WEBHOOK_PORT to a free one"),
        (_set_ahead(seconds=90), "clock", "ahead of the platform's"),
        (_set_ahead(seconds=-90), "clock", "behind the platform's"),
        (lambda ward: _file(ward).unlink(), "database", "Run plimsoll migrate"),
        (_emptied, "database", "it is empty. Run plimsoll migrate"),
        (_damaged, "database", "plimsoll restore"),
        (_no_database, "database", "it is damaged"),
        (rows("UPDATE alembic_version SET version_num = 'zz99'"), "schema", "a later one has written it"),
        (rows("UPDATE alembic_version SET version_num = '0001'"), "schema", "an earlier one"),
        (_port_taken, "monitoring", "another program may hold it"),
        (
            with_setting(MONITORING_PORT="9464", MONITORING_ADDRESS="192.0.2.1"),
            "monitoring",
            "of this machine",
        ),
        (
            rows(ORLA, ADA),
            "zones of people",
            "1 of 2 people",
        ),
        (rows(FAILED), "incoming messages", "failed on 1: abcd2345."),
        (_backups_are(Path.rmdir), "folder for backups", "it is not there"),
        (_backups_are(_a_file_in_place_of_a_folder), "folder for backups", "it is not there"),
        (_backups_are(Path.exists), "backups", "there is none yet"),
        (_backups_are(_old_backup), "backups", "days old"),
        (_failed_backup, "backups", "the last one failed"),
        (with_setting(DATABASE_URL="postgresql://nobody@127.0.0.1:9/x"), "database", "cannot be reached"),
        (with_setting(DATABASE_URL="postgresql://nobody@127.0.0.1:9/x"), "backups", "pg_dump"),
    ],
)
async def test_a_planted_fault_is_found(
    ward: Ward, plant: Callable[[Ward], object], where: str, word: str
) -> None:
    plant(ward)
    status, lines = await examined(ward)

    assert status == 1
    assert word in lines[where]
    assert lines[""].endswith("to mend.")


async def test_coaches_who_cannot_be_written_to_are_counted_and_are_no_fault(ward: Ward) -> None:
    ward.run(ORLA, ORLA.values(id=2), ORLA.values(id=3))
    bound = {"role": "coach", "reachable": True}
    ward.run(insert(account).values(user_id=801, chat_id=801, coach_id=1, **bound))
    ward.run(insert(account).values(user_id=802, chat_id=802, coach_id=2, **bound | {"reachable": False}))
    status, lines = await examined(ward)

    assert (status, lines["coaches"].split(":")[0]) == (0, "2 cannot be written to")


async def test_a_database_that_cannot_be_written_is_found(
    ward: Ward, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(engine_module, "BUSY_TIMEOUT_S", 0.05)
    engine = make_engine(ward.url)
    with engine.begin():
        status, lines = await examined(ward)
    engine.dispose()

    assert status == 1
    assert "cannot be written" in lines["writing"]


async def test_a_full_disk_is_found(ward: Ward, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(machine_findings.shutil, "disk_usage", lambda _: SimpleNamespace(free=5_000_000))
    status, lines = await examined(ward)

    assert status == 1
    assert lines["disk of the database"].startswith("5 MB are free")
    assert lines["disk for backups"].startswith("5 MB are free")


async def test_a_folder_that_cannot_be_written_is_found(ward: Ward, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(**_: object) -> None:
        raise PermissionError

    monkeypatch.setattr(machine_findings.tempfile, "TemporaryFile", refuse)
    status, lines = await examined(ward)

    assert status == 1
    assert lines["folder for backups"].startswith("it cannot be written")


async def test_a_machine_without_time_zones_is_found(ward: Ward, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in {"tzdata", *(each for each in sys.modules if each.startswith("tzdata."))}:
        monkeypatch.setitem(sys.modules, name, None)
    zoneinfo.reset_tzpath([])
    zoneinfo.ZoneInfo.clear_cache()
    try:
        status, lines = await examined(ward)
    finally:
        zoneinfo.reset_tzpath()

    assert status == 1
    assert "Install the package tzdata" in lines["time zones"]


async def test_messages_in_doubt_are_counted_and_are_no_fault(ward: Ward) -> None:
    doubtful = {"chat_id": 1, "op": "send", "lane": "talk", "rank": 1, "due_at": AT, "created_at": AT}
    ward.run(insert(outbox).values(state="doubtful", key="a", **doubtful))
    status, lines = await examined(ward)

    assert (status, lines["outgoing messages"].split(" nobody")[0]) == (0, "of 1")


async def test_rules_of_coaches_that_do_not_fit_any_more_are_counted_and_are_no_fault(ward: Ward) -> None:
    ward.run(insert(coach).values(id=77, name="Orla", zone="Europe/Lisbon", created_at=AT))
    row = {"coach_id": 77, "key": "policy:miss_run", "value": {"is": 99}, "by_user_id": 1, "at": AT}
    ward.run(insert(rule).values(**row))
    status, lines = await examined(ward)

    assert (status, lines["rules of coaches"].split(" do")[0]) == (0, "1")


async def test_messages_whose_words_are_forgotten_are_no_fault_any_more(ward: Ward) -> None:
    ward.run(FAILED.values(payload=None))
    status, lines = await examined(ward)

    assert (status, lines["incoming messages"]) == (0, "good")


@pytest.mark.parametrize("time", ["", "half past two"])
async def test_a_platform_that_does_not_say_the_time_is_no_fault(ward: Ward, time: str) -> None:
    say_the_time(ward.server, time)
    status, lines = await examined(ward)

    assert (status, lines["clock"].split(":")[0]) == (0, "not looked at")


async def test_a_webhook_that_cannot_be_asked_about_is_told(ward: Ward) -> None:
    ward.network.faults.plan(Fault(Kind.SERVER_ERROR, method="getWebhookInfo"))
    status, lines = await examined(ward)

    assert (status, lines["token"]) == (1, "good")
    assert "answered with HTTP 502" in lines["webhook"]


@pytest.mark.parametrize(
    ("found", "state", "said"),
    [
        ({"url": ""}, State.TOLD, "it is not set yet. plimsoll serve sets it at its start"),
        (
            {"url": HOOK["WEBHOOK_URL"], "pending_update_count": 0, "last_error_message": "x"},
            State.GOOD,
            "it is",
        ),
        (
            {
                "url": HOOK["WEBHOOK_URL"],
                "pending_update_count": 4,
                "last_error_message": "Connection refused",
            },
            State.WRONG,
            "4 messages wait at the platform, which says of its last try: Connection refused.",
        ),
    ],
)
def test_a_webhook_is_told_as_the_platform_sees_it(found: dict[str, object], state: State, said: str) -> None:
    environ = {f"PLIMSOLL_{name}": value for name, value in HOOK.items()}
    settings = read_settings(environ, env_file=None, token_needed=False)

    line = webhook_finding(httpx.Response(200, json={"ok": True, "result": found}), settings)

    assert (line.name, line.state) == ("webhook", state)
    assert line.said.startswith(said)


async def test_postgresql_has_its_own_backups_and_that_is_no_fault_of_the_settings(ward: Ward) -> None:
    ward.environ |= {"PLIMSOLL_DATABASE_URL": "postgresql://nobody@127.0.0.1:9/x", "PLIMSOLL_BACKUP_DIR": ""}
    _, lines = await examined(ward)

    assert lines["backups"].startswith("make them with pg_dump")
    assert lines["serving"] == "not looked at: the database cannot be reached."


async def test_no_backups_at_all_are_told_and_are_no_fault(ward: Ward) -> None:
    del ward.environ["PLIMSOLL_BACKUP_DIR"]
    status, lines = await examined(ward)

    assert (status, lines["backups"].split(".")[0]) == (0, "none are made")


async def test_nobodys_name_and_no_words_are_printed(ward: Ward) -> None:
    ward.run(ORLA.values(zone="Orla Quay"), FAILED.values(payload='{"text": "knee"}'))
    out = StringIO()
    await asyncio.to_thread(doctor, Console(file=out), ward.environ, ward.now, None)

    assert [word for word in ("Orla", "knee", "Quill") if word in out.getvalue()] == []


def test_a_file_of_settings_that_is_no_text_is_found(tmp_path: Path) -> None:
    (tmp_path / ".env").write_bytes(b"PLIMSOLL_TOKEN=\xff\xfe")
    out = StringIO()

    assert doctor(Console(file=out), {}, WallClock().now, tmp_path / ".env") == 1
    assert out.getvalue().startswith("settings: the file .env cannot be read.")


@pytest.mark.parametrize(("mode", "is_told"), [(0o600, False), (0o640, True), (0o604, True)])
def test_a_file_of_settings_that_others_can_read_is_told(tmp_path: Path, mode: int, *, is_told: bool) -> None:
    file, out = tmp_path / ".env", StringIO()
    file.write_text(f"PLIMSOLL_DATABASE_URL=sqlite:///{tmp_path / 'none.db'}")
    file.chmod(mode)
    doctor(Console(file=out), {}, WallClock().now, file)

    assert ("\nfile of settings: others on this machine can read it." in out.getvalue()) is is_told
