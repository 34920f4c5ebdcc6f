"""One week changed for one client alone: sent as a file, sent back, applied, taken back; the block stays as it is."""

from io import BytesIO
from typing import Any

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from openpyxl import load_workbook
from sqlalchemy import select

from bot.store.people import Client
from bot.store.tables import picture
from bot.store.units import Unit, Units
from bot.usecases import block_copies, media, setting_up, week_changes
from core.errors import NobodyToAssign, UnknownClient
from core.programme.catalogue import CATALOGUE
from tests.bot.usecases.new_versions import asked, harbour, look, plan, sends, steps, with_days, with_load

CLOSED = "This is settled, or can no longer be done. /change asks again."
STALE = "That button was from before. This is how things stand.\n\n"
HOLDS = "Week 3 of Harbour strength is changed for Ada alone."


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


def sees(play: Talk) -> str:
    return play.someone("Marit").sees


def newest_file(play: Talk) -> tuple[str, bytes]:
    def found(unit: Unit, _: Client) -> tuple[str, bytes]:
        query = select(picture.c.name, picture.c.bytes).order_by(picture.c.id.desc())
        row = unit.connection.execute(query).first()
        assert row is not None
        return row.name, row.bytes

    name, content = look(play, found)
    return str(name), bytes(content)


def edited(content: bytes, **cells: Any) -> bytes:
    """A file with other values in cells, such as `Sessions_E2`."""
    book = load_workbook(BytesIO(content))
    for at, value in cells.items():
        sheet, cell = at.split("_")
        book[sheet][cell] = value
    stream = BytesIO()
    book.save(stream)
    return stream.getvalue()


def send_back(play: Talk, content: bytes, name: str = "ada-week-3.xlsx") -> str:
    command = setting_up.FileSent("file", name, len(content))
    marit = play.someone("Marit")
    marit.does(setting_up.file_sent, setting_up.opened(command, content, CATALOGUE))
    return marit.sees


def week_file(play: Talk, week: int = 3) -> bytes:
    play.take(f"Marit: /change Ada, {week}")
    return newest_file(play)[1]


def test_a_week_goes_out_as_a_file_and_comes_back_the_same(play: Talk) -> None:
    play.take("Marit: /change Ada, week 1")
    name, content = newest_file(play)

    assert name == "ada-week-1.xlsx"
    assert "What was sent of it stays as it was." in sees(play)
    assert send_back(play, content) == "Week 1 of Ada is like that already. Nothing was changed."
    book = load_workbook(BytesIO(content))
    assert book.sheetnames == ["Block", "Sessions"]
    assert [[cell.value for cell in row] for row in book["Block"].iter_rows()][:3] == [
        ["Name", "Harbour strength"],
        ["Client", "Ada"],
        ["Week", 1],
    ]


def test_a_changed_week_is_hers_alone(play: Talk) -> None:
    content = week_file(play)
    assert "Load (F7):" in send_back(play, edited(content, Sessions_F7=50))
    assert "• Push, week 3: A Bench press: load 50 kg (was 60 kg)\n" in send_back(
        play, edited(content, Sessions_F7="50 kg")
    )
    steps(play, ["Marit: apply", "tick 2026-04-16 07:00"])

    assert asked(play, "bench-press") == {
        "09 unsent": "60 kg",
        "16 sent": "60 kg",
        "23 planned": "50 kg",
        "30 planned": "55 kg",
    }
    play.someone("Marit").does(block_copies.block_asked, block_copies.BlockAsked("Harbour strength"))
    block = load_workbook(BytesIO(newest_file(play)[1]))
    table = [[cell.value for cell in row] for row in block["Sessions"].iter_rows()]
    assert {row[table[0].index("Load")] for row in table if "Bench press" in row} == {"60 kg", "55 kg"}
    assert look(play, lambda unit, _: unit.blocks.newest()[0][2]) == 1


def test_a_week_whose_rows_are_those_of_the_block_again_is_no_longer_changed(play: Talk) -> None:
    content = week_file(play)
    send_back(play, edited(content, Sessions_F7="50 kg"))
    play.take("Marit: apply")
    assert "That is the block's own week again." in send_back(play, content)
    play.take("Marit: apply")
    assert sees(play) == "Week 3 of Harbour strength is as in the block again for Ada."
    assert look(play, weeks) == []
    play.take("Marit: take it back")
    assert sees(play) == "Taken back. Week 3 of Harbour strength is for Ada as it was before."
    assert look(play, weeks) == [3]


