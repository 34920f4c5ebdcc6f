"""The questions that the sender asks at every turn: what is next, what is late, when to look again.

Built once, with the instant as a parameter: building them costs more than running them.
"""

from sqlalchemy import ColumnElement, bindparam, func, or_, select, update

from bot.store.outbox_row import COLUMNS
from bot.store.tables import chat, outbox
from bot.store.types import UtcDateTime

_NOW = bindparam("now", type_=UtcDateTime())


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


NEXT_SAFE = (
    select(*COLUMNS)
    .where(_due(), outbox.c.rank == bindparam("rank"), ~_paused())
    .order_by(outbox.c.due_at, outbox.c.id)
    .limit(1)
)
NEXT = NEXT_SAFE.where(outbox.c.chat_id.not_in(bindparam("busy", expanding=True)), ~_held())
EXPIRE = (
    update(outbox)
    .where(outbox.c.state == "queued", outbox.c.due_at <= _NOW, outbox.c.not_after <= _NOW)
    .values(state="expired")
    .returning(*COLUMNS)
)
PLANNED = select(func.min(outbox.c.due_at)).where(outbox.c.state == "queued", outbox.c.due_at > _NOW)
PAUSED = (
    select(func.min(chat.c.paused_until))
    .join_from(outbox, chat, chat.c.chat_id == outbox.c.chat_id)
    .where(outbox.c.state == "queued", outbox.c.due_at <= _NOW, chat.c.paused_until > _NOW)
)
OPEN = (
    select(func.count()).select_from(outbox).where(outbox.c.state == "sending"),
    select(func.count()).select_from(outbox).where(_due()),
)
