"""What becomes of rows of the outbox, as changes that are built once: arrived, passed on, cancelled."""

from sqlalchemy import ColumnElement, String, Update, bindparam, update

from bot.messages import Lane
from bot.store.tables import forwarded, outbox

RANK = {Lane.SAFETY: 0, Lane.TALK: 1, Lane.BULK: 2}

CANCELLED = "cancelled"
"""Cause left on a row that is in flight: should it come back undelivered, it is not sent again."""


def _cancelling(*which: ColumnElement[bool]) -> tuple[Update, Update]:
    queued = update(outbox).where(outbox.c.state == "queued", *which).values(state=CANCELLED)
    in_flight = update(outbox).where(outbox.c.state == "sending", *which).values(cause=CANCELLED)
    return queued, in_flight


OF_CLIENT = _cancelling(outbox.c.client_id == bindparam("this_client"), outbox.c.rank > RANK[Lane.SAFETY])
OF_CHAT = _cancelling(outbox.c.chat_id == bindparam("this_chat"))
OF_KEYS = _cancelling(outbox.c.key.like(bindparam("begins", type_=String()), escape="/"))
IN_FLIGHT = update(outbox).where(
    outbox.c.id == bindparam("this_id"),
    outbox.c.state == "sending",
    # Whoever was taken for dead, and comes back, must not settle what another has claimed since.
    outbox.c.claimed_by == bindparam("this_by"),
)
SENT = IN_FLIGHT.values(
    state="sent", cause=None, message_id=bindparam("message_id"), sent_at=bindparam("sent_at")
)
PASSED_ON = update(forwarded).where(
    forwarded.c.coach_id == bindparam("this_coach"), forwarded.c.outbox_key == bindparam("this_key")
)
