import pytest
from setting_out import House, Someone, block_of, plain_text
from sqlalchemy import Row, select

from bot.files.block_file import read_block
from bot.messages import Send
from bot.render.block_copies import MOST_NAMES, copy, which
from bot.store.tables import picture
from bot.store.units import Units
from bot.usecases import block_copies, setting_up
from core.errors import NoBlockYet
from core.programme.rows import BlockFile


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    house.coach("Orla", 900)
    return house.coach("Marit", 100)


def file_of(house: House, coach: Someone, effect: object) -> Row[tuple[str, bytes]]:
    assert isinstance(effect, Send)
    chosen = select(picture.c.name, picture.c.bytes).where(picture.c.id == effect.message.picture_id)
    return house.reading(coach, lambda unit: unit.connection.execute(chosen).one())


def keep(coach: Someone, name: str) -> None:
    coach.does(setting_up.block_read, setting_up.BlockRead("b.xlsx", BlockFile(block=block_of(name))))


def test_with_several_blocks_she_is_asked_which(coach: Someone) -> None:
    keep(coach, "Harbour strength")
    keep(coach, "Lower & upper")
    coach.does(block_copies.block_asked, block_copies.BlockAsked())

    assert coach.sees == "Which block? Write its name with it:\n/block Harbour strength\n/block Lower & upper"


def test_without_a_block_she_is_told_how_to_begin(coach: Someone) -> None:
    with pytest.raises(NoBlockYet):
        coach.does(block_copies.block_asked, block_copies.BlockAsked("Harbour strength"))


def test_a_second_version_is_called_so(coach: Someone) -> None:
    keep(coach, "Harbour strength")
    changed = block_of().model_copy(update={"weeks": 3})
    coach.does(setting_up.block_read, setting_up.BlockRead("b.xlsx", BlockFile(block=changed)))
    [sent] = coach.does(block_copies.block_asked, block_copies.BlockAsked("harbour strength"))

    assert isinstance(sent, Send)
    assert (sent.message.media_kind, sent.message.silent) == ("document", True)
    assert plain_text(sent.message).startswith("Harbour strength, version 2, as I have it.")


def test_a_form_that_nobody_made_is_not_sent(coach: Someone) -> None:
    [sent] = coach.does(block_copies.form_asked, block_copies.FormAsked())

    assert isinstance(sent, Send)
    assert sent.message.media_kind is None


FILES = [
    ("Lower & upper", "lower-upper.xlsx"),
    ("Größe 力", "größe-力.xlsx"),
    ("…", "block.xlsx"),
    ("x" * 90, "x" * 60 + ".xlsx"),
    ("../a/b", "a-b.xlsx"),
]


@pytest.mark.parametrize(("name", "file"), FILES)
def test_a_file_is_called_after_its_block(name: str, file: str) -> None:
    assert block_copies.file_name(name) == file


def test_names_are_cut_where_there_are_too_many() -> None:
    assert which([f"Block {number}" for number in range(MOST_NAMES + 2)]).html.endswith("\n… and 2 more.")


def test_what_a_coach_typed_is_only_text() -> None:
    assert copy("<b>", 1).startswith("<b>&lt;b&gt;</b>, as I have it.")


@pytest.mark.parametrize(
    ("asked", "name"), [("", "tide.xlsx"), (" as csv", "tide.csv"), (" AS YAML", "tide.yaml")]
)
def test_a_block_comes_back_the_same_in_the_kind_of_file_that_is_asked_for(
    house: House, coach: Someone, asked: str, name: str
) -> None:
    keep(coach, "Tide")
    [sent] = coach.does(block_copies.block_asked, block_copies.BlockAsked(f"Tide{asked}"))
    file = file_of(house, coach, sent)

    assert file.name == name
    result = read_block(file.bytes, name)
    assert isinstance(result, BlockFile)
    assert result.block == block_of("Tide")


def test_a_block_whose_name_ends_like_a_kind_is_that_block(house: House, coach: Someone) -> None:
    keep(coach, "Tide as csv")
    [sent] = coach.does(block_copies.block_asked, block_copies.BlockAsked("tide as csv"))

    assert file_of(house, coach, sent).name == "tide-as-csv.xlsx"
