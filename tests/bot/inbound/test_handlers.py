"""The real application over real HTTP to the chat network: each kind of update comes to the right use-case."""

import shutil
from pathlib import Path

import pytest
from faults.crew import ADA, BEN, BLOCK, MARIT, ORLA, go_on, open_house, street, two_crews
from sqlalchemy import func, select

from bot.localchat.faults import Fault, Kind
from bot.store.engine import make_engine
from bot.store.tables import account, inbox, outbox
from bot.store.units import Units

STRANGER = 4711


@pytest.fixture(scope="module")
def joined(sqlite_files, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("joined") / "joined.db"
    engine = make_engine(sqlite_files.copy(path))
    two_crews(Units(engine))
    engine.dispose()
    return path


class Bench:
    """A program that runs, and what it answered since one last looked."""

    def __init__(self, place, house) -> None:
        self.place, self.house = place, house
        self.phone(STRANGER)
        self.seen: dict[int, int] = {}

    def phone(self, user_id: int):
        return self.place.network.phone(user_id, "Somebody")

    async def answers(self, *user_ids: int) -> list[str]:
        """Let the program answer; what is new in each chat, in order of the chats named."""
        await go_on(self.place, self.house)
        found = []
        for user_id in user_ids:
            texts = self.place.texts(user_id)
            found += texts[self.seen.get(user_id, 0) :]
            self.seen[user_id] = len(texts)
        return found

    def states(self) -> list[str]:
        return [row[0] for row in self.place.rows(select(inbox.c.state).order_by(inbox.c.update_id))]

    def queued(self) -> int:
        return self.place.rows(select(func.count()).select_from(outbox))[0][0]


@pytest.fixture
async def bench(joined: Path, tmp_path: Path):
    shutil.copyfile(joined, tmp_path / "plimsoll.db")
    async with street(f"sqlite:///{tmp_path / 'plimsoll.db'}") as place, open_house(place) as house:
        await house.tick.run()
        found = Bench(place, house)
        await found.answers(ADA, BEN, MARIT, ORLA)
        yield found


@pytest.mark.parametrize(
    ("who", "said", "words"),
    [
        (ADA, "/help", "In a session"),
        (ADA, "/nonsense", "In a session"),
        (MARIT, "/help", "/invite"),
        (MARIT, "/invite Eir", "start="),
        (MARIT, "/assign", "Who?"),
        (ADA, "/stop", "stop"),
        (ADA, "90 8 8 8 8", "Noted: Hip thrust 90 kg × 8 8 8 8."),
        (ADA, "/log 90 8 8 8 8", "Noted: Hip thrust"),
        (ADA, "/skip", "Step-down"),
        (ADA, "/kit", "What you have to lift"),
        (ADA, "/kit bar 15\nalone yes\nrower", "This line I cannot read for sure"),
        (ADA, "/pain left knee 3", "nee"),
        (STRANGER, "/start", "invit"),
        (STRANGER, "hello", "invit"),
        (STRANGER, "/invite Eve", "Only a coach"),
        (STRANGER, "I have chest pain", "emergency number"),
    ],
)
async def test_what_is_typed_is_answered(bench, who, said, words):
    bench.phone(who).type(said)

    answers = await bench.answers(who)

    assert words in "\n".join(answers), answers
    assert bench.states() == ["done"]


async def test_a_link_s_code_binds_whoever_opens_it_and_the_invitation_is_used_up(bench):
    bench.phone(MARIT).type("/invite Eir")
    invitation = next(text for text in await bench.answers(MARIT) if "start=" in text)
    code = invitation.partition("start=")[2].split()[0]

    bench.phone(STRANGER).start(code)
    answers = await bench.answers(STRANGER)

    assert any("Go on" in str(shown.buttons) for shown in bench.phone(STRANGER).screen), answers
    bound = select(account.c.role).where(account.c.user_id == STRANGER)
    assert bench.place.rows(bound) == [("client",)]


async def test_a_tap_does_what_its_button_says_and_a_second_one_nothing(bench):
    data = next(
        data
        for shown in bench.phone(ADA).screen
        for row in shown.keys
        for text, data in row
        if text == "All done as written"
    )
    for _ in range(2):
        bench.phone(ADA).tap_data(data, bench.phone(ADA).last.message_id)

    await bench.answers(ADA)

    # One exercise is to find its load, which no tap can answer.
    assert len(bench.place.logged()) == 4 + 6 + 6 + 3
    assert bench.states() == ["done", "done"]


@pytest.mark.parametrize("data", ["nonsense", "1:zzzz:0:a:0", "2:1:0:a:0"])
async def test_a_forged_tap_does_nothing(bench, data):
    before = bench.queued()
    bench.phone(ADA).tap_data(data, bench.phone(ADA).last.message_id)

    assert await bench.answers(ADA, MARIT) == []
    assert (bench.states(), bench.queued(), bench.place.logged()) == (["done"], before, [])


async def test_another_one_s_button_does_nothing(bench):
    data = bench.phone(ADA).last.keys[0][0][1]
    bench.phone(BEN).tap_data(data, bench.phone(BEN).last.message_id)

    await bench.answers(BEN)

    assert bench.place.logged() == []


async def test_an_edited_message_corrects_what_it_said(bench):
    typed = bench.phone(ADA).type("90 8 8 8 7")
    await bench.answers(ADA)
    bench.phone(ADA).edit(typed, "90 8 8 8 8")

    await bench.answers(ADA)

    assert [row[4] for row in bench.place.logged()] == [8, 8, 8, 8]


async def test_a_block_from_the_coach_is_fetched_and_read(bench):
    bench.phone(MARIT).send_document("harbour-strength.xlsx", BLOCK.read_bytes())

    [answer, caption] = await bench.answers(MARIT)

    assert "Harbour strength" in answer
    assert caption.startswith("Harbour strength: sets a muscle by week.")
    assert bench.phone(MARIT).last.kind == "photo"


async def test_a_block_that_cannot_be_fetched_at_the_moment_is_fetched_later_and_nobody_hears_of_it(bench):
    for _ in range(4):
        bench.place.network.faults.plan(Fault(Kind.SERVER_ERROR, method="getFile"))
    bench.phone(MARIT).send_document("harbour-strength.xlsx", BLOCK.read_bytes())

    for _ in range(2):
        answers = await bench.answers(MARIT)

    assert bench.place.network.faults.planned == []
    assert [("Harbour strength" in text, "broke" in text) for text in bench.place.texts(MARIT)[-1:]] == [
        (True, False)
    ], answers


async def test_a_file_from_a_client_or_a_stranger_is_not_read_as_a_block(bench):
    bench.phone(ADA).send_document("harbour-strength.xlsx", BLOCK.read_bytes())
    bench.phone(STRANGER).send_document("harbour-strength.xlsx", BLOCK.read_bytes())

    answers = await bench.answers(ADA, STRANGER)

    assert len(answers) == 2
    assert not any("Harbour strength" in text for text in answers)
    assert bench.states() == ["done", "done"]


@pytest.mark.parametrize(
    ("send", "words"),
    [("send_photo", "a photo"), ("send_voice", "a voice message"), ("send_video", "a video")],
)
async def test_what_a_client_shows_goes_to_her_own_coach(bench, send, words):
    getattr(bench.phone(ADA), send)(b"bytes", "how does this look")

    [answer] = await bench.answers(ADA)
    # The coach's quiet hours end at 07:00 in Lisbon, which it is.
    [forwarded] = await bench.answers(MARIT)

    assert answer == "Passed on to your coach."
    assert f"Ada sends {words}" in forwarded
    assert "how does this look" in forwarded
    assert await bench.answers(ORLA) == []


async def test_a_stranger_s_photo_is_passed_on_to_nobody(bench):
    bench.phone(STRANGER).send_photo(b"bytes")

    assert len(await bench.answers(STRANGER)) == 1
    assert await bench.answers(MARIT, ORLA) == []


async def test_what_cannot_be_used_is_answered_and_settled(bench):
    who = {"id": ADA, "is_bot": False, "first_name": "Ada"}
    sticker = {
        "file_id": "s",
        "file_unique_id": "s",
        "type": "regular",
        "width": 512,
        "height": 512,
        "is_animated": False,
        "is_video": False,
    }
    chat = {"id": ADA, "type": "private", "first_name": "Ada"}
    bench.place.network.offer_raw(
        {"message": {"message_id": 9, "date": 0, "chat": chat, "from": who, "sticker": sticker}}
    )
    bench.phone(ADA).share_location(60.4, 5.3)

    assert len(await bench.answers(ADA)) == 2
    assert bench.states() == ["done", "done"]


def edited_photo(caption: str, user_id: int = ADA) -> dict[str, object]:
    who = {"id": user_id, "is_bot": False, "first_name": "Ada"}
    chat = {"id": user_id, "type": "private", "first_name": "Ada"}
    photo = [{"file_id": "p", "file_unique_id": "p", "width": 9, "height": 9}]
    said = {"message_id": 9, "date": 0, "edit_date": 1, "chat": chat, "from": who, "photo": photo}
    return {"edited_message": said | {"caption": caption}}


EDIT_NOT_PASSED_ON = "What was sent stays as it was; an edit is not passed on. Send it anew."


async def test_new_words_under_a_photo_that_was_sent_before_go_on_from_a_client_alone(bench):
    bench.phone(STRANGER).started = True
    for user_id in (ADA, MARIT, STRANGER):
        bench.place.network.offer_raw(edited_photo("from the side now", user_id))

    assert await bench.answers(ADA) == ["Passed on to your coach."]
    assert await bench.answers(MARIT) == ["Ada writes:\nfrom the side now", EDIT_NOT_PASSED_ON]
    assert [text.split(":")[0] for text in await bench.answers(STRANGER)] == [
        "I only talk with people whose coach has invited them"
    ]
    assert bench.states() == ["done"] * 3


async def test_a_stop_sign_in_new_words_under_a_photo_gets_its_text(bench):
    bench.phone(STRANGER).started = True
    for user_id in (ADA, MARIT, STRANGER):
        bench.place.network.offer_raw(edited_photo("my chest feels tight", user_id))

    answers = await bench.answers(ADA, STRANGER)
    assert [text.splitlines()[0] for text in answers if "emergency number" in text] == [
        "Stop now. This may be an emergency."
    ] * 2
    told = [text.splitlines()[0] for text in await bench.answers(MARIT)]
    assert told == ["Ada: stop sign.", EDIT_NOT_PASSED_ON]


async def test_blocking_is_noted_and_told_once_and_unblocking_undoes_it(bench):
    def reachable() -> list[tuple[bool]]:
        return bench.place.rows(select(account.c.reachable).where(account.c.user_id == ADA))

    for _ in range(2):
        bench.phone(ADA).block()
    told = await bench.answers(MARIT)
    assert reachable() == [(False,)]
    assert [("Ada" in text, "blocked" in text) for text in told] == [(True, True)]

    bench.phone(ADA).unblock()
    assert await bench.answers(MARIT, ORLA) == []
    assert reachable() == [(True,)]


async def test_what_is_said_in_a_group_is_never_answered(bench):
    who = {"id": ADA, "is_bot": False, "first_name": "Ada"}
    group = {"id": -77, "type": "group", "title": "Crew"}
    before = bench.queued()
    bench.place.network.offer_raw(
        {"message": {"message_id": 5, "date": 0, "chat": group, "from": who, "text": "90 8 8 8 8"}}
    )

    assert await bench.answers(ADA, MARIT) == []
    assert (bench.states(), bench.queued(), bench.place.logged()) == (["quarantined"], before, [])
