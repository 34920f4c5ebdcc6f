from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mailroom import NOW

from bot.outbound.limits import Bucket, Limits

SECOND = timedelta(seconds=1)
CHAT, OTHER = 1, 2


def went(limits: Limits, chats: list[int], pauses: list[float]) -> list[tuple[int, float]]:
    """Send to `chats` one after another, each as early as it may, waiting `pauses` between. [s]"""
    now, found = NOW, []
    for chat, pause in zip(chats, pauses, strict=True):
        now = limits.ready_at(chat, now + pause * SECOND)
        limits.take(chat, now)
        found.append((chat, (now - NOW).total_seconds()))
    return found


def test_a_burst_of_three_then_one_a_second_in_a_chat():
    assert went(Limits(25), [CHAT] * 6, [0.0] * 6) == [(CHAT, at) for at in (0.0, 0.0, 0.0, 1.0, 2.0, 3.0)]


def test_another_chat_does_not_wait_for_a_full_one():
    limits = Limits(25)
    went(limits, [CHAT] * 3, [0.0] * 3)
    assert limits.full_chats(NOW) == {CHAT}
    assert limits.ready_at(OTHER, NOW) == NOW
    assert limits.next_opening(NOW) == NOW + SECOND


def test_five_at_once_and_then_25_a_second_overall():
    times = [at for _, at in went(Limits(25), list(range(12)), [0.0] * 12)]
    assert times == [0.0] * 5 + [pytest.approx(0.04 * turn) for turn in range(1, 8)]


@pytest.mark.parametrize(("per_second", "at_once"), [(1, 5), (20, 5), (25, 5), (28, 2), (30, 1)])
def test_the_burst_leaves_the_platforms_30_a_second_untouched(per_second, at_once):
    assert Limits(per_second).room(NOW) == at_once


@pytest.mark.parametrize("per_second", [0, -1, 30.5])
def test_a_pace_that_the_platform_does_not_allow_is_refused(per_second):
    with pytest.raises(ValueError, match="up to 30"):
        Limits(per_second)


def test_what_never_waits_is_paid_off_by_the_rest():
    limits = Limits(25)
    for _ in range(9):
        limits.take(CHAT, NOW)
    assert limits.room(NOW) == 0
    assert limits.ready_at(OTHER, NOW) == NOW + timedelta(milliseconds=200)
    assert limits.ready_at(CHAT, NOW) == NOW + 7 * SECOND


def test_a_pause_holds_everybody_and_never_gets_shorter():
    limits = Limits(25)
    limits.pause(NOW + 9 * SECOND)
    limits.pause(NOW + 3 * SECOND)
    assert limits.room(NOW) == 0
    assert limits.ready_at(CHAT, NOW) == NOW + 9 * SECOND
    assert limits.next_opening(NOW) == NOW + 9 * SECOND
    assert limits.room(NOW + 9 * SECOND) == 5
    assert limits.next_opening(NOW + 9 * SECOND) is None


def test_a_clock_that_is_set_back_leaves_what_is_owed_and_no_more():
    limits = Limits(25)
    went(limits, [CHAT] * 5, [0.0] * 5)
    limits.pause(NOW + 9 * SECOND)
    before = NOW - timedelta(hours=3)
    limits.set_back(timedelta(hours=3))
    assert limits.ready_at(OTHER, before) == before + 9 * SECOND
    assert limits.ready_at(CHAT, before + 9 * SECOND) == before + 9 * SECOND
    assert limits.next_opening(before) == before + 9 * SECOND


def test_a_clock_that_is_set_back_before_anything_was_sent_changes_nothing():
    limits = Limits(25)
    limits.set_back(timedelta(hours=3))
    assert limits.ready_at(CHAT, NOW) == NOW


def test_chats_that_owe_nothing_are_forgotten():
    limits = Limits(25)
    went(limits, list(range(50)), [0.0] * 50)
    limits.take(99, NOW + 60 * SECOND)
    assert len(limits._chats) == 1


stretches = st.lists(st.floats(0, 3, allow_nan=False), min_size=1, max_size=60)


@given(pauses=stretches, rate=st.integers(1, 30), data=st.data())
def test_no_second_ever_holds_more_than_the_platform_allows(pauses, rate, data):
    chats = data.draw(st.lists(st.integers(1, 4), min_size=len(pauses), max_size=len(pauses)))
    sent = went(Limits(rate), chats, pauses)
    for index, (_, start) in enumerate(sent):
        window = [chat for chat, at in sent[index:] if at < start + 1]
        assert len(window) <= 30
        for chat in set(window):
            assert window.count(chat) <= 4, "a burst of three, and one for the second itself"


@given(st.lists(st.integers(0, 5_000), max_size=40), st.integers(1, 5))
def test_room_and_readiness_agree(gaps, burst):
    bucket, now = Bucket(SECOND, burst), NOW
    for gap in gaps:
        now += gap * timedelta(milliseconds=1)
        assert (bucket.room(now) > 0) == (bucket.ready_at(now) == now)
        bucket.take(now)
        assert 0 <= bucket.room(now) < burst
