import asyncio
from dataclasses import replace
from datetime import timedelta

import pytest
from mailroom import (
    CHAT,
    CLIENT,
    KEEPER,
    NOW,
    OTHER_CHAT,
    SAFETY,
    Rig,
    first_time,
    send,
)
from sqlalchemy import insert, select, update
from telegram.error import InvalidToken

from bot.messages import EditCard, Message
from bot.outbound.policy import (
    Blocked,
    ChatMoved,
    FileUnknown,
    InDoubt,
    MarkupRefused,
    MessageGone,
    NotDelivered,
    TooFast,
    WrongToken,
)
from bot.store.tables import account, outbox, picture

SECOND = timedelta(seconds=1)


async def test_in_a_chat_order_holds_through_refusals(rig):
    rig.post.plan = first_time(NotDelivered("ConnectError"), "one", times=3)
    rig.queue(send("one"), send("two"), send("elsewhere", OTHER_CHAT))
    await rig.idle()
    assert rig.post.texts() == ["elsewhere"]
    await rig.go_on()
    assert rig.post.texts(CHAT) == ["one", "two"]
    assert 10 <= (rig.post.arrived[-1].at - NOW).total_seconds() <= 18, "about 2 + 4 + 8 s"


async def test_a_pause_is_honoured_to_the_half_second_and_holds_only_its_chat(rig):
    rig.post.plan = first_time(TooFast(7), "one")
    rig.queue(send("one"), send("two"), send("elsewhere", OTHER_CHAT))
    await rig.idle()
    rig.queue(send("stop sign", lane=SAFETY))
    await rig.go_on()
    at = {each.text: (each.at - NOW).total_seconds() for each in rig.post.arrived}
    assert at == {"elsewhere": 0, "stop sign": 7.5, "one": 7.5, "two": 7.5}
    assert rig.post.texts(CHAT) == ["stop sign", "one", "two"]


async def test_a_pause_outlives_the_process(rig, engine):
    rig.post.plan = first_time(TooFast(7), "one")
    rig.queue(send("one"))
    await rig.idle()
    await rig.stop()
    again = Rig(engine, rig.clock, rig.post)
    again.queue(send("stop sign", lane=SAFETY))
    await again.idle()
    assert rig.post.texts() == []
    await again.go_on()
    assert rig.post.texts() == ["stop sign", "one"]
    await again.stop()


async def test_two_chats_that_are_told_to_pause_pause_everybody_but_safety(rig):
    asked = {"a": TooFast(10), "b": TooFast(20)}
    rig.post.plan = lambda row: asked.pop(row.body.html, None)
    rig.queue(send("a", 1))
    await rig.idle()
    rig.queue(send("b", 2))
    await rig.idle()
    rig.queue(send("c", 3), send("stop sign", 4, lane=SAFETY))
    await rig.idle()
    assert rig.post.texts() == ["stop sign"]
    await rig.go_on()
    at = {each.text: (each.at - NOW).total_seconds() for each in rig.post.arrived}
    assert (at["c"], at["b"]) == (20.5, 20.5)


async def test_a_pause_of_a_minute_is_about_everybody(rig):
    rig.post.plan = first_time(TooFast(90), "a")
    rig.queue(send("a", 1))
    await rig.idle()
    rig.queue(send("b", 2))
    await rig.idle()
    assert rig.post.texts() == []
    await rig.go_on()
    assert sorted(rig.post.texts()) == ["a", "b"]


async def test_what_is_in_doubt_is_sent_once_more(rig):
    rig.post.plan = first_time(InDoubt("ReadTimeout"), "session")
    rig.post.arrives_anyway.add("session")
    rig.queue(send("session"), send("after"))
    await rig.go_on()
    assert rig.post.texts(CHAT) == ["session", "session", "after"]
    assert rig.states() == {"session": "sent", "after": "sent"}


