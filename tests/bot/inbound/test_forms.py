"""A coach who never saw the tool asks for the form, fills it in, mends what is named, and gives it to a client.

Over HTTP, by what the bot says and no other paper.
"""

import re
from collections.abc import AsyncIterator
from io import BytesIO
from pathlib import Path

import pytest
from faults.crew import ADA, ADAS, MARIT, ORLA, Street, go_on, open_house, street, two_crews
from openpyxl import Workbook, load_workbook
from sqlalchemy import select

from bot.files.block_file import read_block
from bot.files.template import template
from bot.localchat.screen import Shown
from bot.store.engine import make_engine
from bot.store.tables import last_load, picture
from bot.store.units import Units
from core.programme.rows import BlockFile


class Chat:
    """Somebody's phone, and what the bot answers on it."""

    def __init__(self, place: Street, house: object, user_id: int) -> None:
        self.place, self.house, self.phone = place, house, place.phone(user_id)

    async def answers(self) -> list[Shown]:
        seen = len(self.phone.screen)
        await go_on(self.place, self.house)
        return [shown for shown in self.phone.screen[seen:] if not shown.mine]

    async def types(self, text: str) -> list[Shown]:
        self.phone.type(text)
        return await self.answers()

    async def taps(self, label: str) -> list[Shown]:
        self.phone.tap(label)
        return await self.answers()

    async def sends(self, name: str, book: Workbook) -> list[Shown]:
        stream = BytesIO()
        book.save(stream)
        self.phone.send_document(name, stream.getvalue())
        return await self.answers()


@pytest.fixture
async def chats(database_url: str, tmp_path: Path) -> AsyncIterator[dict[int, Chat]]:
    engine = make_engine(database_url)
    two_crews(Units(engine))
    engine.dispose()
    async with street(database_url) as place, open_house(place) as house:
        await house.tick.run()
        await go_on(place, house)
        yield {user_id: Chat(place, house, user_id) for user_id in (MARIT, ORLA, ADA)}


ROWS = (
    ("Tuesday", "A", "Hip thurst", None, 4, "10-8", "80 kg"),
    ("Tuesday", "B", "Push-up", None, 3, "8-12", "bw"),
    ("Friday", "A", "Goblet squat", None, 3, "8-10", "16 kg"),
    ("Friday", "B", "Pull-up", None, 3, "4-6", "bw"),
)


async def test_a_coach_fills_in_the_form_mends_what_is_named_and_assigns_it(chats: dict[int, Chat]) -> None:
    marit = chats[MARIT]
    [told] = await marit.types("/help")
    assert "/template sends a form to fill in" in told.text

    [form] = await marit.types("/template")
    assert (form.kind, form.file) == ("document", template())
    assert form.text.startswith("Open it, write over the examples, and send it back to me.")

    book = load_workbook(BytesIO(form.file or b""))
    block, sessions = book["Block"], book["Sessions"]
    block["B1"] = "Slipway autumn"
    for column, day in enumerate(("Tuesday", "Friday", None, None), 2):
        block.cell(4, column).value = day
    for label in ("Phases", "Targets"):
        next(row[1] for row in block.iter_rows() if row[0].value == label).value = None
    sessions.delete_rows(2, sessions.max_row)
    for row in ROWS:
        sessions.append(row)
    [problems] = await marit.sends("slipway.xlsx", book)
    assert problems.text == (
        "slipway.xlsx was not taken: 2 problems. Put them right and send it again.\n\n"
        '• Sessions, row 2, Exercise (C2): "Hip thurst" is not in the catalogue. Did you mean Hip thrust?\n'
        '• Sessions, row 2, Reps (F2): "10-8" runs from more to fewer. Write 8-10.'
    )

    for cell, said in re.findall(r"\(([A-Z]+\d+)\).*?(?:Did you mean|Write) ([\w -]+)[?.]", problems.text):
        sessions[cell] = said
    kept = await marit.sends("slipway.xlsx", book)
    assert kept[0].text.startswith("Slipway autumn")
    assert "Kept. Next: /assign puts a client on it." in kept[0].text

    await marit.types("/assign Ada, Slipway autumn, 2026-05-05")
    await marit.taps("Start it")
    assert any("Slipway autumn" in shown.text for shown in marit.phone.screen[-2:])

    [copy] = await marit.types("/block slipway AUTUMN")
    result = read_block(copy.file or b"", "copy.xlsx")
    assert isinstance(result, BlockFile)
    assert [day.name for day in result.block.days] == ["Tuesday", "Friday"]
    assert copy.text == "Slipway autumn, as I have it. Change it and send it back: that makes a new version."


async def test_a_block_is_sent_back_to_its_own_coach_alone(chats: dict[int, Chat]) -> None:
    [only] = await chats[ORLA].types("/block")
    [unknown] = await chats[MARIT].types("/block Bilge")
    [_, client] = await chats[ADA].types("/block Harbour strength")

    assert (only.kind, only.text.split(",")[0]) == ("document", "Harbour strength")
    assert unknown.text == "I know no block called Bilge. Yours: Harbour strength. Nothing was changed."
    assert (client.kind, client.text) == ("text", "Only a coach can do that here. Nothing was changed.")


