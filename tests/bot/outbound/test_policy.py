from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mailroom import BULK, CHAT, KEEPER, NOW, SAFETY, TALK
from rows import each_row

from bot.messages import Message
from bot.outbound.policy import (
    SERVER_TRIES,
    Again,
    Blocked,
    ChatMoved,
    Dead,
    Delivered,
    Done,
    Doubt,
    FileUnknown,
    InDoubt,
    MarkupRefused,
    MessageGone,
    NotDelivered,
    Shut,
    Stop,
    TooFast,
    WrongToken,
    next_step,
    retry_wait,
)
from bot.store.outbox import OutboxRow

ROW = OutboxRow(
    id=1,
    coach_id=KEEPER,
    client_id=None,
    chat_id=CHAT,
    key="k",
    op="send",
    card_id=None,
    message_id=None,
    lane=TALK,
    body=Message("Noted."),
    due_at=NOW,
    not_after=None,
    attempts=1,
    doubts=0,
)
PICTURE = replace(ROW, body=Message("x", media_kind="photo", picture_id=3))
CARD_EDIT = replace(ROW, op="edit", card_id=4, message_id=9)
STRIP = replace(ROW, op="strip", card_id=4, message_id=9, body=None)
SAFE = replace(ROW, lane=SAFETY)
TWO = NOW + timedelta(seconds=2)
TOO_LONG = NotDelivered("message is too long", permanent=True)
STUMBLED = NotDelivered("server error", server=True)
AWAY = NotDelivered("ConnectError")


@each_row(
    ("outcome", "row", "expected"),
    [
        (Delivered(7), ROW, Done(7)),
        (Delivered(7, "AgAC"), PICTURE, Done(7, "AgAC")),
        (AWAY, ROW, Again(TWO, "ConnectError")),
        (AWAY, replace(ROW, attempts=5000), Again(NOW + timedelta(seconds=300), "ConnectError")),
        (AWAY, replace(STRIP, attempts=5), Dead("ConnectError")),
        (STUMBLED, ROW, Again(TWO, "server error")),
        (STUMBLED, replace(ROW, attempts=SERVER_TRIES), Dead("server error")),
        (STUMBLED, replace(STRIP, attempts=4), Again(NOW + timedelta(seconds=16), "server error")),
        (TOO_LONG, ROW, Dead("message is too long")),
        (TOO_LONG, SAFE, Again(NOW, "message is too long", plain=2)),
        (TOO_LONG, replace(SAFE, plain=2), Dead("message is too long")),
        (TOO_LONG, replace(STRIP, lane=SAFETY), Dead("message is too long")),
        (InDoubt("ReadTimeout"), ROW, Doubt(TWO, "ReadTimeout")),
        (InDoubt("ReadTimeout"), replace(STRIP, attempts=5), Dead("ReadTimeout")),
        (Blocked("bot was blocked"), ROW, Shut("bot was blocked")),
        (WrongToken("token refused"), ROW, Stop("token refused")),
        (MessageGone(), CARD_EDIT, Again(NOW, "message gone", lost=True)),
        (MessageGone(), replace(CARD_EDIT, card_id=None), Dead("message gone")),
        (MessageGone(), STRIP, Done(9)),
        (MarkupRefused(), ROW, Again(NOW, "markup refused", plain=1)),
        (MarkupRefused(), replace(ROW, plain=1), Dead("markup")),
        (MarkupRefused(), replace(SAFE, plain=1), Again(NOW, "markup", plain=2)),
        (FileUnknown(), PICTURE, Again(NOW, "file unknown", forget_file=True)),
        (FileUnknown(), replace(PICTURE, attempts=5), Dead("file unknown")),
        (FileUnknown(), ROW, Dead("file unknown")),
        (ChatMoved(88), ROW, Again(NOW, "chat moved", chat_id=88)),
    ],
)
def test_what_to_do_after_a_call(outcome, row, expected):
    assert next_step(outcome, row, NOW, 0.5) == expected


@pytest.mark.parametrize("lane", [SAFETY, TALK, BULK])
@pytest.mark.parametrize(
    ("seconds", "others", "everybody"), [(3, False, False), (3, True, True), (60, False, True)]
)
def test_a_pause_is_kept_to_the_half_second_whatever_the_lane(lane, seconds, others, everybody):
    step = next_step(TooFast(seconds), replace(ROW, lane=lane), NOW, 0.5, others_paused=others)
    until = NOW + timedelta(seconds=seconds + 0.5)
    assert step == Again(until, "too fast", pause_chat=True, pause_all=everybody)


@pytest.mark.parametrize(
    ("attempts", "seconds"), [(1, 2), (2, 4), (3, 8), (4, 16), (5, 32), (6, 64), (7, 128), (8, 256), (9, 300)]
)
def test_waits_double_up_to_five_minutes(attempts, seconds):
    assert retry_wait(attempts, 0.5) == timedelta(seconds=seconds)


@given(st.integers(1, 10_000), st.floats(0, 1, exclude_max=True))
def test_chance_moves_a_wait_by_a_fifth_at_most(attempts, jitter):
    middle, wait = retry_wait(attempts, 0.5).total_seconds(), retry_wait(attempts, jitter).total_seconds()
    assert 0.8 * middle - 1e-5 <= wait <= min(300, 1.2 * middle) + 1e-5


outcomes = st.sampled_from(
    [
        *(Delivered(1), AWAY, STUMBLED, TOO_LONG, InDoubt("x"), Blocked("x"), TooFast(4), MessageGone()),
        *(MarkupRefused(), FileUnknown(), ChatMoved(5), WrongToken("x")),
    ]
)
rows = st.builds(
    replace,
    st.sampled_from([ROW, PICTURE, CARD_EDIT, STRIP, SAFE]),
    attempts=st.integers(1, 300),
    doubts=st.integers(0, 1),
    plain=st.integers(0, 2),
)


@given(outcomes, rows, st.floats(0, 1, exclude_max=True))
def test_nothing_is_ever_due_in_the_past_and_only_what_arrived_is_done(outcome, row, jitter):
    step = next_step(outcome, row, NOW, jitter)
    if isinstance(step, Again | Doubt):
        assert step.due_at >= NOW
    harmless = isinstance(outcome, MessageGone) and row.op == "strip"
    assert isinstance(step, Done) == (isinstance(outcome, Delivered) or harmless)
    assert not (isinstance(outcome, InDoubt) and isinstance(step, Again)), "doubt is counted"
