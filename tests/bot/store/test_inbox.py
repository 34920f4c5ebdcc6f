from collections.abc import Iterator, Sequence
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Engine, event, func, insert, select, text

from bot.store.inbox import Inbox, NewUpdate
from bot.store.tables import inbox
from bot.store.units import Units

NOW = datetime(2026, 4, 6, 7, tzinfo=UTC)
SECOND = timedelta(seconds=1)


def update(update_id: int, chat_id: int | None = 1, urgency: int = 0, state: str = "new") -> NewUpdate:
    return NewUpdate(
        update_id=update_id,
        chat_id=chat_id,
        user_id=chat_id,
        kind="message",
        urgency=urgency,
        payload=f'{{"update_id":{update_id}}}',
        state=state,
        received_at=NOW,
    )


@pytest.fixture
def rows(units: Units) -> Iterator[Inbox]:
    with units.open(None) as house:
        yield house.inbox


def order(rows: Inbox, busy: Sequence[int] = (), now: datetime = NOW) -> list[int]:
    """Work off everything; returns the order."""
    worked = []
    while (row := next(iter(rows.heads(now, busy, 2)), None)) is not None:
        worked.append(row.update_id)
        rows.done(row.update_id, now)
    return worked


def head(rows: Inbox, busy: Sequence[int] = (), now: datetime = NOW) -> int | None:
    row = next(iter(rows.heads(now, busy, 2)), None)
    return None if row is None else row.update_id


def test_what_comes_twice_is_kept_once(rows: Inbox) -> None:
    first = rows.add([update(5), update(3)])
    again = rows.add([update(3, chat_id=9), update(4), update(4)])

    assert (first, again) == ([3, 5], [4])
    assert [rows.claim(3).chat_id, order(rows)] == [1, [3, 4, 5]]  # type: ignore[union-attr]


def test_an_empty_batch_keeps_nothing(rows: Inbox) -> None:
    assert rows.add([]) == []


def test_what_was_settled_and_comes_again_stays_settled(rows: Inbox) -> None:
    rows.add([update(1)])
    rows.done(1, NOW)

    assert rows.add([update(1)]) == []
    assert head(rows) is None


def test_half_of_a_surrogate_pair_is_kept_as_its_escape(rows: Inbox) -> None:
    rows.add([NewUpdate(1, 1, 1, "message", 0, '{"text":"a\ud83d"}', "new", NOW)])

    row = next(iter(rows.heads(NOW, (), 1)))
    assert row is not None
    assert row.payload == '{"text":"a\\ud83d"}'


@pytest.mark.parametrize(
    ("updates", "expected"),
    [
        ([update(3), update(1), update(2)], [1, 2, 3]),
        ([update(2, chat_id=1), update(1, chat_id=2)], [1, 2]),
        ([update(1), update(2), update(3, urgency=2)], [3, 1, 2]),
        ([update(1), update(2, chat_id=2), update(3, chat_id=2, urgency=2)], [3, 1, 2]),
        ([update(1, urgency=1), update(2, urgency=2), update(3, urgency=2)], [2, 3, 1]),
        ([update(1), update(2, state="quarantined")], [1]),
        ([update(1, chat_id=None), update(2, chat_id=None)], [1, 2]),
    ],
)
def test_rows_go_in_order_and_urgent_ones_first(
    rows: Inbox, updates: list[NewUpdate], expected: list[int]
) -> None:
    rows.add(updates)

    assert order(rows) == expected


def test_a_busy_chat_waits_and_others_go_on(rows: Inbox) -> None:
    rows.add([update(1), update(2, urgency=2), update(3, chat_id=2), update(4, chat_id=None)])

    assert head(rows, [1]) == 3
    assert head(rows, [1, 2]) == 4
    assert head(rows, [1, 2, -4]) is None


def test_a_row_that_waits_makes_its_chat_wait_and_no_other(rows: Inbox) -> None:
    rows.add([update(1), update(2), update(3, chat_id=2)])
    rows.postpone(1, NOW + SECOND)

    assert order(rows) == [3]
    assert order(rows, now=NOW + SECOND) == [1, 2]


def test_an_urgent_row_overtakes_one_that_waits(rows: Inbox) -> None:
    rows.add([update(1), update(2), update(3, urgency=2)])
    rows.postpone(1, NOW + SECOND)

    assert order(rows) == [3]


def test_an_urgent_row_that_waits_is_not_overtaken(rows: Inbox) -> None:
    rows.add([update(1), update(2, urgency=2), update(3, urgency=2), update(4, chat_id=2)])
    rows.postpone(2, NOW + SECOND)

    assert order(rows) == [4]


def test_a_row_is_claimed_while_it_is_new(rows: Inbox) -> None:
    rows.add([update(1), update(2, state="quarantined")])
    claimed = rows.claim(1)
    rows.done(1, NOW)

    assert claimed is not None
    assert claimed.payload == '{"update_id":1}'
    assert [rows.claim(1), rows.claim(2), rows.claim(3)] == [None, None, None]


