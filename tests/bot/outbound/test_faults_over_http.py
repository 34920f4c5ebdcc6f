"""The sender, the real library and the chat network, with a fault of each kind on the way."""

from collections.abc import AsyncIterator
from dataclasses import dataclass, replace
from datetime import timedelta

import pytest
from mailroom import CHAT, CLIENT, NOW, OTHER_CHAT, SAFETY, Post, Rig, populate, send
from sqlalchemy import Engine
from telegram import Bot
from telegram.error import InvalidToken
from telegram.request import HTTPXRequest

from bot.clock import StoryClock
from bot.localchat.faults import Fault, Kind
from bot.localchat.network import Network
from bot.localchat.phone import Phone
from bot.localchat.server import Server
from bot.messages import Button, EditCard, Message
from bot.outbound.telegram import TelegramTransport

TOKEN = "4100:story"


@dataclass
class World:
    network: Network
    rig: Rig
    hers: Phone
    his: Phone

    def texts(self, phone: Phone) -> list[str]:
        return [shown.text for shown in phone.screen if not shown.mine]


@pytest.fixture
async def world(engine: Engine) -> AsyncIterator[World]:
    populate(engine)
    clock = StoryClock(NOW)
    network = Network(clock, TOKEN)
    phones = [network.phone(chat, name) for chat, name in ((CHAT, "Liv"), (OTHER_CHAT, "Tor"))]
    for phone in phones:
        phone.start()
    async with Server(network) as server:
        request = HTTPXRequest(read_timeout=1.0)
        async with request:
            bot = Bot(TOKEN, base_url=f"{server.url}/bot", request=request)
            rig = Rig(engine, clock, Post(clock))
            rig.post.transport = TelegramTransport(bot, rig.units, rig._write)
            yield World(network, rig, *phones)
            await rig.stop()


@pytest.mark.parametrize(
    ("fault", "hers", "states", "after_s"),
    [
        (Fault(Kind.REFUSE), ["one", "two"], {"one": "sent", "two": "sent"}, (1.6, 2.4)),
        (Fault(Kind.TOO_MANY, retry_after=7), ["one", "two"], {"one": "sent", "two": "sent"}, (7.5, 7.5)),
        (Fault(Kind.SERVER_ERROR, status=500), ["one", "two"], {"one": "sent", "two": "sent"}, (1.6, 2.4)),
        (Fault(Kind.SERVER_ERROR, status=502), ["one", "two"], {"one": "sent", "two": "sent"}, (1.6, 2.4)),
        (Fault(Kind.DROP_BEFORE), ["one", "two"], {"one": "sent", "two": "sent"}, (1.6, 2.4)),
        (Fault(Kind.DROP_AFTER), ["one", "one", "two"], {"one": "sent", "two": "sent"}, (1.6, 2.4)),
        (Fault(Kind.SLOW, seconds=0.1), ["one", "two"], {"one": "sent", "two": "sent"}, (0, 0)),
        (Fault(Kind.FORBIDDEN), [], {"one": "dead", "two": "cancelled"}, (0, 0)),
        (Fault(Kind.DROP_BEFORE, times=2), ["two"], {"one": "doubtful", "two": "sent"}, (1.6, 2.4)),
    ],
)
async def test_a_message_with_a_fault_on_its_way(world, fault, hers, states, after_s):
    world.network.faults.plan(replace(fault, method="sendMessage", chat_id=CHAT))
    world.rig.queue(send("one"), send("two"), send("elsewhere", OTHER_CHAT))
    await world.rig.go_on(timedelta(seconds=60))
    assert world.texts(world.hers) == hers
    assert world.texts(world.his) == ["elsewhere"]
    assert world.rig.states() == {**states, "elsewhere": "sent"}
    came = [shown.at for shown in world.hers.screen if not shown.mine] or [NOW]
    assert after_s[0] <= (came[-1] - NOW).total_seconds() <= after_s[1]
    assert world.network.faults.planned == [], "it happened"


async def test_a_person_who_blocks_the_bot_is_told_of_once(world):
    world.hers.block()
    world.rig.queue(send("one"), send("two"), send("elsewhere", OTHER_CHAT))
    await world.rig.go_on(timedelta(seconds=60))
    assert world.rig.blocked == [CHAT]
    assert world.rig.states() == {"one": "dead", "two": "cancelled", "elsewhere": "sent"}


async def test_a_network_that_is_away_for_hours_loses_nothing(world):
    world.network.faults.plan(Fault(Kind.SERVER_ERROR, status=500, times=40))
    world.rig.queue(send("one"), send("two"), send("stop sign", lane=SAFETY))
    await world.rig.go_on(timedelta(hours=6))
    assert sorted(world.texts(world.hers)) == ["one", "stop sign", "two"]
    assert world.texts(world.hers).index("one") < world.texts(world.hers).index("two")


async def test_a_token_that_is_refused_stops_everything(world):
    world.network.token = "4100:another"
    world.rig.queue(send("one"), send("elsewhere", OTHER_CHAT))
    with pytest.raises(InvalidToken):
        await world.rig.idle()
    assert world.rig.states() == {"one": "queued", "elsewhere": "queued"}


def edit(words: str, *, moved: bool = False) -> EditCard:
    rows = ((Button("Start", data="1:1:0:s:0"),),)
    return EditCard("session:7", CHAT, Message(words, rows=rows), moved=moved, client_id=CLIENT)


async def test_a_card_as_its_owner_sees_it(world):
    rig = world.rig
    rig.queue(replace(send("first", card="session:7"), message=edit("first").message))
    await rig.idle()
    rig.change(lambda unit: unit.cards.show(edit("second"), NOW))
    await rig.idle()
    assert world.texts(world.hers) == ["second"]
    rig.change(lambda unit: unit.cards.show(edit("second"), NOW))
    await rig.idle()
    assert set(rig.states().values()) == {"sent"}, "not modified is success"
    world.hers.type("80x5")
    rig.change(lambda unit: unit.cards.show(edit("third", moved=True), NOW))
    await rig.go_on(timedelta(seconds=10))
    assert world.texts(world.hers) == ["second", "third"]
    old, new = [shown for shown in world.hers.screen if not shown.mine]
    assert (old.buttons, new.buttons, new.silent) == ((), (("Start",),), True)


@pytest.mark.parametrize("kind", [Kind.DROP_AFTER, Kind.DROP_BEFORE, Kind.SERVER_ERROR])
async def test_an_edit_with_a_fault_on_its_way_is_simply_made_again(world, kind):
    world.rig.queue(send("first", card="session:7"))
    await world.rig.idle()
    world.network.faults.plan(Fault(kind, method="editMessageText", times=3))
    world.rig.change(lambda unit: unit.cards.show(edit("second"), NOW))
    await world.rig.go_on(timedelta(seconds=60))
    assert world.texts(world.hers) == ["second"]
    assert set(world.rig.states().values()) == {"sent"}


async def test_markup_that_the_platform_refuses_goes_out_plain(world):
    world.rig.queue(send("<q>hello</q>"))
    await world.rig.idle()
    assert world.texts(world.hers) == ["hello"]
