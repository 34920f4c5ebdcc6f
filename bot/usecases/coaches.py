"""A coach is added by whoever runs the program; her own account binds with a one-time code."""

from datetime import datetime, timedelta

from bot.store.units import Units

CODE_LASTS = timedelta(days=7)


def add_coach(name: str, zone: str, code: str, units: Units, now: datetime) -> int:
    """Add a coach with a code that binds her account once.

    Args:
        name: As clients see it.
        zone: IANA zone of her quiet hours and her digest.
        code: Unguessable; only its hash is kept.
        units: The store.
        now: Present instant.

    Returns:
        The coach's id.
    """
    with units.open(None) as house:
        coach_id = house.coaches.add(name, zone, now)
        house.of(coach_id).invites.add(code, "coach", name, now + CODE_LASTS, now)
    return coach_id
