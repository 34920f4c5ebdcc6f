"""A setting as a coach knows it: its name, its range, and what it may be set to by a button.

Range, default and source stand in `core/policy.py` and are read from there. The table of them is
`core/oversight/rule_words.py`.
"""

import re
from datetime import time
from decimal import Decimal
from enum import StrEnum

from core.policy import IN_ORDER, Policy
from core.programme.exercises import Exercise, Region
from core.units import Mass
from core.value import Value

Setting = Decimal | Mass | int | time | bool | None
"""What a rule may be set to: a share, a mass, a count, an hour, on or off; None for no such cap."""


class Group(StrEnum):
    """What rules are about, in the order that they are shown."""

    LOADS = "loads"
    SETS = "sets and blocks"
    PAIN = "pain"
    ILLNESS = "illness"
    MISSES = "misses"
    HOURS = "hours"
    DIGEST = "digest"
    MESSAGES = "messages"
    LIFTS = "lifts over time"
    ALERTS = "alerts"


class Kind(StrEnum):
    """What a rule is set to."""

    SHARE = "share"
    MASS = "mass"
    COUNT = "count"
    HOUR = "hour"
    SWITCH = "switch"


class Reach(StrEnum):
    """For whom at the finest a rule may be set."""

    ALL = "all"
    CLIENT = "client"
    EXERCISE = "exercise"


class Rule(Value):
    """A setting as a coach knows it.

    Attributes:
        field: Name in `Policy`.
        name: What it is called, unique.
        does: What it does, in a sentence's part.
        group: Where it is shown.
        reach: For whom at the finest.
        kind: What it is set to.
        unit: Of a count.
        step: Of a button; a count of minutes for an hour.
        region: Upper or lower body, where it is of one alone; lower stands for the trunk too.
        others: Other names, which several rules may share.
    """

    field: str
    name: str
    does: str
    group: Group
    reach: Reach
    kind: Kind
    unit: str = ""
    step: Decimal = Decimal(1)
    region: Region | None = None
    others: tuple[str, ...] = ()

    @property
    def default(self) -> Setting:
        """What holds where nothing is set."""
        found: Setting = Policy.model_fields[self.field].default
        return found

    @property
    def may_be_off(self) -> bool:
        """Whether it may be left off altogether."""
        return type(None) in getattr(Policy.model_fields[self.field].annotation, "__args__", ())

    @property
    def edges(self) -> tuple[Setting, Setting]:
        """Least and most; the least of a share that has none is a tenth of a percent."""
        least: Setting = SMALLEST if self.kind is Kind.SHARE else None
        most: Setting = None
        for each in Policy.model_fields[self.field].metadata:
            least = getattr(each, "ge", least)
            most = getattr(each, "le", most)
        return least, most

    @property
    def source(self) -> str:
        """Where its default comes from, as it stands beside the field."""
        said = " ".join((Policy.model_fields[self.field].description or "").split())
        found = SOURCE.search(said)
        return "" if found is None else found[0]

    def fits(self, value: Setting) -> bool:
        """Return whether a value lies in its range."""
        if self.kind is Kind.SWITCH or value is None:
            return self.may_be_off if value is None else isinstance(value, bool)
        least, most = self.edges
        return bool(least <= value <= most)  # type: ignore[operator]

    def is_for(self, exercise: Exercise) -> bool:
        """Return whether it bears on an exercise: one of the upper body alone does on those."""
        mine = Region.UPPER if exercise.region is Region.UPPER else Region.LOWER
        return self.region is None or self.region is mine


SMALLEST = Decimal("0.001")
"""Least share that a rule is set to where its range begins over nothing. [fraction] Our proposal."""
SOURCE = re.compile(r"(?:Our proposal|Our reading|Common practice|From memory|Source)\b.*")


def in_the_way(field: str, policy: Policy, value: Setting) -> tuple[str, bool] | None:
    """Return which other setting a value of a field would not stand beside, and whether the value must be under it."""
    for names in IN_ORDER:
        if field not in names:
            continue
        place = names.index(field)
        for other in names[:place]:
            if getattr(policy, other) >= value:
                return other, False
        for other in names[place + 1 :]:
            if getattr(policy, other) <= value:
                return other, True
    return None


def steps_from(rule: Rule, value: Setting) -> tuple[Setting, ...]:
    """Return what a rule may be set to by a button: two steps under the value it has, and two over, in its range."""
    if isinstance(value, bool):
        return (not value,)
    if value is None:
        return (rule.step, rule.step * 5) if rule.default is None else (rule.default,)
    found: list[Setting] = [_moved(rule, value, count) for count in (-2, -1, 1, 2)]
    off: tuple[Setting, ...] = (None,) if rule.may_be_off else ()
    kept = dict.fromkeys(each for each in found if each is not None and each != value and rule.fits(each))
    return (*kept, *off)


def _moved(rule: Rule, value: Decimal | Mass | int | time, steps: int) -> Setting:
    by = rule.step * steps
    match value:
        case Mass():
            return Mass(value.value + by, value.unit)
        case time():
            minutes = value.hour * 60 + value.minute + int(by)
            return time(*divmod(minutes, 60)) if 0 <= minutes < 24 * 60 else None
        case Decimal():
            return value + by
        case _:
            return value + int(by)
