"""Writes down what became of a call, in one transaction."""

from datetime import datetime

from bot.outbound.policy import Again, Dead, Done, Doubt, Shut, Step, Stop
from bot.store.outbox import OutboxRow
from bot.store.units import Unit


def settle(step: Step, row: OutboxRow, house: Unit, now: datetime) -> bool:
    """Settle a row that was in flight; True when it was given up in doubt."""
    match step:
        case Done(message_id, file_id):
            house.outbox.sent(row, message_id, now, file_id)
            house.chats.sent(row.chat_id, now)
            if row.card_id is not None and row.coach_id is not None:
                house.of(row.coach_id).cards.delivered(row, message_id, now)
        case Again():
            _again(step, row, house)
        case Doubt(due_at, cause):
            if not _superseded(row, house):
                return house.outbox.in_doubt(row, due_at, cause)
        case Dead(cause):
            house.outbox.dead(row, cause)
        case Shut(cause):
            house.outbox.dead(row, cause)
            house.outbox.cancel_chat(row.chat_id)
            house.chats.shut(row.chat_id, now)
        case Stop():
            house.outbox.unclaim(row)
    return False


def _superseded(row: OutboxRow, house: Unit) -> bool:
    if row.coach_id is None or not house.of(row.coach_id).cards.is_superseded(row):
        return False
    house.outbox.supersede(row)
    return True


def _again(step: Again, row: OutboxRow, house: Unit) -> None:
    if step.pause_chat:
        house.chats.pause(row.chat_id, step.due_at)
    if step.forget_file:
        house.outbox.set_file(row, None)
    if step.lost and row.coach_id is not None:
        house.of(row.coach_id).cards.lost(row)
    if not _superseded(row, house):
        house.outbox.again(row, step.due_at, step.cause, plain=step.plain)
    if step.chat_id is not None:
        house.outbox.follow(row.chat_id, step.chat_id)
        house.chats.follow(row.chat_id, step.chat_id)
