from datetime import timedelta

import pytest

from bot.localchat.account import patience_s
from bot.localchat.faults import Fault, Kind

CONFLICT = "Conflict: can't use getUpdates method while webhook is active"
TOO_OLD = (400, "Bad Request: query is too old and response timeout expired or query ID is invalid")


def ids(updates):
    return [update["update_id"] for update in updates]


def texts(updates):
    return [update["message"]["text"] for update in updates if "message" in update]


def tap_ids(updates):
    return [update["callback_query"]["id"] for update in updates if "callback_query" in update]


def test_the_bot_knows_itself(ask):
    assert ask("getMe")["id"] == 4100
    assert ask("getMe", anything=1) == (400, "Bad Request: unknown parameters ['anything']")
    assert ask("getUs") == (404, "Not Found: method not found")


# --- fetching -----------------------------------------------------------------------------------------------------


def test_what_is_not_confirmed_comes_again(liv, ask, network):
    for text in ("a", "b", "c"):
        liv.type(text)
    assert texts(ask("getUpdates")) == ["a", "b", "c"]
    assert texts(ask("getUpdates", timeout=0)) == ["a", "b", "c"]
    second = ids(ask("getUpdates"))[1]
    assert texts(ask("getUpdates", offset=second)) == ["b", "c"]
    assert network.unfetched == 2
    assert ask("getUpdates", offset=str(second + 2)) == []
    assert network.unfetched == 0


@pytest.mark.parametrize(
    ("limit", "count"), [(None, 100), (1, 1), (99, 99), (100, 100), (0, 1), (-5, 1), (500, 100)]
)
def test_a_fetch_has_a_limit(liv, ask, limit, count):
    for number in range(101):
        liv.type(f"{number}")
    assert len(ask("getUpdates", limit=limit)) == count


@pytest.mark.parametrize(("offset", "kept"), [(-1, ["c"]), (-2, ["b", "c"]), (-9, ["a", "b", "c"])])
def test_a_negative_offset_forgets_all_but_the_last(liv, ask, offset, kept):
    for text in ("a", "b", "c"):
        liv.type(text)
    assert texts(ask("getUpdates", offset=offset)) == kept
    assert texts(ask("getUpdates")) == kept


@pytest.mark.parametrize(("asked", "waits"), [(0, 0), (-3, 0), (7, 7), (50, 50), (51, 50), (600, 50)])
def test_patience_has_bounds(asked, waits):
    assert patience_s(asked) == waits


@pytest.mark.parametrize(("name", "value"), [("offset", "x"), ("limit", "1.5"), ("timeout", True)])
def test_numbers_are_numbers(ask, name, value):
    assert ask("getUpdates", **{name: value}) == (400, f"Bad Request: can't parse parameter {name}")


@pytest.mark.parametrize(
    ("after", "waits"),
    [
        (timedelta(seconds=149), ["message", "callback_query"]),
        (timedelta(seconds=150), ["message"]),
        (timedelta(hours=24, seconds=-1), ["message"]),
        (timedelta(hours=24), []),
    ],
)
def test_taps_are_lost_after_150_seconds_and_messages_after_a_day(liv, ask, clock, network, after, waits):
    ask("sendMessage", chat_id=501, text="a")
    liv.type("b")
    liv.tap_data("1")
    clock.move_to(clock.now() + after)
    assert network.unfetched == len(waits)
    assert [(set(update) - {"update_id"}).pop() for update in ask("getUpdates")] == waits


def test_kinds_that_are_allowed_are_remembered(liv, ask, network):
    assert "chat_member" not in ask("getWebhookInfo")["allowed_updates"]
    ask("getUpdates", allowed_updates=["edited_message", "chat_member"])
    message = liv.type("lost")
    liv.edit(message, "kept")
    assert [update["edited_message"]["text"] for update in ask("getUpdates")] == ["kept"]
    assert ask("getWebhookInfo")["allowed_updates"] == ["chat_member", "edited_message"]
    ask("getUpdates", allowed_updates="[]")
    liv.type("wanted again")
    assert network.unfetched == 2
    assert ask("getUpdates", allowed_updates=["smoke_signal"]) == (
        400,
        "Bad Request: unknown kinds of updates ['smoke_signal']",
    )


