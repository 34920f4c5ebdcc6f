"""What a coach keeps of a client's care, as lines of her card: limits, referrals, reminders, the contract."""

from datetime import datetime

from bot.render.clinician_limits import limit_line
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import contract, referring, reminding
from core.local_time import local_date


def care_lines(client: Client, unit: Unit, now: datetime) -> tuple[str, ...]:
    """Return the lines, limits first; plain text."""
    catalogue = unit.exercises.catalogue()
    limits = unit.clinician_limits.standing(client.id, local_date(now, client.zone or "UTC"))
    return (
        *(f"Limit: {limit_line(each, catalogue)}" for each in limits),
        *referring.lines_of(client, unit),
        *reminding.lines_of(client.id, unit),
        *contract.lines_of(client, unit, now),
    )
