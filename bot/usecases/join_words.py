"""The words that answer a joining question, as the button that each stands for. Pure."""

import re
from collections.abc import Mapping
from typing import Any

from bot.messages import Action
from bot.usecases.join_steps import KNOWN

READY = ("that is all", "thats all", "that's all", "done", "ok")
NOTHING = ("nothing", "none", "no", "no limits", "nothing to say")

Choice = tuple[Action, int]


def choice_in(step: str, said: str, facts: Mapping[str, Any]) -> Choice | None:
    """Return the button that folded words stand for; None when they stand for none."""
    found = WORDS[step].get(said) if step in WORDS else None
    return found or _counted(step, said) or _named(step, said, facts)


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
    "pregnancy": _picks(
        "pregnant, i am pregnant, i'm pregnant", "gave birth, i gave birth, birth", "neither, no, none"
    ),
    "pressure": _picks(
        "no, none, no high blood pressure",
        "treated",
        "not treated, untreated",
        "rather not say, i would rather not say, i do not know, don't know, not sure, skip",
    )
    | {"yes, treated": (Action.PICK, 1), "yes, not treated": (Action.PICK, 2)},
    "known": dict.fromkeys(("all right", "right", "ok", "yes", "that is right"), (Action.CONFIRM, 0)),
    "weekly": _picks("none, no line, no", "short, one line", "full, all of it, long"),
    "place": _picks("gym, at the gym", "home, at home", "elsewhere, somewhere else, outside"),
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
        "new, new to it, under 3 months, beginner, less than 3 months", "longer, 3 months or longer, trained"
    ),
}
# "Alone, with safety arms" holds a comma, so the list above splits it in two.
WORDS["alone"] |= {"alone": (Action.PICK, 0), "alone, with safety arms": (Action.PICK, 2)}

LENGTH = re.compile(
    r"(?=\d)(?:(?P<hours>\d) ?h(?:ours?)?)? ?(?:(?P<minutes>\d{1,3})(?: ?(?:m|min|mins|minutes))?)?"
)
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


def _named(step: str, said: str, facts: Mapping[str, Any]) -> tuple[Action, int] | None:
    """Return what is to be changed of what the coach has said, by its name."""
    shown = list(facts.get("known", ()))
    wanted = _CALLED.get(said, said)
    return (Action.CHANGE, shown.index(wanted)) if step == KNOWN and wanted in shown else None


_CALLED = {"clock": "zone", "length": "minutes", "time": "hour"}