def test_a_row_that_another_worker_has_is_passed_over(engine: Engine, units: Units) -> None:
    with units.open(None) as house:
        house.inbox.add([update(1)])
    # SQLite has one writer at a time: the other worker can only look, and the row is as it was.
    with engine.connect() as first, engine.connect().execution_options(readonly=True) as second:
        got = Inbox(first).claim(1)
        other = Inbox(second).claim(1)

    assert got is not None
    assert other == {"sqlite": got, "postgresql": None}[engine.dialect.name]


def test_a_settled_row_forgets_what_was_said(rows: Inbox) -> None:
    rows.add([update(1)])
    rows.done(1, NOW + SECOND)

    found = rows.connection.execute(select(inbox.c.state, inbox.c.payload, inbox.c.done_at)).one()
    assert tuple(found) == ("done", None, NOW + SECOND)


def test_attempts_are_counted(rows: Inbox) -> None:
    rows.add([update(1)])

    assert [rows.count_attempt(1) for _ in range(3)] == [1, 2, 3]


def test_a_failed_row_keeps_what_was_said_and_can_be_worked_on_again(rows: Inbox) -> None:
    rows.add([update(1), update(2)])
    rows.count_attempt(1)
    rows.postpone(1, NOW + SECOND)
    rows.fail(1, "qv3kx7ab", NOW)
    after_failing = head(rows)
    found = rows.by_reference("qv3kx7ab")
    rows.reopen(1)
    again = next(iter(rows.heads(NOW, (), 1)))

    assert after_failing == 2
    assert found is not None
    assert (found.update_id, found.payload) == (1, '{"update_id":1}')
    assert again is not None
    assert (again.update_id, again.attempts) == (1, 0)
    assert rows.by_reference("qv3kx7ab") is None


def test_no_row_has_an_unknown_reference(rows: Inbox) -> None:
    rows.add([update(1)])

    assert rows.by_reference("nothing") is None


def test_what_could_be_worked_on_now_is_counted(rows: Inbox) -> None:
    rows.add(
        [update(1), update(2), update(3, chat_id=2), update(4, chat_id=3), update(5, state="quarantined")]
    )
    rows.postpone(1, NOW + SECOND)
    rows.done(4, NOW)

    assert (rows.open_count(NOW), rows.open_count(NOW + SECOND)) == (1, 3)


def test_the_next_row_that_waits_says_when(rows: Inbox) -> None:
    rows.add([update(each, chat_id=each) for each in range(1, 5)])
    before = rows.next_due(NOW)
    rows.postpone(1, NOW + 3 * SECOND)
    rows.postpone(2, NOW + 2 * SECOND)
    rows.postpone(3, NOW)
    rows.postpone(4, NOW + SECOND)
    rows.done(4, NOW)

    assert (before, rows.next_due(NOW)) == (None, NOW + 2 * SECOND)


def test_old_payloads_of_what_failed_are_dropped_and_open_ones_never(rows: Inbox) -> None:
    rows.add([update(1), update(2), update(3, state="quarantined"), update(4)])
    rows.fail(1, "qv3kx7ab", NOW)
    rows.done(4, NOW)

    assert rows.drop_payloads(NOW) == 0
    assert rows.drop_payloads(NOW + SECOND) == 2
    query = select(inbox.c.update_id).where(inbox.c.payload.is_not(None))
    assert rows.connection.execute(query).scalars().all() == [2]


def test_settled_rows_cost_nothing(engine: Engine, units: Units) -> None:
    """The plan of every question that is asked while working looks at open rows only."""
    asked: list[tuple[str, object]] = []
    settled = [
        {
            "update_id": 1000 + each,
            "chat_id": each % 50,
            "kind": "message",
            "state": "done",
            "received_at": NOW,
        }
        for each in range(5000)
    ]
    with engine.begin() as connection:
        connection.execute(insert(inbox), settled)
    with units.open(None) as house:
        house.inbox.add([update(each, chat_id=each) for each in range(1, 20)])
    if engine.dialect.name == "postgresql":
        with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.execute(text("VACUUM ANALYZE inbox"))

    def note(_connection, _cursor, statement, parameters, _context, _many) -> None:
        if statement.startswith("SELECT"):
            asked.append((statement, parameters))

    with units.read(None) as house:
        event.listen(house.connection, "before_cursor_execute", note)
        house.inbox.heads(NOW, [1, 2], 2)
        house.inbox.open_count(NOW)
        house.inbox.next_due(NOW)
        event.remove(house.connection, "before_cursor_execute", note)
        explain = "EXPLAIN QUERY PLAN " if engine.dialect.name == "sqlite" else "EXPLAIN "
        plans = [
            "\n".join(str(row) for row in house.connection.exec_driver_sql(explain + statement, parameters))
            for statement, parameters in asked
        ]
        total = house.connection.execute(select(func.count()).select_from(inbox)).scalar_one()

    assert total == 5019
    assert len(plans) == 3
    for plan in plans:
        assert "ix_inbox_" in plan
        assert "SCAN inbox" not in plan
        assert "Seq Scan" not in plan
    assert "TEMP B-TREE" not in plans[0]
