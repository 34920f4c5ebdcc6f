import socket
from datetime import timedelta
from ipaddress import IPv4Address
from types import SimpleNamespace

import pytest
from sqlalchemy import insert
from ward import Ward, examined

from bot.monitoring.door import Door
from bot.store import engine as engine_module
from bot.store.engine import take_lock
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.tables import inbox


async def test_a_program_that_runs_is_told_and_is_no_fault(ward: Ward) -> None:
    Heartbeat(ward.url).set(Mark.FETCHED, ward.now() - timedelta(seconds=9))
    with take_lock(ward.url):
        status, lines = await examined(ward)

    assert status == 0
    assert lines["serving"] == "good (plimsoll serve runs)"
    assert lines["last good fetch"].startswith("good (")


async def test_looking_does_not_take_the_lock(ward: Ward) -> None:
    await examined(ward)

    with take_lock(ward.url):
        assert engine_module.is_served(ward.url)
    assert not engine_module.is_served(ward.url)


async def test_a_fetch_that_is_long_ago_is_a_fault_where_the_program_runs(ward: Ward) -> None:
    heartbeat = Heartbeat(ward.url)
    heartbeat.set(Mark.STARTED, ward.now() - timedelta(hours=3))
    heartbeat.set(Mark.FETCHED, ward.now() - timedelta(minutes=11))
    with take_lock(ward.url):
        status, lines = await examined(ward)

    assert status == 1
    assert lines["last good fetch"].startswith("11 min ago, and plimsoll serve runs")


async def test_a_program_that_has_just_started_may_have_fetched_nothing_yet(ward: Ward) -> None:
    Heartbeat(ward.url).set(Mark.STARTED, ward.now() - timedelta(seconds=5))
    with take_lock(ward.url):
        status, lines = await examined(ward)

    assert (status, lines["last good fetch"]) == (0, "good (never)")


@pytest.mark.parametrize(
    ("minutes", "status", "said"),
    [(14, 0, None), (16, 1, "the oldest has waited 16 min for an answer, and plimsoll serve runs.")],
)
async def test_a_message_that_waits_long_though_the_program_runs_is_found(
    ward: Ward, minutes: int, status: int, said: str | None
) -> None:
    received_at = ward.now() - timedelta(minutes=minutes)
    ward.run(insert(inbox).values(update_id=7, kind="message", state="new", received_at=received_at))
    idle = await examined(ward)
    Heartbeat(ward.url).set(Mark.FETCHED, ward.now())
    with take_lock(ward.url):
        ended, lines = await examined(ward)

    assert (idle[0], idle[1].get("waiting messages")) == (0, None)
    assert ended == status
    assert lines.get("waiting messages", "None").startswith(str(said))


async def test_what_a_program_that_was_killed_leaves_behind_is_no_lock(ward: Ward) -> None:
    (ward.folder / "plimsoll.db.lock.pid").write_text("4194303")
    status, lines = await examined(ward)

    assert (status, lines["serving"]) == (0, "plimsoll serve does not run on this database now.")


async def test_a_door_of_the_monitoring_is_asked_where_the_program_runs(ward: Ward) -> None:
    with socket.create_server(("127.0.0.1", 0)) as listening:
        port = listening.getsockname()[1]
    ward.environ["PLIMSOLL_MONITORING_PORT"] = str(port)
    Heartbeat(ward.url).set(Mark.FETCHED, ward.now())
    free = await examined(ward)
    with take_lock(ward.url):
        silent = await examined(ward)
        ward.environ["PLIMSOLL_MONITORING_PORT"] = ward.server.url.rpartition(":")[2]
        anothers = await examined(ward)

    assert free[1]["monitoring"] == f"good (port {port} is free)"
    assert silent[1]["monitoring"].startswith(f"nobody answers on port {port} (ConnectError)")
    assert "the answer is HTTP 404" in anothers[1]["monitoring"]
    assert (free[0], silent[0], anothers[0]) == (0, 1, 1)


@pytest.mark.parametrize(
    ("parts", "status", "said"),
    [({"sender": True}, 0, "good (port "), ({"sender": True, "poll": False}, 1, "on port ")],
)
async def test_a_door_that_answers_is_good_as_long_as_every_part_runs(
    ward: Ward, parts: dict[str, bool], status: int, said: str
) -> None:
    Heartbeat(ward.url).set(Mark.FETCHED, ward.now())
    async with Door(SimpleNamespace(alive=lambda: parts), "127.0.0.1", 0) as door:  # type: ignore[arg-type]
        everywhere = str(IPv4Address(0))
        ward.environ |= {
            "PLIMSOLL_MONITORING_PORT": str(door.port),
            "PLIMSOLL_MONITORING_ADDRESS": everywhere,
        }
        with take_lock(ward.url):
            ended, lines = await examined(ward)

    assert (ended, lines["monitoring"][: len(said)]) == (status, said)
