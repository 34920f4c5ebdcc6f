from datetime import timedelta

import pytest
from telegram import Update

from bot.localchat.phone import Phone

KEYS = {
    "inline_keyboard": [
        [{"text": "5×8 done", "callback_data": "d"}, {"text": "5×8", "callback_data": "e"}],
        [{"text": "Read", "url": "https://sea.example"}],
    ]
}


@pytest.fixture
def arrived(ask):
    """The updates that wait, as the library reads them."""
    return lambda: [Update.de_json(update, None) for update in ask("getUpdates")]


def test_a_phone_is_the_same_every_time(network):
    assert network.phone(501, "Liv") is network.phone(501, "Liv")


def test_somebody_starts_with_a_link(network, arrived):
    phone = network.phone(501, "Liv", "de")
    assert phone.start("abc") == 1
    message = arrived()[0].message
    assert (message.text, message.entities[0].type, message.entities[0].length) == (
        "/start abc",
        "bot_command",
        6,
    )
    assert (message.from_user.id, message.from_user.language_code) == (501, "de")
    assert (message.chat.id, message.chat.type, phone.started) == (501, "private", True)


def test_what_is_typed_arrives(liv, arrived, ask, clock):
    ask("sendMessage", chat_id=501, text="How was it?")
    liv.type("80x5", reply_to=2)
    clock.move_to(clock.now() + timedelta(minutes=1))
    liv.edit(3, "82.5x5")
    typed, edited = arrived()
    assert (typed.message.text, typed.message.reply_to_message.text) == ("80x5", "How was it?")
    assert typed.message.reply_to_message.from_user.is_bot
    assert (edited.edited_message.text, edited.edited_message.message_id) == ("82.5x5", 3)
    assert (edited.edited_message.edit_date - edited.edited_message.date).total_seconds() == 60
    assert (liv.screen[-1].text, liv.screen[-1].revision) == ("82.5x5", 1)


@pytest.mark.parametrize("text", ["", "  ", "x" * 4097])
def test_a_phone_sends_no_such_message(liv, text):
    with pytest.raises(ValueError, match="1 to 4096"):
        liv.type(text)
    with pytest.raises(ValueError, match="1 to 4096"):
        liv.edit(1, text)


def test_only_ones_own_text_can_be_edited(liv, ask):
    ask("sendMessage", chat_id=501, text="a")
    liv.send_photo(b"x")
    for message_id in (2, 3, 9):
        with pytest.raises(LookupError, match="to edit"):
            liv.edit(message_id, "b")


@pytest.mark.parametrize(
    ("label", "data"),
    [("5×8", "e"), ("5×8 done", "d"), ("5×8 d", "d"), ("5", "d")],
)
def test_a_tap_is_on_the_button_with_that_label_or_one_that_begins_so(liv, ask, arrived, label, data):
    ask("sendMessage", chat_id=501, text="a", reply_markup=KEYS)
    liv.tap(label)
    query = arrived()[0].callback_query
    assert (query.data, query.message.message_id, query.message.text) == (data, 2, "a")
    assert query.message.reply_markup.inline_keyboard[1][0].url == "https://sea.example"
    assert (query.from_user.id, query.message.from_user.is_bot) == (501, True)


def test_a_tap_is_on_the_newest_message_unless_one_is_named(liv, ask, arrived):
    for text in ("a", "b"):
        ask("sendMessage", chat_id=501, text=text, reply_markup=KEYS)
    liv.tap("5×8")
    liv.tap("5×8", message_id=2)
    assert [update.callback_query.message.text for update in arrived()] == ["b", "a"]


@pytest.mark.parametrize("label", ["6×8", "Read"])
def test_a_button_that_is_not_there_cannot_be_tapped(liv, ask, label):
    ask("sendMessage", chat_id=501, text="a", reply_markup=KEYS)
    with pytest.raises(LookupError) as missing:
        liv.tap(label)
    assert str(missing.value) == f"Liv sees no button {label!r}; there are ['5×8 done', '5×8', 'Read']"


def test_a_forged_tap_can_be_on_a_message_that_is_not_there(liv, ask, arrived, network):
    with pytest.raises(LookupError, match="no message of the bot"):
        liv.tap_data("forged")
    liv.tap_data("forged", message_id=77)
    query = arrived()[0].callback_query
    assert (query.data, query.message.message_id, query.message.is_accessible) == ("forged", 77, False)
    assert (network.record[-1].text, network.record[-1].message_id) == ("forged", 77)


def test_files_arrive(liv, arrived):
    liv.send_document("block.xlsx", b"rows", "for you")
    liv.send_photo(b"pixels", "knee")
    liv.send_voice(b"sound")
    liv.send_video(b"film")
    liv.share_location(60.4, 5.3)
    document, photo, voice, video, location = (update.message for update in arrived())
    assert (document.document.file_name, document.document.file_size) == ("block.xlsx", 4)
    assert (document.caption, photo.caption, voice.caption) == ("for you", "knee", None)
    assert (photo.photo[0].file_size, voice.voice.file_size, video.video.width) == (6, 5, 90)
    assert location.location.latitude == 60.4
    assert [shown.file for shown in liv.screen[1:]] == [b"rows", b"pixels", b"sound", b"film", None]
    assert [shown.kind for shown in liv.screen[1:]] == ["document", "photo", "voice", "video", "location"]


def test_blocking_is_told(liv, arrived, network):
    liv.block()
    with pytest.raises(RuntimeError, match="blocked"):
        liv.type("a")
    liv.unblock()
    liv.type("a")
    blocked, unblocked, _ = arrived()
    assert blocked.my_chat_member.new_chat_member.status == "kicked"
    assert unblocked.my_chat_member.old_chat_member.status == "kicked"
    assert unblocked.my_chat_member.new_chat_member.status == "member"
    assert [each.kind for each in network.record[1:3]] == ["blocked", "unblocked"]


def test_the_screen_can_be_had_as_text(network, ask):
    phone: Phone = network.phone(501, "Liv")
    phone.start()
    ask("sendMessage", chat_id=501, text="Push\n<b>5×8</b>", parse_mode="HTML", reply_markup=KEYS)
    phone.send_photo(b"x")
    assert phone.text_of_screen().splitlines() == [
        "Liv  Mon 06 Apr 07:00",
        "  /start",
        "",
        "Plimsoll  Mon 06 Apr 07:00",
        "  Push",
        "  5×8",
        "  [5×8 done] [5×8]",
        "  [Read]",
        "",
        "Liv  Mon 06 Apr 07:00",
        "  (photo)",
    ]
