"""What a line tells of the body, where it answers something else: taken as if it had been sent by itself."""

from datetime import datetime

from bot.messages import Effect, Person
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import pain, readings, soreness
from core.checkin.reading import Reading


def told_of_body(
    reading: Reading, text: str, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Keep and answer pain and soreness of a line; ask where it hurts, or which reading is right."""
    message_id = person.arrival.message_id if person.arrival else None
    asks: list[Effect] = []
    if readings.site_is_open(reading, None, unit):
        reading, asks = readings.where_it_hurts(reading, None, None, person, unit, now)
    elif reading.ask and any(each.pain or each.soreness for each in reading.ask):
        return readings.asked(reading, text, None, message_id, client, person, unit, now)
    return [
        *pain.told(reading.pain, None, None, person, unit, now, message_id),
        *soreness.told(reading.soreness, None, client, person, unit, now),
        *asks,
    ]