async def test_in_doubt_again_it_is_given_up_and_shown(rig):
    rig.post.plan = first_time(InDoubt("ReadTimeout"), "session", times=9)
    rig.queue(send("session"), send("after"))
    await rig.go_on()
    assert len(rig.post.calls) == 3
    assert rig.states() == {"session": "doubtful", "after": "sent"}
    assert rig.doubtful == ["session"]


async def test_a_blocked_chat_is_given_up_and_told_once(rig):
    rig.post.plan = lambda row: Blocked("bot was blocked by the user") if row.chat_id == CHAT else None
    rig.queue(send("one"), send("two"), send("planned", due_at=NOW + 60 * SECOND), send("hers", OTHER_CHAT))
    await rig.go_on()
    assert rig.blocked == [CHAT]
    assert rig.states() == {"one": "dead", "two": "cancelled", "planned": "cancelled", "hers": "sent"}
    with rig.engine.connect() as connection:
        query = select(account.c.reachable).order_by(account.c.user_id)
        assert list(connection.execute(query).scalars()) == [True, False, True, True]
    rig.queue(send("three"))
    await rig.idle()
    assert rig.blocked == [CHAT], "she is known to be out of reach"


async def test_a_listener_that_fails_does_not_hold_up_the_mail(rig):
    async def fails(_: int) -> None:
        raise RuntimeError("no")

    rig.sender._on_blocked = fails
    rig.post.plan = lambda row: Blocked("bot was blocked by the user") if row.chat_id == CHAT else None
    rig.queue(send("one"), send("hers", OTHER_CHAT))
    await rig.idle()
    assert rig.states() == {"one": "dead", "hers": "sent"}


async def test_a_wrong_token_stops_everything_and_loses_nothing(rig):
    rig.post.plan = lambda _: WrongToken("token refused")
    rig.queue(send("one"), send("two"))
    with pytest.raises(InvalidToken):
        await rig.idle()
    assert rig.states() == {"one": "queued", "two": "queued"}
    assert len(rig.post.calls) == 1


async def test_markup_that_is_refused_is_sent_plain_once(rig):
    rig.post.plan = lambda row: MarkupRefused() if not row.plain else None
    rig.queue(send("<b>hello"))
    await rig.idle()
    assert [row.plain for row in rig.post.calls] == [0, 1]
    assert rig.states() == {"<b>hello": "sent"}


async def test_what_will_never_arrive_is_dead_and_holds_nobody(rig):
    rig.post.plan = first_time(NotDelivered("message is too long", permanent=True), "long")
    rig.queue(send("long"), send("after"))
    await rig.idle()
    assert rig.states() == {"long": "dead", "after": "sent"}


async def test_a_chat_that_moved_gets_its_mail_at_its_new_number(rig):
    rig.post.plan = first_time(ChatMoved(-100777), "one")
    rig.queue(send("one"), send("two"))
    await rig.idle()
    assert rig.post.texts(-100777) == ["one", "two"]


async def test_a_picture_that_the_platform_forgot_is_uploaded_anew(rig):
    with rig.engine.begin() as connection:
        connection.execute(
            insert(picture).values(id=1, coach_id=KEEPER, bytes=b"p", name="p.png", file_id="old", at=NOW)
        )
    rig.post.plan = first_time(FileUnknown())
    rig.queue(replace(send("p"), message=Message("p", media_kind="photo", picture_id=1)))
    await rig.idle()
    with rig.engine.connect() as connection:
        assert connection.execute(select(picture.c.file_id)).scalar() is None
    assert rig.states() == {"p": "sent"}


async def test_what_is_too_late_is_never_sent(rig):
    rig.post.plan = first_time(NotDelivered("ConnectError"), "session", times=4)
    rig.queue(send("session", not_after=NOW + 5 * SECOND), send("after"))
    await rig.go_on()
    assert rig.post.texts() == ["after"]
    assert rig.states() == {"session": "expired", "after": "sent"}


