from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mailroom import BULK, CHAT, CLIENT, COXSWAIN, KEEPER, NOW, OTHER_CHAT, SAFETY, TALK, populate, send
from sqlalchemy import Connection, Engine, event, func, insert, select, text, update

from bot.messages import Button, Lane, Message
from bot.store.chats import Chats
from bot.store.outbox import Outbox, OutboxRow, body_of, message_of
from bot.store.tables import account, card, forwarded, outbox, picture

SECOND = timedelta(seconds=1)


@pytest.fixture
def connection(engine: Engine):
    populate(engine)
    with engine.begin() as connection:
        yield connection


@pytest.fixture
def box(connection: Connection) -> Outbox:
    return Outbox(connection)


def keys(
    box: Outbox, now: datetime, busy: tuple[int, ...] = (), lanes: tuple[Lane, ...] = tuple(Lane)
) -> list[str]:
    """The order in which everything would go out if each call ended at once."""
    found = []
    while (row := box.next_row(now, busy, lanes)) is not None:
        assert box.claim(row.id, "sender", now)
        box.sent(box.get(row.id), 1, now)
        found.append(row.key)
    return found


def state(box: Outbox, key: str) -> str:
    query = select(outbox.c.state).where(outbox.c.key.endswith(f":{key}"))
    return str(box.connection.execute(query).scalar_one())


def taken(box: Outbox, now: datetime = NOW) -> OutboxRow:
    row = box.next_row(now)
    assert row is not None
    claimed = box.claim(row.id, "sender", now)
    assert claimed is not None
    return claimed


words = st.text(st.characters(codec="utf-8", exclude_characters="\0"), max_size=20)
buttons = st.builds(Button, words, data=st.none() | words, url=st.none() | words)
messages = st.builds(
    Message,
    words,
    rows=st.lists(st.lists(buttons, min_size=1, max_size=3).map(tuple), max_size=3).map(tuple),
    silent=st.booleans(),
    protect=st.booleans(),
    media_kind=st.sampled_from([None, "photo", "voice"]),
    file_id=st.none() | words,
    picture_id=st.none() | st.integers(1, 9),
    expects_text=st.booleans(),
)


@given(messages)
def test_a_message_survives_being_written_down(message):
    assert message_of(body_of(message, revision=3, plain=1)) == message


def test_a_plain_message_takes_one_field():
    assert body_of(Message("Noted.")) == {"html": "Noted."}


def test_the_same_key_is_queued_once_for_a_coach_and_again_for_another(box):
    first = box.put(KEEPER, send("a"), NOW)
    assert isinstance(first, int)
    assert box.put(KEEPER, send("a"), NOW) is None
    assert box.put(COXSWAIN, send("a", OTHER_CHAT), NOW) is not None
    assert box.put(None, send("a", 900), NOW) is not None


def test_a_row_comes_back_as_it_was_put(box):
    message = Message("Sit down.", rows=((Button("Seen", data="1:1:0:sn:0"),),), silent=True)
    effect = replace(
        send("x", key="k", lane=SAFETY, client_id=CLIENT, not_after=NOW + SECOND), message=message
    )
    row_id = box.put(KEEPER, effect, NOW)
    assert box.next_row(NOW) == OutboxRow(
        id=row_id,
        coach_id=KEEPER,
        client_id=CLIENT,
        chat_id=CHAT,
        key="k",
        op="send",
        card_id=None,
        message_id=None,
        lane=SAFETY,
        body=message,
        due_at=NOW,
        not_after=NOW + SECOND,
        attempts=0,
        doubts=0,
    )


def test_safety_goes_first_then_talk_then_bulk(box):
    for key, chat, lane in (
        ("bulk", 1, BULK),
        ("talk", 2, TALK),
        ("safety", 3, SAFETY),
        ("talk two", 4, TALK),
    ):
        box.put(KEEPER, send(key, chat, lane=lane), NOW)
    assert keys(box, NOW) == ["safety", "talk", "talk two", "bulk"]


def test_only_the_lanes_that_were_asked_for(box):
    for key, chat, lane in (("bulk", 1, BULK), ("talk", 2, TALK), ("safety", 3, SAFETY)):
        box.put(KEEPER, send(key, chat, lane=lane), NOW)
    assert keys(box, NOW, lanes=(BULK, SAFETY)) == ["safety", "bulk"]


