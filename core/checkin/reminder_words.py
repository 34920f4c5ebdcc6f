"""A coach's reminder to herself as she types it: `3 weeks: ask about the hip`, `friday: order bands`. English."""

import re
from datetime import date, time, timedelta

from core.checkin.day_spans import day_said, days_said
from core.value import Value

REMINDED_AT = time(8)
"""Wall-clock hour of a coach at which her reminders come. Our proposal."""
LONGEST = 300
"""Longest reminder. [characters] Our proposal."""
_WHEN = re.compile(r"(?:in |after )?(.+)")


class ReminderRead(Value):
    """A reminder as read.

    Attributes:
        on: The coach's own date on which it falls due; None where no day was read.
        text: What; empty where nothing was said.
    """

    on: date | None = None
    text: str = ""


def reminder_read(text: str, today: date) -> ReminderRead:
    """Return when and what; the day stands before a colon. A day that is today has come."""
    when, colon, what = text.partition(":")
    said = " ".join(what.split())[:LONGEST]
    return ReminderRead(on=day_meant(when, today) if colon else None, text=said)


def day_meant(text: str, today: date) -> date | None:
    """Return the day that words name: `friday`, `3 May`, `3 weeks` from today on, `next week`; None for others."""
    found = _WHEN.fullmatch(" ".join(text.casefold().split()))
    if found is None:
        return None
    named = day_said(found[1], today)
    if named is not None:
        return named
    if found[1] == "next week":
        return today + timedelta(days=7)
    span = days_said(f"for {found[1]}", today)
    return None if span is None or span.rest else span.last + timedelta(days=1)
