from datetime import date, timedelta

import pytest
from set_up_once import set_up_once
from setting_out import House, Someone, block_of, labels, plain_text

from bot.messages import Message
from bot.render.errors import WORDING, apology
from bot.store.blocks import Assignment
from bot.store.units import Units
from bot.usecases import coach_talk, media, setting_up
from core import errors
from core.programme.problems import Code, Place, problem
from core.programme.rows import BlockFile

BOT = "plimsoll_story_bot"


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    def set_up() -> None:
        other = house.coach("Orla", 900)
        joined(house, other, "Ida", 90)
        takes(other, block_of("Orla's own"))
        house.coach("Marit", 100)

    set_up_once(house, "Marit, beside Orla's client and block", set_up)
    return house.someone(100)


def joined(
    house: House, coach: Someone, name: str, user_id: int, days: str = "mon thu", kit: str = "both"
) -> Someone:
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
        days,
        "60",
        "gym",
        kit,
        "alone",
        "longer",
    ):
        client.type(answer)
    assert client.sees.startswith("That is all. You have joined.")
    return client


def takes(coach: Someone, block) -> None:
    coach.does(setting_up.block_read, setting_up.BlockRead("block.xlsx", BlockFile(block=block)))


def running(house: House, coach: Someone, client: Someone) -> Assignment | None:
    client_id = house.client_of(coach, client).id
    return house.reading(coach, lambda unit: unit.blocks.running(client_id))


@pytest.fixture
def ada(house: House, coach: Someone) -> Someone:
    def set_up() -> None:
        joined(house, coach, "Ada", 1)
        takes(coach, block_of())

    set_up_once(house, "Ada of Marit, who has a block", set_up)
    return house.someone(1)


# Invitations


def test_an_invitation_is_a_link_ready_to_be_forwarded(house: House, coach: Someone) -> None:
    coach.does(setting_up.invite, setting_up.Invite(" Ada  Berg ", "abc234", BOT))
    about, link = [plain_text(message) for message in list(coach.screen.values())[-2:]]
    assert about == (
        "Forward the next message to Ada Berg. The link works once, until Mon 20 April. "
        "I tell you when Ada Berg has joined."
    )
    assert link == (
        "Hello Ada Berg, Marit would like to send you your training here. Open this link:\n"
        "https://t.me/plimsoll_story_bot?start=abc234\n\n"
        "Or write to @plimsoll_story_bot: /start abc234"
    )
    [kept] = house.reading(coach, lambda unit: unit.invites.open_ones(house.now))
    assert (kept.name, kept.kind, kept.expires_at) == ("Ada Berg", "client", house.now + timedelta(days=14))


@pytest.mark.parametrize("name", [None, "", "   "])
def test_an_invitation_without_a_name_says_how(house: House, coach: Someone, name: str | None) -> None:
    coach.does(setting_up.invite, setting_up.Invite(name, "abc234", BOT))
    assert coach.sees == (
        "Whom do you invite? Write the name with it: /invite Ada\n"
        "What you know already can stand behind a colon, and is only confirmed: "
        "/invite Ada: kg, 7:00, mon tue thu, Lisbon, home, dumbbells, 60 min, new\n"
        "For a client with a new account: /invite again Ada"
    )
    assert house.reading(coach, lambda unit: unit.invites.open_ones(house.now)) == []


def test_inviting_the_same_name_again_makes_the_earlier_link_useless(house: House, coach: Someone) -> None:
    coach.does(setting_up.invite, setting_up.Invite("Ada", "first", BOT))
    coach.does(setting_up.invite, setting_up.Invite("ADA", "second", BOT))
    assert "The earlier link for ADA no longer works." in plain_text(list(coach.screen.values())[-2])
    house.someone(1).start("first")
    assert "ask your coach for a link" in house.someone(1).sees
    house.someone(2).start("second")
    assert house.someone(2).sees.startswith("Joining, 1 of 15")


def test_a_name_that_a_client_has_is_not_given_twice(coach: Someone, ada: Someone) -> None:
    with pytest.raises(errors.NameTaken) as caught:
        coach.does(setting_up.invite, setting_up.Invite("ada", "abc234", BOT))
    assert caught.value.facts == {"name": "ada"}


def test_a_name_of_another_coachs_client_is_free(coach: Someone) -> None:
    coach.does(setting_up.invite, setting_up.Invite("Ida", "abc234", BOT))
    assert "?start=abc234" in coach.sees


def test_a_name_that_is_too_long_is_refused(coach: Someone) -> None:
    with pytest.raises(errors.NameTooLong):
        coach.does(setting_up.invite, setting_up.Invite("a" * 81, "abc234", BOT))


@pytest.mark.parametrize(
    ("usecase", "command"),
    [
        (setting_up.invite, setting_up.Invite("Bo", "abc234", BOT)),
        (setting_up.assign, setting_up.Assign("Ada, Harbour strength, 2026-04-13")),
        (setting_up.block_read, setting_up.BlockRead("x.xlsx", BlockFile(block=block_of("Mine")))),
    ],
)
def test_what_only_a_coach_may_do_gives_a_client_one_line(
    house: House, coach: Someone, ada: Someone, usecase, command
) -> None:
    before = house.reading(coach, lambda unit: (unit.blocks.newest(), unit.invites.open_ones(house.now)))
    ada.does(usecase, command)
    assert ada.sees == "Only a coach can do that here. Nothing was changed."
    after = house.reading(coach, lambda unit: (unit.blocks.newest(), unit.invites.open_ones(house.now)))
    assert after == before


# Blocks


