"""One message to several: whom it reaches, what can still be stopped, and how it is paced."""

from datetime import timedelta

import pytest
from dialogs.talks import Talk
from sqlalchemy import select

from bot.messages import Send
from bot.store.tables import outbox
from bot.store.units import Units
from bot.usecases import media
from bot.usecases.block_files import FileSent
from bot.usecases.forwarding import MediaSent
from bot.usecases.telling_many import LONGEST, TellSaid, tell_said


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def tells(play: Talk, text: str, who: str = "Marit") -> str:
    person = play.someone(who)
    person.does(tell_said, TellSaid(text))
    return person.sees


def states(play: Talk, begins: str = ":from-coach:") -> list[tuple[str, str, bool]]:
    with play.units.read(None) as unit:
        query = select(outbox.c.state, outbox.c.lane, outbox.c.unasked).where(outbox.c.key.contains(begins))
        return [tuple(row) for row in unit.connection.execute(query.order_by(outbox.c.id))]


def change(play: Talk, **values: object) -> None:
    marit = play.someone("Marit")
    client = play.house.client_of(marit, play.someone("Ada"))
    play.house.reading(marit, lambda unit: unit.clients.change(client.id, **values))


def test_within_the_minute_it_is_stopped_and_nothing_goes_out(play: Talk) -> None:
    tells(play, "all: hello")
    marit = play.someone("Marit")
    marit.tap("Send")
    assert states(play) == [("queued", "bulk", False)]
    sent = [each for each in play.house.sends if each.chat_id == 1][-1]
    assert sent.due_at == play.house.now + timedelta(minutes=1)

    play.house.now += timedelta(seconds=59)
    marit.tap("Stop it")

    assert marit.sees == "Stopped. Nothing went out to Ada."
    assert states(play) == [("cancelled", "bulk", False)]


def test_after_the_minute_it_is_out(play: Talk) -> None:
    tells(play, "all: hello")
    marit = play.someone("Marit")
    marit.tap("Send")
    play.house.now += timedelta(minutes=1)
    marit.type("stop it")

    assert marit.sees.startswith("The minute is over")
    assert states(play) == [("queued", "bulk", False)]


def test_send_twice_sends_once(play: Talk) -> None:
    tells(play, "all: hello")
    marit = play.someone("Marit")
    old = marit.data("Send")
    marit.tap("Send")
    marit.tap_data(old)
    marit.type("send")

    assert len(states(play)) == 1


@pytest.mark.parametrize(
    ("whom", "values", "reached"),
    [
        ("paused", {"state": "paused"}, True),
        ("paused", {}, False),
        ("quiet", {"heard_at": None}, False),
        ("block harbour strength", {}, True),
        ("in pain", {}, False),
        ("ALL", {"state": "paused"}, True),
        ("Ada, ada", {}, True),
    ],
)
def test_a_filter_reaches_whom_it_names(
    play: Talk, whom: str, values: dict[str, object], reached: bool
) -> None:
    if values:
        change(play, **values)

    said = tells(play, f"{whom}: hello")

    assert said.startswith("To 1 person: Ada.") is reached
    assert reached or "Nothing was sent" in said


def test_who_has_said_nothing_for_a_week_is_quiet_and_who_told_of_pain_is_in_pain(play: Talk) -> None:
    play.take("Ada: pain left knee 4")
    assert tells(play, "in pain: hello").startswith("To 1 person: Ada.")

    play.house.now += timedelta(days=8)
    assert tells(play, "quiet: hello").startswith("To 1 person: Ada.")
    assert "Nobody is in" in tells(play, "in pain: hello")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("all", "Whom, a colon"),
        ("all:", "Whom, a colon"),
        (": hello", "Whom, a colon"),
        ("block Nowhere: hello", "I cannot tell whom “Nowhere” means."),
        ("Ada, : hello", "I cannot tell whom"),
        ("Ada, Ben: hello", "I cannot tell whom “Ben” means."),
        (f"all: {'a' * (LONGEST + 1)}", "3001 characters"),
    ],
)
def test_what_is_not_clear_is_asked_and_nothing_is_sent(play: Talk, text: str, said: str) -> None:
    assert tells(play, text).startswith(said)
    assert states(play) == []


