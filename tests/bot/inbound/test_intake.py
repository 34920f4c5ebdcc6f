import json
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.inbound.intake import batch_of

NOW = datetime(2026, 4, 13, 17, tzinfo=UTC)
CHAT = {"id": 7, "type": "private"}
ADA = {"id": 7, "is_bot": False, "first_name": "Ada"}


def message(update_id: int, text: str = "8 8 8", **more: object) -> dict[str, object]:
    return {
        "update_id": update_id,
        "message": {"message_id": 1, "chat": CHAT, "from": ADA, "text": text} | more,
    }


def test_a_message_is_kept_with_who_and_where_and_word_for_word():
    raw = message(5)

    row = batch_of([raw], NOW).rows[0]

    assert (row.update_id, row.chat_id, row.user_id, row.kind, row.state) == (5, 7, 7, "message", "new")
    assert json.loads(row.payload) == raw


def test_the_next_offset_is_behind_the_last_of_the_batch():
    assert batch_of([message(5), message(9)], NOW).next_offset == 10
    assert batch_of([], NOW).next_offset is None


def test_a_tap_is_named_for_acknowledging():
    raw = {
        "update_id": 6,
        "callback_query": {
            "id": "tap6",
            "from": ADA,
            "data": "x",
            "message": {"chat": CHAT, "message_id": 1},
        },
    }

    batch = batch_of([raw], NOW)

    assert (batch.taps, batch.rows[0].chat_id) == (("tap6",), 7)


def test_a_tap_without_its_message_still_has_somebody_to_answer():
    raw = {"update_id": 6, "callback_query": {"id": "tap6", "from": ADA, "data": "x"}}

    assert batch_of([raw], NOW).rows[0].chat_id == 7


@pytest.mark.parametrize("text", ["I have chest pain", "can't breathe"])
def test_a_stop_sign_is_urgent_already_when_it_comes_in(text):
    assert batch_of([message(5, text)], NOW).rows[0].urgency == 2


def test_ordinary_words_are_not_urgent():
    assert batch_of([message(5, "no chest pain at all")], NOW).rows[0].urgency == 0


def test_what_is_said_in_a_group_is_set_aside():
    raw = message(5, chat={"id": -1, "type": "group"})

    assert batch_of([raw], NOW).rows[0].state == "quarantined"


@pytest.mark.parametrize(
    "odd",
    [
        {"update_id": 8},
        {"update_id": 8, "message": "text"},
        {"update_id": 8, "message": {"chat": CHAT}},
        {"update_id": 8, "message": {"chat": [], "from": {"id": "7"}}},
        {"update_id": 8, "something_new": {"from": ADA}},
    ],
)
def test_one_odd_update_is_set_aside_and_its_batch_goes_on(odd):
    batch = batch_of([message(7), odd, message(9)], NOW)

    assert [(row.update_id, row.state) for row in batch.rows] == [(7, "new"), (8, "quarantined"), (9, "new")]


def test_what_has_no_id_is_counted_and_left():
    batch = batch_of([{"message": {}}, "junk", {"update_id": True}, message(9)], NOW)

    assert (batch.unreadable, [row.update_id for row in batch.rows]) == (3, [9])


json_values = st.recursive(
    st.none() | st.booleans() | st.integers(-5, 5) | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(
                ["update_id", "message", "callback_query", "from", "chat", "id", "type", "text", "x"]
            ),
            inner,
            max_size=5,
        )
    ),
    max_leaves=20,
)


@given(json_values)
def test_nothing_that_is_fetched_makes_intake_fail(raw):
    batch = batch_of(raw, NOW)

    assert batch.next_offset is None or batch.next_offset == batch.rows[-1].update_id + 1
