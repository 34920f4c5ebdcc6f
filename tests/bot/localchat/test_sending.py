from datetime import timedelta

import pytest

from bot.localchat.answers import UploadedFile

OK = {"inline_keyboard": [[{"text": "OK", "callback_data": "1"}]]}
PNG = b"\x89PNG\r\n\x1a\n" + b"\0\0\0\rIHDR"
NOT_MODIFIED = "Bad Request: message is not modified"


def png(width, height):
    return UploadedFile("chart.png", PNG + width.to_bytes(4, "big") + height.to_bytes(4, "big"))


def sheet(size=3):
    return UploadedFile("block.xlsx", b"x" * size)


def test_a_message_is_shown_and_answered(liv, ask, clock):
    sent = ask("sendMessage", chat_id=501, text="<b>5×8</b> &amp; rest\n", parse_mode="HTML", reply_markup=OK)
    assert sent["message_id"] == 2
    assert (sent["text"], sent["entities"]) == (
        "5×8 & rest",
        [{"type": "bold", "offset": 0, "length": 3}],
    )
    assert sent["reply_markup"] == OK
    assert (sent["chat"]["id"], sent["from"]["id"]) == (501, 4100)
    shown = liv.last
    assert (shown.text, shown.html, shown.buttons) == ("5×8 & rest", "<b>5×8</b> &amp; rest\n", (("OK",),))
    assert (shown.at, shown.silent, shown.revision, liv.notified) == (clock.now(), False, 0, 1)


@pytest.mark.parametrize(
    ("params", "refused"),
    [
        ({}, "chat_id is empty"),
        ({"chat_id": 1, "text": "a"}, "chat not found"),
        ({"chat_id": "@crew", "text": "a"}, "chat not found"),
        ({"chat_id": "crew", "text": "a"}, "can't parse parameter chat_id"),
        ({"chat_id": 501}, "message text is empty"),
        ({"chat_id": 501, "text": " \n"}, "message text is empty"),
        ({"chat_id": 501, "text": "<b> </b>", "parse_mode": "HTML"}, "message text is empty"),
        ({"chat_id": 501, "text": 5}, "can't parse parameter text"),
        ({"chat_id": 501, "text": "a", "parse_mode": "MarkdownV2"}, "unsupported parse_mode"),
        ({"chat_id": 501, "text": "<q>a", "parse_mode": "HTML"}, "can't parse entities: Unsupported start"),
        ({"chat_id": 501, "text": "x" * 4097}, "message is too long"),
        ({"chat_id": 501, "text": "🙂" * 2049}, "message is too long"),
        ({"chat_id": 501, "text": "<b></b>" * 4682, "parse_mode": "HTML"}, "text is too long"),
        ({"chat_id": 501, "text": "a", "reply_markup": "{"}, "can't parse parameter reply_markup"),
        ({"chat_id": 501, "text": "a", "reply_markup": "[]"}, "can't parse parameter reply_markup"),
        ({"chat_id": 501, "text": "a", "disable_notification": "maybe"}, "can't parse parameter disable_n"),
        ({"chat_id": 501, "text": "a", "disable_notification": 2.5}, "can't parse parameter disable_n"),
        ({"chat_id": True, "text": "a"}, "can't parse parameter chat_id"),
        ({"chat_id": 501, "text": "a", "colour": "red"}, "unknown parameters ['colour']"),
        ({"chat_id": 501, "text": "a", "reply_parameters": {"message_id": 9}}, "message to be replied not f"),
        ({"chat_id": 501, "text": "a", "reply_parameters": {"quote": "a"}}, "can't parse reply parameters"),
    ],
)
def test_what_the_platform_refuses_is_refused_and_not_shown(liv, ask, params, refused):
    status, words = ask("sendMessage", **params)
    assert (status, words.removeprefix("Bad Request: ")[: len(refused)]) == (400, refused)
    assert [shown.mine for shown in liv.screen] == [True]


@pytest.mark.parametrize(
    ("text", "parse_mode"),
    [
        ("x" * 4096, None),
        ("🙂" * 2048, None),
        ("&lt;" * 4096, "HTML"),
        (f"<b>{'x' * 4096}</b>\n", "HTML"),
        ("<5", None),
        ("<b>a</b>", ""),
    ],
)
def test_lengths_count_after_the_markup_is_read(liv, ask, text, parse_mode):
    assert "message_id" in ask("sendMessage", chat_id=501, text=text, parse_mode=parse_mode)


def test_values_come_as_text_in_a_form(liv, ask):
    ask("sendMessage", chat_id="501", text="a", disable_notification="true", protect_content="1")
    assert (liv.last.silent, liv.last.protected, liv.notified) == (True, True, 0)
    ask("sendMessage", chat_id="501", text="a", disable_notification="false")
    assert liv.notified == 1


