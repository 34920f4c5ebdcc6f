from pathlib import Path

from trying_out import tried_out

from bot.assembly.stage import TOKEN
from bot.localchat.uploads import PNG


async def test_a_newcomer_is_a_stranger_and_a_client_on_a_clock_of_hers(tmp_path: Path) -> None:
    async with tried_out(tmp_path) as (page, _):
        state = await page.still()
        assert state["told"] == "Monday 6 April 2026, 10:30 in Lisbon"
        assert [(each["name"], each["role"], each["unread"]) for each in state["people"]] == [
            ("Orla", "coach", 3),
            ("Ada", "client", 0),
            ("Ben", "client", 0),
            ("Kim Sayer", "stranger", 0),
        ]
        assert [(each["label"], each["when"]) for each in state["places"]] == [
            ("Next thing due", None),
            ("One hour on", "Mon 6 Apr, 11:30"),
            ("Tomorrow's session", None),
            ("Coach's digest", None),
        ]

        state = await page.does("/people/stranger/say", text="<b>hello</b>", reply_to=None)
        said, answer = await page.messages("stranger")
        assert (said["mine"], said["html"], said["text"]) == (
            True,
            "&lt;b&gt;hello&lt;/b&gt;",
            "<b>hello</b>",
        )
        assert "coach has invited them" in answer["text"]
        assert (answer["mine"], answer["local"]) == (False, "Mon 6 Apr, 10:30")
        kim = state["people"][3]
        assert (kim["unread"], kim["yours"], kim["played"]) == (1, True, False)
        assert kim["local"] == "Mon 6 Apr, 10:30"
        await page.post("/people/stranger/seen", message=answer["id"])
        assert (await page.still())["people"][3]["unread"] == 0

        orla = await page.messages("orla")
        code = orla[-1]["text"].rpartition("/start ")[2]
        await page.does("/people/ada/say", text=f"/start {code}")
        hello = (await page.messages("ada"))[-1]
        assert hello["buttons"][0][0] == {"label": "Go on", "row": 0, "place": 0}
        await page.does("/people/ada/tap", message=hello["id"], row=0, place=0)
        assert (await page.messages("ada"))[-1]["buttons"][0][0]["label"] == "I agree"
        commands = (await page.get("/state"))["people"][0]["commands"]
        assert {"name": "invite", "description": "A link for a new client"} in commands


async def test_files_go_both_ways_with_their_types(tmp_path: Path) -> None:
    picture, table = PNG + b"0" * 40, b"<script>alert(1)</script>"
    async with tried_out(tmp_path) as (page, _):
        await page.still()
        sent = [
            await page.client.post(
                "/people/ada/file",
                data={"kind": kind, "caption": "is this deep enough"},
                files={"file": file},
            )
            for kind, file in (
                ("photo", ("p.png", picture)),
                ("voice", ("v.ogg", b"voice")),
                ("document", ("../é.html", table)),
                ("film", ("f.mp4", b"film")),
                ("photo", ("p.png", b"")),
            )
        ]
        await page.still()
        shown = [each for each in await page.messages("ada") if each["mine"]]
        fetched = [await page.client.get(each["file"]["url"]) for each in shown]

    assert [each.status_code for each in sent] == [204, 204, 204, 400, 400]
    assert [(each["kind"], each["text"], each["file"]["name"]) for each in shown] == [
        ("photo", "is this deep enough", "picture.png"),
        ("voice", "is this deep enough", "voice.ogg"),
        ("document", "is this deep enough", ".._é.html"),
    ]
    assert [each.content for each in fetched] == [picture, b"voice", table]
    assert [each.headers["content-type"] for each in fetched] == [
        "image/png",
        "audio/ogg",
        "application/octet-stream",
    ]
    assert fetched[2].headers["content-disposition"] == "attachment; filename*=UTF-8''.._%C3%A9.html"


async def test_what_cannot_be_done_is_said_in_a_sentence_and_changes_nothing(tmp_path: Path) -> None:
    async with tried_out(tmp_path) as (page, trial):
        await page.still()
        before = trial.now
        refused = [
            ("/people/nobody/say", {"text": "a"}, 404, "There is nobody of that name here."),
            ("/people/ada/say", {"text": " "}, 400, "A message has 1 to 4096 characters."),
            ("/people/ada/say", {"text": "a" * 4097}, 400, "A message has 1 to 4096 characters."),
            ("/people/ada/say", {"text": 7}, 400, "What was sent could not be read."),
            (
                "/people/ada/say",
                {"text": "a", "reply_to": 99},
                400,
                "That message is not on the screen any more.",
            ),
            ("/people/ada/edit", {"message": 99, "text": "a"}, 400, "Only one's own text can be edited."),
            (
                "/people/ada/tap",
                {"message": 9, "row": 0, "place": 0},
                400,
                "That button is not there any more.",
            ),
            (
                "/people/ada/tap",
                {"message": 9, "row": True, "place": 0},
                400,
                "What was sent could not be read.",
            ),
            ("/clock", {"to": "yesterday"}, 400, "The clock cannot be moved to there."),
            ("/clock", {"to": "digest"}, 400, "Nothing like that is coming."),
            ("/people/ada", {}, 404, "There is no such page."),
        ]
        for path, body, status, words in refused:
            answer = await page.post(path, **body)
            assert (answer.status_code, answer.json()) == (status, {"problem": words}), path
        garbled = await page.client.post("/people/ada/say", content=b"[" * 50_000)
        assert garbled.json() == {"problem": "What was sent could not be read."}
        wrong = ("/people/ada/files/1", "/people/nobody/files/1", "/nothing.js", "/..%2f..%2fpyproject.toml")
        wrong += ("/people/..%2f..%2f/files/1", "/door.py", "/inside?of=secrets", "/people/nobody/messages")
        assert [(await page.client.get(path)).status_code for path in wrong] == [404] * len(wrong)
        assert (await page.client.get("/")).headers["content-type"] == "text/html; charset=utf-8"
        assert (trial.now, trial.stage and len(trial.stage.phone("ada").screen)) == (before, 0)


