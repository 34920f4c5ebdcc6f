"""What an answer to a joining question means, tapped or typed. Pure: what follows from it is `bot.usecases.join`'s."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, time
from typing import Any

from bot.messages import Action
from core.checkin.when import clock_time, weekdays
from core.checkin.zones import is_city, typed_zone, zone_of_city, zones_at

STEPS = (
    "caution",
    "consent",
    "age",
    "health",
    "unit",
    "zone",
    "hour",
    "days",
    "kit",
    "alone",
    "experience",
)
"""The questions in order. What could end the joining comes first; what is only details comes last."""

FIRST_BACK = STEPS.index("zone")
"""First question that one can go back from: consent, age and health are not taken back with a button."""

AGE_BANDS = ("under 18", "18-39", "40-59", "60+")
UNITS = ("kg", "lb")
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
        return GoesBack() if STEPS.index(step) >= FIRST_BACK else None
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
    choice = WORDS[step].get(said) if step in WORDS else None
    if choice is None:
        choice = _counted(step, said)
    return None if choice is None else tapped(step, *choice, facts)


def _chosen(column: str, options: tuple[str, ...]) -> Callable[[int, Facts], Answer | None]:
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
    if said in ("that is all", "thats all", "that's all", "done", "ok"):
        return _days_ready(0, facts)
    days = weekdays(said)
    return None if days is None else Taken({"days": list(days)}, said=list(days))


def _alone(argument: int, facts: Facts) -> Answer | None:
    if argument > (2 if facts.get("arms") else 1):
        return None
    return Taken({"usually_alone": argument != 1, "safety_arms": argument == 2})


def _health(argument: int, _: Facts) -> Answer | None:
    return Taken(said=argument == 1) if argument < 2 else None


TAPS: dict[tuple[str, Action], Callable[[int, Facts], Answer | None]] = {
    ("caution", Action.CONFIRM): lambda _, __: Taken(),
    ("consent", Action.AGREE): lambda _, __: Taken(),
    ("consent", Action.DECLINE): lambda _, facts: Stays({**facts, "declined": True}),
    ("consent", Action.READY): lambda _, facts: Stays({**facts, "declined": False}),
    ("age", Action.PICK): _chosen("age_band", AGE_BANDS),
    ("health", Action.PICK): _health,
    ("unit", Action.PICK): _chosen("unit", UNITS),
    ("zone", Action.PICK): _zone_tapped,
    ("hour", Action.PICK): _hour_tapped,
    ("days", Action.TOGGLE): _day_tapped,
    ("days", Action.READY): _days_ready,
    ("kit", Action.PICK): _chosen("kit_kind", KITS),
    ("alone", Action.PICK): _alone,
    ("experience", Action.PICK): _chosen("experience", EXPERIENCE),
}


def _picks(*groups: str) -> dict[str, tuple[Action, int]]:
    return {
        word.strip(): (Action.PICK, index) for index, group in enumerate(groups) for word in group.split(",")
    }


_AGREE = ("agree", "i agree", "yes", "yes i agree", "yes, i agree")
_DECLINE = ("no", "no thanks", "decline", "i do not agree", "i don't agree")

WORDS: dict[str, dict[str, tuple[Action, int]]] = {
    "caution": dict.fromkeys(("go on", "ok", "okay", "yes", "next", "understood"), (Action.CONFIRM, 0)),
    "consent": dict.fromkeys(_AGREE, (Action.AGREE, 0)) | dict.fromkeys(_DECLINE, (Action.DECLINE, 0)),
    "age": _picks("under 18, below 18, minor", "18-39, 18 - 39, 18 to 39", "40-59, 40 to 59", "60+, over 60"),
    "health": _picks("none, none of these, no", "one or more, one, yes, some"),
    "unit": _picks("kg, kgs, kilo, kilos, kilograms, kilogrammes", "lb, lbs, pound, pounds"),
    "kit": _picks(
        "bar, barbell, bar and plates, barbell and plates",
        "dumbbells, dumbbell, dumbells",
        "both, bar and dumbbells, barbell and dumbbells",
        "bodyweight, body weight, bodyweight only, nothing, none",
    ),
    "alone": _picks(
        "alone, yes",
        "someone is there, someone, somebody, not alone, no",
        "alone with safety arms, alone, with safety arms, safety arms, with safety arms",
    ),
    "experience": _picks(
        "new, new to it, under 3 months, beginner, less than 3 months", "longer, 3 months or longer"
    ),
}
# "Alone, with safety arms" holds a comma, so the list above splits it in two.
WORDS["alone"] |= {"alone": (Action.PICK, 0), "alone, with safety arms": (Action.PICK, 2)}

_AGE = re.compile(r"(?:i am |i'm )?(\d{1,3})(?: years?(?: old)?)?")
_DURATION = re.compile(r"(?:about )?(\d{1,3}) ?(weeks?|months?|years?)")
_MONTHS = {"w": 0.25, "m": 1.0, "y": 12.0}


def _counted(step: str, said: str) -> tuple[Action, int] | None:
    """Return the choice that a typed number makes: years of age, or time spent lifting."""
    if step == "age" and (found := _AGE.fullmatch(said)):
        age = int(found[1])
        return (Action.PICK, sum(age >= least for least in (18, 40, 60))) if 0 < age <= 120 else None
    if step == "experience" and (found := _DURATION.fullmatch(said)):
        return Action.PICK, int(int(found[1]) * _MONTHS[found[2][0]] >= 3)
    return None