def test_a_block_that_was_read_is_kept_and_shown_with_what_comes_next(house: House, coach: Someone) -> None:
    takes(coach, block_of())
    assert coach.sees.startswith("Harbour strength\n4 weeks from Monday\n2 a week: Lower, Upper")
    assert coach.sees.endswith("Kept. Next: /assign puts a client on it.")
    assert [name for _, name, _ in house.reading(coach, lambda unit: unit.blocks.newest())] == [
        "Harbour strength"
    ]


def test_a_changed_block_of_the_same_name_is_a_new_version(coach: Someone) -> None:
    takes(coach, block_of())
    takes(coach, block_of(days=("Lower", "Upper", "Row")))
    assert "Kept as version 2. Who runs an earlier one stays on it." in coach.sees


def test_warnings_are_shown_and_stop_nothing(house: House, coach: Someone) -> None:
    warning = problem(Code.DAY_EMPTY_IN_WEEK, Place(), day="<Lower>", weeks="2")
    file = BlockFile(block=block_of(), warnings=(warning,) * 60)
    coach.does(setting_up.block_read, setting_up.BlockRead("block.xlsx", file))
    assert 'The day "<Lower>" asks for nothing in week 2.' in coach.sees
    assert "more." in coach.sees
    assert len(coach.last.html) < 4096


def test_every_problem_of_a_file_is_told_and_nothing_is_kept(house: House, coach: Someone) -> None:
    problems = [
        problem(
            Code.REPS_UNREADABLE,
            Place(sheet="Sessions", row=row, column="Reps", cell=f"F{row}"),
            written="8 or so",
        )
        for row in range(2, 102)
    ]
    coach.does(setting_up.block_read, setting_up.BlockRead("bl<o>ck.xlsx", problems))
    pages = [message for key, message in coach.screen.items() if key.startswith("problems")]
    text = "\n".join(plain_text(page) for page in pages)
    assert text.startswith("bl<o>ck.xlsx was not taken: 100 problems. Put them right and send it again.")
    assert all(f"row {row}, Reps (F{row})" in text for row in range(2, 102))
    assert len(pages) > 1
    assert all(len(page.html) < 4096 for page in pages)
    assert house.reading(coach, lambda unit: unit.blocks.newest()) == []


def test_problems_past_eight_messages_are_counted(coach: Someone) -> None:
    problems = [problem(Code.MERGED, Place(sheet="Sessions", row=row), cells="A" * 90) for row in range(500)]
    coach.does(setting_up.block_read, setting_up.BlockRead("block.xlsx", problems))
    pages = [message for key, message in coach.screen.items() if key.startswith("problems")]
    assert len(pages) == 8
    assert plain_text(pages[-1]).endswith("more.")


@pytest.mark.parametrize(
    ("name", "size", "wanted", "said"),
    [
        ("plan.XLSX", 3_000_000, True, "2930 kB; up to 2048 kB is read"),
        ("plan.pdf", 100, False, '"plan.pdf" is a PDF, which I do not read. Save the block as xlsx or csv'),
        ("plan.mp3", 100, False, '"plan.mp3" is not a spreadsheet that I can read.'),
    ],
)
def test_a_file_that_was_not_opened_is_told_why(
    coach: Someone, name: str, size: int, wanted: bool, said: str
) -> None:
    command = setting_up.FileSent("f1", name, size)
    coach.does(setting_up.file_sent, command)
    assert (command.wanted, said in coach.sees) == (wanted, True)


def test_a_coachs_file_that_was_read_is_kept(house: House, coach: Someone) -> None:
    coach.does(
        setting_up.file_sent, setting_up.FileSent("f1", "b.xlsx", 10, result=BlockFile(block=block_of()))
    )
    assert len(house.reading(coach, lambda unit: unit.blocks.newest())) == 1


def test_a_clients_file_goes_to_the_coach_and_is_never_a_block(
    house: House, coach: Someone, ada: Someone
) -> None:
    before = house.reading(coach, lambda unit: unit.blocks.newest())
    file = BlockFile(block=block_of("Ada's own"))
    effects = ada.does(media.document_sent, setting_up.FileSent("f1", "b.xlsx", 10, result=file))
    assert house.reading(coach, lambda unit: unit.blocks.newest()) == before
    assert [effect.chat_id for effect in effects] == [coach.user_id, ada.user_id]


# Putting a client on a block


def test_a_coachs_plain_words_go_nowhere(house: House, coach: Someone, ada: Someone) -> None:
    seen = len(ada.screen)
    effects = coach.does(coach_talk.heard, "well done Ada")
    assert [effect.chat_id for effect in effects] == [coach.user_id]
    assert coach.sees.startswith(
        "Send me a block as a file (xlsx, csv or yaml), and I check it. /template sends you a form."
    )
    assert len(ada.screen) == seen


def test_every_mistake_of_setting_up_has_words() -> None:
    raised = [
        errors.TooFewTrainingDays(needed=3, given=2),
        errors.NameTaken(name="<Ada>"),
        errors.NameTooLong(limit=80),
        errors.NobodyToAssign(),
        errors.NoBlockYet(),
        errors.UnknownClient(written="<b>", known="Ada"),
        errors.NotJoinedYet(name="Bo"),
        errors.UnknownBlock(written="x", known="Harbour strength"),
        errors.StartUnreadable(written="soon", example="2026-04-13"),
        errors.StartOutside(written="2026-04-06", first=date(2026, 4, 7), last=date(2026, 10, 4)),
    ]
    assert {type(each) for each in raised} <= WORDING.keys()
    said: list[Message] = [apology(each) for each in raised]
    assert all(message.silent and "{" not in message.html for message in said)
    assert "<b>" not in said[5].html
    assert all(labels(message) == [] for message in said)
