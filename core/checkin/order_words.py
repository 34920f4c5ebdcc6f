"""A coach's order as she types it: `hip thrust 90 from next week`, `no overhead until 1 May`, `rest Friday`. English.

What is not read whole is no order. An exercise is looked for among those that the client runs; one that is only like a
name is asked about, never taken.
"""

import re
from collections.abc import Mapping
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum
from typing import NamedTuple

from rapidfuzz import fuzz

from core.checkin.day_spans import day_said, days_said
from core.programme.exercises import Exercise
from core.programme.folding import folded, words_of
from core.programme.load_cells import HEAVIEST_KG
from core.programme.restriction_words import restrictions_in
from core.programme.restrictions import Restriction
from core.units import Mass, Unit
from core.value import Value

CLEAR = 92
"""Least likeness of a name that is taken without asking. [0..100] Our proposal: one slip of the fingers."""
EXACT = 101
"""Likeness of the name itself; what only has the same words in another order is under it. Our proposal."""
NEAR = 62
"""Least likeness of a name that is offered. [0..100] Our proposal."""
APART = 6
"""How far behind the likest name every other must be. [0..100] Our proposal."""
WITHIN = 93
"""Likeness of a name that has every written word. [0..100] Our proposal: `bench` means the only bench that she runs."""
OFFERED = 4
"""Most names that are offered. Our proposal."""
MOST_CHARACTERS = 120
"""Longest line that is looked at. [characters] Our proposal: longer ones are words for somebody."""
MOST_WORDS_OF_A_DAY = 4
HEAVIEST = Mass.of(HEAVIEST_KG)
"""Heaviest load that is believed. Our proposal, as for one that is written in a block."""
WEEK = timedelta(days=7)


class Ordered(StrEnum):
    """What is ordered."""

    LOAD = "load"
    STEP = "step"
    PAUSE = "pause"
    TAKE_UP = "take up"
    HOLD = "hold"
    LIGHTER = "lighter"
    FULL = "full"
    REST = "rest"
    RESTRICT = "restrict"
    SWAP = "swap"


class OrderSaid(Value):
    """An order as it was read.

    Attributes:
        what: What is ordered.
        exercise: Key of the exercise; None for everything, or while it is asked.
        offered: Keys that may be meant, where the name was not clear.
        instead: Key of what is done in its place, of a swap.
        instead_offered: Keys that may be meant by it.
        mass: A load, or how much more or less.
        added: True where the load was written as added to bodyweight.
        restrictions: What the client must not do.
        first: First day that was named.
        last: Last day that was named.
        once: True for the next session alone.
    """

    what: Ordered
    exercise: str | None = None
    offered: tuple[str, ...] = ()
    instead: str | None = None
    instead_offered: tuple[str, ...] = ()
    mass: Mass | None = None
    added: bool = False
    restrictions: tuple[Restriction, ...] = ()
    first: date | None = None
    last: date | None = None
    once: bool = False


class Names(NamedTuple):
    """Exercises that may be named.

    Attributes:
        running: Those of the block that the client runs.
        catalogue: All, for what stands in.
        places: Where they stand in the block, such as `B1`, with the keys that stand there.
        unit: What a number without a unit is in.
    """

    running: Mapping[str, Exercise]
    catalogue: Mapping[str, Exercise]
    places: Mapping[str, tuple[str, ...]]
    unit: Unit = Unit.KG


class _Times(NamedTuple):
    rest: str
    first: date | None = None
    last: date | None = None
    once: bool = False


