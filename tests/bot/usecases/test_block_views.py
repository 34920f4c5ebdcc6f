from collections.abc import Sequence

import pytest
from setting_out import House, Someone, block_of, labels, plain_text
from sqlalchemy import select

from bot.files.to_xlsx import to_xlsx
from bot.messages import Send, decode
from bot.store.tables import picture
from bot.store.units import Units
from bot.usecases import setting_up, talk
from core.programme.catalogue import CATALOGUE
from core.programme.problems import Code, Place, Problem, problem
from core.programme.rows import BlockFile
from core.programme.writing import sheets_of

WARNINGS = [problem(Code.DAY_EMPTY_IN_WEEK, Place(), day="D" * 50, weeks=week) for week in range(1, 41)]


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    orla = house.coach("Orla", 900)
    joined(house, orla, "Ida", 90, kit="both")
    return house.coach("Marit", 100)


def joined(house: House, coach: Someone, name: str, user_id: int, kit: str) -> Someone:
    client = house.invited(coach, name, user_id)
    for answer in (
        "go on",
        "agree",
        "34",
        "neither",
        "none",
        "nothing",
        "kg",
        "lisbon",
        "7:00",
        "mon thu",
        "60",
        "gym",
        kit,
        "alone",
        "longer",
    ):
        client.type(answer)
    return client


def takes(coach: Someone, warnings: Sequence[Problem] = (), drawn: bytes | None = None) -> list:
    file = BlockFile(block=block_of(), warnings=tuple(warnings))
    return list(coach.does(setting_up.block_read, setting_up.BlockRead("block.xlsx", file, drawn)))


def taps(person: Someone, data: str) -> list:
    return list(person.does(talk.tapped, talk.Tapped(decode(data))))


def test_a_block_is_its_words_and_then_its_picture(house: House, coach: Someone) -> None:
    said, photo = takes(coach, drawn=b"PNG")

    assert isinstance(said, Send)
    assert "Kept." in said.message.html
    assert (photo.message.media_kind, photo.message.silent) == ("photo", True)
    assert plain_text(photo.message).startswith("Harbour strength: sets a muscle by week.")
    rows = house.reading(
        coach,
        lambda unit: unit.connection.execute(select(picture.c.id, picture.c.coach_id, picture.c.bytes)).all(),
    )
    assert [tuple(one) for one in rows] == [(photo.message.picture_id, coach.coach_id, b"PNG")]


def test_a_block_that_nobody_drew_has_no_picture(coach: Someone) -> None:
    assert len(takes(coach)) == 1


def test_all_warnings_are_a_tap_away(coach: Someone) -> None:
    takes(coach, WARNINGS)
    assert labels(coach.last) == ["See all 40"]

    shown = taps(coach, coach.data("See all 40"))

    text = "\n".join(plain_text(one.message) for one in shown)
    assert all(f"in week {week}." in text for week in range(1, 41))
    assert len({one.key for one in shown}) == len(shown)
    assert all(len(one.message.html) < 4096 for one in shown)


def test_a_tap_again_or_by_another_does_nothing(house: House, coach: Someone) -> None:
    takes(coach, WARNINGS)
    data = coach.data("See all 40")
    coach.tap("See all 40")

    assert taps(coach, data) == []
    assert taps(house.someone(900), data) == []


def test_a_tap_of_another_revision_does_nothing(coach: Someone) -> None:
    takes(coach, WARNINGS)

    assert taps(coach, coach.forged("See all 40", revision=9)) == []  # stale


def test_what_nobody_on_the_roster_can_load_is_told(house: House, coach: Someone) -> None:
    takes(coach)
    assert "Nobody" not in coach.sees

    joined(house, coach, "Ada", 1, kit="dumbbells")
    takes(coach)
    assert "Nobody's kit loads Back squat. In its place: Goblet squat for Ada." in coach.sees

    joined(house, coach, "Ben", 2, kit="both")
    takes(coach)
    assert "Nobody" not in coach.sees


def test_a_file_is_opened_with_its_picture() -> None:
    command = setting_up.FileSent("f1", "block.xlsx", 10)
    opened = setting_up.opened(command, to_xlsx(sheets_of(block_of())), CATALOGUE)
    broken = setting_up.opened(command, b"nothing", CATALOGUE)

    assert isinstance(opened.result, BlockFile)
    assert opened.picture is not None
    assert opened.picture.startswith(b"\x89PNG")
    assert (isinstance(broken.result, list), broken.picture) == (True, None)
