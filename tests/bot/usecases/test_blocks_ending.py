"""Blocks that end with none after them: one message a day for all clients, which grows and is told once."""

from datetime import datetime, timedelta

import pytest
from dialogs.talks import LISBON, Talk
from setting_out import Someone
from sqlalchemy import select

from bot.messages import Message, Send
from bot.store.outbox import message_of
from bot.store.tables import outbox
from bot.store.units import Units
from bot.usecases import talk

MORNING = datetime(2026, 4, 27, 7, tzinfo=LISBON)
MANY = [f"Client {number:02}" for number in range(1, 22)]


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


@pytest.fixture
def marit(play: Talk) -> Someone:
    return play.someone("Marit")


def on_adas_block(play: Talk, marit: Someone, *names: str, due_at: datetime = MORNING) -> list[int]:
    """Others of the coach run what Ada runs, from the same day on; its end is looked at when Ada's is."""
    ada = play.house.client_of(marit, play.someone("Ada"))
    found = []
    with play.units.open(marit.coach_id) as unit:
        running = unit.blocks.running(ada.id)
        assert running is not None
        for name in names:
            client_id = unit.clients.add(name, play.house.now)
            unit.clients.change(client_id, state="active", zone="Europe/Lisbon")
            made = unit.blocks.assign(client_id, running.version_id, running.starts_on, play.house.now)
            unit.alerts.watch(client_id, f"block:{made}", due_at, play.house.now)
            found.append(client_id)
    return found


def told_of_ends(play: Talk, user_id: int = 100) -> list[Message]:
    """What was queued for somebody about blocks that end, each card as it stood last."""
    query = select(outbox.c.card_id, outbox.c.body).where(outbox.c.chat_id == user_id).order_by(outbox.c.id)
    with play.units.engine.connect() as connection:
        rows = [(row.card_id, message_of(row.body)) for row in connection.execute(query) if row.body]
    return list({card: each for card, each in rows if "No card goes out after that" in each.html}.values())


def labels(message: Message) -> list[str]:
    return [each.label for row in message.rows for each in row]


def test_many_clients_on_one_block_are_one_message_however_often_the_clock_looks(
    play: Talk, marit: Someone
) -> None:
    clients = on_adas_block(play, marit, *MANY)
    play.tick(MORNING)
    play.tick(MORNING + timedelta(hours=26))

    [message] = told_of_ends(play)
    assert message.html.startswith(
        "22 clients have no block after the one that ends.\nHarbour strength ends Mon 4 "
    )
    assert all(message.html.count(f"<b>{name}</b>") == 1 for name in ("Ada", *MANY))
    assert labels(message) == ["Seen"]
    [ben] = told_of_ends(play, 900)
    assert "<b>Ben</b>" in ben.html
    with play.units.open(marit.coach_id) as unit:
        matters = [unit.alerts.of_client(each) for each in clients]
    assert [(len(each), each[0].told_at) for each in matters] == [(1, MORNING)] * 21


def test_what_was_seen_grows_no_more_and_the_next_is_a_message_of_its_own(play: Talk, marit: Someone) -> None:
    [bo] = on_adas_block(play, marit, "Bo")
    on_adas_block(play, marit, "Cleo", due_at=MORNING + timedelta(minutes=30))
    play.tick(MORNING)
    marit.tap("Seen")
    assert "2 clients have no block" in marit.sees
    assert "\n\nSeen." in marit.sees
    with play.units.open(marit.coach_id) as unit:
        assert [each.seen_at is not None for each in unit.alerts.of_client(bo)] == [True]

    play.tick(MORNING + timedelta(minutes=30))
    both, cleo = told_of_ends(play)
    assert "Cleo" not in both.html
    assert cleo.html.startswith("<b>Cleo</b>: Harbour strength ends Mon 4 May, and no block follows it.")
    assert labels(cleo) == ["Seen", "Write to them", "Show the log"]


def test_what_comes_later_that_day_brings_the_message_down_and_the_next_day_has_its_own(
    play: Talk, marit: Someone
) -> None:
    on_adas_block(play, marit, "Bo", due_at=MORNING + timedelta(hours=3))
    on_adas_block(play, marit, "Cleo", due_at=MORNING + timedelta(days=1))
    play.tick(MORNING)
    play.house.delivered()
    assert labels(told_of_ends(play)[0]) == ["Seen", "Write to them", "Show the log"]
    stale = marit.data("Write to them")

    brought = play.take("tick 2026-04-27 10:00")
    assert brought[:3] == [
        "    moved for Marit:",
        "        2 clients have no block after the one that ends.",
        "        Harbour strength ends Mon 4 May: Ada and Bo.",
    ]
    marit.tap_data(stale)
    assert "That button was from before." in marit.sees
    assert "2 clients have no block" in marit.sees
    play.tick(MORNING + timedelta(days=1))
    assert "<b>Cleo</b>" in told_of_ends(play)[1].html


def test_a_reply_to_a_message_about_several_asks_whom_it_is_for(play: Talk, marit: Someone) -> None:
    on_adas_block(play, marit, "Bo")
    play.tick(MORNING)
    reply_to = play.house.message_with(100, "2 clients have no block")

    effects = marit.does(talk.heard, talk.Heard("rest well"), reply_to=reply_to)

    assert [each.chat_id for each in effects if isinstance(each, Send)] == [100]
    assert "“rest well”: whom is it for?" in marit.sees
