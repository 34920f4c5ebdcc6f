"""Missed sessions: whose fault it never is, at what hour it is asked, and what an answer keeps."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from faults.crew import ADA, BEN, DUE, MARIT, two_crews
from setting_out import House, Someone, plain_text
from sqlalchemy import select, update

from bot.messages import Person
from bot.store.outages import spare
from bot.store.tables import account, client, outbox, session
from bot.store.units import Units
from bot.usecases.effects import apply
from bot.usecases.misses import SettleSession, settle_session
from bot.usecases.sending import SendSession, send_session

GRACE = datetime(2026, 4, 8, 11, tzinfo=UTC)
FIRST = date(2026, 4, 7)


class Town(House):
    """Both crews, and Ada's sessions."""

    @property
    def ada(self) -> Someone:
        return self.someone(ADA)

    def value(self, query: Any) -> Any:
        with self.units.read(None) as unit:
            return unit.connection.execute(query).scalar()

    def session_id(self, on: date, user_id: int = ADA) -> int:
        theirs = select(account.c.client_id).where(account.c.user_id == user_id).scalar_subquery()
        return self.value(select(session.c.id).where(session.c.local_on == on, session.c.client_id == theirs))

    def due(self, usecase: Any, command: object, at: datetime, user_id: int = ADA) -> list[Any]:
        self.now = at
        coach_id = self.value(select(account.c.coach_id).where(account.c.user_id == user_id))
        with self.units.open(coach_id) as unit:
            found = usecase(command, Person(0, 0, coach_id, "clock"), unit, at)
            apply(found, unit, at)
        self.show(found, user_id)
        return found

    def send(self, on: date = FIRST, at: datetime = DUE) -> int:
        session_id = self.session_id(on)
        self.due(send_session, SendSession(session_id), at)
        return session_id

    def settle(self, session_id: int, at: datetime = GRACE) -> list[Any]:
        return self.due(settle_session, SettleSession(session_id), at)

    def state(self, session_id: int) -> tuple[str, str | None]:
        query = select(session.c.state, session.c.left_reason).where(session.c.id == session_id)
        with self.units.read(None) as unit:
            return tuple(unit.connection.execute(query).one())

    def question(self) -> Any:
        query = (
            select(outbox.c.due_at).where(outbox.c.key.like("%:missed:%:ask")).order_by(outbox.c.id.desc())
        )
        return self.value(query.limit(1))


@pytest.fixture
def town(units: Units) -> Town:
    two_crews(units)
    return Town(units, now=DUE, updates=1000)


def test_a_session_is_not_settled_before_its_grace_is_over(town: Town) -> None:
    session_id = town.send()

    assert town.settle(session_id, GRACE - timedelta(seconds=1)) == []
    assert town.state(session_id) == ("sent", None)


def test_a_session_is_settled_once(town: Town) -> None:
    session_id = town.send()

    assert len(town.settle(session_id)) == 3
    assert town.settle(session_id) == []


def test_what_was_begun_is_kept_in_part_and_asked_about_by_nobody(town: Town) -> None:
    session_id = town.send()
    town.ada.type("90 8 8 8 8")
    town.settle(session_id)

    assert town.state(session_id) == ("partial", None)
    assert town.question() is None
    assert "1 of 5 exercises done." in town.ada.sees


def test_a_client_who_cannot_be_reached_misses_nothing(town: Town) -> None:
    session_id = town.send()
    with town.units.open(None) as unit:
        unit.accounts.set_reachable(ADA, GRACE, reachable=False)

    assert town.settle(session_id) == []
    assert town.state(session_id) == ("unsent", "unreachable")


@pytest.mark.parametrize("state", ["doubtful", "expired", "dead"])
def test_a_card_that_may_not_have_arrived_is_no_miss(town: Town, state: str) -> None:
    session_id = town.send()
    with town.units.open(None) as unit:
        unit.connection.execute(update(outbox).where(outbox.c.key.like("%:card:%")).values(state=state))
    town.settle(session_id)

    assert town.state(session_id) == ("unsent", "in doubt")
    assert town.question() is None


def test_an_outage_spares_what_was_open_in_it(town: Town) -> None:
    session_id = town.send()
    with town.units.open(None) as unit:
        spare(unit.connection, DUE)
    assert town.state(session_id) == ("sent", None)

    with town.units.open(None) as unit:
        spare(unit.connection, DUE + timedelta(hours=2))
    town.settle(session_id)
    assert town.state(session_id) == ("unsent", "system")
    assert "does not count as missed" in town.ada.sees


def test_a_plan_on_hold_is_asked_about_by_nobody(town: Town) -> None:
    session_id = town.send()
    with town.units.open(None) as unit:
        unit.connection.execute(update(client).values(frozen_at=GRACE))
    town.settle(session_id)

    assert town.state(session_id) == ("missed", None)
    assert town.question() is None


@pytest.mark.parametrize(
    ("settled", "asked"),
    [
        (GRACE, GRACE),
        (datetime(2026, 4, 9, 2, tzinfo=UTC), datetime(2026, 4, 9, 6, tzinfo=UTC)),
        (datetime(2026, 4, 8, 22, tzinfo=UTC), datetime(2026, 4, 9, 6, tzinfo=UTC)),
    ],
)
def test_a_miss_is_asked_about_at_a_decent_hour(town: Town, settled: datetime, asked: datetime) -> None:
    town.settle(town.send(), settled)

    assert town.question() == asked


