"""A coach's tools know her own clients only: every command and every button of hers, tried by everybody else."""

import re
from datetime import datetime
from typing import Any

import pytest
from dialogs.moments import acted_out
from dialogs.talks import LISBON, Talk
from setting_out import House, Someone, plain_text
from sqlalchemy import func, select

from bot.messages import Action, EditCard, Send, Tap, encode
from bot.store import tables
from bot.store.units import Units
from bot.usecases import talk

MINE = ("alert", "write", "whom", "roster", "client", "correct", "preview", "invites", "cue", "cues")
"""Kinds of questions that a coach's tools ask."""
MINE_TOO = ("roster", "client", "preview", "invites")
"""Commands of hers."""


def opened_everything(play: Talk) -> None:
    """Ada and Ben have each trained once and have each said that it hurts; Marit has opened every tool of hers."""
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    for name in ("Ada", "Ben"):
        person = play.someone(name)
        person.tap("All done as written")
        play.typed(person, "40 12 12 12")
        person.tap("Nothing hurts")
        person.tap("2")
        play.typed(person, "pain left knee 5")
    marit = play.someone("Marit")
    marit.tap("Write to them")
    play.house.invited(marit, "Cleo", 77)
    for command in MINE_TOO:
        play.commanded(marit, command, "Ada" if command == "client" else None)
    play.commanded(marit, "cue", "Ada, hip thrust: ribs down")
    play.commanded(marit, "cues", None)
    marit.tap("Correct a set")
    play.replied(marit, "Which day?", "hello")


@pytest.fixture
def play(units: Units) -> Talk:
    return acted_out(units, opened_everything)


def asked(play: Talk, coach: Someone) -> dict[str, tuple[int, int]]:
    """Row and revision of the newest question of each kind that a coach was asked."""
    with play.units.read(None) as house:
        rows = house.connection.execute(
            select(tables.prompt.c.kind, tables.prompt.c.id, tables.prompt.c.revision)
            .where(tables.prompt.c.user_id == coach.user_id)
            .order_by(tables.prompt.c.id)
        ).all()
    return {row.kind: (row.id, row.revision) for row in rows}


def everything(house: House) -> list[tuple[str, Any]]:
    """Every row of every table that a tap could change, beside the inbox."""
    with house.units.read(None) as unit:
        return [
            (table.name, tuple(row))
            for table in tables.metadata.sorted_tables
            for row in unit.connection.execute(select(table).order_by(*table.primary_key.columns))
        ]


def test_the_walk_has_a_question_of_every_kind(play: Talk) -> None:
    assert set(MINE) <= set(asked(play, play.someone("Marit")))


@pytest.mark.parametrize("who", ["Orla", "Ben", "Ada"])
def test_no_button_of_hers_does_anything_for_anybody_else(play: Talk, who: str) -> None:
    other, changed = play.someone(who), []
    for kind in MINE:
        row, revision = asked(play, play.someone("Marit"))[kind]
        before = everything(play.house)
        for action in Action:
            for argument in (0, 1, 2):
                other.tap_data(encode(Tap(row, revision, action, argument)))
        changed += [kind] if everything(play.house) != before else []

    assert changed == []


def test_no_row_of_another_coachs_can_be_named_in_a_button_of_hers(play: Talk) -> None:
    """Whatever number a button of Marit's carries, nothing of Orla's or Ben's is shown or changed."""
    marit, shown = play.someone("Marit"), []
    before = rows_of(play, 900)
    for kind in MINE:
        for action in (Action.PICK, Action.TAKE_UP, Action.CANCEL, Action.EASE, Action.PAUSE, Action.WRITE):
            for argument in range(13):
                row, revision = asked(play, marit)[kind]
                shown += marit.does(*_tap(row, revision, action, argument))

    said = [effect for effect in shown if isinstance(effect, Send | EditCard)]
    assert len(said) == len(shown) > 100
    assert {effect.chat_id for effect in said} <= {1, 77, 100}
    assert [effect for effect in said if re.search(r"\bBen\b", plain_text(effect.message))] == []
    assert rows_of(play, 900) == before


def rows_of(play: Talk, user_id: int) -> list[tuple[str, Any]]:
    """Every row of a coach's tenant."""
    with play.units.read(None) as house:
        account = house.accounts.find(user_id)
        assert account is not None
        return [
            (table.name, tuple(row))
            for table in tables.metadata.sorted_tables
            if "coach_id" in table.c
            for row in house.connection.execute(
                select(table).where(table.c.coach_id == account.coach_id).order_by(*table.primary_key.columns)
            )
        ]


def _tap(row: int, revision: int, action: Action, argument: int) -> tuple[Any, Any]:

    return talk.tapped, talk.Tapped(Tap(row, revision, action, argument))


def test_a_command_of_hers_shows_nothing_of_another_coachs(play: Talk) -> None:
    for command in MINE_TOO:
        for text in ("", "Ben", "Ada"):
            shown = play.commanded(play.someone("Orla"), command, text)
            assert [effect.chat_id for effect in shown] == [900] * len(shown) != []
            said = " ".join(plain_text(each.message) for each in shown)
            assert not re.search(r"\bAda\b", said.replace("called Ada", "").replace("/invite Ada", ""))


def test_a_command_of_hers_is_for_no_client(play: Talk) -> None:
    for who in ("Ada", "Ben"):
        for command in MINE_TOO:
            shown = play.commanded(play.someone(who), command, "Ada")
            said = [plain_text(effect.message) for effect in shown]
            assert said[0].startswith("In a session")
            assert said[1:] == ["Only a coach can do that here. Nothing was changed."]


def test_a_reply_to_a_message_of_another_coachs_goes_to_nobody(play: Talk) -> None:
    """Numbers of messages are the chat's own: the same number in another chat names another message."""
    reply_to = play.house.message_with(100, "left knee, 5 of 10")
    orla = play.someone("Orla")

    shown = orla.does(talk.heard, talk.Heard("rest it"), reply_to=reply_to)

    assert [effect.chat_id for effect in shown] == [900]
    with play.units.read(None) as house:
        count = select(func.count()).where(
            tables.outbox.c.chat_id == 1, tables.outbox.c.key.contains("from-coach")
        )
        assert house.connection.execute(count).scalar_one() == 0
