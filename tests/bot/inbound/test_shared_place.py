from pathlib import Path

import pytest
from faults.crew import ADA, go_on, open_house, street, two_crews
from sqlalchemy import select

from bot.inbound.shared_place import zone_at
from bot.store.engine import make_engine
from bot.store.tables import client, inbox
from bot.store.units import Units

# Cities and their zones as the time zone database [TZDB] names them; coordinates from memory, to a tenth of a degree.
PLACES = [
    (38.7, -9.1, "Europe/Lisbon"),
    (60.4, 5.3, "Europe/Oslo"),
    (40.7, -74.0, "America/New_York"),
    (27.7, 85.3, "Asia/Kathmandu"),
    (-33.9, 151.2, "Australia/Sydney"),
]


@pytest.mark.parametrize(("latitude", "longitude", "zone"), PLACES)
def test_a_place_has_the_clock_of_its_zone(latitude: float, longitude: float, zone: str) -> None:
    assert zone_at(latitude, longitude) == zone


@pytest.mark.parametrize(("latitude", "longitude"), [(0.0, -30.0), (91.0, 0.0), (0.0, 200.0)])
def test_at_sea_and_off_the_earth_there_is_no_clock(latitude: float, longitude: float) -> None:
    assert zone_at(latitude, longitude) is None


async def test_a_shared_place_asks_for_its_clock_and_is_not_kept(sqlite_files, tmp_path: Path) -> None:
    engine = make_engine(sqlite_files.copy(tmp_path / "plimsoll.db"))
    two_crews(Units(engine))
    engine.dispose()
    async with street(f"sqlite:///{tmp_path / 'plimsoll.db'}") as place, open_house(place) as house:
        place.phone(ADA).share_location(60.4, 5.3)
        await go_on(place, house)
        zones = place.rows(select(client.c.zone).distinct())
        kept = place.rows(select(inbox.c.state, inbox.c.payload))
        asked = place.texts(ADA)[-1]

    assert asked.startswith("Tap the city whose clock is yours.")
    assert zones == [("Europe/Lisbon",)]
    assert kept == [("done", None)]