def test_who_cannot_be_reached_is_named_and_left_out(play: Talk) -> None:
    play.take("Ada blocks the bot")

    assert "Not to Ada: I cannot reach them." in tells(play, "all: hello")


def test_in_a_clients_night_it_makes_no_sound(play: Talk) -> None:
    play.house.now = play.house.now.replace(hour=22)
    tells(play, "all: hello")
    marit = play.someone("Marit")
    marit.tap("Send")

    assert [each.message.silent for each in play.house.sends if each.chat_id == 1][-1]
    assert "It is night for 1 of them" in marit.sees


def test_a_picture_goes_with_the_command_under_it_and_in_place_of_the_words(play: Talk) -> None:
    marit = play.someone("Marit")
    marit.does(media.media_sent, MediaSent("photo", "file1", "/tell Ada: the rack"))
    assert "Marit sends a photo." in marit.sees
    marit.tap("Change")
    marit.does(media.media_sent, MediaSent("voice", "file2", ""))
    effects = marit.does(media.media_sent, MediaSent("voice", "file3", ""))
    assert isinstance(effects[0], Send)
    assert marit.sees.startswith("For whom is that?")
    marit.type("send")

    sent = [each.message for each in play.house.sends if each.chat_id == 1][-1]
    assert (sent.media_kind, sent.file_id) == ("voice", "file2")


def test_a_file_goes_with_the_command_under_it_and_in_place_of_the_words(play: Talk) -> None:
    marit = play.someone("Marit")
    file = FileSent("file1", "week.xlsx", 900, "/tell all: the new week", album="7")
    marit.does(media.document_sent, file)
    assert "Marit sends a file (week.xlsx).\nthe new week" in marit.sees
    assert "and not what you sent together with it" in marit.sees
    marit.tap("Change")
    marit.does(media.document_sent, FileSent("file2", "rules.pdf", 900))
    marit.tap("Send")
    assert states(play) == [("queued", "bulk", False)]
    sent = [each.message for each in play.house.sends if each.chat_id == 1][-1]
    assert (sent.media_kind, sent.file_id, sent.html) == ("document", "file2", "<b>Marit</b> sends a file.")
    marit.tap("Stop it")
    assert states(play) == [("cancelled", "bulk", False)]


def test_a_clients_file_with_the_command_under_it_goes_to_her_coach_alone(play: Talk) -> None:
    play.someone("Ada").does(media.document_sent, FileSent("file1", "a.pdf", 900, "/tell all: hello"))
    assert states(play) == []
    assert play.someone("Marit").sees.startswith("Ada sends a file (a.pdf)")


def test_new_words_that_are_too_long_are_asked_for_again(play: Talk) -> None:
    tells(play, "all: hello")
    marit = play.someone("Marit")
    marit.type("change")
    marit.type("b" * (LONGEST + 1))
    assert "characters; up to" in marit.sees
    marit.type("short")

    assert "short" in marit.sees
    marit.tap("Never mind")
    assert marit.sees == "All right, nothing was sent."


def test_old_buttons_show_how_it_stands(play: Talk) -> None:
    tells(play, "all: hello")
    marit = play.someone("Marit")
    send, never = marit.data("Send"), marit.data("Never mind")
    marit.tap("Change")
    marit.tap_data(send)
    assert marit.buttons == ["Send", "Change", "Never mind"]
    marit.tap("Send")
    marit.tap_data(never)
    assert marit.buttons == ["Stop it"]
    stop = marit.data("Stop it")
    marit.type("stop it")
    marit.tap_data(stop)
    assert marit.sees.startswith("Stopped.")


def test_only_a_coach_writes_to_several(play: Talk) -> None:
    assert tells(play, "all: hello", who="Ada") == "Only a coach can do that here. Nothing was changed."
    assert states(play) == []
