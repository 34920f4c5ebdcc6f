"""The questions that the sender asks at every turn: what is next, what is late, when to look again; and its claim.

Built once, with the instant as a parameter: building them costs more than running them.
"""

from typing import Any

from sqlalchemy import ColumnElement, bindparam, case, func, or_, select, union_all, update

from bot.store.outbox_row import COLUMNS
from bot.store.tables import card, chat, outbox
from bot.store.types import UtcDateTime

_NOW = bindparam("now", type_=UtcDateTime())
IN_TURN = (outbox.c.due_at, outbox.c.id)
FREE = outbox.c.chat_id.not_in(bindparam("busy", expanding=True))


def _due() -> ColumnElement[bool]:
    live = or_(outbox.c.not_after.is_(None), outbox.c.not_after > _NOW)
    return (outbox.c.state == "queued") & (outbox.c.due_at <= _NOW) & live


def _paused() -> ColumnElement[bool]:
    query = select(chat.c.chat_id).where(chat.c.chat_id == outbox.c.chat_id, chat.c.paused_until > _NOW)
    return query.exists()


def _held() -> ColumnElement[bool]:
    other = outbox.alias("other")
    flying = select(other.c.id).where(other.c.chat_id == outbox.c.chat_id, other.c.state == "sending")
    earlier = select(other.c.id).where(
        other.c.chat_id == outbox.c.chat_id,
        other.c.state == "queued",
        other.c.id < outbox.c.id,
        or_(other.c.due_at <= _NOW, other.c.attempts > 0),
        or_(other.c.not_after.is_(None), other.c.not_after > _NOW),
    )
    return or_(flying.exists(), earlier.exists())


def turns(*which: ColumnElement[bool], order: tuple[Any, ...] = IN_TURN) -> Any:
    """Return the question for the first rows of each lane, as many as `most_0`, `most_1` and `most_2` say.

    Args:
        which: What holds of a row that may go; safety is asked for none of it.
        order: Who goes first in a lane.
    """
    lanes = (
        select(*COLUMNS)
        .where(_due(), outbox.c.rank == rank, ~_paused(), *held)
        .order_by(*order)
        .limit(bindparam(f"most_{rank}"))
        .subquery()
        for rank, held in enumerate(((), which, which))
    )
    return union_all(*(select(lane) for lane in lanes))


NEXT = turns(FREE, ~_held())
SAFETY_WAITS = select(outbox.c.id).where(
    _due(), outbox.c.rank == 0, ~_paused(), outbox.c.chat_id == bindparam("chat"), outbox.c.attempts == 0
)

_LATE = (outbox.c.state == "queued", outbox.c.due_at <= _NOW, outbox.c.not_after <= _NOW)
EXPIRE = update(outbox).where(*_LATE).values(state="expired").returning(*COLUMNS)
PLANNED = select(func.min(outbox.c.due_at)).where(outbox.c.state == "queued", outbox.c.due_at > _NOW)
PAUSED = (
    select(func.min(chat.c.paused_until))
    .join_from(outbox, chat, chat.c.chat_id == outbox.c.chat_id)
    .where(outbox.c.state == "queued", outbox.c.due_at <= _NOW, chat.c.paused_until > _NOW)
)
AHEAD = select(
    select(outbox.c.id).where(*_LATE).exists().label("late"),
    PLANNED.scalar_subquery().label("planned"),
    PAUSED.scalar_subquery().label("paused"),
)
"""Whether anything is too late, and when time alone will make another row claimable, for either reason."""

OPEN = (
    select(func.count()).select_from(outbox).where(outbox.c.state == "sending"),
    select(func.count()).select_from(outbox).where(_due()),
)

# A card is edited where it stands now; what has no message yet, or none any more, becomes a send.
_STANDS = (
    select(card.c.message_id)
    .where(card.c.id == outbox.c.card_id, card.c.coach_id == outbox.c.coach_id)
    .scalar_subquery()
)
_OF_CARD = outbox.c.card_id.is_not(None) & (outbox.c.op != "strip")
CLAIM = (
    update(outbox)
    .where(outbox.c.id == bindparam("this_id"), outbox.c.state == "queued")
    .values(
        state="sending",
        attempts=outbox.c.attempts + 1,
        claimed_by=bindparam("by"),
        claimed_at=bindparam("now", type_=UtcDateTime()),
        cause=None,
        op=case((_OF_CARD & _STANDS.is_(None), "send"), else_=outbox.c.op),
        message_id=case((~_OF_CARD, outbox.c.message_id), (outbox.c.op == "edit", _STANDS), else_=None),
    )
    .returning(*COLUMNS)
)