_ONCE = re.compile(r"\b(?:(?:for|in|at) )?(?:the )?next (?:session|time)(?: only)?\b|\bonce\b")
_EVERYTHING = frozenset({"", "everything", "all", "it all", "all exercises", "load", "loads", "all loads"})
_NUMBER = r"\d{1,4}(?:[.,]\d{1,2})?"
_MASS = rf"(?P<body>bw ?\+ ?|\+ ?)?(?P<number>{_NUMBER}) ?(?P<unit>kgs?|kilos?|lbs?|pounds?)?"
_LOAD = re.compile(rf"(?P<name>.+?)(?: (?:at|to|is|with|on)|:| =)? {_MASS}")
_STEP = re.compile(rf"(?P<name>.+?) (?P<way>up|down|plus|minus)(?: by)? {_MASS}")
_LIGHTER = re.compile(r"(?:a )?(?:lighter|easier|light|easy|deload)(?: week)?|ease(?: off)?")
_FULL = re.compile(r"(?:(?:a )?(?:full|usual|normal) week|(?:no|skip(?: the)?) (?:lighter week|deload))")
_NO_RAISES = re.compile(r"(?:no (?:more )?raises?|nothing heavier|hold)(?: (?:for|on|of))?(?: (?P<name>.+))?")
_REST = re.compile(r"(?:a )?(?:rest|day off|off|no (?:session|training))(?: day)?(?: on)?(?: (?P<day>.+))?")
_PAUSE = re.compile(r"(?:pause|leave out|stop) (?P<name>.+)")
_TAKE_UP = re.compile(
    r"(?:let (?P<one>.+) go on|(?:take up|resume|unpause) (?P<two>.+?)(?: again)?|(?P<three>.+) again)"
)
_SWAP = re.compile(r"(?:swap|change|replace) (?P<name>.+?) (?:for|with|to|by) (?P<instead>.+)")
_NO = re.compile(r"no (?P<what>.+)")


def order_said(text: str, names: Names, today: date) -> OrderSaid | None:
    """Return the order that a line gives; None where it is none, or is not read whole.

    Args:
        text: Without the client's name.
        names: What may be named.
        today: The client's local date; days are counted from it.
    """
    line = _plain(text)
    if not line or len(line) > MOST_CHARACTERS:
        return None
    times = _times(line, today)
    if times is None:
        return None
    found = _read(times.rest, names, today)
    if found is None:
        return None
    first, last = found.first or times.first, found.last or times.last
    return found.model_copy(update={"first": first, "last": last, "once": times.once})


def _read(line: str, names: Names, today: date) -> OrderSaid | None:
    """Return what is ordered, whatever its days are."""
    if _LIGHTER.fullmatch(line):
        return OrderSaid(what=Ordered.LIGHTER)
    if _FULL.fullmatch(line):
        return OrderSaid(what=Ordered.FULL)
    if rest := _REST.fullmatch(line):
        day = day_said(rest["day"], today) if rest["day"] else None
        return None if rest["day"] and day is None else OrderSaid(what=Ordered.REST, first=day)
    if raises := _NO_RAISES.fullmatch(line):
        return _about(Ordered.HOLD, raises["name"] or "", names)
    if no := _NO.fullmatch(line):
        restrictions, unread = restrictions_in(no["what"])
        kept = tuple(sorted(restrictions))
        return None if unread else OrderSaid(what=Ordered.RESTRICT, restrictions=kept)
    if swap := _SWAP.fullmatch(line):
        return _swapped(swap["name"], swap["instead"], names)
    if pause := _PAUSE.fullmatch(line):
        return _about(Ordered.PAUSE, pause["name"], names)
    if again := _TAKE_UP.fullmatch(line):
        return _about(Ordered.TAKE_UP, again["one"] or again["two"] or again["three"], names)
    return _of_load(line, names)


def _of_load(line: str, names: Names) -> OrderSaid | None:
    step = _STEP.fullmatch(line)
    up = f"{step['name']} {step['way']}" if step else ""  # `push up 10` is a load of push-ups, and no step
    if step and EXACT not in {_likeness(up, row) for row in names.running.values()}:
        found = _about(Ordered.STEP, step["name"], names)
        mass = _mass(step, names.unit)
        signed = mass * -1 if step["way"] in ("down", "minus") else mass
        return None if found is None else found.model_copy(update={"mass": signed})
    load = _LOAD.fullmatch(line)
    if load and (load["name"].split()[-1].isdecimal() or _mass(load, names.unit) > HEAVIEST):
        return None
    found = _about(Ordered.LOAD, load["name"], names) if load else None
    if load is None or found is None:
        return None
    return found.model_copy(update={"mass": _mass(load, names.unit), "added": load["body"] is not None})


def load_said(text: str, unit: Unit) -> tuple[Mass, bool] | None:
    """Return a load that stands alone, and whether it was written as added to bodyweight; None where it is none."""
    found = re.fullmatch(_MASS, _plain(text))
    return None if found is None else (_mass(found, unit), found["body"] is not None)


