"""A holiday or an event as a coach types it: `3-10 May`, `Crete 3-10 May`, `10k row 14 June`. English."""

from datetime import date

from core.checkin.day_spans import day_said, days_said
from core.checkin.goal_words import date_read
from core.value import Value

LONGEST = 60
"""Longest name. [characters] Our proposal."""
MOST_DATE_WORDS = 4
"""Words of the longest date, such as `Sunday 14 June 2027`."""


class EntryRead(Value):
    """What was read.

    Attributes:
        name: What it is, as typed; nothing where nothing was said.
        first: First day.
        last: Last day.
    """

    name: str
    first: date
    last: date


def holiday_read(text: str, today: date) -> EntryRead | None:
    """Return a holiday: a span of days or one day, with or without a name; None where no days can be read."""
    words = " ".join(text.split())
    span = days_said(words, today)
    if span is None:
        return event_read(words, today)
    rest = span.rest.split()
    kept = [word for word in words.split() if word.casefold().strip(",.;!?()") in rest]
    return EntryRead(name=" ".join(kept).strip(" ,.;:")[:LONGEST], first=span.first, last=span.last)


def event_read(text: str, today: date) -> EntryRead | None:
    """Return an event: a name, and its day at the end, from today on; None where no day can be read there.

    `10k row 14 June` is of 14 June, since the longest date at the end counts.
    """
    words = text.replace(",", " ").split()
    for count in range(min(MOST_DATE_WORDS, len(words)), 0, -1):
        ending = " ".join(words[-count:])
        on = date_read(ending, today) or day_said(ending, today)
        if on is not None:
            before = words[:-count]
            if before and before[-1].casefold() == "on":
                before = before[:-1]
            return EntryRead(name=" ".join(before).strip(" :")[:LONGEST], first=on, last=on)
    return None