def test_nobody_is_written_to_who_did_not_begin_or_has_had_enough(network, ask, liv):
    network.phone(502, "Tor")
    assert ask("sendMessage", chat_id=502, text="a") == (
        403,
        "Forbidden: bot can't initiate conversation with a user",
    )
    liv.block()
    for method in ("sendMessage", "sendPhoto", "editMessageText", "deleteMessage", "sendChatAction"):
        assert ask(method, chat_id=501) == (403, "Forbidden: bot was blocked by the user")
    liv.unblock()
    assert ask("sendMessage", chat_id=501, text="a")["text"] == "a"


def test_a_reply_shows_what_it_answers(liv, ask):
    first = liv.type("80x5")
    sent = ask("sendMessage", chat_id=501, text="a", reply_parameters={"message_id": first})
    assert sent["reply_to_message"]["text"] == "80x5"
    loose = {"message_id": 99, "allow_sending_without_reply": True}
    assert "reply_to_message" not in ask("sendMessage", chat_id=501, text="b", reply_parameters=loose)


def test_keys_and_reply_fields_show_on_the_phone(liv, ask):
    ask("sendMessage", chat_id=501, text="How sore?", reply_markup={"keyboard": [["0", "1"]]})
    assert liv.keyboard == (("0", "1"),)
    asked = ask("sendMessage", chat_id=501, text="Why?", reply_markup={"force_reply": True})
    assert (liv.keyboard, liv.last.markup.asks_reply) == ((("0", "1"),), True)
    assert "reply_markup" not in asked
    ask("sendMessage", chat_id=501, text="Thanks", reply_markup={"remove_keyboard": True})
    assert liv.keyboard == ()


@pytest.mark.parametrize(
    ("method", "field", "upload", "described"),
    [
        ("sendPhoto", "photo", png(640, 480), [{"width": 640, "height": 480, "file_size": 24}]),
        ("sendPhoto", "photo", UploadedFile("a.jpg", b"\xff\xd8\xff"), [{"width": 90, "height": 90}]),
        ("sendDocument", "document", sheet(), {"file_name": "block.xlsx", "file_size": 3}),
        ("sendVoice", "voice", sheet(), {"duration": 3}),
        ("sendVideo", "video", sheet(), {"duration": 3, "width": 90}),
    ],
)
def test_a_file_is_shown_and_can_be_sent_again_by_its_id(liv, ask, method, field, upload, described):
    sent = ask(method, {field: upload}, chat_id=501, caption="<i>a</i>", parse_mode="HTML", reply_markup=OK)
    got, wanted = (each[0] if isinstance(each, list) else each for each in (sent[field], described))
    assert wanted.items() <= got.items()
    assert (sent["caption"], sent["caption_entities"][0]["type"]) == ("a", "italic")
    assert (liv.last.kind, liv.last.file, liv.last.text) == (field, upload.content, "a")
    again = ask(method, chat_id=501, **{field: got["file_id"]})
    assert (again[field], liv.last.file, "caption" in again) == (sent[field], upload.content, False)
    attached = ask(method, {"part": upload}, chat_id=501, **{field: "attach://part"})
    assert attached[field] == sent[field]


@pytest.mark.parametrize(
    ("method", "files", "params", "refused"),
    [
        ("sendPhoto", {}, {}, (400, "there is no photo in the request")),
        ("sendPhoto", {}, {"photo": "other"}, (400, "wrong file identifier/HTTP URL specified")),
        ("sendPhoto", {"photo": sheet()}, {}, (400, "IMAGE_PROCESS_FAILED")),
        ("sendPhoto", {"photo": png(9000, 1001)}, {}, (400, "PHOTO_INVALID_DIMENSIONS")),
        ("sendPhoto", {"photo": png(2100, 100)}, {}, (400, "PHOTO_INVALID_DIMENSIONS")),
        ("sendPhoto", {"photo": png(0, 0)}, {}, (400, "PHOTO_INVALID_DIMENSIONS")),
        ("sendPhoto", {"photo": png(10, 10)}, {"caption": "x" * 1025}, (400, "message caption is too long")),
        ("sendPhoto", {"photo": sheet(10**7 + 1)}, {}, (400, "file of size 10000001 bytes is too big")),
        ("sendDocument", {"document": sheet(0)}, {}, (400, "file must be non-empty")),
        ("sendDocument", {"document": sheet(5 * 10**7 + 1)}, {}, (413, "Request Entity Too Large")),
    ],
)
def test_files_that_the_platform_refuses(liv, ask, method, files, params, refused):
    status, words = ask(method, files, chat_id=501, **params)
    assert (status, words.removeprefix("Bad Request: ")[: len(refused[1])]) == refused
    assert [shown.mine for shown in liv.screen] == [True]


def test_a_file_is_sent_again_only_as_what_it_is(liv, ask):
    sent = ask("sendDocument", {"document": sheet()}, chat_id=501)
    assert ask("sendPhoto", chat_id=501, photo=sent["document"]["file_id"]) == (
        400,
        "Bad Request: can't use file of type Document as Photo",
    )


