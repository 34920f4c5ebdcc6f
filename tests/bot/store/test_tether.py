"""The locks that processes on one PostgreSQL share. Each tether here stands for a process."""

import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from threading import Event

import pytest
from databases import SHARED, PostgresServer
from sqlalchemy import Engine, create_engine, select, text
from sqlalchemy.exc import DBAPIError, IntegrityError

from bot.store.engine import AlreadyRunning, is_served, make_engine, passing, take_lock
from bot.store.hail import Ear, hail_from
from bot.store.inbox import NewUpdate
from bot.store.migrate import downgrade
from bot.store.neighbours import OthersOlder, hold
from bot.store.tables import outbox
from bot.store.tether import Spans, Tether, Untied, key_of
from bot.store.units import Units

NOW = datetime(2026, 4, 6, 7, tzinfo=UTC)
SOON = Spans(ping_s=0.05, safe_s=0.2, timeout_s=0.3, transaction_s=0.3, again_s=0.05)
LONG_S = 20.0
"""How long anything may take before it counts as lost. [s]"""


@pytest.fixture(params=SHARED)
def url(request: pytest.FixtureRequest) -> Iterator[str]:
    server: PostgresServer = request.getfixturevalue("postgres")
    with server.database() as found:
        yield found


@pytest.fixture
def tethers(url: str) -> Iterator[Callable[..., Tether]]:
    made: list[Tether] = []

    def tie(spans: Spans | None = None, *, wants: bool = True) -> Tether:
        made.append(Tether(url, spans or Spans()))
        made[-1].ping(wants=wants)
        return made[-1]

    yield tie
    for each in made:
        each.close()


def run(url: str, statement: str, **values: object) -> None:
    engine = create_engine(url, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(statement), values)
    engine.dispose()


def keep(url: str, *rows: tuple[int, int | None, int]) -> None:
    engine = make_engine(url)
    with Units(engine).open(None) as house:
        house.inbox.add(
            [
                NewUpdate(number, chat, chat, "message", urgency, "{}", "new", NOW)
                for number, chat, urgency in rows
            ]
        )
    engine.dispose()


def settle(url: str, update_id: int) -> None:
    run(url, "UPDATE inbox SET state = 'done' WHERE update_id = :id", id=update_id)


def until(holds: Callable[[], bool]) -> float:
    """Look again and again; returns how long it took. [s]"""
    began = time.monotonic()
    while not holds():
        assert time.monotonic() - began < LONG_S
    return time.monotonic() - began


def test_the_spans_have_another_process_lead_within_15_seconds() -> None:
    spans = Spans()

    assert spans.timeout_s + spans.ping_s < 15
    assert spans.transaction_s + spans.ping_s < 15
    assert spans.safe_s < spans.timeout_s
    assert 2 * spans.ping_s < spans.safe_s


@pytest.mark.parametrize("ends", ["close", "terminated", "halted"])
def test_one_leads_and_when_its_connection_ends_another_does(url: str, tethers, ends: str) -> None:
    first, second = tethers(SOON), tethers(SOON)
    assert (first.leads, second.leads) == (True, False)

    if ends == "close":
        first.close()
    if ends == "terminated":
        run(url, "SELECT pg_terminate_backend(:pid)", pid=first.pid)
    took = until(lambda: second.ping(wants=True))

    assert took < SOON.timeout_s + 1
    engine = make_engine(url)
    with engine.connect() as connection:
        assert (first.holds_lead(connection), second.holds_lead(connection)) == (False, True)
    engine.dispose()
    if ends != "close":
        with pytest.raises(DBAPIError):
            first.ping(wants=True)
        assert first.ping(wants=True) is False


def test_who_does_not_want_the_lead_only_says_that_it_is_alive(tethers) -> None:
    first = tethers(wants=False)

    assert first.leads is False
    assert first.ping(wants=False) is False
    assert tethers().leads is True


def test_a_connection_that_was_made_anew_leads_only_when_asked_again(url: str, tethers) -> None:
    first = tethers(SOON)
    first.drop()

    assert first.ping(wants=False) is False
    assert tethers(SOON).leads is True


def test_a_thread_that_waits_in_vain_is_cut_off(tethers) -> None:
    first = tethers()
    first.cut()

    with pytest.raises(DBAPIError):
        first.ping(wants=True)
    with pytest.raises(Untied):
        first.take(NOW, (), ())


def test_a_chat_is_worked_on_by_one_process_and_the_others_go_on_to_the_next(url: str, tethers) -> None:
    keep(url, (1, 7, 0), (2, 7, 0), (3, 8, 0), (4, None, 0), (5, 9, 2))
    first, second = tethers(), tethers()

    urgent, taken = first.take(NOW, (), ()), second.take(NOW, (), ())
    assert (urgent.row.update_id, taken.row.update_id) == (5, 1)
    third = first.take(NOW, (9,), ())
    assert (third.row.update_id, third.left_out) == (3, True)
    fourth = first.take(NOW, (9, 8), ())
    assert (fourth.row.update_id, fourth.row.chat_id) == (4, None)
    nothing = first.take(NOW, (9, 8, -4), ())
    assert (nothing.row, nothing.left_out) == (None, True)
    settle(url, 1)
    assert second.take(NOW, (), (7,)).row.update_id == 2


