"""What is looked for when a session closes follows what changed, and not who exists; one matter is told once."""

from datetime import datetime, timedelta
from pathlib import Path

import pytest
from dialogs.talks import LISBON, Talk
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from many_clients import counted, multiply
from set_up_once import set_up_once
from sqlalchemy import func, select

from bot.messages import Level, Message, Tell
from bot.store.alerts import Alert, alerts_due_anywhere
from bot.store.engine import make_engine
from bot.store.migrate import upgrade
from bot.store.tables import alert, client, outbox
from bot.store.units import Unit, Units
from bot.usecases import alerting
from bot.usecases.effects import apply, is_quiet
from core.policy import Policy

__all__ = ["set_up_once"]


def closed_session(play: Talk) -> tuple[int, int]:
    """Ada's coach, and the session that Ada has closed."""
    ada, marit = play.someone("Ada"), play.someone("Marit")
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    ada.tap("Start")
    for said in ("90 8 8 8 8", "10 10 10", "16 10 10 10", "skip", "skip", "nothing hurts", "2"):
        play.typed(ada, said)
    client_id = play.house.client_of(marit, ada).id
    with play.units.open(marit.coach_id) as unit:
        [session] = unit.sessions.of_client(client_id, ("partial",))
    return marit.coach_id or 0, session.id


@pytest.mark.parametrize("more", [10, 200])
def test_a_closed_session_costs_as_many_queries_with_200_clients_as_with_one(units: Units, more: int) -> None:
    play = Talk(units)
    coach_id, session_id = closed_session(play)

    def queries() -> list[str]:
        with counted(units.engine) as found, units.open(coach_id) as unit:
            apply(alerting.of_session(session_id, unit, play.house.now), unit, play.house.now)
        return found

    def due() -> list[str]:
        with counted(units._reading) as found, units.read(None) as house:
            assert alerts_due_anywhere(house.connection, play.house.now, 50) == []
        return found

    alone, looked = queries(), due()
    multiply(units.engine, play.house.client_of(play.someone("Marit"), play.someone("Ada")).id, more)
    with units.engine.connect() as connection:
        assert connection.execute(select(func.count(client.c.id))).scalar_one() == more + 2

    assert queries() == alone
    assert 0 < len(alone) < 120
    assert due() == looked
    assert sum(each.startswith("SELECT") for each in looked) == 1


@pytest.fixture(scope="module")
def at_hand(tmp_path_factory: pytest.TempPathFactory) -> Units:
    path: Path = tmp_path_factory.mktemp("matters") / "matters.db"
    engine = make_engine(f"sqlite:///{path}")
    upgrade(engine)
    return Units(engine)


TELLS = st.tuples(
    st.sampled_from(["stop", "pain", "misses", "line"]),
    st.integers(1, 4),
    st.sampled_from(Level),
    st.integers(0, 60 * 24),
)
"""Kind of matter, what it has grown to, level, and minutes until the next."""


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(TELLS, min_size=1, max_size=8), st.integers(0, 23))
def test_one_matter_is_told_once_and_again_only_when_it_grows_or_stays_unseen(
    at_hand: Units, steps: list[tuple[str, int, Level, int]], hour: int
) -> None:
    now = datetime(2026, 4, 6, hour, tzinfo=LISBON)
    with at_hand.engine.connect() as connection:  # never committed: the next example begins with nothing
        house = Unit(connection, None)
        owners = [_household(house, name, user_id, now) for name, user_id in (("Marit", 100), ("Orla", 900))]
        _tell_and_check(house, owners, steps, now)


def _household(house: Unit, name: str, user_id: int, now: datetime) -> tuple[Unit, int]:
    unit = house.of(house.coaches.add(name, "Europe/Lisbon", now))
    house.accounts.bind(user_id, user_id, unit.tenant, "coach")
    return unit, unit.clients.add("Ada", now)


def _tell_and_check(
    house: Unit, owners: list[tuple[Unit, int]], steps: list[tuple[str, int, Level, int]], now: datetime
) -> None:
    (mine, client_id), (_, _) = owners
    most: dict[str, tuple[int, int]] = {}
    expected: list[str] = []
    for kind, grown, level, minutes in steps:
        key = f"{kind}:{client_id}"
        known, reached = most.get(key, (0, 0))
        text = f"{key} grown {grown} level {int(level)} after {len(expected)}"
        apply([Tell(client_id, key, grown, level, Message(text))], mine, now)
        apply([Tell(client_id, key, grown, level, Message(text))], mine, now)
        if (grown > known or level > reached) and level is not Level.DIGEST:
            expected.append(text)
        most[key] = max(grown, known), max(level, reached)
        now += timedelta(minutes=minutes)
    rows = house.connection.execute(
        select(outbox.c.chat_id, outbox.c.body, outbox.c.due_at, outbox.c.lane, outbox.c.key).order_by(
            outbox.c.id
        )
    ).all()
    assert [row.body["html"] for row in rows] == expected
    assert {row.chat_id for row in rows} <= {100}
    for row in rows:
        quiet = is_quiet(row.due_at.astimezone(LISBON).time(), Policy())
        assert not quiet or row.lane == "safety"
        assert (row.lane == "safety") is (f"level {int(Level.NOW)} " in row.body["html"])
    _only_now_is_looked_at_again(house, mine, now)


def _only_now_is_looked_at_again(house: Unit, mine: Unit, now: datetime) -> None:
    """After it all every unseen matter that cannot wait is told twice more, and nothing else at all."""
    before = house.connection.execute(select(func.count(outbox.c.id))).scalar_one()
    rows = house.connection.execute(select(alert.c.key).where(alert.c.due_at.is_not(None))).scalars()
    open_now = [each for key in rows if isinstance(each := mine.alerts.open_one(key), Alert)]
    assert all(each.level == Level.NOW for each in open_now)
    for _ in range(6):
        now += timedelta(hours=2)
        for _, alert_id in alerts_due_anywhere(house.connection, now, 50):
            for _ in range(2):
                apply(alerting.due(alerting.AlertDue(alert_id), None, mine, now), mine, now)  # type: ignore[arg-type]
    after = house.connection.execute(select(func.count(outbox.c.id))).scalar_one()
    assert after - before == 2 * len(open_now)