async def test_the_form_is_for_coaches_alone(chats: dict[int, Chat]) -> None:
    [_, answer] = await chats[ADA].types("/template")

    assert (answer.kind, answer.text) == ("text", "Only a coach can do that here. Nothing was changed.")
    assert chats[ADA].place.rows(select(picture.c.id)) == []


async def test_a_file_that_is_no_spreadsheet_is_told_what_to_send(chats: dict[int, Chat]) -> None:
    marit = chats[MARIT]
    marit.phone.send_document("plan.pdf", b"%PDF-1.7")
    [pdf] = await marit.answers()
    marit.phone.send_document("plan", b"%PDF-1.7")
    [nameless] = await marit.answers()

    assert (
        '"plan.pdf" is a PDF, which I do not read. Save the block as xlsx or csv and send that file.'
        in pdf.text
    )
    assert '"plan" is a PDF, which I do not read.' in nameless.text


async def test_a_coach_fills_in_last_loads_and_keeps_them_for_her_own_client(chats: dict[int, Chat]) -> None:
    marit = chats[MARIT]
    [form] = await marit.types("/lastloads")
    book = load_workbook(BytesIO(form.file or b""))
    assert [row[0].value for row in book["Client names"].iter_rows(min_row=2)] == ["Ada"]

    book["Last loads"].append(["Ada", "Hip thrust", "90 kg", 8, "2026-04-02"])
    [shown] = await marit.sends("last-loads.xlsx", book)
    assert "Ada\nHip thrust 90 kg × 8, Thu 2 April" in shown.text
    await marit.taps("Keep")

    assert marit.phone.screen[-1].text.startswith("Kept: 1 last load of 1 person.")
    assert marit.place.rows(select(last_load.c.client_id, last_load.c.exercise)) == [(ADAS, "hip-thrust")]
    [_, client] = await chats[ADA].types("/lastloads")
    assert client.text == "Only a coach can do that here. Nothing was changed."


async def test_a_coach_sets_a_daily_prep_and_a_clip_and_mends_what_was_not_understood(
    chats: dict[int, Chat],
) -> None:
    marit = chats[MARIT]
    [unread] = await marit.types("/prep Ada: hips, bakc")
    [back] = await marit.types("/prep Ada: hips, low back")
    [drill] = await marit.types("/clip ankel rock https://clips.example/a")
    [address] = await marit.types("/clip ankle rock clips")
    [kept] = await marit.types("/clip ankle rock https://clips.example/a")

    assert unread.text.startswith("I could not read bakc. Write for instance ")
    assert back.text.startswith("Ada, every day: hip, low back")
    assert drill.text.startswith("I know no prep drill called ankel rock. There is: Ankle rock.")
    assert address.text.startswith("clips is not the address of a page.")
    assert kept.text.startswith("Kept: Ankle rock is shown at https://clips.example/a.")


async def test_a_coach_adds_an_exercise_of_hers_by_the_form_and_a_cue_to_it(chats: dict[int, Chat]) -> None:
    marit, orla = chats[MARIT], chats[ORLA]
    told, form = await marit.types("/exercises")
    assert told.text.startswith("You have added no exercises yet.")

    book = load_workbook(BytesIO(form.file or b""))
    book["My exercises"].append(["Wharf squat", "", "squat", "stack", "dumbbell"])
    [problems] = await marit.sends("mine.xlsx", book)
    assert problems.text.endswith(
        "• My exercises, row 3, Load counted (D3): What is lifted with dumbbell is not counted stack. "
        "Write total or per hand."
    )
    book["My exercises"]["D3"] = "total"
    [kept] = await marit.sends("mine.xlsx", book)
    assert kept.text.startswith("Kept: 1 exercise of yours.\n\nNew\nWharf squat: squat, dumbbell, total")

    [cue] = await marit.types("/cue ada, wharf squat, left knee: slower: count to three")
    assert cue.text.startswith("Ada, wharf squat, pain at the left knee\nslower: count to three\n")
    await marit.taps("Undo")
    [none] = await marit.types("/cues")
    assert none.text.startswith("No cue of yours stands.")

    [_, again] = await marit.types("/exercises")
    assert "Wharf squat" in {
        row[0].value for row in load_workbook(BytesIO(again.file or b""))["My exercises"]
    }
    [unknown] = await orla.types("/cue wharf squat: slow")
    assert unknown.text.startswith("I do not know what “wharf squat” is about")
    [out] = await marit.types("/exercises remove wharf squat")
    assert out.text.startswith("Wharf squat is out")
    [_, client] = await chats[ADA].types("/exercises")
    assert (client.kind, client.text) == ("text", "Only a coach can do that here. Nothing was changed.")


async def test_a_coach_says_what_her_own_client_must_not_do(chats: dict[int, Chat]) -> None:
    marit, orla = chats[MARIT], chats[ORLA]
    [kept] = await marit.types("/limits Ada: no overhead, no jumping")
    [other] = await orla.types("/limits Ada: none")
    [standing] = await marit.types("/limits Ada")

    assert kept.text.startswith("Ada: no arms overhead, no jumping.")
    assert "no arms overhead" not in other.text
    assert standing.text == "Ada: no arms overhead, no jumping."