def weeks(unit: Unit, client: Client) -> list[int]:
    running = unit.blocks.running(client.id)
    assert running is not None
    return [each.week_no for each in unit.versions.weeks(running.id)]


def test_a_change_made_again_is_not_taken_back_from_its_first_card(play: Talk) -> None:
    content = week_file(play)
    send_back(play, edited(content, Sessions_F7="50 kg"))
    steps(play, ["Marit: apply", "Marit keeps [Take it back] as first"])
    send_back(play, edited(content, Sessions_F7="55 kg"))
    steps(play, ["Marit: apply", "Marit taps the old first"])

    assert sees(play) == "Something of week 3 was sent to Ada since, or it was changed again, so it stays."
    play.take("Marit: undo")
    assert "as it was before" in sees(play)
    steps(play, ["tick 2026-04-16 07:00"])
    assert asked(play, "bench-press")["23 planned"] == "50 kg"


def test_what_was_sent_of_the_week_stays(play: Talk) -> None:
    content = week_file(play, 1)
    send_back(play, edited(content, Sessions_F2="50 kg", Sessions_F7="50 kg"), "ada-week-1.xlsx")
    play.take("Marit: apply")

    assert asked(play, "bench-press")["09 planned"] == "50 kg"
    assert "A  Hip thrust  4 × 8 at 90 kg" in play.someone("Ada").sees
    play.take("Ada: /today")
    assert "A  Hip thrust  4 × 8 at 90 kg" in play.someone("Ada").sees


def test_a_later_version_keeps_the_week(play: Talk) -> None:
    send_back(play, edited(week_file(play), Sessions_F7="50 kg"))
    play.take("Marit: apply")
    newer = with_load(harbour(), "bench-press", 65)
    sends(play, with_days(newer, newer.days[0], newer.days[1], weeks=3))
    play.take("Marit: next week")
    assert "Week 3 stays as changed for Ada alone; gone from it: Lower B, Pull." in sees(play)
    steps(play, ["Marit: apply", "tick 2026-04-16 07:00"])
    assert asked(play, "bench-press")["23 planned"] == "50 kg"

    sends(play, with_days(newer, *newer.days, weeks=2))
    play.take("Marit: 2026-04-21")
    assert "Week 3, changed for Ada alone, is gone: the version is shorter." in sees(play)
    play.take("Marit: apply")
    assert all(each.split()[1] != "3" for each in plan(play))


def test_who_is_meant_must_be_clear(play: Talk) -> None:
    with pytest.raises(UnknownClient):
        play.take("Marit: /change Ben, 3")
    play.take("Marit: /change ada,")
    assert play.someone("Marit").buttons == ["Week 1", "Week 2", "Week 3", "Week 4"]
    look(play, lambda unit, ada: unit.blocks.end(ada.id, play.house.now))
    play.take("Marit: /change Ada")
    assert sees(play) == "Ada runs no block now. /assign puts a client on one."
    play.take("Marit: /change")
    assert sees(play) == "Nobody runs a block now. /assign puts a client on one."
    look(play, lambda unit, ada: unit.clients.change(ada.id, state="joining"))
    with pytest.raises(NobodyToAssign):
        play.take("Marit: /change Cleo")


def test_a_block_that_is_over_has_no_week_to_change(play: Talk) -> None:
    play.take("Marit: /change Ada")
    play.take("Marit keeps [Week 4] as last")
    play.take("tick 2026-05-06 07:00")
    play.take("Marit: /change Ada")
    assert sees(play) == "Nothing of Harbour strength is still to come for Ada."
    play.take("Marit taps the old last")
    assert sees(play) == CLOSED


def test_an_old_button_of_the_weeks_shows_what_is_still_to_come(play: Talk) -> None:
    play.take("Marit: /change Ada")
    play.take("Marit keeps [Week 1] as first")
    play.take("tick 2026-04-16 07:00")
    play.take("Marit taps the old first")

    assert sees(play).startswith(STALE + "Ada, Harbour strength:")
    assert play.someone("Marit").buttons == ["Week 2", "Week 3", "Week 4"]
    look(play, lambda unit, ada: unit.blocks.end(ada.id, play.house.now))
    play.take("Marit [Week 2]")
    assert sees(play) == CLOSED


