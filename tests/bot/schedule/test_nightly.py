import stat
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import insert, select, update

from bot.clock import StoryClock
from bot.messages import Message, Send
from bot.schedule.clockwork import Clockwork
from bot.schedule.nightly import Keeping, Nightly, newest_age
from bot.store import backup as backup_module
from bot.store.backup import backups_in, made_at, revision_of
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.migrate import head
from bot.store.tables import inbox, outbox
from bot.store.units import Units
from bot.usecases.writer import Writer

NIGHT = datetime(2026, 4, 6, 3, tzinfo=UTC)


class Rig:
    """The work of the night, on a clock that is moved."""

    def __init__(self, folder: Path, url: str, units: Units) -> None:
        self.folder, self.url, self.units = folder, url, units
        self.clock = StoryClock(NIGHT)
        self.heartbeat = Heartbeat(url)
        self.write = Writer()
        self.keeping: Keeping | None = Keeping(url, folder, keep=3)

    @property
    def nightly(self) -> Nightly:
        return Nightly(self.units, self.write, self.clock, self.heartbeat, self.keeping)

    @property
    def names(self) -> list[str]:
        return sorted(each.name for each in self.folder.iterdir())

    def kept_words(self) -> list[int]:
        with self.units.read(None) as house:
            query = select(inbox.c.update_id).where(inbox.c.payload.is_not(None)).order_by(inbox.c.update_id)
            return list(house.connection.execute(query).scalars())

    def add_failed(self, *ages: timedelta) -> None:
        with self.units.open(None) as house:
            for number, age in enumerate(ages):
                row = {"update_id": number, "kind": "message", "state": "failed", "payload": "{}"}
                house.connection.execute(insert(inbox).values(**row, received_at=NIGHT - age))

    def add_sent(self, coach_chat: int, to: dict[str, int]) -> None:
        """Messages that arrived: `old` three days ago, the others just now; `waiting` is still to go."""
        with self.units.open(None) as house:
            coach_id = house.coaches.add("Marit", "UTC", NIGHT)
            house.accounts.bind(coach_chat, coach_chat, coach_id, "coach")
            for key, chat_id in to.items():
                house.outbox.put(None, Send(chat_id, Message("words"), key=key), NIGHT)
            sent = update(outbox).where(outbox.c.key.not_like("%waiting"))
            house.connection.execute(sent.values(state="sent"))
            old = update(outbox).where(outbox.c.key.like("%old"))
            house.connection.execute(old.values(created_at=NIGHT - timedelta(days=3)))

    def sent(self) -> dict[str, bool]:
        """Which rows are left, and whether their words are."""
        with self.units.read(None) as house:
            rows = house.connection.execute(select(outbox.c.key, outbox.c.body).order_by(outbox.c.id))
            return {row.key.rpartition(":")[2]: row.body is not None for row in rows}


@pytest.fixture
async def rig(tmp_path: Path, database_url: str, units: Units) -> Rig:
    (tmp_path / "backups").mkdir()
    rig = Rig(tmp_path / "backups", database_url, units)
    yield rig
    rig.write.close()


async def test_a_night_leaves_one_good_backup_that_nobody_else_can_read(rig: Rig) -> None:
    await rig.nightly.run()

    assert rig.names == ["plimsoll-20260406-030000.db"]
    copy = rig.folder / rig.names[0]
    assert revision_of(copy) == head()
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    assert made_at(copy) == NIGHT


async def test_the_oldest_are_forgotten_and_files_of_others_stay(rig: Rig) -> None:
    others = ["notes.txt", "plimsoll-2026.db", "plimsoll-20260401-030000.db.bak"]
    for name in others:
        (rig.folder / name).write_text("somebody's")
    for night in range(5):
        rig.clock.move_to(NIGHT + timedelta(days=night))
        await rig.nightly.run()

    assert [each.name for each in backups_in(rig.folder)] == [
        "plimsoll-20260410-030000.db",
        "plimsoll-20260409-030000.db",
        "plimsoll-20260408-030000.db",
    ]
    assert set(others) < set(rig.names)


