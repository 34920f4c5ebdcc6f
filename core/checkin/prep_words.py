"""What a coach writes of a daily prep: `hips, low back, 6 min` or the names of drills."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from core.checkin.sites import SITE_WORDS
from core.programme.daily_prep import LONGEST, DailyPrep
from core.programme.drills import drill_named, drills_like
from core.programme.exercises import Site
from core.programme.prep import DAILY_MINUTES, MOST

_MINUTES = re.compile(r"(?:about )?(\d{1,3}) ?(?:m|mins?|minutes?)")
_SIDE = re.compile(r"(?:left|right|both) ")


@dataclass(frozen=True, slots=True)
class PrepHeard:
    """What was understood.

    Attributes:
        asked: What she asks for; None where any of it was not understood, or nothing was said.
        unread: Words that name no site, drill or time.
        near: For each of them what may have been meant; empty where nothing is like it.
    """

    asked: DailyPrep | None
    unread: tuple[str, ...] = ()
    near: tuple[str, ...] = ()


def prep_heard(text: str) -> PrepHeard:
    """Return what a coach asks for, or every part of it that was not understood."""
    sites: dict[Site, None] = {}
    drills: dict[str, None] = {}
    minutes = DAILY_MINUTES
    unread: dict[str, str] = {}
    for part in _parts(text):
        words = " ".join(part.casefold().strip(" .").split())
        if not words:
            continue
        drill, time = drill_named(words), _MINUTES.fullmatch(words)
        meant = SITE_WORDS.get(words) or SITE_WORDS.get(_SIDE.sub("", words, count=1))
        if drill is not None:
            drills[drill.key] = None
        elif time is not None and 1 <= int(time[1]) <= LONGEST:
            minutes = int(time[1])
        elif meant is not None and len(meant.sites) == 1:
            sites[meant.sites[0]] = None
        else:
            several = "; ".join(site.value for site in meant.sites) if meant is not None else ""
            unread[" ".join(part.split())] = several or drills_like(words)
    if unread or not (sites or drills) or len(drills) > MOST:
        return PrepHeard(None, tuple(unread), tuple(unread.values()))
    return PrepHeard(DailyPrep(sites=tuple(sites), drills=tuple(drills), minutes=minutes))


def _parts(text: str) -> Iterator[str]:
    """Yield what stands between commas, and between `and` where that is no part of a drill's name."""
    for part in re.split(r"[,;\n]", text):
        if drill_named(part.strip(" .")) is not None:
            yield part
        else:
            yield from re.split(r"\band\b", part, flags=re.IGNORECASE)
