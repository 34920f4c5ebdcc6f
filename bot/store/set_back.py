"""The machine's clock was set back: what waits by the wrong time is put right.

A row that was due at a time which has become the future again would wait for it a second time: an answer for hours,
a pause of half a minute for half a day.
"""

from datetime import datetime

from sqlalchemy import or_, select, update

from bot.messages import Lane, Level
from bot.store.outbox_row import COLUMNS, OutboxRow, row_of
from bot.store.tables import alert, chat, inbox, outbox, session
from bot.store.units import Units


def outbox_set_back(units: Units, seen: datetime, now: datetime) -> None:
    """Have go out now what had been due: safety, answers, edits, and what was tried before.

    What nobody asked for keeps its hour: by the clock as it is now it may be night.

    Args:
        units: The store.
        seen: What the clock said before.
        now: What it says.
    """
    waits = outbox.c.state == "queued", outbox.c.due_at > now
    query = select(*COLUMNS).where(*waits, or_(outbox.c.due_at <= seen, outbox.c.attempts > 0))
    paused = select(chat.c.chat_id, chat.c.paused_until).where(chat.c.paused_until > now)
    with units.open(None) as house:
        due = [row.id for row in map(row_of, house.connection.execute(query)) if _goes_at_once(row)]
        house.connection.execute(update(outbox).where(outbox.c.id.in_(due)).values(due_at=now))
        for each in house.connection.execute(paused).all():
            until = max(each.paused_until - (seen - now), now)
            mine = chat.c.chat_id == each.chat_id
            house.connection.execute(update(chat).where(mine).values(paused_until=until))


def _goes_at_once(row: OutboxRow) -> bool:
    is_silent = row.body is not None and row.body.silent
    return row.lane is Lane.SAFETY or row.op != "send" or row.attempts > 0 or is_silent


def inbox_set_back(units: Units, now: datetime) -> None:
    """Have taken up now what waits: updates wait for seconds only."""
    waits = inbox.c.state == "new", inbox.c.not_before > now
    with units.open(None) as house:
        house.connection.execute(update(inbox).where(*waits).values(not_before=None))


def sessions_set_back(units: Units, seen: datetime, now: datetime) -> None:
    """Have sessions be due again that were called unsent at a time which is the future again."""
    called_off = session.c.state == "unsent", session.c.sent_at.is_(None)
    again = session.c.due_at > now, session.c.due_at <= seen
    with units.open(None) as house:
        house.connection.execute(update(session).where(*called_off, *again).values(state="planned"))


def alerts_set_back(units: Units, seen: datetime, now: datetime) -> None:
    """Have matters that cannot wait be told again as soon as they were to be, while they are unseen.

    What is looked at on a date of its own, such as a block that ends, keeps it.

    Args:
        units: The store.
        seen: What the clock said before.
        now: What it says.
    """
    unseen = alert.c.closed_at.is_(None), alert.c.seen_at.is_(None), alert.c.told_at.is_not(None)
    waits = alert.c.level >= Level.NOW, alert.c.due_at > now
    query = select(alert.c.id, alert.c.told_at, alert.c.due_at).where(*unseen, *waits)
    gone = seen - now
    with units.open(None) as house:
        for each in house.connection.execute(query).all():
            # Both, since the next telling is counted from the first.
            told_at = each.told_at - gone if each.told_at > now else each.told_at
            values = {"told_at": told_at, "due_at": max(each.due_at - gone, now)}
            house.connection.execute(update(alert).where(alert.c.id == each.id).values(**values))
