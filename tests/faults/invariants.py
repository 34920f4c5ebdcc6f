"""What must hold after a week of faults, each as a function that gives what is broken, with what led to it."""

from collections import Counter
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from itertools import pairwise
from typing import Any, NamedTuple

from faults.calendars import Calendar
from faults.people import CLIENTS, COACH_OF, COACHES, NAMES, is_in_doubt
from faults.watching import Came, Said, Watched
from sqlalchemy import Engine, select

from bot.inbound.aloud import SAY_WITHOUT_S
from bot.localchat.faults import Kind
from bot.messages import Lane
from bot.outbound.sender import WIDTHS
from bot.store.outbox import SENDS
from bot.store.tables import account, body_report, client, inbox, item, logged_set, outbox, session

SAFETY_S = 5.0
TAKE_OVER_S = 15.0
"""Within which another process leads when the one that led has died. [s]"""
ASKED_FOR = timedelta(minutes=15)
"""So long after somebody wrote, what comes is an answer."""
ON_TIME = timedelta(minutes=2)
"""So long a program that lives and is awake may take to send a session that fell due."""


class Row(NamedTuple):
    """A row of the outbox that makes a new message."""

    id: int
    chat_id: int
    key: str
    lane: Lane
    state: str
    message_id: int | None
    created_at: datetime
    text: str
    op: str


class Seen:
    """The database as it stands at the end, beside what the network saw."""

    def __init__(
        self,
        chat: Watched,
        engine: Engine,
        words: dict[int, str],
        calendar: Calendar,
    ) -> None:
        self.calendar, self.between = calendar, chat.clock.between
        self.said, self.came, self.met = list(chat.said), list(chat.came), list(chat.met)
        # Who lost the lead lives on, and what it had in flight is in doubt for whoever leads then, as after a kill.
        self.kills = sorted(chat.kills + chat.lost_leads)
        self.births, self.wakes = list(chat.births), list(chat.wakes)
        self.led_kills = list(chat.led_kills)
        self.handed, self.numbers = dict(chat.handed), dict(chat.numbers)
        self.ended, self._words = chat.clock.now(), words
        with engine.connect() as connection:
            self._connection = connection
            self.people = dict(self.rows(select(account.c.user_id, account.c.client_id)))
            self.outbox = [self._row(each) for each in self.rows(select(outbox).order_by(outbox.c.id))]
            self.outbox = [each for each in self.outbox if each is not None]
            self.inbox = {each.update_id: each for each in self.rows(select(inbox))}
            sets = select(session.c.client_id, logged_set)
            sets = sets.join_from(logged_set, item, item.c.id == logged_set.c.item_id)
            sets = sets.join(session, session.c.id == item.c.session_id).where(
                logged_set.c.voided_at.is_(None)
            )
            self.sets = self.rows(sets)
            self.reports = self.rows(select(body_report))
            self.sessions = self.rows(select(session))
            self.frozen = {
                each.id for each in self.rows(select(client.c.id).where(client.c.frozen_at.is_not(None)))
            }

    def rows(self, query: Any) -> list[Any]:
        return list(self._connection.execute(query))

    def _row(self, each: Any) -> Any:
        if each.op not in SENDS or each.id not in self._words:
            return None
        text = self._words[each.id]
        return Row(
            each.id,
            each.chat_id,
            each.key,
            Lane(each.lane),
            each.state,
            each.message_id,
            each.created_at,
            text,
            each.op,
        )

    def lost_lead(self, said: Said, waited: float) -> bool:
        """Whether the process that led died shortly before somebody said something, or while she waited."""
        return any(said.at - TAKE_OVER_S <= kill <= said.at + waited for kill in self.led_kills)

    def lane(self, came: Came) -> Lane:
        """The lane that a message came by; talk, where its row cannot be told."""
        found = (each.lane for each in self.outbox if (each.chat_id, each.text) == (came.chat_id, came.text))
        return min(found, default=Lane.TALK, key=list(Lane).index)


def effects(seen: Seen) -> Iterator[str]:
    """Every reply has its effect exactly once."""
    for said in seen.said:
        count = _effects_of(said, seen)
        if count != said.count:
            yield f"{NAMES[said.chat_id]}'s {said.text!r} has its effect {count} times, not {said.count}"
    waiting = Counter(each.state for each in seen.inbox.values() if each.state in ("new", "failed"))
    if waiting:
        yield f"updates are left: {dict(waiting)}"


