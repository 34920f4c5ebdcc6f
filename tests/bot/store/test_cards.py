from dataclasses import replace
from datetime import timedelta

import pytest
from mailroom import CHAT, CLIENT, COXSWAIN, KEEPER, NOW, OTHER_CHAT, populate, send
from sqlalchemy import Connection, Engine, select

from bot.messages import Button, EditCard, Message, Send
from bot.store.cards import Cards
from bot.store.outbox import Outbox, OutboxRow
from bot.store.tables import outbox

SECOND = timedelta(seconds=1)


@pytest.fixture
def connection(engine: Engine):
    populate(engine)
    with engine.begin() as connection:
        yield connection


@pytest.fixture
def cards(connection: Connection) -> Cards:
    return Cards(connection, KEEPER)


@pytest.fixture
def box(connection: Connection) -> Outbox:
    return Outbox(connection)


def first(words: str = "first", key: str = "start", **facts: object) -> Send:
    return replace(send(words, key=key, card="session:7", client_id=CLIENT), **facts)


def edit(words: str, *, moved: bool = False, chat_id: int = CHAT) -> EditCard:
    return EditCard("session:7", chat_id, Message(words), moved=moved, client_id=CLIENT)


def taken(cards: Cards) -> OutboxRow:
    box = Outbox(cards.connection)
    row = box.next_row(NOW)
    assert row is not None
    claimed = box.claim(row.id, "sender", NOW)
    assert claimed is not None
    return claimed


def arrives(cards: Cards, row: OutboxRow, message_id: int | None = None) -> None:
    """What the sender does when a call went well."""
    arrived = message_id if message_id is not None else row.message_id
    Outbox(cards.connection).sent(row, arrived, NOW)
    cards.delivered(row, arrived, NOW)


def started(cards: Cards, message_id: int = 70) -> None:
    cards.start(first(), NOW)
    arrives(cards, taken(cards), message_id)


def queued(cards: Cards) -> list[tuple[str, str]]:
    query = select(outbox.c.op, outbox.c.body).where(outbox.c.state == "queued").order_by(outbox.c.id)
    return [(op, (body or {}).get("html", "")) for op, body in cards.connection.execute(query)]


def html(row: OutboxRow) -> str:
    return row.body.html if row.body else ""


def test_a_message_becomes_a_card_once_it_has_arrived(cards):
    assert cards.start(first(), NOW) is not None
    card = cards.find("session:7")
    assert card is not None
    assert (card.message_id, card.wanted, card.shown, card.client_id) == (None, 1, 0, CLIENT)
    arrives(cards, taken(cards), 70)
    card = cards.card_at(CHAT, 70)
    assert card is not None
    assert (card.key, card.message_id, card.wanted, card.shown) == ("session:7", 70, 1, 1)


def test_a_message_that_names_no_card_is_no_card(cards):
    with pytest.raises(ValueError, match="names a card"):
        cards.start(send("x"), NOW)


def test_the_same_start_twice_changes_nothing(cards):
    cards.start(first(), NOW)
    assert cards.start(first("again"), NOW) is None
    card = cards.find("session:7")
    assert card is not None
    assert card.wanted == 1
    assert queued(cards) == [("send", "first")]


def test_the_other_coach_never_finds_the_card(cards):
    started(cards)
    others = Cards(cards.connection, COXSWAIN)
    assert others.find("session:7") is None
    assert others.card_at(CHAT, 70) is None
    others.show(edit("theirs", chat_id=OTHER_CHAT), NOW)
    mine, theirs = cards.find("session:7"), others.find("session:7")
    assert mine is not None
    assert theirs is not None
    assert (mine.wanted, theirs.wanted) == (1, 1)


def test_content_before_the_card_went_out_goes_out_with_it(cards):
    cards.start(first(message=Message("first", silent=False)), NOW)
    cards.show(replace(edit("second", moved=True), message=Message("second", silent=True)), NOW)
    assert queued(cards) == [("send", "second")]
    row = taken(cards)
    assert (row.op, html(row), row.key) == ("send", "second", "start")
    assert row.body is not None
    assert not row.body.silent, "it is still the message that she is to notice"
    arrives(cards, row, 70)
    card = cards.find("session:7")
    assert card is not None
    assert (card.wanted, card.shown) == (2, 2)


def test_new_content_is_edited_in_place(cards, box):
    started(cards)
    cards.show(edit("second"), NOW)
    row = taken(cards)
    assert (row.op, row.message_id, html(row)) == ("edit", 70, "second")
    arrives(cards, row)
    card = cards.find("session:7")
    assert card is not None
    assert (card.message_id, card.wanted, card.shown) == (70, 2, 2)
    assert box.next_row(NOW) is None


def test_of_a_card_one_row_is_queued_whatever_comes(cards):
    started(cards)
    for words in ("second", "third", "fourth"):
        cards.show(edit(words), NOW)
    assert queued(cards) == [("edit", "fourth")]
    arrives(cards, taken(cards))
    card = cards.find("session:7")
    assert card is not None
    assert (card.wanted, card.shown) == (4, 4)


def test_an_edit_becomes_a_move_and_a_move_stays_one(cards):
    started(cards)
    cards.show(edit("second"), NOW)
    cards.show(edit("third", moved=True), NOW)
    assert queued(cards) == [("move", "third")]
    cards.show(edit("fourth"), NOW)
    assert queued(cards) == [("move", "fourth")]


