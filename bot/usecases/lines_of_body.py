"""What a line tells of the body, where it answers something else: taken as if it had been sent by itself."""

from datetime import date, datetime

from bot.messages import Effect, Person
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import pain, readings, soreness
from bot.usecases.reply_context import at_cursor, context_for
from core.checkin.other_training_words import OtherRead, training_beside
from core.checkin.reading import Reading
from core.checkin.replies import read_reply


def told_of_body(
    reading: Reading,
    text: str,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    in_session: bool = False,
) -> list[Effect]:
    """Keep and answer pain and soreness of a line; ask where it hurts, or which reading is right.

    With `in_session` the exercise that is open in a session is eased too: what hurts, hurts in it as well.
    """
    session = unit.sessions.open_one(client.id) if in_session else None
    message_id = person.arrival.message_id if person.arrival else None
    item = at_cursor(session, unit)
    asks: list[Effect] = []
    if readings.site_is_open(reading, item, unit):
        reading, asks = readings.where_it_hurts(reading, session, item, person, unit, now)
    elif reading.ask and any(each.pain or each.soreness for each in reading.ask):
        return readings.asked(reading, text, item, message_id, client, person, unit, now)
    return [
        *pain.told(reading.pain, session, item, person, unit, now, message_id),
        *soreness.told(reading.soreness, session, client, person, unit, now),
        *asks,
    ]


def training_with_body(
    text: str, today: date, client: Client, unit: Unit
) -> tuple[OtherRead, Reading, str] | None:
    """Return training that was done, what hurt in it, and the words of that; None where a line is not both.

    Args:
        text: As typed: `ran 30 min, left knee 5`.
        today: Date on her calendar.
        client: Who typed it.
        unit: Open transaction.
    """
    for read, rest in training_beside(text, today):
        reading = read_reply(rest, context_for(client, None, None, unit))
        meant = reading.ask or (reading,)
        if all((each.pain or each.soreness) and not each.sets and each.note is None for each in meant):
            return read, reading, rest
    return None
