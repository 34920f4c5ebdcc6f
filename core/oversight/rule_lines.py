"""A line that sets a rule: `for Ada: pain drop 30%`, `bench press: raise by 1 kg`, `reset quiet from`."""

import re
from collections.abc import Iterable
from datetime import time
from decimal import Decimal
from typing import NamedTuple

from rapidfuzz import fuzz

from core.oversight.rule import Kind, Rule, Setting
from core.oversight.rule_words import RULES
from core.programme.folding import folded, words_of
from core.units import Mass, Unit
from core.value import Value

ALIKE = 70
"""How like a rule's name must be to what was typed to be offered. [0..100] Our proposal."""
SURE = 92
"""How like it must be to be taken without asking. [0..100] Our proposal."""
APART = 10
"""How much more like than the next it must be then. [0..100] Our proposal."""
OFFERED = 4
"""Most rules that are offered. Our proposal."""

_COLON = re.compile(r":(?!\d\d(?!\d))")
_NUMBER = r"[+-]?\d+(?:[.,]\d+)?"
_WORD = "(?:on|off|yes|none|no)"
_VALUE = re.compile(
    rf"^(?P<words>.*?)[\s=]*(?P<value>\d{{1,2}}[:.]\d\d(?:\s*[ap]m)?|{_NUMBER}\s*(?:%|(?!{_WORD}\b)[a-z]+)?"
    rf"|\b{_WORD}(?: cap)?)$",
    re.IGNORECASE,
)
_EVERYBODY = frozenset({"all", "everybody", "everyone", "all client", "all my client"})
_YES, _NO, _OFF = (
    frozenset({"on", "yes"}),
    frozenset({"off", "no"}),
    frozenset({"off", "none", "no", "no cap"}),
)
_PERCENT = frozenset({"%", "percent"})
_UNITS = {"kg": Unit.KG, "kilo": Unit.KG, "kilos": Unit.KG, "lb": Unit.LB, "lbs": Unit.LB, "pounds": Unit.LB}
_HOUR = re.compile(r"(\d{1,2})(?:[:.](\d\d))?\s*(am|pm|h|o'clock)?")
_COUNT = re.compile(rf"({_NUMBER})\s*(%|[a-z]+)?")


class RuleLine(Value):
    """A line, taken apart.

    Attributes:
        about: For whom or what, as typed; None for all clients.
        words: Which rule, as typed.
        value: To what, as typed; None where nothing is set.
        reset: Whether it is put back to the default.
    """

    about: str | None = None
    words: str = ""
    value: str | None = None
    reset: bool = False


class Read(NamedTuple):
    """A value that was read; its range has not been looked at."""

    value: Setting


class Meant(NamedTuple):
    """Which rule is meant: one beyond doubt, or those that may be, the likeliest first."""

    rule: Rule | None
    near: tuple[Rule, ...] = ()


def read_line(text: str) -> RuleLine:
    """Take a line apart. A colon inside an hour parts nothing."""
    rest = " ".join(text.split())
    first, _, after = rest.partition(" ")
    reset = first.casefold() == "reset"
    rest = after if reset else rest
    parts = _COLON.split(rest, maxsplit=1)
    about = parts[0].strip() if len(parts) > 1 else None
    words = parts[-1].strip()
    if about is not None and words and not words.strip("0123456789:., %"):
        about, words = None, f"{about} {words}"
    if about is not None and about.casefold().startswith("for "):
        about = about[4:].strip()
    if about is not None and (not about or " ".join(words_of(about)) in _EVERYBODY):
        about = None
    found = None if reset else _VALUE.match(words)
    if found is None:
        return RuleLine(about=about, words=words, reset=reset)
    return RuleLine(about=about, words=found["words"].strip(), value=found["value"])


def rule_meant(words: str, value: str | None, among: Iterable[Rule] = tuple(RULES.values())) -> Meant:
    """Return which rule is meant.

    A name that several rules share is told apart by what is typed for them: 4 % or 2 kg. A name that is only like one
    is taken where nothing else comes near; else it is asked.
    """
    rules = tuple(among)
    said = folded(words)
    same = [each for each in rules if said in {folded(name) for name in _names(each)}]
    fitting = [each for each in same if value is None or value_in(value, each) is not None] or same
    own = [each for each in fitting if folded(each.name) == said]
    if len(fitting) == 1 or len(own) == 1:
        return Meant((own or fitting)[0])
    if fitting:
        return Meant(None, tuple(fitting[:OFFERED]))
    scored = sorted(((_likeness(each, words), each) for each in rules), key=lambda one: -one[0])
    near = [(score, each) for score, each in scored if score >= ALIKE] if said else []
    near = [one for one in near if value is None or value_in(value, one[1]) is not None] or near
    if near and near[0][0] >= SURE and (len(near) == 1 or near[0][0] - near[1][0] >= APART):
        return Meant(near[0][1])
    return Meant(None, tuple(each for _, each in near[:OFFERED]))


def value_in(text: str, rule: Rule) -> Read | None:
    """Return what a text sets a rule to; None where it cannot be told: 0.5 without a sign is no share."""
    said = " ".join(text.casefold().split())
    if rule.may_be_off and said in _OFF:
        return Read(None)
    match rule.kind:
        case Kind.SWITCH:
            return Read(said in _YES) if said in _YES | _NO else None
        case Kind.HOUR:
            return _hour_in(said)
        case _:
            return _number_in(said, rule)


def _number_in(said: str, rule: Rule) -> Read | None:
    found = _COUNT.fullmatch(said)
    if found is None:
        return None
    number, unit = Decimal(found[1].replace(",", ".")), found[2] or ""
    if rule.kind is Kind.MASS:
        return Read(Mass(number, _UNITS[unit])) if unit in _UNITS else None
    if rule.kind is Kind.SHARE:
        is_share = unit in _PERCENT or (not unit and number >= 1)
        return Read(number / 100) if is_share else None
    if number != number.to_integral_value() or (unit and folded(unit) != folded(rule.unit)):
        return None
    return Read(int(number))


def _hour_in(said: str) -> Read | None:
    found = _HOUR.fullmatch(said)
    if found is None:
        return None
    hour, minute = int(found[1]), int(found[2] or 0)
    if found[3] in ("am", "pm"):
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if found[3] == "pm" else 0)
    return Read(time(hour, minute)) if hour < 24 and minute < 60 else None


def _names(rule: Rule) -> tuple[str, ...]:
    return (rule.name, *rule.others)


def _likeness(rule: Rule, words: str) -> float:
    return max(fuzz.token_sort_ratio(name.casefold(), words.casefold()) for name in _names(rule))