def test_a_webhook_excludes_fetching(liv, ask, network):
    liv.type("a")
    assert ask("setWebhook", url="http://sea.example")[1].startswith("Bad Request: bad webhook")
    assert ask("setWebhook", url="https://sea.example", secret_token="é")[0] == 400
    assert ask("setWebhook", url="https://sea.example/x", secret_token="s3", allowed_updates=["message"])
    status, words = ask("getUpdates", offset=9999)
    assert (status, words.startswith(CONFLICT)) == (409, True)
    info = ask("getWebhookInfo")
    assert (info["url"], info["pending_update_count"]) == ("https://sea.example/x", 1)
    assert ask("setWebhook", url="") is True
    assert texts(ask("getUpdates")) == ["a"]
    ask("setWebhook", url="https://sea.example/x")
    assert ask("deleteWebhook") is True
    assert texts(ask("getUpdates")) == ["a"]
    assert ask("deleteWebhook", drop_pending_updates="True") is True
    assert ask("getUpdates") == []


# --- faults of updates --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "came"),
    [
        (Kind.AGAIN, [(0, "a"), (1, "b"), (1, "b"), (2, "c")]),
        (Kind.AGAIN_NEW_ID, [(0, "a"), (1, "b"), (2, "b"), (3, "c")]),
        (Kind.SWAPPED, [(1, "b"), (0, "a"), (2, "c")]),
        (Kind.MALFORMED, [(0, "a"), (1, None), (2, "b"), (3, "c")]),
    ],
)
def test_updates_go_wrong_on_a_plan(liv, ask, network, kind, came):
    liv.type("a")
    network.faults.plan(Fault(kind, chat_id=999))
    network.faults.plan(Fault(kind, chat_id=501))
    liv.type("b")
    liv.type("c")
    got = ask("getUpdates")
    first = min(ids(got))
    assert [(update["update_id"] - first, update["message"].get("text")) for update in got] == came
    assert [fault.chat_id for fault in network.faults.planned] == [999]


def test_an_update_with_none_before_it_cannot_overtake(liv, ask, network):
    network.faults.plan(Fault(Kind.SWAPPED))
    liv.type("a")
    assert texts(ask("getUpdates")) == ["a"]


def test_an_update_can_come_again_after_it_was_confirmed(liv, ask, network):
    liv.type("a")
    (known,) = ids(ask("getUpdates"))
    assert ask("getUpdates", offset=known + 1) == []
    network.offer_again(new_id=False)
    assert ids(ask("getUpdates", offset=known + 1)) == [known]
    assert ask("getUpdates", offset=known + 1) == [], "once"
    network.offer_again(new_id=True)
    assert ids(ask("getUpdates", offset=known + 1)) == [known + 1]


def test_there_must_be_one_to_come_again(network):
    with pytest.raises(LookupError):
        network.offer_again(new_id=False)


def test_an_odd_update_comes_as_it_stands(ask, network):
    network.offer_raw({"poll": None})
    assert ask("getUpdates") == [{"update_id": 1000, "poll": None}]


# --- taps, files, commands ----------------------------------------------------------------------------------------


def test_a_tap_spins_until_it_is_answered(liv, ask):
    keys = {"inline_keyboard": [[{"text": "OK", "callback_data": "1"}]]}
    ask("sendMessage", chat_id=501, text="a", reply_markup=keys)
    liv.tap("OK")
    assert liv.spinning == ("OK",)
    (tap,) = tap_ids(ask("getUpdates"))
    assert ask("answerCallbackQuery", callback_query_id=tap, text="x" * 201)[0] == 400
    assert ask("answerCallbackQuery", callback_query_id=tap, text="x" * 200, show_alert=True) is True
    assert liv.spinning == ()
    assert ask("answerCallbackQuery", callback_query_id=tap) == TOO_OLD
    assert ask("answerCallbackQuery", callback_query_id="other") == TOO_OLD