def _effects_of(said: Said, seen: Seen) -> int:
    client_id = seen.people[said.chat_id]
    match said.kind:
        case "sets":
            mine = (
                each
                for each in seen.sets
                if (each.client_id, each.message_id) == (client_id, said.message_id)
            )
            return len({(each.item_id, each.set_no) for each in mine})
        case "pain" | "stop":
            mine = [each for each in seen.reports if each.message_id == said.message_id]
            return sum(each.client_id == client_id and each.answers_to is None for each in mine)
        case "help":
            number = seen.numbers.get((said.chat_id, said.message_id))
            return sum(each.key.startswith(f"{_coach(seen, said)}:help:{number}") for each in seen.outbox)
        case "today":
            return said.count
        case _:
            coach = COACH_OF[said.chat_id]
            return sum(each.chat_id == coach and said.text in each.text for each in seen.outbox)


def _coach(seen: Seen, said: Said) -> str:
    return next((each.key.partition(":")[0] for each in seen.outbox if each.chat_id == said.chat_id), "?")


def duplicates(seen: Seen) -> Iterator[str]:
    """At most one a kill and lane, none without one. A call that was dropped when it was done is in doubt as well."""
    drops = [each for each in seen.met if each.kind is Kind.DROP_AFTER and each.method != "getUpdates"]
    kills: Counter[tuple[float, Lane]] = Counter()
    for again, before in _copies(seen):
        lane = seen.lane(again)
        dropped = next(
            (d for d in drops if before.at - 1 <= d.at <= again.at and d.chat_id == again.chat_id), None
        )
        begun = _begun(before, seen)
        killed = next((kill for kill in reversed(seen.kills) if begun <= kill <= again.at), None)
        head = again.text.partition("\n")[0]
        if _was_said_aloud(before, seen):
            continue
        if dropped is not None:
            drops.remove(dropped)
        elif killed is None:
            yield f"{again.chat_id} got {head!r} twice without a kill between"
        else:
            kills[killed, lane] += 1
            if kills[killed, lane] > WIDTHS[lane]:
                yield f"{again.chat_id} got {head!r} twice: too many of lane {lane} after one kill"


def _was_said_aloud(came: Came, seen: Seen) -> bool:
    """Whether it was the text of a stop sign, late and without a row: each process that knows of the sign says it."""
    rows = any((each.chat_id, each.text) == (came.chat_id, came.text) for each in seen.outbox)
    signs = (each.at for each in seen.said if each.chat_id == came.chat_id and each.kind == "stop")
    late = came.at - max((at for at in signs if at <= came.at), default=came.at)
    return came.text.startswith("Stop now") and late >= SAY_WITHOUT_S and not rows


ON_THE_WIRE_S = 0.5
"""How long after a kill the network may still take up a call that the dead process had written. [s]"""


def _begun(came: Came, seen: Seen) -> float:
    """When the call began that a message came by: earlier, where the platform did it late."""
    late = (
        met.at
        for met in seen.met
        if (met.kind, met.chat_id) == (Kind.SLOW_BEFORE, came.chat_id)
        and met.at <= came.at <= met.at + met.waits_s + 0.5
    )
    return min(late, default=came.at - ON_THE_WIRE_S)


def _copies(seen: Seen) -> Iterator[tuple[Came, Came]]:
    """What came more often than it was queued, with the copy before it."""
    rows = Counter(
        (each.chat_id, each.text) for each in seen.outbox if each.state in ("sent", "doubtful", "sending")
    )
    by_text: dict[tuple[int, str], list[Came]] = {}
    for came in seen.came:
        by_text.setdefault((came.chat_id, came.text), []).append(came)
    for key, all_came in by_text.items():
        extra = len(all_came) - max(1, rows[key])
        if extra > 0:
            pairs = sorted(pairwise(all_came), key=lambda two: two[1].at - two[0].at)
            yield from ((again, before) for before, again in pairs[:extra])


def order(seen: Seen) -> Iterator[str]:
    """In a chat what was queued first came first, safety excepted, and what was held until the morning."""
    last: dict[int, Row] = {}
    for row in seen.outbox:
        held = row.chat_id in COACHES and seen.calendar.is_quiet(row.chat_id, row.created_at)
        if row.state != "sent" or row.lane is Lane.SAFETY or held or row.message_id is None:
            continue
        before = last.get(row.chat_id)
        if before is not None and before.message_id is not None and before.message_id > row.message_id:
            yield f"{row.chat_id}: {row.key} came before {before.key}, which was queued first"
        last[row.chat_id] = row


def waited_for_safety(seen: Seen) -> list[tuple[Said, float | None]]:
    """For each stop sign how long its text took, from when a living process could have had it. [s]"""
    found: list[tuple[Said, float | None]] = []
    for said in seen.said:
        if said.kind != "stop":
            continue
        out = next(
            (
                c.at
                for c in seen.came
                if c.chat_id == said.chat_id and c.at >= said.at and c.text[:8] == "Stop now"
            ),
            None,
        )
        found.append((said, None if out is None else out - _could_from(said, out, seen)))
    return found


