from datetime import UTC, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mailroom import CHAT, CLIENT, KEEPER, NOW, OTHER_CHAT, populate
from sqlalchemy import select, update

from bot.messages import Cancel, EditCard, Effect, Lane, Level, Message, Send, Tell
from bot.store.tables import coach, outbox
from bot.store.units import Units
from bot.usecases.effects import after_quiet, apply, is_quiet
from core.policy import Policy

POLICY = Policy()

# Quiet from 21:00 to 07:00 on the coach's own clock (our proposal); Oslo is two hours ahead of UTC in April.
CASES = [
    ("2026-04-13T10:00", "2026-04-13T10:00"),
    ("2026-04-13T18:59", "2026-04-13T18:59"),
    ("2026-04-13T19:00", "2026-04-14T05:00"),
    ("2026-04-13T23:30", "2026-04-14T05:00"),
    ("2026-04-14T04:59", "2026-04-14T05:00"),
    ("2026-04-14T05:00", "2026-04-14T05:00"),
    ("2026-10-24T20:00", "2026-10-25T06:00"),
]


@pytest.mark.parametrize(("said", "told"), CASES)
def test_what_nobody_asked_for_waits_for_the_end_of_the_night(said, told):
    now = datetime.fromisoformat(said).replace(tzinfo=UTC)

    assert after_quiet(now, "Europe/Oslo", POLICY) == datetime.fromisoformat(told).replace(tzinfo=UTC)


@given(st.integers(0, 2 * 365 * 24 * 60))
def test_nothing_comes_out_in_the_night_or_early(minute):
    now = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(minutes=minute)

    told = after_quiet(now, "America/New_York", POLICY)

    assert told >= now
    assert after_quiet(told, "America/New_York", POLICY) == told


def test_quiet_hours_may_lie_within_one_day():
    siesta = Policy().model_copy(update={"quiet_from": time(13), "quiet_to": time(15)})

    assert [is_quiet(time(hour), siesta) for hour in (12, 13, 14, 15)] == [False, True, True, False]


@pytest.fixture
def at_home(engine) -> Units:
    populate(engine)
    return Units(engine)


def told(units: Units) -> list[tuple[str, str, datetime]]:
    """What is queued: lane, text, when due."""
    with units.engine.connect() as connection:
        found = connection.execute(
            select(outbox.c.lane, outbox.c.body, outbox.c.due_at).order_by(outbox.c.id)
        )
        return [(row.lane, row.body["html"], row.due_at) for row in found]


def do(units: Units, now: datetime, *effects: Effect) -> None:
    with units.open(KEEPER) as unit:
        apply(effects, unit, now)


def tell(grown: int, level: Level = Level.TODAY, words: str = "") -> Tell:
    return Tell(CLIENT, "pain:1:knee:L", grown, level, Message(words or f"knee {grown}"))


NOON, MIDNIGHT, MORNING = NOW.replace(hour=12), NOW.replace(hour=23), datetime(2026, 4, 7, 7, tzinfo=UTC)


def test_a_matter_is_told_once_and_again_only_when_it_has_grown(at_home):
    for grown in (4, 4, 3, 6, 6):
        do(at_home, NOON, tell(grown))

    assert [text for _, text, _ in told(at_home)] == ["knee 4", "knee 6"]


def test_a_matter_that_becomes_urgent_is_told_again(at_home):
    do(at_home, NOON, tell(4))
    do(at_home, NOON, tell(4, Level.NOW, "at once"))

    assert [(lane, text) for lane, text, _ in told(at_home)] == [("talk", "knee 4"), ("safety", "at once")]


def test_what_is_for_the_digest_is_kept_and_not_told(at_home):
    do(at_home, NOON, tell(2, Level.DIGEST))

    assert told(at_home) == []
    with at_home.read(KEEPER) as unit:
        assert unit.alerts.open_one("pain:1:knee:L") is not None


@pytest.mark.parametrize(
    ("level", "now", "due"),
    [
        (Level.TODAY, NOON, NOON),
        (Level.TODAY, MIDNIGHT, MORNING),
        (Level.NOW, NOON, NOON),
        (Level.NOW, MIDNIGHT, MIDNIGHT),
    ],
)
def test_quiet_hours_of_the_coach_hold_today_and_never_now(at_home, level, now, due):
    do(at_home, now, tell(8, level))

    [(_, _, when)] = told(at_home)
    assert when == due


def test_quiet_hours_are_those_of_the_coach_s_own_zone(at_home):
    with at_home.engine.begin() as connection:
        connection.execute(update(coach).where(coach.c.id == KEEPER).values(zone="Asia/Tokyo"))

    do(at_home, NOON, tell(4))

    # 21:00 in Tokyo: until 07:00 there.
    assert told(at_home)[0][2] == datetime(2026, 4, 6, 22, tzinfo=UTC)


def test_cancel_takes_back_what_is_queued_for_a_client_and_spares_safety_and_what_comes_with_it(at_home):
    do(
        at_home,
        NOON,
        Send(CHAT, Message("card"), key="card", card="session:1", client_id=CLIENT),
        Send(CHAT, Message("stop"), key="stop", lane=Lane.SAFETY, client_id=CLIENT),
        Send(OTHER_CHAT, Message("another's"), key="other"),
    )
    do(at_home, NOON, Send(CHAT, Message("new card"), key="new", client_id=CLIENT), Cancel(CLIENT))

    with at_home.engine.connect() as connection:
        states = connection.execute(select(outbox.c.body, outbox.c.state).order_by(outbox.c.id))
        assert [(row.body["html"], row.state) for row in states] == [
            ("card", "cancelled"),
            ("stop", "queued"),
            ("another's", "queued"),
            ("new card", "queued"),
        ]


def test_a_card_is_edited_where_it_is_still_waiting(at_home):
    do(at_home, NOON, Send(CHAT, Message("card"), key="card", card="session:1", client_id=CLIENT))
    do(at_home, NOON, EditCard("session:1", CHAT, Message("newer"), client_id=CLIENT))

    assert [text for _, text, _ in told(at_home)] == ["newer"]
