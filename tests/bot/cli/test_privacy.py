"""One client's data, handed out or deleted by whoever runs the bot."""

import io
import stat
import zipfile
from pathlib import Path

import pytest
from joining import joins
from rich.console import Console
from setting_out import House

from bot.cli.privacy import erase, export
from bot.store.engine import make_engine
from bot.store.units import Units

NAME = "Zsófia Quill"


class Desk:
    """Where an operator asks; two coaches, each with a client of one name."""

    def __init__(self, url: str) -> None:
        self.out, self.wrong = io.StringIO(), io.StringIO()
        self.consoles = Console(file=self.out, width=200), Console(file=self.wrong, width=200)
        self.engine = make_engine(url)
        self.house = House(Units(self.engine))
        self.coach = self.house.coach("Marit", 100)
        self.other = self.house.coach("Orla", 900)
        for coach, user_id in ((self.coach, 777_000_201), (self.other, 777_000_901)):
            joins(self.house.invited(coach, NAME, user_id))
        self.house.delivered()


@pytest.fixture
def desk(database_url: str, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setenv("PLIMSOLL_DATABASE_URL", database_url)
    return Desk(database_url)


def test_a_client_is_handed_out_into_a_file_that_only_its_owner_reads(desk: Desk, tmp_path: Path) -> None:
    file = tmp_path / "hers.zip"

    assert export("marit", "zsofia quill", file, *desk.consoles) == 0
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    said = zipfile.ZipFile(file).read("data.json").decode()
    assert "777000201" in said
    assert "777000901" not in said
    assert export("Marit", NAME, file, *desk.consoles) == 2
    assert "is there already" in desk.wrong.getvalue()
    assert export("Marit", NAME, tmp_path / "no" / "a.zip", *desk.consoles) == 2
    assert "Cannot write" in desk.wrong.getvalue()


def test_a_client_is_deleted_once_it_is_said_twice(desk: Desk, database_url: str) -> None:
    assert erase("Marit", NAME, *desk.consoles, sure=False) == 2
    assert "Say it once more with --sure." in desk.wrong.getvalue()
    assert [one.name for one in desk.house.reading(desk.coach, lambda unit: unit.clients.everybody())] == [
        NAME
    ]

    assert erase("Marit", NAME, *desk.consoles, sure=True) == 0
    assert desk.out.getvalue().startswith("Deleted: ")
    assert desk.house.reading(desk.coach, lambda unit: unit.clients.everybody()) == []
    assert [one.name for one in desk.house.reading(desk.other, lambda unit: unit.clients.everybody())] == [
        NAME
    ]


def test_what_was_deleted_is_not_in_the_file_of_the_database(desk: Desk, database_url: str) -> None:
    erase("Orla", NAME, *desk.consoles, sure=True)
    erase("Marit", NAME, *desk.consoles, sure=True)

    path = Path(database_url.removeprefix("sqlite:///"))
    content = b"".join(each.read_bytes() for each in path.parent.glob(f"{path.name}*"))
    assert b"Marit" in content
    assert NAME.encode() not in content
    assert b"Quill" not in content


@pytest.mark.parametrize(
    ("coach", "client", "said"),
    [
        ("Nobody", NAME, "0 coaches are called Nobody. There are: Marit, Orla."),
        ("Marit", "Nobody", "0 clients of Marit are called Nobody."),
    ],
)
def test_who_is_not_known_is_said(desk: Desk, tmp_path: Path, coach: str, client: str, said: str) -> None:
    assert export(coach, client, tmp_path / "a.zip", *desk.consoles) == 1
    assert erase(coach, client, *desk.consoles, sure=True) == 1
    assert desk.wrong.getvalue() == f"{said}\n" * 2


def test_without_an_address_of_a_database_nothing_is_done(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PLIMSOLL_DATABASE_URL", "no address")
    consoles = Console(file=io.StringIO()), Console(file=io.StringIO())

    assert export("Marit", NAME, tmp_path / "a.zip", *consoles) == 2
    assert erase("Marit", NAME, *consoles, sure=True) == 2