def test_an_edit_is_in_place_and_silent(liv, ask, network, clock):
    sent = ask("sendMessage", chat_id=501, text="first", reply_markup=OK)
    clock.move_to(clock.now() + timedelta(days=30))
    edited = ask("editMessageText", chat_id=501, message_id=2, text="second")
    assert (edited["text"], edited["date"], edited["edit_date"] - edited["date"]) == (
        "second",
        sent["date"],
        30 * 86400,
    )
    assert "reply_markup" not in edited, "an edit without buttons takes them away"
    assert (liv.last.text, liv.last.revision, liv.notified, len(liv.screen)) == ("second", 1, 1, 2)
    last = network.record[-1]
    assert (last.kind, last.revision, last.silent, last.sender) == ("edit", 1, True, "bot")


def test_marks_and_buttons_count_as_changes(liv, ask, network):
    ask("sendMessage", chat_id=501, text="a", reply_markup=OK)
    same = {"chat_id": 501, "message_id": 2, "text": "a"}
    assert ask("editMessageText", **same, reply_markup=OK)[1].startswith(NOT_MODIFIED)
    assert ask("editMessageReplyMarkup", chat_id=501, message_id=2, reply_markup=OK)[1].startswith(
        NOT_MODIFIED
    )
    ask("editMessageText", **same | {"text": "<b>a</b>"}, parse_mode="HTML", reply_markup=OK)
    assert ask("editMessageReplyMarkup", chat_id=501, message_id=2)["text"] == "a"
    assert ask("editMessageReplyMarkup", chat_id=501, message_id=2)[1].startswith(NOT_MODIFIED)
    assert [each.kind for each in network.record[-2:]] == ["edit", "buttons removed"]


def test_a_caption_is_edited_and_the_file_stays(liv, ask):
    ask("sendPhoto", {"photo": png(10, 10)}, chat_id=501, caption="first")
    edited = ask("editMessageCaption", chat_id=501, message_id=2, caption="second", reply_markup=OK)
    assert (edited["caption"], edited["photo"][0]["width"], liv.last.buttons) == ("second", 10, (("OK",),))
    same = ask("editMessageCaption", chat_id=501, message_id=2, caption="second", reply_markup=OK)
    assert same[1].startswith(NOT_MODIFIED)
    assert "caption" not in ask("editMessageCaption", chat_id=501, message_id=2)


@pytest.mark.parametrize(
    ("method", "params", "refused"),
    [
        ("editMessageText", {"text": "a"}, "parameter message_id is required"),
        ("editMessageText", {"message_id": 9, "text": "a"}, "message to edit not found"),
        ("editMessageText", {"message_id": 1, "text": "a"}, "message can't be edited"),
        ("editMessageText", {"message_id": 2, "text": ""}, "message text is empty"),
        ("editMessageText", {"message_id": 3, "text": "a"}, "there is no text in the message to edit"),
        ("editMessageCaption", {"message_id": 2, "caption": "a"}, "there is no caption in the message to ed"),
        ("editMessageCaption", {"message_id": 3, "caption": "x" * 1025}, "message caption is too long"),
        ("editMessageText", {"message_id": 4, "text": "a"}, "message can't be edited"),
        (
            "editMessageText",
            {"message_id": 2, "text": "a", "reply_markup": {"force_reply": True}},
            "inline keyboard expected",
        ),
        ("deleteMessage", {}, "parameter message_id is required"),
        ("deleteMessage", {"message_id": 9}, "message to delete not found"),
        ("sendChatAction", {}, "parameter action is required"),
        ("sendChatAction", {"action": "singing"}, "wrong parameter action in request"),
    ],
)
def test_changes_that_the_platform_refuses(liv, ask, method, params, refused):
    ask("sendMessage", chat_id=501, text="two")
    ask("sendPhoto", {"photo": png(10, 10)}, chat_id=501)
    ask("sendMessage", chat_id=501, text="four", reply_markup={"force_reply": True})
    status, words = ask(method, chat_id=501, **params)
    assert (status, words.removeprefix("Bad Request: ")[: len(refused)]) == (400, refused)


def test_a_message_is_deleted_for_two_days(liv, ask, network, clock):
    ask("sendMessage", chat_id=501, text="two")
    ask("sendMessage", chat_id=501, text="three")
    assert ask("deleteMessage", chat_id=501, message_id=2) is True
    assert ask("deleteMessage", chat_id=501, message_id=1) is True, "a person's, in a private chat"
    assert [shown.text for shown in liv.screen] == ["three"]
    assert ask("deleteMessage", chat_id=501, message_id=2)[1] == "Bad Request: message to delete not found"
    last = network.record[-1]
    assert (last.kind, last.message_id, last.sender, last.text) == ("deleted", 1, "bot", "")
    clock.move_to(clock.now() + timedelta(hours=48))
    assert ask("deleteMessage", chat_id=501, message_id=3)[1] == (
        "Bad Request: message can't be deleted for everyone"
    )


def test_what_the_bot_does_is_taken(liv, ask):
    assert ask("sendChatAction", chat_id=501, action="typing") is True
