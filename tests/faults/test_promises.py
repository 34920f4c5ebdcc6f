"""Two promises, over weeks in which several people do whatever comes to them.

1. No matter is told to a coach twice unless it has grown.
2. Nothing that nobody asked for makes a sound in quiet hours but a safety message.
"""

import asyncio
import shutil
from collections import Counter
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from examples import examples
from faults.plays import COACHES, HOMES, ZONES, Act, Play, set_up
from hypothesis import HealthCheck, Phase, given
from hypothesis import strategies as st
from mailroom import Arrival
from sqlalchemy import select

from bot.messages import Lane
from bot.store.engine import make_engine
from bot.store.tables import alert
from bot.usecases import digest
from bot.usecases.alert_buttons import alert_of
from bot.usecases.effects import is_quiet
from core.policy import Policy

ANSWERED_WITHIN = timedelta(minutes=2)
"""Within so long of what somebody did, what comes to her is an answer: a chat gets a message a second."""

TAIL = timedelta(days=4)
"""After the last act everybody is silent for so long: misses, a digest."""

acts = st.builds(
    Act,
    after_min=st.integers(1, 15) | st.integers(60, 900),
    who=st.sampled_from(sorted(ZONES)),
    taps=st.booleans() | st.just(value=True),
    which=st.integers(0, 40),
)


@pytest.fixture(scope="module")
def begun(sqlite_files, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("promises") / "begun.db"
    engine = make_engine(sqlite_files.copy(path))
    set_up(engine)
    engine.dispose()
    return path


@pytest.fixture
def quick_digest(monkeypatch: pytest.MonkeyPatch) -> None:
    """Digests without their picture, which takes its time."""
    monkeypatch.setattr(digest, "pictures_of", lambda _: ())


@examples(
    8,
    phases=[
        Phase.explicit,
        Phase.reuse,
        Phase.generate,
    ],  # a week takes too long to be played while it is shrunk
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(plan=st.lists(acts, min_size=20, max_size=60))
def test_both_promises_hold_whatever_people_do(begun, tmp_path, quick_digest, plan):
    shutil.copyfile(begun, tmp_path / "plimsoll.db")
    engine = make_engine(f"sqlite:///{tmp_path / 'plimsoll.db'}")
    play = Play(engine)
    try:
        asyncio.run(play.play(plan, TAIL))
        nothing_is_told_twice_without_growth(play)
        nothing_unasked_sounds_in_quiet_hours_but_safety(play)
    finally:
        engine.dispose()


def nothing_is_told_twice_without_growth(play: Play) -> None:
    keys = [each.row.key for each in play.came(*COACHES) if is_alert(each)]
    told = Counter(keys)
    assert [key for key, count in told.items() if count > 1] == []
    # A matter is told anew under the same key only after the one before was over.
    rows = select(alert.c.id, alert.c.coach_id, alert.c.key, alert.c.at, alert.c.closed_at).order_by(
        alert.c.id
    )
    matters: dict[int, str] = {}
    over: dict[tuple[int, str], datetime | None] = {}
    with play.engine.connect() as connection:
        for alert_id, coach_id, key, at, closed_at in connection.execute(rows):
            before = over.get((coach_id, key), at)
            assert before is not None, key
            assert before <= at, key
            over[coach_id, key], matters[alert_id] = closed_at, key
    # The same words are never told under two names.
    named: dict[tuple[int, str], set[str]] = {}
    for each in filter(is_alert, play.came(*COACHES)):
        alert_id = alert_of(each.row.key)
        assert alert_id is not None, "a key says which matter it is, how grown, how urgent"
        named.setdefault((each.chat_id, each.text), set()).add(matters[alert_id])
    assert [names for names in named.values() if len(names) > 1] == []


def is_alert(each: Arrival) -> bool:
    return each.row.key.startswith("alert:")


def nothing_unasked_sounds_in_quiet_hours_but_safety(play: Play) -> None:
    loud = [each for each in play.came(*ZONES) if each.row.body is not None and not each.row.body.silent]
    wrong = [
        (play.local(each).isoformat(), each.row.key, each.text)
        for each in loud
        if is_quiet(play.local(each).time(), Policy())
        and each.row.lane is not Lane.SAFETY
        and not is_answer(each, play)
        and not is_at_the_hour_she_chose(each, play)
    ]
    assert wrong == []


def is_answer(each: Arrival, play: Play) -> bool:
    return any(
        each.chat_id == did.who and timedelta(0) <= each.at - did.at <= ANSWERED_WITHIN for did in play.done
    )


def is_at_the_hour_she_chose(each: Arrival, play: Play) -> bool:
    if each.chat_id not in HOMES or not each.row.key.startswith("card:"):
        return False
    hour, local = HOMES[each.chat_id][1], play.local(each)
    return (
        timedelta(0) <= local - local.replace(hour=hour.hour, minute=hour.minute, second=0) <= ANSWERED_WITHIN
    )
