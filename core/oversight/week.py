"""When a coach's digest is due: a weekday and an hour on her own wall clock, once in an ISO week."""

from datetime import date, datetime, time, timedelta

from core.local_time import instant_of, local_date

WEEK = timedelta(days=7)


def last_hour(now: datetime, zone: str, weekday: int, at: time) -> tuple[date, datetime]:
    """Return the last date and instant, now or before, at which a digest was due.

    Args:
        now: Instant.
        zone: The coach's.
        weekday: 0 is Monday.
        at: Wall-clock time.

    Raises:
        UnknownZone: No zone has this name.
    """
    today = local_date(now, zone)
    on = today - timedelta(days=(today.weekday() - weekday) % 7)
    due = instant_of(on, at, zone)
    return (on, due) if due <= now else _at(on - WEEK, zone, at)


def next_hour(now: datetime, zone: str, weekday: int, at: time) -> datetime:
    """Return the next instant, after now, at which a digest is due.

    Raises:
        UnknownZone: No zone has this name.
    """
    on, _ = last_hour(now, zone, weekday, at)
    return instant_of(on + WEEK, at, zone)


def _at(on: date, zone: str, at: time) -> tuple[date, datetime]:
    return on, instant_of(on, at, zone)


def week_key(on: date) -> str:
    """Return the key of a digest: one for each ISO week."""
    year, week, _ = on.isocalendar()
    return f"digest:{year}-W{week:02}"