def test_old_buttons_of_a_preview_show_how_it_stands(play: Talk) -> None:
    send_back(play, edited(week_file(play), Sessions_F7="50 kg"))
    marit = play.someone("Marit")
    marit.tap_data(marit.forged("Apply", action="u"))
    assert sees(play).startswith(STALE + "Ada, week 3 of Harbour strength, for Ada alone")
    steps(play, ["Marit keeps [Leave it] as left", "Marit [Apply]", "Marit taps the old left"])
    assert sees(play) == STALE + HOLDS
    marit.tap_data(marit.forged("Take it back", action="ok"))
    assert sees(play) == STALE + HOLDS
    steps(play, ["Marit [Take it back]", "Marit taps the old left"])
    assert sees(play) == CLOSED
    play.take("Marit: something else")
    assert "/assign puts a client on a block." in sees(play)


def test_words_that_are_no_answer_are_none(play: Talk) -> None:
    send_back(play, edited(week_file(play), Sessions_F7="50 kg"))
    play.take("Marit: something else")
    assert "/assign puts a client on a block." in sees(play)
    play.take("Marit: leave it")
    assert sees(play) == "Left. Week 3 of Ada stays as it is."


@pytest.mark.parametrize("how", ["over", "ended"])
def test_a_week_that_is_over_by_now_is_not_applied(play: Talk, how: str) -> None:
    send_back(play, edited(week_file(play), Sessions_F7="50 kg"))
    if how == "over":
        play.take("tick 2026-04-28 07:00")
    else:
        look(play, lambda unit, ada: unit.blocks.end(ada.id, play.house.now))
    play.take("Marit: apply")

    assert sees(play) == CLOSED


PROBLEMS: list[tuple[dict[str, Any], list[str]]] = [
    (
        {"Block_B2": "Ben"},
        ['Client (B2): "Ben" is not a client of yours, nor somebody whom you have invited.'],
    ),
    ({"Block_B1": "Tide"}, ['Name (B1): Ada runs Harbour strength, and this is a week of "Tide".']),
    ({"Block_B3": 9}, ["Week (B3): Week 9 cannot be changed any more. Still to come: 1, 2, 3, 4."]),
    (
        {"Block_B4": "Lower A, Push, Lower B, Pull, Core", "Sessions_A22": "Core"},
        ["Session days (B4): A changed week keeps the days of the block: Lower A, Push, Lower B, Pull."],
    ),
    (
        {"Block_B1": "Tide", "Block_B3": "x", "Sessions_D2": 77},
        ["Name (B1)", 'Week (B3): "x" is not a week of a block. Write 4, for instance.', "Sets (D2)"],
    ),
    ({"Block_B2": None}, ["Client (B2): Nothing is written here."]),
]


@pytest.mark.parametrize(("cells", "told"), PROBLEMS)
def test_every_problem_is_told_at_once(play: Talk, cells: dict[str, Any], told: list[str]) -> None:
    said = send_back(play, edited(week_file(play), **cells))

    assert f"was not taken: {len(told)} problem" in said
    assert all(each in said for each in told)


def test_a_week_of_who_runs_no_block_is_not_taken(play: Talk) -> None:
    content = week_file(play)
    look(play, lambda unit, ada: unit.blocks.end(ada.id, play.house.now))

    assert "Client (B2): Ada runs no block now. /assign puts a client on one." in send_back(play, content)


def test_a_coach_never_changes_a_week_of_another_ones_client(play: Talk) -> None:
    content = edited(week_file(play), Block_B2="Ben", Sessions_F7="50 kg")
    send_back(play, content)

    assert "not a client of yours" in sees(play)
    assert look(play, weeks, "Ben", "Orla") == []


def test_what_is_worth_another_look_is_told_beside_it(play: Talk) -> None:
    said = send_back(play, edited(week_file(play), Sessions_F7="bw"))

    assert "Worth another look\n• Sessions, row 7, Load (F7):" in said


def test_a_clients_file_is_no_week(play: Talk) -> None:
    content = week_file(play)
    ada = play.someone("Ada")
    command = setting_up.FileSent("file", "ada-week-3.xlsx", len(content))
    ada.does(media.document_sent, setting_up.opened(command, content, CATALOGUE))

    assert look(play, weeks) == []
    assert ada.does(week_changes.change_asked, week_changes.ChangeAsked("Ada"))