async def test_a_backup_that_fails_is_marked_and_costs_none_of_the_good_ones(
    rig: Rig, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    for night in range(3):
        rig.clock.move_to(NIGHT + timedelta(days=night))
        await rig.nightly.run()
    before = rig.names
    rig.clock.move_to(NIGHT + timedelta(days=3))
    monkeypatch.setattr(backup_module, "revision_of", _refuse)
    await rig.nightly.run()

    assert rig.names == before
    assert rig.heartbeat.at(Mark.BACKUP_FAILED) == rig.clock.now()
    assert [each.cause for each in caplog.records if each.msg == "backup_failed"] == ["damaged"]

    monkeypatch.undo()
    rig.clock.move_to(NIGHT + timedelta(days=4))
    await rig.nightly.run()
    assert rig.heartbeat.at(Mark.BACKUP_FAILED) is None


def _refuse(_: Path) -> str:
    raise backup_module.NotBackedUp("damaged")


async def test_a_folder_that_is_gone_is_not_made_anew(rig: Rig) -> None:
    rig.folder.rmdir()
    await rig.nightly.run()

    assert not rig.folder.exists()
    assert rig.heartbeat.at(Mark.BACKUP_FAILED) == NIGHT


async def test_words_of_failed_messages_are_forgotten_after_seven_days(rig: Rig) -> None:
    rig.add_failed(timedelta(days=7, seconds=1), timedelta(days=7), timedelta(days=1))
    await rig.nightly.run()

    assert rig.kept_words() == [1, 2]


async def test_words_are_forgotten_where_no_backups_are_made(rig: Rig) -> None:
    rig.keeping = None
    rig.add_failed(timedelta(days=8))
    await rig.nightly.catch_up()

    assert (rig.kept_words(), rig.names) == ([], [])


async def test_words_that_arrived_are_forgotten_after_two_days_and_those_to_nobody_at_once(rig: Rig) -> None:
    rig.add_sent(coach_chat=100, to={"old": 100, "fresh": 100, "to nobody": 404, "waiting": 404})
    await rig.nightly.run()

    assert rig.sent() == {"old": False, "fresh": True, "waiting": True}


async def test_a_backup_is_made_though_forgetting_fails(
    rig: Rig, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    monkeypatch.setattr("bot.store.inbox.Inbox.drop_payloads", _break)
    await rig.nightly.run()

    assert rig.names == ["plimsoll-20260406-030000.db"]
    assert "failed_messages_not_forgotten" in [each.msg for each in caplog.records]


def _break(*_: object) -> int:
    raise OSError


@pytest.mark.parametrize(("hours", "made"), [(0, 0), (25, 0), (26, 1), (80, 1)])
async def test_a_night_that_was_missed_is_made_good_at_the_start(rig: Rig, hours: int, made: int) -> None:
    await rig.nightly.run()
    rig.clock.move_to(NIGHT + timedelta(hours=hours))
    await rig.nightly.catch_up()

    assert len(rig.names) == 1 + made


async def test_the_first_start_makes_the_first_backup(rig: Rig) -> None:
    await rig.nightly.catch_up()

    assert len(rig.names) == 1


def test_the_age_of_backups_is_that_of_the_newest_with_an_instant_in_its_name(tmp_path: Path) -> None:
    for name in ("plimsoll-20260405-030000.db", "plimsoll-20260404-030000.db", "plimsoll-20269999-030000.db"):
        (tmp_path / name).write_bytes(b"")

    assert newest_age(tmp_path, NIGHT, or_else=timedelta.max) == timedelta(days=1)
    assert newest_age(tmp_path / "nowhere", NIGHT, or_else=timedelta(1)) == timedelta(1)


async def test_the_night_is_at_three_in_utc(rig: Rig) -> None:
    clockwork = Clockwork(_Still(), 15, rig.nightly)  # type: ignore[arg-type]
    trigger = clockwork._scheduler.get_job("nightly").trigger
    late_evening = datetime(2026, 7, 6, 23, 30, tzinfo=UTC)

    assert trigger.get_next_fire_time(None, late_evening) == datetime(2026, 7, 7, 3, tzinfo=UTC)


class _Still:
    async def run(self) -> None:
        """Nothing is due."""
