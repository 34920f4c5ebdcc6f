import sqlite3
from collections.abc import AsyncIterator
from datetime import timedelta
from typing import Any

import pytest
from mailroom import CHAT, CLIENT, COXSWAIN, KEEPER, NOW, populate
from sqlalchemy import Engine, select
from sqlalchemy.exc import IntegrityError, OperationalError

from bot.clock import Activity, CountedIds, StoryClock, Wake
from bot.messages import Arrival, Message, Send
from bot.store.inbox import NewUpdate
from bot.store.tables import inbox, outbox
from bot.store.units import Units
from bot.usecases import runner as running
from bot.usecases.runner import OutOfReach, Runner
from bot.usecases.writer import Writer
from core.errors import UnknownZone
from core.programme.catalogue import CATALOGUE

UPDATE = 41
ARRIVAL = Arrival(UPDATE, CHAT, CHAT, message_id=7)


class Counter:
    """A runner at a counter, with one update in the inbox."""

    def __init__(self, engine: Engine) -> None:
        populate(engine)
        self.engine, self.units, self.clock, self.write = engine, Units(engine), StoryClock(NOW), Writer()
        self.runner = Runner(
            self.units,
            self.write,
            self.clock,
            CountedIds(),
            activity=Activity(),
            inbox_wake=Wake(),
            outbox_wake=Wake(),
        )
        with self.units.open(None) as house:
            house.inbox.add([NewUpdate(UPDATE, CHAT, CHAT, "message", 0, '{"a": 1}', "new", NOW)])

    def row(self) -> tuple[Any, ...]:
        columns = (inbox.c.state, inbox.c.attempts, inbox.c.not_before, inbox.c.payload, inbox.c.reference)
        with self.engine.connect() as connection:
            return tuple(connection.execute(select(*columns)).one())

    def queued(self) -> list[tuple[str, str]]:
        with self.engine.connect() as connection:
            found = connection.execute(select(outbox.c.key, outbox.c.body).order_by(outbox.c.id))
            return [(row.key, row.body["html"]) for row in found]


@pytest.fixture
async def counter(engine: Engine, monkeypatch: pytest.MonkeyPatch) -> AsyncIterator[Counter]:
    monkeypatch.setattr(running, "PASSING_WAITS_S", (0.0, 0.0, 0.0))
    found = Counter(engine)
    yield found
    found.write.close()


def answers(command, person, unit, now):
    return [Send(person.chat_id, Message(f"{command} {person.role} {unit.coach_id}"), key="answer")]


def raises(error: Exception, times: int = 99):
    """A use-case that has begun to write when it fails."""
    calls: list[str] = []

    def failing(command, person, unit, now):
        calls.append(command)
        unit.outbox.put(unit.coach_id, Send(person.chat_id, Message("half done"), key="half"), now)
        if len(calls) <= times:
            raise error
        return [Send(person.chat_id, Message("done"), key="answer")]

    return failing, calls


async def test_effects_are_queued_and_the_row_is_settled_and_says_nothing_any_more(counter):
    await counter.runner.run(answers, "hello", ARRIVAL)

    assert counter.queued() == [(f"{KEEPER}:answer", f"hello client {KEEPER}")]
    assert counter.row() == ("done", 0, None, None, None)
    assert counter.runner.outbox_wake.pending


async def test_an_update_that_is_settled_does_nothing_a_second_time(counter):
    calls = []

    def counts(command, person, unit, now):
        calls.append(command)
        return []

    for _ in range(2):
        await counter.runner.run(counts, "hello", ARRIVAL)

    assert calls == ["hello"]


async def test_a_mistake_that_a_person_can_mend_rolls_back_and_is_answered_in_words(counter):
    failing, calls = raises(UnknownZone(zone="<Osl>"))

    await counter.runner.run(failing, "set", ARRIVAL)

    [(key, text)] = counter.queued()
    assert (key, calls) == (f"{KEEPER}:reply:{UPDATE}", ["set"])
    assert "I know no time zone called &lt;Osl&gt;" in text
    assert counter.row()[0] == "done"


def passing_fault() -> OperationalError:
    cause = sqlite3.OperationalError("database is locked")
    cause.sqlite_errorcode = sqlite3.SQLITE_BUSY
    return OperationalError("BEGIN IMMEDIATE", None, cause)


