"""A turn of the sender in the store, one transaction: what landed is written down, what goes out is claimed."""

import asyncio
import logging
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Lane
from bot.outbound.lead import Lead
from bot.outbound.limits import Limits
from bot.outbound.policy import Step
from bot.outbound.settlement import settle
from bot.store.outbox import OutboxRow
from bot.store.units import Unit, Units
from bot.usecases.unasked import was_held

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Landed:
    """What became of a call, and who waits for it to be written down.

    Attributes:
        step: What follows.
        row: Of which row.
        written: Whether the row was given up in doubt; None where no turn wrote it down.
    """

    step: Step
    row: OutboxRow
    written: "asyncio.Future[bool | None]"


def leave(landed: Mapping[int, Landed]) -> None:
    """Have whoever made these calls write down what became of them, each in a transaction of its own."""
    for each in landed.values():
        if not each.written.done():
            each.written.set_result(None)


@dataclass(frozen=True, slots=True)
class Turn:
    """What a turn came to.

    Attributes:
        given_up: Ids of rows that were given up in doubt.
        claimed: What goes out now.
        again_at: When time alone changes that; None when it never does.
    """

    given_up: frozenset[int]
    claimed: list[OutboxRow]
    again_at: datetime | None


def turned(
    units: Units,
    landed: Sequence[tuple[Step, OutboxRow]],
    free: Mapping[Lane, int],
    limits: Limits,
    owner: str,
    now: datetime,
    lead: Lead,
) -> Turn:
    """Take a turn.

    Args:
        units: The store.
        landed: What became of calls; their rows are in flight still, and count no more.
        free: How many calls may begin, by lane.
        limits: The pace, which safety does not wait for.
        owner: Name that claims carry.
        now: Present instant.
        lead: Whether this process may send at all.
    """
    with units.open(None) as house:
        given_up = _settled(house, landed, now)
        if not lead.may_claim(house.connection):
            return Turn(given_up, [], None)
        late, due = house.outbox.ahead(now)
        for row in house.outbox.expire(now) if late else ():
            log.info("outbox_expired", extra={"outbox_id": row.id})
        claimed, some_wait = _claimed(house, free, limits, owner, now)
        again = [due, now if some_wait else None]
        opening = limits.next_opening(now)
        if opening is not None and house.outbox.next_row(now) is not None:
            again.append(opening)
    return Turn(given_up, claimed, min((when for when in again if when is not None), default=None))


def settled(units: Units, landed: Sequence[tuple[Step, OutboxRow]], now: datetime) -> frozenset[int]:
    """Write down what became of calls, and nothing else; return the ids of rows that were given up in doubt."""
    with units.open(None) as house:
        return _settled(house, landed, now)


def _settled(house: Unit, landed: Sequence[tuple[Step, OutboxRow]], now: datetime) -> frozenset[int]:
    return frozenset(row.id for step, row in landed if settle(step, row, house, now))


def _claimed(
    house: Unit, free: Mapping[Lane, int], limits: Limits, owner: str, now: datetime
) -> tuple[list[OutboxRow], bool]:
    """Claim what goes out; and say whether something was found that waits for the morning, in others' places."""
    left, room, some_wait = dict(free), limits.room(now), False
    claimed: list[OutboxRow] = []
    # One more than may go, for one of them may turn out to be held by a safety row of its chat.
    most = {lane: free[lane] + (free[lane] > 0 and lane is not Lane.SAFETY) for lane in free}
    for row in house.outbox.next_rows(now, most, limits.full_chats(now)):
        is_held = any(each.chat_id == row.chat_id for each in claimed) or len(claimed) >= room
        if left[row.lane] <= 0 or (is_held and row.lane is not Lane.SAFETY):
            continue
        if was_held(row, house, now):
            some_wait = True
            continue
        taken = house.outbox.claim(row.id, owner, now)
        if taken is not None:
            left[row.lane] -= 1
            claimed.append(taken)
    return claimed, some_wait
