"""Times of day and days of the week as people type them."""

import re
from datetime import time

_CLOCK = re.compile(
    r"(?:at )?(?P<hour>\d{1,2})(?:\s?[:.h]\s?(?P<minute>\d{2})|\s?h)?\s?(?P<half>[ap])?(?(half)\.?m\.?)"
)
_RUN_TOGETHER = re.compile(r"(\d{1,2})(\d{2})")
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_FILLERS = frozenset({"and", "on", "every"})
_GROUPS: dict[str, tuple[int, ...]] = {
    "weekdays": (0, 1, 2, 3, 4),
    "weekend": (5, 6),
    "weekends": (5, 6),
    "daily": (0, 1, 2, 3, 4, 5, 6),
    "every day": (0, 1, 2, 3, 4, 5, 6),
}


def clock_time(text: str) -> time | None:
    """Return the time of day in `6:30`, `6.30`, `18`, `18h40`, `1840` or `6 pm`; None when it is none."""
    said = " ".join(text.casefold().split())
    run = _RUN_TOGETHER.fullmatch(said)
    if run is not None:
        return _time(int(run[1]), int(run[2]))
    found = _CLOCK.fullmatch(said)
    if found is None:
        return None
    hour = int(found["hour"])
    if found["half"]:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if found["half"] == "p" else 0)
    return _time(hour, int(found["minute"] or 0))


def _time(hour: int, minute: int) -> time | None:
    return time(hour, minute) if hour < 24 and minute < 60 else None


def weekdays(text: str) -> tuple[int, ...] | None:
    """Return the days in `mon tue thu`: English names, or two of their first letters and more.

    Monday is 0. `mon-fri` and `fri to mon` are ranges. None when a word is no day, or could be two.
    """
    said = " ".join(text.casefold().split())
    if said in _GROUPS:
        return _GROUPS[said]
    joined = re.sub(r"\s*(?:-|–|\bto\b)\s*", "-", said)
    days: set[int] = set()
    for word in re.split(r"[\s,;/&+.]+", joined):
        if not word or word in _FILLERS:
            continue
        ends = [_weekday(end) for end in word.split("-")]
        first, last = ends[0], ends[-1]
        if len(ends) > 2 or first is None or last is None:
            return None
        days.update((first + step) % 7 for step in range((last - first) % 7 + 1))
    return tuple(sorted(days)) or None


def _weekday(word: str) -> int | None:
    if len(word) < 2:
        return None
    bare = word.removesuffix("s") if len(word) > 3 else word
    return next((day for day, name in enumerate(_WEEKDAYS) if name.startswith((word, bare))), None)