@pytest.mark.parametrize(
    ("label", "reason", "says"),
    [
        ("No time", "time", "No load goes down"),
        ("Ill", "ill", "Get well first."),
        ("Something else", "other", "your coach will read it"),
    ],
)
def test_a_reason_is_kept_and_answered_once(town: Town, label: str, reason: str, says: str) -> None:
    session_id = town.send()
    town.settle(session_id)
    data = town.ada.data(label)
    town.ada.tap_data(data)

    assert town.state(session_id) == ("missed", reason)
    assert any(says in plain_text(each) for each in town.ada.screen.values())
    other = town.ada.screen.copy()
    town.ada.tap_data(data)
    assert town.ada.screen == other


def test_pain_is_asked_about_further(town: Town) -> None:
    session_id = town.send()
    town.settle(session_id)
    town.ada.tap("Pain")

    assert town.state(session_id) == ("missed", "pain")
    assert town.ada.sees.startswith("Where does it hurt?")


def test_an_answered_question_shows_its_answer_to_an_old_button(town: Town) -> None:
    town.settle(town.send())
    other = town.ada.data("Ill")
    town.ada.tap("No time")
    town.ada.tap_data(other)

    assert town.ada.sees.startswith("Noted: no time.")


def test_a_forged_answer_keeps_nothing(town: Town) -> None:
    session_id = town.send()
    town.settle(session_id)
    town.ada.tap_data(town.ada.forged("Ill", argument=9))
    assert town.ada.sees.endswith("What was in the way?")

    data = town.ada.data("Ill")
    town.someone(BEN).tap_data(data)
    town.someone(MARIT).tap_data(data)
    assert town.state(session_id) == ("missed", None)


def test_a_session_that_was_closed_meanwhile_keeps_its_state(town: Town) -> None:
    session_id = town.send()
    town.settle(session_id)
    with town.units.open(1) as unit:
        unit.connection.execute(update(session).where(session.c.id == session_id).values(state="done"))
    town.ada.tap("Ill")

    assert town.state(session_id) == ("done", None)


def test_the_coach_is_told_in_the_first_weeks_and_no_word_is_a_scolding(town: Town) -> None:
    town.settle(town.send())
    told = [plain_text(each.message) for each in town.tells]
    asked = [plain_text(each.message) for each in town.sends if each.key.endswith(":ask")]

    assert told[0].startswith("Ada is in the first three weeks and has missed a session.")
    assert asked == [
        (
            "Nothing was logged for Lower A (Tue 7 April). That happens, and nothing is carried over.\n"
            "What was in the way?"
        )
    ]


def quiet_since(town: Town) -> None:
    """Three cards without a word."""
    for day, on in ((7, 8), (9, 10), (10, 11)):
        session_id = town.send(date(2026, 4, day), datetime(2026, 4, day, 6, tzinfo=UTC))
        town.settle(session_id, datetime(2026, 4, on, 11, tzinfo=UTC))
    town.now = datetime(2026, 4, 12, 9, tzinfo=UTC)


@pytest.mark.parametrize("words", ["hello, I am still here", "90 8 8 8 8", "pain left knee 2"])
def test_any_word_takes_the_cards_up_again(town: Town, words: str) -> None:
    quiet_since(town)
    with town.units.read(None) as unit:
        coach_id = unit.connection.execute(
            select(account.c.coach_id).where(account.c.user_id == ADA)
        ).scalar()
    assert "so I send no more for now" in town.ada.sees
    town.ada.type(words)

    with town.units.open(coach_id) as unit:
        ada = unit.clients.get(unit.accounts.find(ADA).client_id)
        assert (ada.state, ada.paused_until) == ("active", None)
        assert unit.sessions.next_planned(ada.id).local_on == date(2026, 4, 13)
    assert "Your sessions come again. The next one comes Mon 13 April." in town.ada.sees
    assert any("Ada has answered. Cards go out again." in plain_text(each.message) for each in town.tells)


def test_a_stop_sign_in_silence_is_answered_by_its_text_alone(town: Town) -> None:
    quiet_since(town)
    before = len(town.sends)
    town.ada.type("my chest feels tight and my left arm hurts")

    assert [each.key.partition(":")[0] for each in town.sends[before:]] == ["stop"]
    assert not any("Your sessions come again" in plain_text(each) for each in town.ada.screen.values())


def test_while_nobody_answers_no_card_goes_out(town: Town) -> None:
    quiet_since(town)
    session_id = town.send(date(2026, 4, 13), datetime(2026, 4, 13, 6, tzinfo=UTC))

    assert town.state(session_id) == ("unsent", None)


def test_other_days_are_asked_for_and_taken_up_at_once(town: Town) -> None:
    quiet_since(town)
    old = town.ada.data("Pause a week")
    town.ada.tap("Other days")
    assert town.ada.sees.startswith("On which days can you train?")

    town.ada.tap_data(old)
    assert "Your sessions come again." in town.ada.sees
    assert town.ada.buttons == []


def test_a_forged_answer_to_silence_shows_the_question_and_takes_up_all_the_same(town: Town) -> None:
    quiet_since(town)
    town.ada.tap_data(town.ada.forged("Other days", argument=7))

    assert "Your sessions come again." in town.ada.sees


def test_cards_come_again_for_a_client_with_too_few_days_once_that_is_put_right(town: Town) -> None:
    quiet_since(town)
    with town.units.open(None) as unit:
        unit.connection.execute(update(client).where(client.c.name == "Ada").values(days=[0]))
        unit.connection.execute(session.delete().where(session.c.state == "planned"))
    town.ada.type("hello")

    assert "The next one comes when your coach sets it." in town.ada.sees