def test_in_a_chat_rows_go_by_id_even_when_a_later_one_is_in_a_faster_lane(box):
    box.put(KEEPER, send("first", lane=BULK), NOW)
    box.put(KEEPER, send("second", lane=TALK), NOW)
    assert keys(box, NOW) == ["first", "second"]


def test_safety_passes_what_is_before_it_in_its_chat(box):
    box.put(KEEPER, send("card"), NOW)
    box.put(KEEPER, send("stop sign", lane=SAFETY), NOW)
    assert keys(box, NOW) == ["stop sign", "card"]


def test_a_row_in_flight_holds_its_chat_but_not_safety_nor_other_chats(box):
    for key, chat, lane in (("a", 1, TALK), ("b", 1, TALK), ("s", 1, SAFETY), ("c", 2, TALK)):
        box.put(KEEPER, send(key, chat, lane=lane), NOW)
    safety = taken(box)
    assert safety.key == "s"
    other = taken(box)
    assert other.key == "c", "the chat that hears of safety hears nothing else meanwhile"
    box.sent(safety, 1, NOW)
    box.sent(other, 1, NOW)
    first = taken(box)
    assert first.key == "a"
    assert box.next_row(NOW) is None
    box.put(KEEPER, send("s2", 1, lane=SAFETY), NOW)
    assert keys(box, NOW) == ["s2"]


def test_a_row_that_is_tried_again_holds_the_later_ones_of_its_chat(box):
    box.put(KEEPER, send("first"), NOW)
    box.put(KEEPER, send("second"), NOW)
    box.put(KEEPER, send("elsewhere", OTHER_CHAT), NOW)
    box.again(taken(box), NOW + 4 * SECOND, "refused")
    assert keys(box, NOW + SECOND) == ["elsewhere"]
    assert box.ahead(NOW + SECOND)[1] == NOW + 4 * SECOND
    assert keys(box, NOW + 4 * SECOND) == ["first", "second"]


def test_a_row_planned_for_later_holds_nobody(box):
    box.put(KEEPER, send("tomorrow", due_at=NOW + 60 * SECOND), NOW)
    box.put(KEEPER, send("now"), NOW)
    assert keys(box, NOW) == ["now"]
    assert box.ahead(NOW)[1] == NOW + 60 * SECOND


def test_a_row_that_expired_holds_nobody(box):
    box.put(KEEPER, send("late", not_after=NOW), NOW)
    box.put(KEEPER, send("now"), NOW)
    assert keys(box, NOW) == ["now"]


def test_a_busy_chat_is_passed_over_except_by_safety(box):
    for key, lane in (("talk", TALK), ("safety", SAFETY)):
        box.put(KEEPER, send(key, lane=lane), NOW)
    box.put(KEEPER, send("elsewhere", OTHER_CHAT), NOW)
    assert keys(box, NOW, busy=(CHAT,)) == ["safety", "elsewhere"]


@pytest.mark.parametrize("lane", list(Lane))
def test_a_chat_that_the_platform_paused_gets_nothing_until_then(box, lane):
    box.put(KEEPER, send("a", lane=lane), NOW)
    box.put(KEEPER, send("elsewhere", OTHER_CHAT), NOW)
    Chats(box.connection).pause(CHAT, NOW + 9 * SECOND)
    assert keys(box, NOW) == ["elsewhere"]
    assert box.ahead(NOW)[1] == NOW + 9 * SECOND
    assert keys(box, NOW + 9 * SECOND) == ["a"]


def test_nothing_queued_is_never_due(box):
    assert box.next_row(NOW) is None
    assert box.ahead(NOW)[1] is None
    assert box.open_count(NOW) == 0


def test_what_is_open_is_counted(box):
    for key in ("a", "b", "c"):
        box.put(KEEPER, send(key, ord(key)), NOW)
    box.put(KEEPER, send("later", due_at=NOW + SECOND), NOW)
    box.sent(taken(box), 1, NOW)
    taken(box)
    assert box.open_count(NOW) == 2