def _could_from(said: Said, out: float, seen: Seen) -> float:
    """From when on the living process could have had it, with a platform that takes its text."""
    handed = seen.handed.get((said.chat_id, said.message_id), said.at)
    since = [said.at, *(each for each in (*seen.births, *seen.wakes) if said.at <= each <= out)]
    if any(met.method == "getUpdates" and said.at - 5 <= met.at <= handed for met in seen.met):
        since.append(handed)
    mine = [each for each in seen.met if each.chat_id == said.chat_id and said.at - 6 <= each.at <= out]
    for number, met in enumerate(mine, 1):
        since.append(met.at + (met.waits_s or 1.2 * 2.0**number))
    return min(max(since), out)


def safety(seen: Seen) -> Iterator[str]:
    """The text of a stop sign is out within five seconds, and where another process must first lead, after that."""
    for said, waited in waited_for_safety(seen):
        if waited is None:
            yield f"{NAMES[said.chat_id]}'s stop sign was never answered"
        elif waited > SAFETY_S + TAKE_OVER_S * seen.lost_lead(said, waited):
            yield f"the text for {NAMES[said.chat_id]}'s stop sign took {waited:.1f} s"


def sessions(seen: Seen) -> Iterator[str]:
    """Every session that fell due went out once, on its day and at its hour, or is explained."""
    users = {client_id: user_id for user_id, client_id in seen.people.items() if user_id in CLIENTS}
    for each in seen.sessions:
        user_id, on = users[each.client_id], each.local_on
        if seen.calendar.due(user_id, on) > seen.ended:
            continue
        cards = [came for came in _came_with(user_id, on, seen) if _is_in_time(came, on, seen)]
        if not cards and not _is_explained(user_id, seen, frozen=each.client_id in seen.frozen):
            yield f"{NAMES[user_id]}'s session of {on} never came ({each.state}), and nobody was told why"
        asked = sum(said.chat_id == user_id and said.kind == "today" for said in seen.said)
        mine = [row for row in seen.outbox if row.chat_id == user_id and row.state != "cancelled"]
        fresh = sum(row.op == "send" and _is_card(row.text, on) for row in mine)
        if fresh > 1 + asked:
            yield f"{NAMES[user_id]}'s session of {on} was queued {fresh} times"


def _is_explained(user_id: int, seen: Seen, *, frozen: bool) -> bool:
    stopped = frozen and any(said.chat_id == user_id and said.kind == "stop" for said in seen.said)
    mine = [came.text for came in seen.came if came.chat_id == COACH_OF[user_id]]
    told = any(f"{NAMES[user_id]} has blocked me" in text for text in mine)
    return stopped or told or is_in_doubt(mine, user_id)


def _is_card(text: str, on: date) -> bool:
    return f"{on:%a} {on.day} {on:%B}" in text.partition("\n")[0]


def _came_with(user_id: int, on: date, seen: Seen) -> list[Came]:
    return [came for came in seen.came if came.chat_id == user_id and _is_card(came.text, on)]


def _is_in_time(came: Came, on: date, seen: Seen) -> bool:
    """Whether a card came on its local date, not before its hour, and as soon as a living program could send it."""
    due = seen.calendar.due(came.chat_id, on)
    local = came.story.astimezone(seen.calendar.zone(came.chat_id))
    late = seen.between(due, came.story, dead=True)
    return local.date() == on and came.story >= due and late <= ON_TIME


def quiet(seen: Seen) -> Iterator[str]:
    """In quiet hours nothing comes that nobody asked for, but safety."""
    for came in seen.came:
        if came.silent or not seen.calendar.is_quiet(came.chat_id, came.story):
            continue
        if seen.lane(came) is Lane.SAFETY:
            continue
        asked = any(
            said.chat_id == came.chat_id
            and timedelta(0) <= came.story - said.story
            and seen.between(said.story, came.story, dead=False) <= ASKED_FOR
            for said in seen.said
        )
        if not asked:
            local = came.story.astimezone(seen.calendar.zone(came.chat_id))
            yield f"{came.chat_id} got {came.text.partition(chr(10))[0]!r} at {local:%H:%M}"


INVARIANTS = {
    "each reply has its effect once": effects,
    "duplicates": duplicates,
    "order in a chat": order,
    "safety within 5 s": safety,
    "sessions on their day": sessions,
    "quiet hours": quiet,
}