async def test_the_story_goes_on_for_whoever_is_not_spoken_for(tmp_path: Path) -> None:
    async with tried_out(tmp_path) as (page, trial):
        await page.still()
        await page.does("/people/ada/say", text="hello")
        moved = await page.post("/clock", to="hour")
        again = await page.post("/clock", to="hour")
        waited = await page.post("/people/stranger/say", text="hello")
        state = await page.still()
        orla = [each["text"] for each in await page.messages("orla") if each["mine"]]
        ben = await page.messages("ben")
        kim = await page.messages("stranger")

    assert (moved.status_code, again.status_code, waited.status_code) == (204, 409, 204)
    assert again.json() == {"problem": "The clock is moving already. Wait until it stands still."}
    assert state["told"].startswith("Monday 6 April 2026, 11:3")
    assert "/invite Ben" in orla
    assert not any(each.startswith("/end Ada") or each == "/help" for each in orla), "what is about hers"
    assert orla[-1] == "/phrase", "what does not fit any more is left out, with what follows"
    assert ben[-1]["buttons"][0][0]["label"] == "I agree"
    assert kim[0]["local"] == "Mon 6 Apr, 11:31", "it waited until the clock stood still"
    assert trial.hers == {"ada", "stranger"}


async def test_the_feed_tells_the_state_and_then_only_what_is_new(tmp_path: Path) -> None:
    async with tried_out(tmp_path) as (page, _):
        await page.still()
        told = []
        async for name, data in page.feed():
            told.append((name, data))
            if len(told) == 1:
                await page.post("/people/stranger/say", text="hello")
            if name == "state" and len(told) > 1 and not data["moving"]:
                break

    assert told[0][0] == "state"
    messages = [data for name, data in told if name == "messages"]
    assert {data["who"] for data in messages} == {"stranger"}
    assert [each["text"][:5] for data in messages for each in data["changed"]] == ["hello", "I onl"]
    assert [data["gone"] for data in messages] == [[]] * len(messages)
    # What is over within a tenth of a second is not told.
    doing = {data["doing"] for name, data in told if name == "state" and data["moving"]}
    assert doing <= {"Half a minute goes by for the answer."}


async def test_what_happened_is_shown_beside_it(tmp_path: Path) -> None:
    async with tried_out(tmp_path) as (page, _):
        await page.still()
        await page.does("/people/stranger/say", text="hello")
        queue = await page.get("/inside", of="queue", who="stranger")
        all_of_it = await page.get("/inside", of="queue")
        due = await page.get("/inside", of="due")
        decisions = await page.get("/inside", of="decisions", who="ada")

    assert queue["columns"] == ["When", "Between", "What", "Where it stands"]
    (row,) = queue["rows"]
    assert (row["cells"][0], row["cells"][1], row["cells"][3]) == (
        "Mon 6 Apr, 10:30",
        "to Kim Sayer",
        "arrived",
    )
    assert row["more"][0].startswith("a message; an answer; key ")
    assert row["more"][-1].startswith("I only talk with people")
    assert {each["cells"][1] for each in all_of_it["rows"]} == {"to Kim Sayer", "to Orla"}
    assert (due["title"], due["rows"], decisions["title"], decisions["rows"]) == ("Due", [], "Decisions", [])


async def test_what_is_said_during_the_opening_waits_and_the_opening_is_whole(tmp_path: Path) -> None:
    async with tried_out(tmp_path) as (page, trial):
        refused = await page.post("/clock", to="hour")
        early = await page.post("/people/orla/say", text="/help")
        await page.still()
        said = [each["text"] for each in await page.messages("orla") if each["mine"]]
        token = trial.stage.network.token if trial.stage else TOKEN

    assert (refused.status_code, early.status_code) == (409, 204)
    assert [each.split()[0] for each in said] == ["/start", "/invite", "/help"]
    assert trial.hers == {"orla"}
    assert token != TOKEN, "no other page can call the chat service that this one stands on"
