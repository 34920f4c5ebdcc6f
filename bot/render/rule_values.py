"""Values of a coach's rules, in words: for whom, to what, from where to where, and where the default comes from."""

import re
from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal
from html import escape

from bot.render.exercise_names import in_sentence
from core.oversight.rule import Kind, Rule, Setting
from core.programme.exercises import Exercise
from core.programme.prescription import Dose
from core.units import Mass, plain

_KEY = re.compile(r"\[([A-Za-z]+)(\d{4})?\]")


@dataclass(frozen=True, slots=True)
class Scope:
    """For whom a rule is: names; None for all."""

    client: str | None = None
    exercise: str | None = None

    @property
    def words(self) -> str:
        """As it is said: `for all`, `for Ada, bench press`."""
        parts = [each for each in (self.client, self.exercise and in_sentence(self.exercise)) if each]
        return f"for {escape(', '.join(parts))}" if parts else "for all"

    @property
    def typed(self) -> str:
        """As it is typed before a rule: `for Ada, bench press: `."""
        return "" if self.client is None and self.exercise is None else f"{self.words}: "


@dataclass(frozen=True, slots=True)
class RuleSet:
    """A rule that was set.

    Attributes:
        rule: Which.
        scope: For whom.
        value: To what; None also where it is no longer a value that is understood.
        by: Who: `you` or `another account`.
        on: When, on the coach's calendar.
        ended: When it ended; None while it stands.
        fits: False where it is left out, since it does not fit any more.
    """

    rule: Rule
    scope: Scope
    value: Setting
    by: str
    on: date
    ended: date | None = None
    fits: bool = True


@dataclass(frozen=True, slots=True)
class Shift:
    """A next load that would be another.

    Attributes:
        client: Whose.
        exercise: Of what.
        now: What stands.
        then: What would.
    """

    client: str
    exercise: Exercise
    now: Dose
    then: Dose


@dataclass(frozen=True, slots=True)
class Touched:
    """Whom a change touches.

    Attributes:
        names: Clients; None where it is about what the coach is shown alone.
        spared: Clients for whom a rule of their own stands.
        shifts: Next loads that would be others; None where they were not worked out.
    """

    names: tuple[str, ...] | None
    spared: tuple[str, ...] = ()
    shifts: tuple[Shift, ...] | None = None


def value_words(rule: Rule, value: Setting) -> str:
    """Write a value with its unit: `4 %`, `2.5 kg`, `1 day`, `22:00`, `on`."""
    if isinstance(value, bool) or value is None:
        return "on" if value else "off"
    match value:
        case Mass():
            return str(value)
        case time():
            return f"{value:%H:%M}"
        case int() if rule.kind is Kind.COUNT:
            return f"{value} {rule.unit[:-1] if value == 1 else rule.unit}"
        case _:
            return f"{plain(Decimal(value) * 100)} %"


def range_words(rule: Rule) -> str:
    """Write what a rule may be set to."""
    if rule.kind is Kind.SWITCH:
        return "on or off"
    least, most = rule.edges
    off = ", or off" if rule.may_be_off else ""
    return f"from {value_words(rule, least)} to {value_words(rule, most)}{off}"


def source_words(rule: Rule) -> str:
    """Write where the default comes from."""
    return escape(_KEY.sub(lambda found: " ".join(part for part in found.groups() if part), rule.source))
