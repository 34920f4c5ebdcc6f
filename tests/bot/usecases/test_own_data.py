"""Somebody's data: handed out whole, and deleted so that no value of hers is left anywhere."""

import csv
import io
import json
import zipfile
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import pytest
from joining import joins
from setting_out import House, Someone, block_of
from sqlalchemy import select

from bot.files.archive import ALL, INDEX
from bot.messages import Send
from bot.render.own_data import TABLES
from bot.store.erasing import drop_of_nobody
from bot.store.personal import client_tables
from bot.store.tables import erased, metadata, outbox, picture
from bot.store.units import Units
from bot.usecases import own_data, roster, setting_up, today
from core.programme.rows import BlockFile

NAME, USER = "Zsófia <Quill>", 777_000_777
HERS = (NAME, "Zsófia", "Quill", str(USER), "my elbow creaks")


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    house.coach("Orla", 900)
    return house.coach("Marit", 100)


@pytest.fixture
def client(house: House, coach: Someone) -> Someone:
    """Somebody with a past: sets, pain, words to her coach, a card that is open."""
    found = house.invited(coach, NAME, USER)
    joins(found)
    block = BlockFile(block=block_of())
    coach.does(setting_up.block_read, setting_up.BlockRead("block.xlsx", block))
    coach.assign(f"{NAME}, Harbour strength, 2026-04-07")
    coach.tap("Start it")
    house.now = datetime(2026, 4, 7, 7, tzinfo=UTC)
    found.does(today.today, today.Today())
    found.type("60 8 8 8")
    found.type("pain left elbow 3")
    found.type("my elbow creaks")
    coach.does(roster.roster, roster.Roster())
    house.delivered()
    return found


def zip_of(house: House, coach: Someone, effect: object) -> zipfile.ZipFile:
    assert isinstance(effect, Send)
    chosen = select(picture.c.bytes).where(picture.c.id == effect.message.picture_id)
    content = house.reading(coach, lambda unit: unit.connection.execute(chosen).scalar_one())
    return zipfile.ZipFile(io.BytesIO(content))


def everything(house: House) -> str:
    """All that the database holds, as text."""
    with house.units.read(None) as unit:
        rows = [
            str(dict(row))
            for table in metadata.sorted_tables
            for row in unit.connection.execute(select(table)).mappings()
        ]
    return "\n".join(rows)


def test_a_client_gets_all_that_is_kept_about_her(house: House, coach: Someone, client: Someone) -> None:
    [sent] = client.does(own_data.data_asked, own_data.DataAsked())
    packed = zip_of(house, coach, sent)

    data = json.loads(packed.read(ALL))
    assert data["client"][0]["name"] == NAME
    assert [(each["load"], each["unit"], each["reps"]) for each in data["logged_set"]] == [
        ("60", "kg", 8)
    ] * 3
    assert {each["site"] for each in data["body_report"]} == {"elbow"}
    lines = list(csv.DictReader(io.StringIO(packed.read("logged_set.csv").decode("utf-8-sig"))))
    assert [(each["load"], each["unit"], each["reps"]) for each in lines] == [("60", "kg", "8")] * 3
    index = packed.read(INDEX).decode()
    assert f"Data about {NAME}, as of 2026-04-07 07:00 UTC." in index
    assert sorted(packed.namelist()) == sorted([INDEX, ALL, *(f"{name}.csv" for name in data)])
    assert all(f"{name}.csv: {TABLES[name]}" in index for name in data)


def test_what_is_handed_out_is_hers_alone(house: House, coach: Someone, client: Someone) -> None:
    other = house.invited(coach, "Ben", 202)
    joins(other)
    [sent] = other.does(own_data.data_asked, own_data.DataAsked())

    packed = zip_of(house, coach, sent)
    assert [
        name for name in packed.namelist() if any(word in packed.read(name).decode() for word in HERS)
    ] == []


def test_every_table_with_a_clients_data_has_words() -> None:
    assert set(TABLES) >= {table.name for table in client_tables()}


def test_who_is_forgotten_leaves_no_value_of_hers(house: House, coach: Someone, client: Someone) -> None:
    assert all(word in everything(house) for word in ("Zsófia", str(USER), "elbow"))
    client.does(own_data.forget, own_data.Forget())
    assert client.buttons == ["Delete everything", "Keep it"]
    client.tap("Delete everything")

    assert client.sees.startswith("Everything kept about you here is deleted.")
    assert coach.sees.startswith(f"{NAME} had everything deleted")
    house.delivered()
    with house.units.open(None) as unit:
        unit.connection.execute(outbox.delete().where(outbox.c.key.like("%gone:%")))
        drop_of_nobody(unit.connection)
    left = everything(house)
    assert [word for word in (*HERS, "elbow") if word in left] == []
    tallies = house.reading(coach, lambda unit: unit.connection.execute(select(erased)).all())
    assert [(row.coach_id, row.sessions, row.sets) for row in tallies] == [(coach.coach_id, 1, 3)]


def test_whoever_was_forgotten_is_a_stranger(house: House, coach: Someone, client: Someone) -> None:
    client.does(own_data.forget, own_data.Forget("Everything"))
    client.type("8 8 8")

    assert "invit" in client.sees
    clients = house.reading(coach, lambda unit: unit.clients.roster())
    assert clients == []


def test_nothing_goes_while_she_has_not_said_so(house: House, coach: Someone, client: Someone) -> None:
    before = house.reading(coach, lambda unit: len(unit.clients.roster()))
    client.does(own_data.forget, own_data.Forget())
    data = client.data("Delete everything")
    client.tap("Keep it")
    assert client.sees == "Nothing was deleted."
    client.tap_data(data)

    assert client.sees == "Nothing was deleted."
    assert house.reading(coach, lambda unit: len(unit.clients.roster())) == before == 1


@pytest.mark.parametrize(
    ("usecase", "command"),
    [(own_data.data_asked, own_data.DataAsked()), (own_data.forget, own_data.Forget())],
)
def test_a_coach_and_a_stranger_have_no_data_of_a_client(
    house: House, coach: Someone, usecase: Callable[..., Any], command: object
) -> None:
    coach.does(usecase, command)
    assert coach.sees.startswith("That is for clients, about their own data.")
    stranger = house.someone(404)
    stranger.does(usecase, command)
    assert "invit" in stranger.sees


def test_a_name_in_what_is_on_its_way_to_her_coach_goes_too(
    house: House, coach: Someone, client: Someone
) -> None:
    coach.does(roster.roster, roster.Roster())
    assert "Zsófia" in everything(house)
    client.does(own_data.forget, own_data.Forget("everything"))

    waiting = house.reading(
        coach,
        lambda unit: (
            unit.connection.execute(
                select(outbox.c.body).where(outbox.c.state == "queued", outbox.c.key.not_like("%gone:%"))
            )
            .scalars()
            .all()
        ),
    )
    assert [body for body in waiting if body and "Zsófia" in body["html"]] == []
