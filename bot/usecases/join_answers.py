"""What an answer to a joining question means, tapped or typed. Pure: what follows from it is `bot.usecases.join`'s."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, time
from typing import Any

from bot.messages import Action
from bot.usecases.join_steps import can_go_back
from bot.usecases.join_words import LENGTH, NOTHING, READY, choice_in
from core.checkin.birth_date import birth_date
from core.checkin.limits_said import LIMIT_SITES, line_added
from core.checkin.when import clock_time, weekdays
from core.checkin.zones import is_city, typed_zone, zone_of_city, zones_at

AGE_BANDS = ("under 18", "18-39", "40-59", "60+")
PREGNANCY = ("pregnant", "birth", "neither")
MINUTES = (30, 45, 60, 75, 90)
MINUTES_RANGE = range(15, 241)
"""Usual lengths of a session that are believed. [min] Our proposal."""
LEAST_LETTERS = 3
"""Fewer letters than this say nothing of a limit. Our proposal."""
PLACES = ("gym", "home", "elsewhere")
UNITS = ("kg", "lb")
WEEKLY = ("none", "short", "full")
KITS = ("bar", "dumbbells", "both", "bodyweight")
EXPERIENCE = ("new", "trained")
HOURS = (time(6), time(7), time(8), time(12), time(17), time(18))


@dataclass(frozen=True, slots=True)
class Taken:
    """The question is answered.

    Attributes:
        values: Columns of the client.
        said: Value to say back, where the client cannot see it on a button.
    """

    values: dict[str, Any] = field(default_factory=dict)
    said: object = None


@dataclass(frozen=True, slots=True)
class Stays:
    """The question stays, shown anew.

    Attributes:
        facts: What the prompt is to remember.
        note: Which words stand above the question.
    """

    facts: dict[str, Any]
    note: str | None = None


@dataclass(frozen=True, slots=True)
class GoesBack:
    """The question before is wanted again."""


Answer = Taken | Stays | GoesBack
Facts = Mapping[str, Any]


def tapped(step: str, action: Action, argument: int, facts: Facts) -> Answer | None:
    """Return what a tap means; None when the question has no such button."""
    if action is Action.BACK:
        return GoesBack() if can_go_back(step) else None
    read = TAPS.get((step, action))
    return None if read is None else read(argument, facts)


def typed(step: str, text: str, facts: Facts, now: datetime) -> Answer | None:
    """Return what typed words mean; None when they do not answer the question."""
    said = " ".join(text.casefold().split()).rstrip(".!")
    if said == "back":
        return tapped(step, Action.BACK, 0, facts)
    if step == "zone":
        return _zone_typed(text, facts, now)
    if step == "hour":
        at = clock_time(said)
        return None if at is None else Taken({"hour": at}, said=at)
    if step == "days":
        return _days_typed(said, facts)
    if step == "limits":
        return _limits_typed(text, said, facts)
    if step == "birth":
        return _birth_typed(said, now)
    if step == "minutes":
        return _minutes_typed(said)
    choice = choice_in(step, said, facts)
    return None if choice is None else tapped(step, *choice, facts)


def _chosen(column: str, options: tuple[Any, ...]) -> Callable[[int, Facts], Answer | None]:
    def read(argument: int, _: Facts) -> Answer | None:
        return Taken({column: options[argument]}) if argument < len(options) else None

    return read


def _hour_tapped(argument: int, _: Facts) -> Answer | None:
    return Taken({"hour": HOURS[argument]}, said=HOURS[argument]) if argument < len(HOURS) else None


def _zone_tapped(argument: int, facts: Facts) -> Answer | None:
    zones = facts.get("zones", [])
    return Taken({"zone": zones[argument]}, said=zones[argument]) if argument < len(zones) else None


def _zone_typed(text: str, facts: Facts, now: datetime) -> Answer | None:
    named = typed_zone(text)
    if named is not None:
        return Taken({"zone": named}, said=named)
    at = clock_time(text)
    zones = zones_at(at, now) if at is not None else zone_of_city(text)
    if is_city(text):
        return Taken({"zone": zones[0]}, said=zones[0])
    if not zones:
        return Stays(dict(facts), "zone unknown")
    # Offered anew, and chosen by her: several zones share a clock today and part in spring.
    return Stays({**facts, "zones": list(zones), "asked": True}, "zone at" if at is not None else "zone like")


def _day_tapped(argument: int, facts: Facts) -> Answer | None:
    if argument > 6:
        return None
    chosen = set(facts.get("days", [])) ^ {argument}
    return Stays({**facts, "days": sorted(chosen)})


def _days_ready(_: int, facts: Facts) -> Answer | None:
    chosen = facts.get("days", [])
    return Taken({"days": chosen}, said=chosen) if chosen else Stays(dict(facts), "no day")


def _days_typed(said: str, facts: Facts) -> Answer | None:
    if said in READY:
        return _days_ready(0, facts)
    days = weekdays(said)
    return None if days is None else Taken({"days": list(days)}, said=list(days))


def _alone(argument: int, facts: Facts) -> Answer | None:
    if argument > (2 if facts.get("arms") else 1):
        return None
    return Taken({"usually_alone": argument != 1, "safety_arms": argument == 2})


def _said(options: tuple[Any, ...]) -> Callable[[int, Facts], Answer | None]:
    """Return the reading of a choice that is no column of hers."""

    def read(argument: int, _: Facts) -> Answer | None:
        return Taken(said=options[argument]) if argument < len(options) else None

    return read


def _birth_typed(said: str, now: datetime) -> Answer | None:
    if said in ("skip", "rather not say"):
        return Taken(said=None)
    on = birth_date(said, now.date())
    return None if on is None else Taken(said=on)


def _limit_tapped(argument: int, facts: Facts) -> Answer | None:
    if argument >= len(LIMIT_SITES):
        return None
    chosen = set(facts.get("sites", [])) ^ {argument}
    return Stays({**facts, "sites": sorted(chosen)})


def _limits_ready(_: int, facts: Facts) -> Answer | None:
    sites = [LIMIT_SITES[each] for each in facts.get("sites", [])]
    words = [", ".join(sites)] if sites else []
    words += [facts["line"]] if facts.get("line") else []
    text = ". ".join(words) or None
    return Taken({"limits_said": text}, said=text)


def _limits_typed(text: str, said: str, facts: Facts) -> Answer | None:
    if said in READY or (said in NOTHING and not facts.get("sites") and not facts.get("line")):
        return _limits_ready(0, facts)
    if sum(letter.isalpha() for letter in text) < LEAST_LETTERS:
        return None
    line = line_added(facts.get("line"), text)
    if line is None:
        return Stays(dict(facts), "limits long")
    return Stays({**facts, "line": line}, "limits line")


def _minutes_typed(said: str) -> Answer | None:
    found = LENGTH.fullmatch(said)
    if found is None:
        return None
    hours, minutes = int(found["hours"] or 0), int(found["minutes"] or 0)
    length = hours * 60 + minutes
    return Taken({"minutes": length}, said=length) if length in MINUTES_RANGE else None


def _to_change(argument: int, facts: Facts) -> Answer | None:
    shown = facts.get("known", ())
    return Stays({**facts, "changing": shown[argument]}) if argument < len(shown) else None


TAPS: dict[tuple[str, Action], Callable[[int, Facts], Answer | None]] = {
    ("caution", Action.CONFIRM): lambda _, __: Taken(),
    ("consent", Action.AGREE): lambda _, __: Taken(),
    ("consent", Action.DECLINE): lambda _, facts: Stays({**facts, "declined": True}),
    ("consent", Action.READY): lambda _, facts: Stays({**facts, "declined": False}),
    ("age", Action.PICK): _chosen("age_band", AGE_BANDS),
    ("pregnancy", Action.PICK): _said(PREGNANCY),
    ("birth", Action.READY): lambda _, __: Taken(said=None),
    ("health", Action.PICK): _said((False, True)),
    ("pressure", Action.PICK): _said((False, False, True, True)),
    ("limits", Action.TOGGLE): _limit_tapped,
    ("limits", Action.READY): _limits_ready,
    ("known", Action.CONFIRM): lambda _, __: Taken(),
    ("known", Action.CHANGE): _to_change,
    ("weekly", Action.PICK): _chosen("weekly_line", WEEKLY),
    ("unit", Action.PICK): _chosen("unit", UNITS),
    ("zone", Action.PICK): _zone_tapped,
    ("hour", Action.PICK): _hour_tapped,
    ("days", Action.TOGGLE): _day_tapped,
    ("days", Action.READY): _days_ready,
    ("minutes", Action.PICK): _chosen("minutes", MINUTES),
    ("place", Action.PICK): _said(PLACES),
    ("kit", Action.PICK): _chosen("kit_kind", KITS),
    ("alone", Action.PICK): _alone,
    ("experience", Action.PICK): _chosen("experience", EXPERIENCE),
}
