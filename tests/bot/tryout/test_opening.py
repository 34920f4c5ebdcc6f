from importlib.resources import as_file, files
from pathlib import Path

from trying_out import tried_out

from bot.files.block_file import read_block
from bot.tryout.block_opening import block_opening
from bot.tryout.opening import story_opening
from core.programme.rows import BlockFile

BLOCK = Path(__file__).parents[2] / "blocks" / "harbour-strength.xlsx"


async def test_the_story_opens_on_a_morning_and_its_digest_is_one_button_away(tmp_path: Path) -> None:
    with as_file(files("demo_scenario")) as scenario:
        async with tried_out(tmp_path, story_opening(scenario), scenario) as (page, _):
            state = await page.still()
            assert state["told"] == "Wednesday 15 April 2026, 07:05 in Oslo"
            assert {each["name"]: each["unread"] for each in state["people"] if each["unread"]} == {
                "Tom": 1,
                "Maya": 1,
            }
            assert [(each["key"], each["when"]) for each in state["places"]] == [
                ("due", "Thu 16 Apr, 17:00"),
                ("hour", "Wed 15 Apr, 08:05"),
                ("session", "Thu 16 Apr, 17:00"),
                ("digest", "Sun 19 Apr, 18:00"),
            ]
            card = (await page.messages("tom"))[-1]
            assert card["buttons"][0][0]["label"] == "All done as written"
            assert "<b>Dumbbell bench press</b>" not in card["html"]
            await page.does("/people/tom/tap", message=card["id"], row=0, place=0)
            asked = (await page.messages("tom"))[-1]
            assert (asked["edited"], asked["buttons"][0][0]["label"]) == (True, "Nothing hurts")
            decisions = await page.get("/inside", of="decisions", who="tom")
            due = await page.get("/inside", of="due", who="tom")

            state = await page.does("/clock", to="digest")
            digest, picture = (await page.messages("marit"))[-2:]
            toms = [each["text"] for each in await page.messages("tom") if each["mine"]]

    squat = next(each for each in decisions["rows"] if each["cells"][1] == "Goblet squat")
    assert any("left knee: 4 of 10" in line for line in squat["more"])
    assert any(line.startswith("Rests on: ") for line in squat["more"])
    assert due["rows"][0]["cells"][1:] == ["Tom", "session: Press day, week 1", "under way"]
    assert state["told"] == "Sunday 19 April 2026, 18:00 in Oslo"
    assert "Ingrid: kept 4 of 4." in digest["text"]
    assert (picture["kind"], picture["file"]["name"]) == ("photo", "picture.png")
    assert toms[-1] == "Quiet on the stairs too.", "Tom is spoken for: the story has him say nothing more"


async def test_a_block_of_ones_own_opens_on_the_morning_of_its_first_session(tmp_path: Path) -> None:
    read = read_block(BLOCK.read_bytes(), BLOCK.name)
    assert isinstance(read, BlockFile)
    async with tried_out(tmp_path, block_opening(read.block, BLOCK.name, BLOCK.read_bytes())) as (page, _):
        state = await page.still()
        after = await page.does("/clock", to="due")
        cards = [(await page.messages(key))[-1]["text"] for key in ("alma", "iver")]

    assert state["told"] == "Monday 13 April 2026, 06:55 in Lisbon"
    assert [(each["name"], each["role"]) for each in state["people"]] == [
        ("Runa Vik", "coach"),
        ("Alma", "client"),
        ("Iver", "client"),
        ("Kim Sayer", "stranger"),
    ]
    assert state["places"][0]["when"] == "Mon 13 Apr, 07:00"
    assert after["told"] == "Monday 13 April 2026, 07:00 in Lisbon"
    assert all("Mon 13 April" in each for each in cards)
