"""`plimsoll serve` when it cannot go on: its status, and what it says."""

from datetime import UTC, datetime
from io import StringIO

import pytest
from rich.console import Console

from bot.assembly import watch
from bot.assembly.refusals import TokenRefused
from bot.assembly.watch import FetchingDied, PartEnded
from bot.cli import serving
from bot.clock import StoryClock
from bot.localchat.faults import Fault, Kind
from bot.localchat.network import Network
from bot.localchat.server import Server
from bot.settings import Settings, read_settings
from bot.store.engine import is_served
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.units import Units

NOW = datetime(2026, 4, 6, 7, tzinfo=UTC)
TOKEN = "4100:story"


def settings_for(url: str, server: Server, token: str = TOKEN, silence_s: float = 0.3) -> Settings:
    environ = {
        "PLIMSOLL_TOKEN": token,
        "PLIMSOLL_DATABASE_URL": url,
        "PLIMSOLL_API_URL": server.url,
    }
    # Less than an operator may set, so that the test need not wait for minutes.
    return read_settings(environ, env_file=None).model_copy(update={"silence_s": silence_s})


async def test_a_program_whose_fetches_fail_stops_by_itself_and_tells_the_coach(
    database_url: str, units: Units, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(watch, "LOOK_S", 0.05)
    network = Network(StoryClock(NOW), TOKEN)
    network.phone(801, "Orla").start()
    with units.open(None) as unit:
        unit.accounts.bind(801, 801, unit.coaches.add("Orla", "Europe/Lisbon", NOW), "coach")
    async with Server(network) as server:
        network.faults.plan(Fault(Kind.CONFLICT, method="getUpdates", times=10_000))
        with pytest.raises(FetchingDied):
            await serving._serve(settings_for(database_url, server))

    told = [each.text for each in network.record if each.sender == "bot"]
    assert [text.splitlines()[0] for text in told] == ["Plimsoll stops: it gets no messages any more."]
    assert Heartbeat(database_url).at(Mark.STARTED) is not None
    assert Heartbeat(database_url).at(Mark.FETCHED) is None


async def test_a_token_that_is_refused_later_is_told_as_such(database_url: str) -> None:
    network = Network(StoryClock(NOW), TOKEN)
    async with Server(network) as server:
        with pytest.raises(TokenRefused):
            await serving._serve(settings_for(database_url, server, token="4100:another"))


@pytest.mark.parametrize(
    ("reason", "status", "said"),
    [
        (FetchingDied(660.0), 3, "Stopped: no message could be taken in for 11 minutes."),
        (PartEnded("worker", "KeyError"), 3, "Stopped: the worker ended by itself (KeyError)."),
        (TokenRefused(), 2, "The platform refused the token."),
    ],
)
def test_the_reason_is_on_stderr_and_in_the_status(
    database_url: str, monkeypatch: pytest.MonkeyPatch, reason: Exception, status: int, said: str
) -> None:
    async def end(_: Settings) -> None:
        assert is_served(database_url)
        raise reason

    monkeypatch.setenv("PLIMSOLL_TOKEN", TOKEN)
    monkeypatch.setenv("PLIMSOLL_DATABASE_URL", database_url)
    monkeypatch.setattr(serving, "_serve", end)
    monkeypatch.setattr(serving, "configure", lambda _: None)
    errors = StringIO()

    assert serving.serve(Console(file=errors, width=200)) == status
    assert errors.getvalue().startswith(said)
    assert not is_served(database_url)


@pytest.mark.parametrize(
    ("environ", "made"),
    [
        ({}, False),
        ({"PLIMSOLL_BACKUP_DIR": "backups"}, True),
        ({"PLIMSOLL_BACKUP_DIR": "backups", "PLIMSOLL_DATABASE_URL": "postgresql://nobody@/x"}, False),
    ],
)
def test_backups_are_made_of_sqlite_where_there_is_a_folder(environ: dict[str, str], made: bool) -> None:
    settings = read_settings(environ, env_file=None, token_needed=False)

    assert (serving.keeping_of(settings) is not None) is made
