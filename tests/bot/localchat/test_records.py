import json
import os
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.clock import StoryClock
from bot.localchat.answers import UploadedFile
from bot.localchat.network import Network

START = datetime(2026, 4, 6, 7, tzinfo=UTC)
CHATS = (501, 502, 503)
KEYS = {"inline_keyboard": [[{"text": "OK", "callback_data": "1"}]]}


def take(network, chat, step):
    """One thing that happens in a chat, by the bot or by the person."""
    phone = network.phone(chat, f"Person {chat}")
    match step:
        case "start":
            phone.start()
        case "type":
            phone.type(f"80x{len(phone.screen)}")
        case "send":
            network.call(
                "sendMessage", {"chat_id": chat, "text": f"{len(phone.screen)}", "reply_markup": KEYS}
            )
        case "edit":
            network.call(
                "editMessageText", {"chat_id": chat, "message_id": 2, "text": f"edited {phone.notified}"}
            )
        case "photo":
            files = {"photo": UploadedFile("a.png", b"\x89PNG\r\n\x1a\n")}
            network.call("sendPhoto", {"chat_id": chat}, files)
        case "tap" if any(shown.keys for shown in phone.screen):
            phone.tap("OK")
        case "delete":
            network.call("deleteMessage", {"chat_id": chat, "message_id": 3})


STEPS = st.sampled_from(["type", "send", "edit", "photo", "tap", "delete"])
MINUTES = st.lists(st.lists(st.tuples(st.sampled_from(CHATS), STEPS), max_size=8), max_size=5)


def played(minutes, shuffle):
    clock = StoryClock(START)
    network = Network(clock, "4100:story")
    for chat in shuffle(list(CHATS)):
        take(network, chat, "start")
    for steps in minutes:
        clock.move_to(clock.now() + timedelta(minutes=1))
        waiting = {chat: [step for who, step in steps if who == chat] for chat in CHATS}
        for chat in shuffle([who for who, _ in steps]):
            take(network, chat, waiting[chat].pop(0))
    return network.jsonl()


@given(MINUTES, st.randoms(use_true_random=False))
def test_the_record_does_not_depend_on_which_chat_is_served_first(minutes, chance):
    def shuffle(chats):
        chance.shuffle(chats)
        return chats

    assert played(minutes, shuffle) == played(minutes, list)


def test_the_record_of_a_chat_is_in_the_order_in_which_it_was_said():
    network = Network(StoryClock(START), "4100:story")
    for chat, step in (
        (502, "start"),
        (501, "start"),
        (502, "send"),
        (502, "tap"),
        (501, "send"),
        (502, "edit"),
    ):
        take(network, chat, step)
    lines = [json.loads(line) for line in network.jsonl().splitlines()]
    assert [(line["chat"], line["from"], line["kind"], line["message"]) for line in lines] == [
        (501, "person", "text", 1),
        (501, "bot", "text", 2),
        (502, "person", "text", 1),
        (502, "bot", "text", 2),
        (502, "person", "tap", 2),
        (502, "bot", "edit", 2),
    ]
    assert lines[3] == {
        "at": "2026-04-06T07:00:00+00:00",
        "buttons": [["OK"]],
        "chat": 502,
        "from": "bot",
        "kind": "text",
        "message": 2,
        "revision": 0,
        "silent": False,
        "text": "1",
    }


PROGRAM = """
from datetime import UTC, datetime
from bot.clock import StoryClock
from bot.localchat.network import Network
network = Network(StoryClock(datetime(2026, 4, 6, 7, tzinfo=UTC)), "4100:story")
for chat in {501, 502, 10**9 + 7}:
    network.phone(chat, "Liv").start()
    network.call("sendMessage", {"chat_id": chat, "text": "<b>a</b><i>b</i>", "parse_mode": "HTML"})
print(network.jsonl(), network.call("getUpdates", {}).body, network.call("getWebhookInfo", {}).body)
"""


@pytest.fixture
def said():
    def run(seed):
        root = Path(__file__).parents[3]
        environment = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(root)}
        done = subprocess.run(  # noqa: S603  (our own program)
            [sys.executable, "-c", PROGRAM], env=environment, capture_output=True, check=True, text=True
        )
        return done.stdout

    return run


def test_the_record_does_not_depend_on_the_hash_seed(said):
    assert said("1") == said("2")
    assert said("1").count("Liv") == 6
