"""What happened, beside the messages: the queue, what falls due, decisions and what they rest on. It only reads."""

import asyncio
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from html import unescape
from typing import Any

from bot.assembly.story import PersonCast
from bot.messages import Message
from bot.render import client_log, client_papers
from bot.render import tried_out as say
from bot.store.insight import Coming, coming_in, coming_questions, coming_sessions, going_out
from bot.store.oversight import digest_hours
from bot.store.people import Client
from bot.store.units import Unit, Units
from bot.tryout.trial import CannotBeDone, Trial
from bot.usecases.client_log import done_in
from bot.usecases.client_why import newest_decisions
from core.loads.decision import Inputs
from core.oversight.week import next_hour

AHEAD = timedelta(days=14)
"""How far ahead is shown what falls due."""

SHOWN = ("planned", "sent", "started", "asking")
"""States of sessions that are still to come or open."""

ACTIVE = ("active", "paused")
"""States of clients whose decisions are shown: of who has gone, or withdrawn, nothing is."""

Row = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Look:
    """Who looks at what.

    Attributes:
        people: Those whose rows are shown.
        everybody: The whole cast.
        zone: The coach's, in which instants are said.
        now: Present instant.
    """

    people: Sequence[PersonCast]
    everybody: Sequence[PersonCast]
    zone: str
    now: datetime

    @property
    def chats(self) -> list[int]:
        """Chats of those whose rows are shown."""
        return [each.phone for each in self.people]

    def name(self, chat_id: int | None) -> str:
        """Return whose chat it is."""
        return next((each.name for each in self.everybody if each.phone == chat_id), "?")


async def inside(trial: Trial, of: str, who: str) -> dict[str, Any]:
    """Return a table of what happened.

    Args:
        trial: Of what.
        of: "queue", "due" or "decisions".
        who: Key of somebody, or "" for all.

    Raises:
        CannotBeDone: There is no such table, or nobody of that name.
    """
    if of not in TABLES:
        raise CannotBeDone(say.NO_SUCH_PAGE, 404)
    people = trial.people if not who else (trial.person(who),)
    look = Look(people, trial.people, trial.people[0].zone, trial.now)
    rows: list[Row] = []
    if trial.stage is not None:
        rows = await asyncio.to_thread(_read, trial.stage.house.units, TABLES[of], look)
    return {
        "title": say.TITLES[of],
        "columns": list(say.COLUMNS[of]),
        "rows": rows,
        "note": say.NOTES[of],
    }


def _read(units: Units, table: "Table", look: Look) -> list[Row]:
    with units.read(None) as house:
        return list(table(house, look))


def _queue(house: Unit, look: Look) -> Iterator[Row]:
    for coming in coming_in(house.connection, look.chats):
        when = say.local(coming.received_at, look.zone)
        stands = say.STATES.get(coming.state, coming.state)
        yield _row(when, say.from_whom(look.name(coming.chat_id)), coming.kind, stands, more=[])
    for going in going_out(house.connection, look.chats):
        row = going.row
        text = _plain(row.body) if row.body else ""
        yield _row(
            say.local(going.sent_at or row.due_at, look.zone),
            say.to_whom(look.name(row.chat_id)),
            say.first_line(text) or say.OPS[row.op],
            say.STATES[going.state],
            more=[
                say.queued(say.OPS[row.op], say.LANES[row.lane.value], row.key, row.attempts),
                *([going.cause] if going.cause else []),
                *text.splitlines(),
            ],
        )


def _due(house: Unit, look: Look) -> Iterator[Row]:
    accounts = {each.phone: house.accounts.at(each.phone) for each in look.people}
    clients = {found.client_id for found in accounts.values() if found is not None and found.client_id}
    coaches = {found.coach_id for found in accounts.values() if found is not None and found.role == "coach"}
    until = look.now + AHEAD
    found = [
        (coming.due_at, _session(house.of(coming.coach_id), coming, look))
        for coming in coming_sessions(house.connection, until, SHOWN)
        if coming.client_id in clients
    ]
    for asked in coming_questions(house.connection, until):
        if asked.client_id in clients:
            row = (say.local(asked.due_at, asked.zone or look.zone), asked.client, say.question(asked.kind))
            found.append((asked.due_at, _row(*row, say.WAITS_FOR_TIME, more=[])))
    for hour in digest_hours(house.connection):
        if hour.coach_id in coaches:
            at = next_hour(look.now, hour.zone, hour.weekday, hour.at)
            name = house.coaches.get(hour.coach_id).name
            found.append((at, _row(say.local(at, hour.zone), name, say.DIGEST, say.WAITS_FOR_TIME, more=[])))
    yield from (row for _, row in sorted(found, key=lambda each: each[0]))


def _session(unit: Unit, coming: Coming, look: Look) -> Row:
    session = unit.sessions.get(coming.id)
    done = done_in(session, unit)
    return _row(
        say.local(coming.due_at, coming.zone or look.zone),
        coming.client,
        say.session(done.name, done.week_no),
        client_log.STATES[coming.state],
        more=[_text(line) for line in client_log.session_lines(done)] if done.items else [],
    )


def _decisions(house: Unit, look: Look) -> Iterator[Row]:
    for each in look.people:
        account = house.accounts.at(each.phone)
        if account is None or account.client_id is None:
            continue
        unit = house.of(account.coach_id)
        client = unit.clients.get(account.client_id)
        if client.state in ACTIVE:
            yield from _of_client(client, unit, look)


def _of_client(client: Client, unit: Unit, look: Look) -> Iterator[Row]:
    for kept in newest_decisions(client, unit):
        value, inputs = kept.value, Inputs.model_validate_json(kept.inputs)
        pages = client_papers.why(client.name, kept.id, kept.made_at, inputs, value)
        yield _row(
            client.name,
            unit.exercises.get(kept.exercise).name,
            say.decided(value.kind, value.load, value.sets, value.target),
            say.local(kept.made_at, look.zone),
            more=[line for page in pages for line in _plain(page).splitlines()],
        )


def _row(*cells: str, more: Sequence[str]) -> Row:
    return {"cells": list(cells), "more": list(more)}


def _plain(message: Message) -> str:
    return _text(message.html)


def _text(html: str) -> str:
    return unescape(re.sub(r"<[^>]+>", "", html))


Table = Callable[[Unit, Look], Iterator[Row]]
TABLES: dict[str, Table] = {"queue": _queue, "due": _due, "decisions": _decisions}
