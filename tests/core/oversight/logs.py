"""Logs of sessions, written short: `kmk` is kept, missed, kept on one day after another."""

from datetime import UTC, date, datetime, timedelta

from core.oversight.misses import Past

FIRST = date(2026, 4, 1)
STATES = {
    "k": ("done", None),
    "p": ("partial", None),
    "m": ("missed", None),
    "t": ("left_out", "time"),
    "i": ("left_out", "ill"),
    "a": ("left_out", "away"),
    "c": ("left_out", "coach"),
    "I": ("missed", "ill"),
    "T": ("missed", "time"),
    "h": ("held", None),
    "u": ("unsent", None),
    "s": ("sent", None),
}


def noon(on: date) -> datetime:
    return datetime(on.year, on.month, on.day, 12, tzinfo=UTC)


def log(text: str, first: date = FIRST, every: int = 1) -> tuple[Past, ...]:
    found = []
    for number, letter in enumerate(text):
        on = first + timedelta(days=number * every)
        state, reason = STATES[letter]
        sent_at = None if state in ("held", "unsent") else noon(on)
        found.append(Past(session_id=number + 1, on=on, state=state, reason=reason, sent_at=sent_at))
    return tuple(found)
