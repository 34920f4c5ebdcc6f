"""Menus over HTTP: for everybody at the start, for clients and coaches once they speak; no harm where it fails."""

import pytest
from faults.crew import ADA, BEN, MARIT, go_on, open_house, street, two_crews

from bot.inbound.app import COMMANDS
from bot.localchat.faults import Fault, Kind
from bot.render.command_names import Audience, shown_to
from bot.store.engine import make_engine
from bot.store.units import Units

KNOWN = frozenset(name for name, _ in COMMANDS)
STRANGER = 4711


def names(audience: Audience) -> list[str]:
    return [name for name, _ in shown_to(audience, KNOWN)]


class Bench:
    def __init__(self, place, house) -> None:
        self.place, self.house = place, house
        house.menus.gap_s = 0.0

    async def types(self, user_id: int, text: str) -> None:
        self.place.network.phone(user_id, "Somebody").type(text)
        await go_on(self.place, self.house)
        await self.house.menus.done()

    def shown(self, user_id: int | None = None) -> list[str] | None:
        scope = "default" if user_id is None else f"chat {user_id}"
        found = self.place.network.commands.get((scope, ""))
        return None if found is None else [each["command"] for each in found]


@pytest.fixture
async def place(database_url: str):
    engine = make_engine(database_url)
    two_crews(Units(engine))
    engine.dispose()
    async with street(database_url) as found:
        yield found


async def test_each_sees_what_is_hers_once_she_has_spoken(place):
    async with open_house(place) as house:
        bench = Bench(place, house)
        await bench.types(ADA, "/help")
        await bench.types(MARIT, "/help")
        await bench.types(STRANGER, "hello")

        assert bench.shown() == names(Audience.ANYBODY)
        assert bench.shown(ADA) == names(Audience.CLIENT)
        assert bench.shown(MARIT) == names(Audience.COACH)
        assert bench.shown(BEN) is None
        assert bench.shown(STRANGER) is None


async def test_who_joins_and_who_stops_sees_another_menu(place):
    async with open_house(place) as house:
        bench = Bench(place, house)
        await bench.types(MARIT, "/invite Eir")
        link = next(text for text in place.texts(MARIT) if "start=" in text)
        await bench.types(STRANGER, f"/start {link.partition('start=')[2].split()[0]}")

        joining = bench.shown(STRANGER)
        with house.units.open(None) as unit:
            account = unit.accounts.find(STRANGER)
            unit.of(account.coach_id).clients.change(account.client_id, state="stopped")
        await bench.types(STRANGER, "hello")

        assert joining == names(Audience.JOINING)
        assert bench.shown(STRANGER) is None


async def test_a_menu_that_stands_is_left_alone_for_a_while(place):
    async with open_house(place) as house:
        bench = Bench(place, house)
        await bench.types(ADA, "/help")
        place.network.commands.clear()
        await bench.types(ADA, "/help")

        assert bench.shown(ADA) is None


@pytest.mark.parametrize("kind", [Kind.SERVER_ERROR, Kind.TOO_MANY])
async def test_a_menu_that_fails_stops_nothing_and_comes_when_she_speaks_again(place, kind):
    async with open_house(place) as house:
        bench = Bench(place, house)
        await bench.types(MARIT, "/help")
        place.network.faults.plan(Fault(kind, method="setMyCommands", retry_after=0))
        await bench.types(ADA, "/help")
        failed = bench.shown(ADA)
        await bench.types(ADA, "/help")

        assert failed is None
        assert bench.shown(ADA) == names(Audience.CLIENT)
        assert not house.failed.done()


async def test_a_store_that_is_away_stops_nothing(place, monkeypatch):
    async with open_house(place) as house:
        bench = Bench(place, house)
        monkeypatch.setattr(house.menus, "_audience", lambda _: 1 / 0)
        await bench.types(ADA, "/help")

        assert bench.shown(ADA) is None
        assert not house.failed.done()