def test_a_chat_whose_process_has_died_is_taken_up_by_another(url: str, tethers) -> None:
    keep(url, (1, 7, 0), (2, 7, 0))
    first, second = tethers(SOON), tethers()
    assert first.take(NOW, (), ()).row.update_id == 1
    assert second.take(NOW, (), ()).row is None

    until(lambda: (taken := second.take(NOW, (), ()).row) is not None and taken.update_id == 1)


def test_a_row_that_somebody_still_works_on_without_its_lock_makes_its_chat_wait(url: str, tethers) -> None:
    keep(url, (1, 7, 0), (2, 7, 0))
    late = make_engine(url)
    second = tethers()
    with Units(late).open(None) as house:
        assert house.inbox.claim(1) is not None
        assert second.take(NOW, (), ()).row.update_id == 1
        waits = second.take(NOW, (), (7,))
        assert (waits.row, waits.left_out) == (None, True)
        house.inbox.done(1, NOW)
    late.dispose()

    assert second.take(NOW, (), ()).row.update_id == 2


def test_more_rows_than_are_looked_at_together_hide_no_other_chat(url: str, tethers) -> None:
    keep(url, *((number, 7, 0) for number in range(1, 41)), (50, 8, 0))
    first, second = tethers(), tethers()

    assert first.take(NOW, (), ()).row.update_id == 1
    assert second.take(NOW, (), ()).row.update_id == 50


@pytest.mark.parametrize(("one", "other"), [(5, -5), (2**51, -(2**51) + 1), (1, 2**52 - 1)])
def test_the_keys_of_chats_differ_and_fit(one: int, other: int) -> None:
    assert key_of(one) != key_of(other)
    assert all(0x706C696F < key_of(each) < 2**63 for each in (one, other))


def test_who_needs_the_database_alone_is_refused_while_anybody_serves(url: str) -> None:
    prepared: list[str] = []
    with hold(url, lambda: prepared.append("first")), hold(url, lambda: prepared.append("second")):
        assert is_served(url)
        with pytest.raises(AlreadyRunning), take_lock(url):
            pass
    assert prepared == ["first"]
    assert not is_served(url)
    with take_lock(url):
        pass


def test_nobody_serves_while_somebody_needs_the_database_alone(url: str, tethers, monkeypatch) -> None:
    monkeypatch.setattr("bot.store.neighbours.WAIT_S", 0.05)
    with take_lock(url):
        with pytest.raises(AlreadyRunning), hold(url, lambda: None):
            pass
        with pytest.raises(AlreadyRunning):
            tethers()


def test_a_newer_program_does_not_change_the_schema_under_others(url: str) -> None:
    engine = make_engine(url)
    held = hold(url, lambda: downgrade(engine, "0001"))
    with held, pytest.raises(OthersOlder) as refused, hold(url, lambda: None):
        pass
    engine.dispose()

    assert "Stop them all" in str(refused.value)


def test_a_transaction_in_which_a_process_halts_is_ended_by_the_server(url: str) -> None:
    halted, engine = make_engine(url, SOON.transaction_s), make_engine(url)
    keep(url, (1, 7, 0))

    def is_free() -> bool:
        with Units(engine).open(None) as other:
            return other.inbox.claim(1) is not None

    def halt() -> None:
        with Units(halted).open(None) as house:
            house.inbox.claim(1)
            assert not is_free()
            until(is_free)
            house.inbox.done(1, NOW)

    with pytest.raises(DBAPIError) as ended:
        halt()
    assert passing(ended.value)
    halted.dispose()
    engine.dispose()


def test_rows_that_are_added_rouse_the_others_once_a_transaction_and_kind(url: str) -> None:
    ours, theirs = make_engine(url), make_engine(url)
    hail_from(ours, "ours")
    hail_from(theirs, "theirs")
    heard: list[str | None] = []
    listening, last = Event(), Event()

    def hear(kind: str | None) -> None:
        heard.append(kind)
        listening.set()
        if len(heard) == 4:
            last.set()

    ear = Ear(url, "ours", hear)
    ear.start()
    assert listening.wait(LONG_S)
    for engine, first in ((ours, 10), (theirs, 20)):
        with Units(engine).open(None) as house:
            for number in range(3):
                house.inbox.add([NewUpdate(first + number, 1, 1, "message", 0, "{}", "new", NOW)])
                house.outbox.add(None, 1, f"{first + number}", NOW)
        with Units(engine).read(None) as house:
            house.connection.execute(select(outbox.c.id)).all()
        with pytest.raises(IntegrityError):
            _fail_after_adding(engine)
    with Units(theirs).open(None) as house:
        house.outbox.add(None, 1, "last", NOW)
    assert last.wait(LONG_S)
    ear.close()
    for engine in (ours, theirs):
        engine.dispose()

    assert heard == [None, "inbox", "outbox", "outbox"]


def _fail_after_adding(engine: Engine) -> None:
    with Units(engine).open(None) as house:
        house.outbox.add(None, 1, "never", NOW)
        house.outbox.add(7, 1, "of a coach that is not there", NOW)


def test_a_listener_whose_connection_ends_listens_again(url: str, monkeypatch) -> None:
    monkeypatch.setattr("bot.store.hail.AGAIN_S", 0.01)
    deaf = Event()
    count: list[None] = []

    def hear(_: str | None) -> None:
        count.append(None)
        deaf.set()

    ear = Ear(url, "ours", hear)
    ear.start()
    for number in (1, 2):
        assert deaf.wait(LONG_S)
        deaf.clear()
        assert len(count) == number
        run(url, "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE query LIKE 'LISTEN%'")
    ear.close()