def test_a_row_is_claimed_once(box):
    row_id = box.put(KEEPER, send("a"), NOW)
    claimed = box.claim(row_id, "sender", NOW)
    assert claimed is not None
    assert claimed.attempts == 1
    assert box.claim(row_id, "another", NOW) is None


def test_a_row_given_back_counts_no_attempt(box):
    box.put(KEEPER, send("a"), NOW)
    box.unclaim(taken(box))
    row = box.next_row(NOW)
    assert row is not None
    assert row.attempts == 0


def test_in_doubt_once_it_is_sent_again_and_twice_it_is_doubtful(box):
    box.put(KEEPER, send("a"), NOW)
    assert not box.in_doubt(taken(box), NOW + SECOND, "ReadTimeout")
    assert box.next_row(NOW) is None
    assert box.in_doubt(taken(box, NOW + SECOND), NOW + 2 * SECOND, "ReadTimeout")
    assert box.next_row(NOW + 9 * SECOND) is None
    assert [row.key for row in box.doubtful_rows()] == ["a"]
    assert [row.key for row in box.doubtful_rows(KEEPER)] == ["a"]
    assert box.doubtful_rows(COXSWAIN) == []


def test_an_edit_is_never_in_doubt(box):
    box.add(KEEPER, CHAT, "e", NOW, op="edit", body={"html": "x"}, message_id=7)
    for turn in range(5):
        assert not box.in_doubt(taken(box, NOW + turn * SECOND), NOW + (turn + 1) * SECOND, "ReadTimeout")
    assert state(box, "e") == "queued"


def test_what_is_dead_is_never_sent(box):
    box.put(KEEPER, send("a"), NOW)
    box.dead(taken(box), "message is too long")
    assert box.next_row(NOW) is None
    assert state(box, "a") == "dead"


def test_a_cancel_takes_the_clients_queued_rows_but_no_safety_and_nobody_elses(box):
    for key, lane in (("card", TALK), ("reminder", BULK), ("stop sign", SAFETY)):
        box.put(KEEPER, send(key, lane=lane, client_id=CLIENT), NOW)
    box.put(KEEPER, send("coach", 500, client_id=None), NOW)
    box.cancel(CLIENT)
    assert keys(box, NOW) == ["stop sign", "coach"]
    assert (state(box, "card"), state(box, "reminder")) == ("cancelled", "cancelled")


@pytest.mark.parametrize("comes_back", ["again", "in_doubt", "rescue"])
def test_what_was_in_flight_when_it_was_cancelled_is_not_sent_again(box, comes_back):
    box.put(KEEPER, send("card", client_id=CLIENT), NOW)
    row = taken(box)
    box.cancel(CLIENT)
    assert state(box, "card") == "sending"
    if comes_back == "again":
        box.again(row, NOW, "refused")
    elif comes_back == "in_doubt":
        box.in_doubt(row, NOW, "ReadTimeout")
    else:
        box.rescue(None, NOW)
    assert state(box, "card") == "cancelled"


def test_what_was_in_flight_when_it_was_cancelled_may_still_arrive(box):
    box.put(KEEPER, send("card", client_id=CLIENT), NOW)
    row = taken(box)
    box.cancel(CLIENT)
    box.sent(row, 5, NOW)
    assert state(box, "card") == "sent"


def test_what_is_too_late_expires_and_is_given_back(box):
    box.put(KEEPER, send("session", not_after=NOW + SECOND), NOW)
    box.put(KEEPER, send("note", OTHER_CHAT), NOW)
    assert box.expire(NOW) == []
    assert [row.key for row in box.expire(NOW + SECOND)] == ["session"]
    assert box.expire(NOW + SECOND) == []
    assert keys(box, NOW + SECOND) == ["note"]


def test_what_a_dead_process_left_in_flight_is_in_doubt(box):
    for key, chat, owner in (("a", 1, "sender-1"), ("b", 2, "sender-1"), ("c", 3, "other")):
        row_id = box.put(KEEPER, send(key, chat), NOW)
        assert box.claim(row_id, owner, NOW)
    assert box.rescue("sender", NOW) == []
    assert (state(box, "a"), state(box, "b"), state(box, "c")) == ("queued", "queued", "sending")
    taken(box)
    assert [row.key for row in box.rescue(None, NOW)] == ["a"]
    assert (state(box, "a"), state(box, "b"), state(box, "c")) == ("doubtful", "queued", "queued")