@pytest.mark.parametrize("times", [1, 3])
async def test_a_passing_fault_is_tried_again_at_once_and_silently(counter, times):
    failing, calls = raises(passing_fault(), times)

    await counter.runner.run(failing, "set", ARRIVAL)

    assert len(calls) == times + 1
    assert counter.queued() == [(f"{KEEPER}:half", "half done"), (f"{KEEPER}:answer", "done")]
    assert counter.row() == ("done", 0, None, None, None)


async def test_a_passing_fault_that_stays_puts_the_update_off_and_counts_nothing(counter):
    failing, calls = raises(passing_fault())

    await counter.runner.run(failing, "set", ARRIVAL)

    assert len(calls) == 4
    assert counter.queued() == []
    assert counter.row() == ("new", 0, NOW + running.LATER, '{"a": 1}', None)
    assert counter.runner.inbox_wake.pending


async def test_a_file_out_of_reach_puts_the_update_off(counter):
    async def away(command):
        raise OutOfReach

    await counter.runner.run(answers, "file", ARRIVAL, away)

    assert counter.queued() == []
    assert counter.row()[:3] == ("new", 0, NOW + running.LATER)


async def test_what_is_prepared_is_what_the_use_case_gets(counter):
    async def fetched(command):
        return f"{command} with content"

    await counter.runner.run(answers, "file", ARRIVAL, fetched)

    assert counter.queued()[0][1].startswith("file with content")


@pytest.mark.parametrize(
    "error", [RuntimeError("a bug"), IntegrityError("INSERT", None, Exception("unique"))]
)
async def test_a_bug_is_tried_three_times_and_then_answered_with_a_reference(counter, error):
    failing, calls = raises(error)

    for attempt in (1, 2):
        await counter.runner.run(failing, "set", ARRIVAL)
        assert counter.queued() == []
        assert counter.row() == ("new", attempt, NOW + timedelta(seconds=1), '{"a": 1}', None)
    await counter.runner.run(failing, "set", ARRIVAL)

    assert len(calls) == 3
    state, attempts, _, payload, reference = counter.row()
    assert (state, attempts, payload) == ("failed", 3, '{"a": 1}')
    [(key, text)] = counter.queued()
    assert key == f"{KEEPER}:broken:{UPDATE}"
    assert f"<code>{reference}</code>" in text


async def test_a_bug_in_what_is_prepared_counts_too(counter):
    async def broken(command):
        raise ZeroDivisionError

    await counter.runner.run(answers, "file", ARRIVAL, broken)

    assert counter.row()[:2] == ("new", 1)


async def test_what_falls_due_runs_for_its_coach_and_failing_it_says_so(counter):
    def falls_due(command, person, unit, now):
        return [Send(CHAT, Message(f"{person.role} {unit.tenant}"), key=command)]

    done = await counter.runner.run_due(falls_due, "due", COXSWAIN)
    failing, _ = raises(RuntimeError("a bug"))
    failed = await counter.runner.run_due(failing, "due", KEEPER)

    assert (done, failed) == (True, False)
    assert counter.queued() == [(f"{COXSWAIN}:due", f"clock {COXSWAIN}")]


async def test_who_speaks_is_known_by_account_by_a_good_code_or_not_at_all(counter):
    seen = []

    class Coming:
        invite_code = "good-code"

    def asks(command, person, unit, now):
        seen.append((person.role, person.coach_id, person.client_id))
        return []

    with counter.units.open(COXSWAIN) as unit:
        unit.invites.add("good-code", "client", "Eir", NOW + timedelta(days=1), NOW)
    for number, (user_id, command) in enumerate(
        [(CHAT, "x"), (500, "x"), (77, "x"), (77, Coming()), (78, "x")], UPDATE + 1
    ):
        with counter.units.open(None) as house:
            house.inbox.add([NewUpdate(number, user_id, user_id, "message", 0, "{}", "new", NOW)])
        await counter.runner.run(asks, command, Arrival(number, user_id, user_id))

    assert seen == [
        ("client", KEEPER, CLIENT),
        ("coach", KEEPER, None),
        ("stranger", None, None),
        ("invited", COXSWAIN, None),
        ("stranger", None, None),
    ]


async def test_only_a_coach_has_exercises_to_name(counter):
    found = [await counter.runner.catalogue_of(user_id) for user_id in (500, CHAT, 77)]

    assert found == [CATALOGUE, None, None]