def edit(words: str, *, moved: bool = False) -> EditCard:
    return EditCard("session:7", CHAT, Message(words), moved=moved, client_id=CLIENT)


async def test_a_card_is_kept_up_to_date_where_it_stands(rig):
    rig.queue(send("first", card="session:7"))
    await rig.idle()
    for words in ("second", "third"):
        rig.change(lambda unit, words=words: unit.cards.show(edit(words), NOW))
    await rig.idle()
    assert [(each.op, each.text) for each in rig.post.arrived] == [("send", "first"), ("edit", "third")]
    assert len({each.message_id for each in rig.post.arrived}) == 1


async def test_a_moved_card_leaves_no_buttons_behind(rig):
    rig.queue(send("first", card="session:7"))
    await rig.idle()
    rig.change(lambda unit: unit.cards.show(edit("second", moved=True), NOW))
    await rig.go_on()
    assert [(each.op, each.message_id) for each in rig.post.arrived] == [
        ("send", 100),
        ("move", 101),
        ("strip", 100),
    ]


async def test_a_card_whose_message_is_gone_is_sent_anew(rig):
    rig.queue(send("first", card="session:7"))
    await rig.idle()
    rig.post.plan = lambda row: MessageGone() if row.op == "edit" else None
    rig.change(lambda unit: unit.cards.show(edit("second"), NOW))
    await rig.idle()
    assert [(each.op, each.text) for each in rig.post.arrived] == [("send", "first"), ("send", "second")]
    assert set(rig.states().values()) == {"sent"}


@pytest.mark.parametrize("fault", [NotDelivered("ConnectError"), InDoubt("ReadTimeout")])
async def test_an_edit_that_failed_gives_way_to_a_later_one(rig, fault):
    rig.queue(send("first", card="session:7"))
    await rig.idle()
    rig.post.gates["second"] = asyncio.Event()
    rig.post.plan = first_time(fault, "second")
    rig.change(lambda unit: unit.cards.show(edit("second"), NOW))
    await rig.post.begun(2)
    rig.change(lambda unit: unit.cards.show(edit("third"), NOW))
    rig.post.gates["second"].set()
    await rig.idle()
    assert [each.text for each in rig.post.arrived] == ["first", "third"]
    assert sorted(rig.states().values()) == ["cancelled", "sent", "sent"]


async def test_what_was_cancelled_in_flight_is_not_sent_again(rig):
    rig.post.gates["card"] = asyncio.Event()
    rig.post.plan = first_time(InDoubt("ReadTimeout"), "card")
    rig.queue(send("card", client_id=CLIENT))
    rig.start()
    await rig.post.begun(1)
    rig.change(lambda unit: unit.outbox.cancel(CLIENT))
    rig.post.gates["card"].set()
    await rig.go_on()
    assert len(rig.post.calls) == 1
    assert rig.states() == {"card": "cancelled"}


async def test_a_body_that_cannot_be_read_reaches_the_way_out_as_none(rig):
    rig.queue(send("a"))
    with rig.engine.begin() as connection:
        connection.execute(update(outbox).values(body={"rows": 3}))
    rig.post.plan = lambda row: NotDelivered("body unreadable", permanent=True) if row.body is None else None
    await rig.idle()
    assert rig.states() == {"a": "dead"}


async def test_two_calls_to_one_chat_that_are_told_to_pause_hold_nobody_else(rig):
    rig.post.plan = lambda row: TooFast(9) if row.chat_id == CHAT and row.attempts == 1 else None
    rig.post.gates["talk"] = asyncio.Event()
    rig.queue(send("talk"))
    rig.start()
    await rig.post.begun(1)
    rig.queue(send("stop sign", lane=SAFETY))
    await rig.post.begun(2)
    rig.post.gates["talk"].set()
    await rig.idle()
    rig.queue(send("elsewhere", OTHER_CHAT))
    await rig.idle()
    assert rig.post.texts() == ["elsewhere"]