def test_a_reply_to_a_forwarded_message_will_find_its_way(box):
    for coach_id, client_id in ((KEEPER, 1), (COXSWAIN, 2)):
        box.connection.execute(
            insert(forwarded).values(
                coach_id=coach_id, client_id=client_id, outbox_key="f", chat_id=500, kind="text", at=NOW
            )
        )
    box.put(KEEPER, send("f", 500), NOW)
    box.sent(taken(box), 77, NOW)
    found = box.connection.execute(select(forwarded.c.coach_id, forwarded.c.message_id)).all()
    assert sorted(map(tuple, found)) == [(KEEPER, 77), (COXSWAIN, None)]


def test_the_platforms_id_of_a_picture_is_kept_for_its_owner_only(box):
    for coach_id in (KEEPER, COXSWAIN):
        box.connection.execute(
            insert(picture).values(id=coach_id, coach_id=coach_id, bytes=b"png", name="week.png", at=NOW)
        )
    photo = Message("Your week.", media_kind="photo", picture_id=KEEPER)
    box.put(KEEPER, replace(send("p"), message=photo), NOW)
    row = taken(box)
    assert box.picture(row) == (None, b"png", "week.png")
    box.sent(row, 8, NOW, file_id="AgAC")
    assert box.picture(row) == ("AgAC", b"png", "week.png")
    assert box.picture(replace(row, coach_id=COXSWAIN)) is None
    assert box.picture(replace(row, body=Message("no picture"))) is None
    box.set_file(row, None)
    assert box.picture(row) == (None, b"png", "week.png")


def test_a_body_that_cannot_be_read_comes_back_as_none(box):
    row_id = box.put(KEEPER, send("a"), NOW)
    box.connection.execute(update(outbox).where(outbox.c.id == row_id).values(body={"rows": [[["x"]]]}))
    assert box.get(row_id).body is None


def test_open_rows_follow_a_chat_to_its_new_number(box):
    chats = Chats(box.connection)
    box.connection.execute(insert(card).values(coach_id=KEEPER, key="c", chat_id=CHAT))
    for key in ("sent", "open"):
        box.put(KEEPER, send(key), NOW)
    box.sent(taken(box), 1, NOW)
    box.follow(CHAT, 999)
    chats.follow(CHAT, 999)
    found = box.connection.execute(select(outbox.c.chat_id).order_by(outbox.c.id)).scalars().all()
    assert found == [CHAT, 999]
    assert box.connection.execute(select(card.c.chat_id)).scalars().all() == [999]
    assert sorted(box.connection.execute(select(account.c.chat_id)).scalars()) == [500, 600, 601, 999]


def plans(connection: Connection, statements: list[str]) -> list[str]:
    found: list[str] = []
    for statement in statements:
        found += [row[-1] for row in connection.execute(text(f"EXPLAIN QUERY PLAN {statement}"))]
    return found


def test_looking_for_work_never_reads_what_is_sent(box):
    if box.connection.dialect.name != "sqlite":
        # The other database plans by statistics, which a table this small has none of.
        assert box.connection.dialect.name == "postgresql"
        return
    box.put(KEEPER, send("a"), NOW)
    seen: list[str] = []

    def note(_connection, _cursor, statement, parameters, *_rest):
        words = statement
        for value in parameters:
            words = words.replace("?", repr(value), 1)
        seen.append(words)

    event.listen(box.connection, "before_cursor_execute", note)
    box.next_row(NOW, (CHAT,))
    box.ahead(NOW)
    box.open_count(NOW)
    box.expire(NOW)
    box.rescue(None, NOW)
    event.remove(box.connection, "before_cursor_execute", note)
    steps = plans(box.connection, seen)
    touching = [step for step in steps if "outbox" in step or "other" in step]
    assert touching
    assert [step for step in touching if "SCAN" in step or "PRIMARY KEY" in step] == []
    assert box.connection.execute(select(func.count()).select_from(outbox)).scalar() == 1