def test_a_tap_spins_for_150_seconds_at_most(liv, ask, clock, network):
    ask("sendMessage", chat_id=501, text="a")
    liv.tap_data("1")
    (tap,) = tap_ids(ask("getUpdates"))
    clock.move_to(clock.now() + timedelta(seconds=150))
    assert (liv.spinning, network.phone(502, "Tor").spinning) == (("1",), ())
    clock.move_to(clock.now() + timedelta(seconds=1))
    assert liv.spinning == ()
    assert ask("answerCallbackQuery", callback_query_id=tap) == TOO_OLD


def test_a_file_can_be_fetched_for_an_hour(liv, ask, network, clock):
    liv.send_document("block.xlsx", b"rows")
    file_id = ask("getUpdates")[0]["message"]["document"]["file_id"]
    assert network.uploads.fetched(f"documents/{file_id}") is None, "nobody asked for it yet"
    path = ask("getFile", file_id=file_id)["file_path"]
    assert network.uploads.fetched(path) == b"rows"
    clock.move_to(clock.now() + timedelta(hours=1))
    assert network.uploads.fetched(path) == b"rows"
    clock.move_to(clock.now() + timedelta(seconds=1))
    assert network.uploads.fetched(path) is None
    assert ask("getFile", file_id="other")[1].startswith("Bad Request: wrong file_id")
    assert ask("getFile")[1] == "Bad Request: parameter file_id is required"


@pytest.mark.parametrize(
    ("size", "words"), [(20 * 2**20, None), (20 * 2**20 + 1, "Bad Request: file is too big")]
)
def test_a_bot_fetches_20_mb_at_most(liv, ask, network, size, words):
    liv.send_video(bytes(size))
    answer = ask("getFile", file_id=ask("getUpdates")[0]["message"]["video"]["file_id"])
    assert (answer[1] if words else answer["file_size"]) == (words or size)


START, LOG = ({"command": name, "description": name.title()} for name in ("start", "log"))


def test_commands_are_kept_by_scope_and_language(liv, ask):
    chat = {"type": "chat", "chat_id": 501}
    assert ask("getMyCommands") == []
    assert ask("setMyCommands", commands=[START, LOG]) is True
    assert ask("setMyCommands", commands=[LOG], scope=chat, language_code="de") is True
    assert ask("getMyCommands") == [START, LOG]
    assert ask("getMyCommands", scope={"type": "default"}) == [START, LOG]
    assert ask("getMyCommands", scope=chat) == []
    assert ask("getMyCommands", scope=chat, language_code="de") == [LOG]
    assert ask("deleteMyCommands") is True
    assert ask("deleteMyCommands") is True
    assert ask("getMyCommands") == []
    assert ask("setMyCommands", commands=[LOG], scope={"type": "all_private_chats"}) is True


@pytest.mark.parametrize(
    ("params", "words"),
    [
        ({}, "parameter commands is required"),
        ({"commands": [LOG] * 101}, "BOT_COMMANDS_TOO_MUCH"),
        ({"commands": [LOG | {"command": "Log"}]}, "BOT_COMMAND_INVALID"),
        ({"commands": [LOG | {"command": "x" * 33}]}, "BOT_COMMAND_INVALID"),
        ({"commands": [LOG | {"description": ""}]}, "BOT_COMMAND_DESCRIPTION_INVALID"),
        ({"commands": [LOG | {"description": "x" * 257}]}, "BOT_COMMAND_DESCRIPTION_INVALID"),
        ({"commands": [{"command": "log"}]}, "can't parse BotCommand: command and description expected"),
        ({"commands": ["log"]}, "can't parse BotCommand: command and description expected"),
        ({"commands": "log"}, "can't parse parameter commands"),
        ({"commands": [LOG], "language_code": "DE"}, "invalid language code specified"),
        (
            {"commands": [LOG], "scope": {"type": "crew"}},
            "can't parse BotCommandScope: unsupported type specified",
        ),
        (
            {"commands": [LOG], "scope": {"type": "chat"}},
            "can't parse BotCommandScope: unsupported type specified",
        ),
        ({"commands": [LOG], "scope": {"type": "chat", "chat_id": 9}}, "chat not found"),
    ],
)
def test_commands_that_the_platform_refuses(ask, params, words):
    assert ask("setMyCommands", **params) == (400, f"Bad Request: {words}")
