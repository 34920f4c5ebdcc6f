"""Who had everything deleted is in no file any more: the database, its log, and the backups once they are replaced."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

from joining import joins
from setting_out import House

from bot.clock import StoryClock
from bot.schedule.nightly import SENT_KEPT, Keeping, Nightly
from bot.store.heartbeat import Heartbeat
from bot.store.units import Units
from bot.usecases.own_data import Forget, forget
from bot.usecases.writer import Writer

NAME, USER, SAID = "Zsofia Quill", 777_000_777, "my elbow creaks"
HERS = [each.encode() for each in (NAME, "Quill", str(USER), SAID)]
NIGHT = datetime(2026, 4, 7, 3, tzinfo=UTC)


async def test_after_the_night_no_file_has_a_value_of_hers_and_backups_lose_them_by_rotation(
    database_url: str, units: Units, tmp_path: Path
) -> None:
    backups = tmp_path / "backups"
    backups.mkdir()
    house = House(units)
    coach = house.coach("Marit", 100)
    client = house.invited(coach, NAME, USER)
    joins(client)
    client.type(SAID)
    house.delivered()

    def with_hers(*words: bytes) -> set[str]:
        files = [each for each in tmp_path.rglob("*") if each.is_file()]
        return {each.parent.name for each in files if any(word in each.read_bytes() for word in words)}

    async def night(at: datetime) -> None:
        write = Writer()
        keeping = Keeping(database_url, backups, keep=1)
        await Nightly(units, write, StoryClock(at), Heartbeat(database_url), keeping).run()
        write.close()

    await night(NIGHT)
    assert "backups" in with_hers(NAME.encode())

    client.does(forget, Forget("everything"))
    house.delivered()
    # What tells her coach of it has her name in it, until its words are forgotten too.
    await night(NIGHT + SENT_KEPT + timedelta(days=1))

    assert with_hers(b"Marit") == {tmp_path.name, "backups"}
    assert with_hers(*HERS) == set()
