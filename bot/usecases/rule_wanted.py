"""A rule that a coach wants to be another, and whether it can be: its range, its reach, and what else is set."""

from dataclasses import dataclass
from typing import Any

from bot.messages import Message
from bot.render import rules_said as answers
from bot.store.rules import stored
from bot.store.units import Unit
from bot.usecases.rule_scopes import setting_in
from core.oversight.rule import Reach, Rule, Setting, in_the_way
from core.oversight.rule_lines import value_in
from core.oversight.rule_words import RULES


@dataclass(frozen=True, slots=True)
class Wanted:
    """A rule for somebody, and what it is to be.

    Attributes:
        rule: Which.
        client_id: For whom; None for all.
        exercise: For which; None for all.
        value: To what.
        reset: Whether it is put back instead.
    """

    rule: Rule
    client_id: int | None = None
    exercise: str | None = None
    value: Setting = None
    reset: bool = False

    @property
    def facts(self) -> dict[str, Any]:
        """As a prompt keeps it."""
        return {
            "field": self.rule.field,
            "client": self.client_id,
            "exercise": self.exercise,
            "value": stored(self.value),
            "reset": self.reset,
        }


def chosen(rule: Rule, wanted: dict[str, Any], unit: Unit) -> dict[str, Any] | Message:
    """Return the screen of a rule that was chosen for a line: its preview, itself where no value was typed."""
    client_id, exercise, text = wanted["client"], wanted["exercise"], wanted["text"]
    mine = Wanted(rule, client_id, exercise)
    if exercise is not None and rule.reach is not Reach.EXERCISE:
        return answers.not_for_exercise(rule)
    if client_id is not None and rule.reach is Reach.ALL:
        return answers.only_for_all(rule)
    if wanted["reset"]:
        return checked(Wanted(rule, client_id, exercise, reset=True), unit)
    if text is None:
        return {"screen": "rule", **mine.facts}
    read = value_in(text, rule)
    if read is None:
        return answers.not_read(rule, text)
    return checked(Wanted(rule, client_id, exercise, read.value), unit)


def checked(wanted: Wanted, unit: Unit) -> dict[str, Any] | Message:
    """Return the preview of a change, or why it cannot be."""
    rule, value = wanted.rule, then_of(wanted, unit)
    if not wanted.reset and not rule.fits(wanted.value):
        return answers.out_of_range(rule)
    policy = unit.rules.policy(wanted.client_id, wanted.exercise)
    clash = in_the_way(rule.field, policy, value)
    if clash is not None:
        other = RULES[clash[0]]
        stands = getattr(policy, other.field)
        return answers.in_the_way(rule, value, other, stands, under=clash[1])
    return {"screen": "preview", **wanted.facts}


def then_of(wanted: Wanted, unit: Unit) -> Setting:
    """Return what would hold at its place: what was asked, or what holds without it."""
    if not wanted.reset:
        return wanted.value
    left = unit.rules.without(wanted.rule.field, wanted.client_id, wanted.exercise)
    found: Setting = getattr(left.policy(wanted.client_id, wanted.exercise), wanted.rule.field)
    return found


def wanted_in(facts: dict[str, Any]) -> Wanted:
    """Return what a prompt keeps."""
    rule = RULES[facts["field"]]
    value = setting_in(rule, facts["value"])
    return Wanted(rule, facts["client"], facts["exercise"], value, facts["reset"])