def _mass(found: re.Match[str], unit: Unit) -> Mass:
    said = found["unit"]
    if said:
        unit = Unit.LB if said[0] in "lp" else Unit.KG
    return Mass(Decimal(found["number"].replace(",", ".")), unit)


def _about(what: Ordered, name: str, names: Names) -> OrderSaid | None:
    """Return an order about an exercise that is named; None where nothing is like it."""
    if name in _EVERYTHING:
        return OrderSaid(what=what) if what is Ordered.HOLD else None
    found = exercises_meant(name, names)
    if not found:
        return None
    clear = found[0] if len(found) == 1 else None
    return OrderSaid(what=what, exercise=clear, offered=() if clear else found)


def _swapped(name: str, instead: str, names: Names) -> OrderSaid | None:
    found = _about(Ordered.SWAP, name, names)
    others = likest(instead, names.catalogue)
    if found is None or not others:
        return None
    clear = others[0] if len(others) == 1 else None
    return found.model_copy(update={"instead": clear, "instead_offered": () if clear else others})


def exercises_meant(name: str, names: Names) -> tuple[str, ...]:
    """Return the keys that a name or a place in the block may mean; one where it is clear."""
    place = names.places.get(name.upper().replace(" ", ""))
    return place or likest(name, names.running)


def likest(name: str, among: Mapping[str, Exercise]) -> tuple[str, ...]:
    """Return the keys of what is like a name: one where it is clear, else those to be asked about, likest first."""
    scored = sorted(
        ((_likeness(name, row), key) for key, row in among.items() if not row.retired),
        key=lambda one: (-one[0], one[1]),
    )
    near = [one for one in scored if one[0] >= NEAR][:OFFERED]
    if [score for score, _ in near].count(EXACT) == 1:
        return (near[0][1],)
    if near and near[0][0] >= CLEAR and all(near[0][0] - score >= APART for score, _ in near[1:]):
        return (near[0][1],)
    return tuple(key for _, key in near)


def _likeness(name: str, row: Exercise) -> float:
    wanted = " ".join(words_of(name))
    return max(_name_likeness(wanted, " ".join(words_of(each))) for each in (row.name, *row.aliases))


def _name_likeness(wanted: str, name: str) -> float:
    if folded(wanted) == folded(name):
        return EXACT
    within = WITHIN if set(wanted.split()) <= set(name.split()) else 0
    return max(fuzz.ratio(wanted, name), fuzz.token_sort_ratio(wanted, name), within)


def _times(line: str, today: date) -> _Times | None:
    """Take what is said of days out of a line; None where a day is named that cannot be read."""
    rest, once = _ONCE.subn(" ", line)
    found = _Times(_spaced(rest), once=bool(once))
    for word in ("from", "until"):
        head, said, tail = found.rest.partition(f" {word} ")
        if not said:
            continue
        on, left = _day_after(tail, found.first or today)
        if on is None:
            return None
        found = found._replace(rest=_spaced(f"{head} {left}"))
        found = found._replace(last=on) if word == "until" else found._replace(first=on)
    week = re.fullmatch(r"(?P<head>.*) ?\b(?P<span>(?:this|next) week|for .+)", found.rest)
    span = days_said(week["span"], found.first or today) if week else None
    if week is None or span is None or span.rest:
        return found
    return found._replace(rest=_spaced(week["head"]), first=span.first, last=span.last)


def _day_after(tail: str, today: date) -> tuple[date | None, str]:
    """Return the day that a text begins with, and what follows it."""
    words = tail.split()
    if words[:2] == ["next", "week"]:
        return today + timedelta(days=7 - today.weekday()), " ".join(words[2:])
    if words[:1] == ["now"]:
        return today, " ".join(words[1:])
    for end in range(min(MOST_WORDS_OF_A_DAY, len(words)), 0, -1):
        on = day_said(" ".join(words[:end]), today)
        if on is not None:
            return on, " ".join(words[end:])
    return None, tail


def _plain(text: str) -> str:
    said = re.sub(r"(?<!\d)[.!]+$", "", text.casefold().replace("’", "'").strip())
    return _spaced(re.sub(r"[;!?]", " ", said).replace(", ", " "))


def _spaced(text: str) -> str:
    return " ".join(text.split())
