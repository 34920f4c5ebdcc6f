"""A client on a new account: what she is moves with her, once, and the old account gets nothing more."""

from datetime import timedelta

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from sqlalchemy import func, select, update

from bot.messages import Lane, Message, Send
from bot.store.tables import consent, outbox
from bot.store.units import Unit, Units
from bot.usecases import join
from core.errors import UnknownClient

OLD, NEW = 1, 8


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


def client_id(play: Talk) -> int:
    found: int = play.house.reading(
        play.someone("Marit"), lambda unit: next(each.id for each in unit.clients.roster())
    )
    return found


def queued(play: Talk, chat_id: int) -> int:
    with play.units.read(None) as house:
        rows = house.connection.execute(
            select(func.count())
            .select_from(outbox)
            .where(outbox.c.chat_id == chat_id, outbox.c.state == "queued")
        )
        return int(rows.scalar_one())


def moved(play: Talk) -> None:
    play.take("Marit: /invite again Ada")
    play.take("Newphone opens the link")


def test_the_old_account_gets_nothing_more_even_of_what_was_queued(play: Talk) -> None:
    def safety(unit: Unit) -> None:
        unit.outbox.put(
            unit.coach_id, Send(OLD, Message("late"), key="late", lane=Lane.SAFETY), play.house.now
        )

    play.house.reading(play.someone("Marit"), safety)
    assert queued(play, OLD) > 0

    moved(play)
    assert queued(play, OLD) == 0

    for step in ("Newphone: 90 8 8 8 8", "Newphone: pain left knee 7", "Newphone: /today"):
        play.take(step)
    assert queued(play, OLD) == 0
    assert queued(play, NEW) > 0
    play.take("Ada: 90 8 8 8 8")
    assert "ask your coach for a link" in play.someone("Ada").sees


def test_her_buttons_and_words_are_good_on_the_new_account_and_the_old_ones_do_nothing(play: Talk) -> None:
    old = play.someone("Ada").data("All done as written")
    moved(play)

    play.someone("Ada").tap_data(old)
    with play.units.read(None) as house:
        assert house.of(2).sets.last_of(client_id(play), ["hip-thrust"], 0) == {}
    play.take("Newphone [All done as written]")

    assert "Hip thrust" in play.someone("Newphone").sees
    found = play.house.client_of(play.someone("Marit"), play.someone("Newphone"))
    assert (found.name, found.state, found.id) == ("Ada", "active", client_id(play))


def test_a_link_is_good_once_and_a_newer_one_makes_it_useless(play: Talk) -> None:
    play.take("Marit: /invite again Ada")
    play.take("Marit: /invite again Ada")
    play.someone("Cleo").does(join.start, join.Start("talkcode1"))
    assert "ask your coach for a link" in play.someone("Cleo").sees
    play.take("Newphone opens the link")
    play.house.now += timedelta(hours=2)
    play.take("Cleo opens the link")
    assert "ask your coach for a link" in play.someone("Cleo").sees


def test_a_coach_cannot_move_another_coachs_client(play: Talk) -> None:
    with pytest.raises(UnknownClient):
        play.take("Orla: /invite again Ada")
    play.take("Ada: /invite again Ada")
    assert "Only a coach can do that here." in play.someone("Ada").sees


def test_consent_is_asked_again_only_where_its_words_have_changed(play: Talk) -> None:
    with play.units.open(None) as house:
        house.connection.execute(update(consent).values(version="2026-1"))

    moved(play)
    newphone = play.someone("Newphone")
    assert "Do you agree that I keep and use this data" in newphone.sees
    found = play.house.client_of(play.someone("Marit"), newphone)
    assert (found.state, found.join_step) == ("joining", "consent")
    play.take("Newphone [No]")
    assert play.house.client_of(play.someone("Marit"), newphone).state == "joining"
    play.take("Newphone: /start")
    play.take("Newphone [I agree]")

    assert newphone.sees == "Thank you. All goes on as before. /today shows your session."
    found = play.house.client_of(play.someone("Marit"), newphone)
    assert (found.state, found.join_step, found.days) == ("active", None, [0, 1, 3, 4])


def test_who_has_stopped_begins_again_with_what_is_kept_of_her(play: Talk) -> None:
    before = client_id(play)
    for step in ("Ada: /stop", "Ada [Stop]"):
        play.take(step)
    moved(play)
    found = play.house.client_of(play.someone("Marit"), play.someone("Newphone"))
    assert (found.id, found.state, found.join_step) == (before, "joining", "caution")


def test_who_is_joining_goes_on_where_she_was(play: Talk) -> None:
    for step in ("Marit: /invite Cleo", "Cleo opens the link", "Cleo [Go on]", "Cleo [I agree]"):
        play.take(step)
    play.take("Marit: /invite again Cleo")
    play.take("Newphone opens the link")
    assert "How old are you?" in play.someone("Newphone").sees
    play.take("Newphone [18–39]")
    assert play.house.client_of(play.someone("Marit"), play.someone("Newphone")).join_step == "pregnancy"


def test_without_a_name_it_says_how(play: Talk) -> None:
    play.take("Marit: /invite Again ")
    assert play.someone("Marit").sees == "Who has a new account? Write the name with it: /invite again Ada"


def test_another_client_cannot_take_a_link_for_herself(play: Talk) -> None:
    for step in ("Marit: /invite Cleo", "Cleo opens the link", "Cleo: /stop", "Cleo [Stop]"):
        play.take(step)
    play.take("Marit: /invite again Ada")
    play.take("Cleo opens the link")
    assert play.someone("Cleo").sees.startswith("You do not train here now")
    found = play.house.client_of(play.someone("Marit"), play.someone("Cleo"))
    assert (found.name, found.state) == ("Cleo", "stopped")
    play.take("Newphone opens the link")
    assert play.house.client_of(play.someone("Marit"), play.someone("Newphone")).name == "Ada"