def test_a_move_is_a_silent_new_message_and_the_old_one_loses_its_buttons(cards, box):
    started(cards)
    cards.show(edit("second", moved=True), NOW)
    row = taken(cards)
    assert (row.op, row.message_id) == ("move", None)
    assert row.body is not None
    assert row.body.silent
    arrives(cards, row, 75)
    assert cards.card_at(CHAT, 70) is None
    card = cards.card_at(CHAT, 75)
    assert card is not None
    assert card.shown == 2
    strip = taken(cards)
    assert (strip.op, strip.message_id, strip.body) == ("strip", 70, None)
    arrives(cards, strip)
    assert cards.card_at(CHAT, 75) == card
    assert box.next_row(NOW) is None


def test_content_while_the_first_message_is_in_flight_waits_and_edits_it(cards, box):
    cards.start(first(), NOW)
    row = taken(cards)
    cards.show(edit("second"), NOW)
    assert queued(cards) == [("edit", "second")]
    assert box.next_row(NOW) is None
    arrives(cards, row, 70)
    later = taken(cards)
    assert (later.op, later.message_id) == ("edit", 70)


def test_an_edit_whose_card_has_no_message_becomes_a_send(cards, box):
    cards.start(first(), NOW)
    row = taken(cards)
    cards.show(edit("second"), NOW)
    box.dead(row, "refused")
    later = taken(cards)
    assert (later.op, later.message_id, html(later)) == ("send", None, "second")
    assert box.get(later.id).op == "send", "so that a process that dies now leaves it in doubt"


def test_a_card_that_never_went_out_is_sent_with_its_next_content(cards, box):
    cards.start(first(), NOW)
    box.cancel(CLIENT)
    cards.show(edit("second"), NOW)
    assert queued(cards) == [("send", "second")]


def test_a_card_that_nobody_knows_to_have_arrived_is_sent_with_its_next_content(cards, box):
    cards.start(first(), NOW)
    box.in_doubt(taken(cards), NOW, "ReadTimeout")
    box.in_doubt(taken(cards), NOW, "ReadTimeout")
    cards.show(edit("second"), NOW)
    assert queued(cards) == [("send", "second")]


def test_a_lost_message_is_sent_anew(cards, box):
    started(cards)
    cards.show(edit("second"), NOW)
    row = taken(cards)
    cards.lost(row)
    box.again(row, NOW, "message gone")
    anew = taken(cards)
    assert (anew.op, html(anew)) == ("send", "second")
    arrives(cards, anew, 80)
    assert cards.card_at(CHAT, 80) is not None
    assert box.next_row(NOW) is None, "there is no old message to strip"


def test_a_message_that_was_replaced_meanwhile_is_not_lost(cards):
    started(cards)
    cards.show(edit("second"), NOW)
    row = replace(taken(cards), message_id=69)
    cards.lost(row)
    assert cards.card_at(CHAT, 70) is not None


def test_an_edit_that_failed_is_superseded_by_a_later_one(cards):
    started(cards)
    cards.show(edit("second"), NOW)
    row = taken(cards)
    assert not cards.is_superseded(row)
    cards.show(edit("third"), NOW)
    assert cards.is_superseded(row)
    assert not cards.is_superseded(replace(row, op="move")), "a new message may have arrived"
    assert not cards.is_superseded(replace(row, card_id=None))


def test_starting_a_card_again_makes_a_new_message_of_it_and_strips_the_old(cards):
    started(cards)
    cards.show(edit("second"), NOW)
    cards.start(first("posted anew", key="anew"), NOW)
    assert queued(cards) == [("send", "posted anew")]
    arrives(cards, taken(cards), 90)
    strip = taken(cards)
    assert (strip.op, strip.message_id) == ("strip", 70)
    card = cards.card_at(CHAT, 90)
    assert card is not None
    assert (card.wanted, card.shown) == (3, 3)


def test_a_card_goes_with_its_owner_to_another_chat(cards):
    started(cards)
    cards.show(edit("second", chat_id=777), NOW)
    row = taken(cards)
    assert (row.op, row.chat_id) == ("send", 777)
    arrives(cards, row, 5)
    assert cards.card_at(777, 5) is not None
    assert queued(cards) == []


def test_an_older_content_that_arrives_late_does_not_count_as_the_newest(cards):
    started(cards)
    cards.show(edit("second"), NOW)
    row = taken(cards)
    arrives(cards, row)
    cards.delivered(replace(row, revision=1), 70, NOW)
    card = cards.find("session:7")
    assert card is not None
    assert card.shown == 2


def test_a_row_without_a_card_is_left_alone(cards, box):
    box.put(KEEPER, send("note"), NOW)
    row = taken(cards)
    assert row.op == "send"
    cards.delivered(row, 3, NOW)
    assert cards.card_at(CHAT, 3) is None


def test_buttons_travel_with_a_card(cards):
    rows = ((Button("Start", data="1:1:0:s:0"), Button("Skip", data="1:1:0:k:0")),)
    cards.start(first(message=Message("first", rows=rows)), NOW)
    row = taken(cards)
    assert row.body is not None
    assert row.body.rows == rows
