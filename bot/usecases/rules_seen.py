"""A coach's rules as they are shown: what is set, a group, one rule, and a change before it holds."""

from datetime import datetime
from typing import Any

from bot.messages import Message
from bot.render import rules as say
from bot.store.rules import KeptRule
from bot.store.units import Unit
from bot.usecases.rule_scopes import setting_in, view_of
from bot.usecases.rule_wanted import Wanted, then_of, wanted_in
from bot.usecases.rules_touched import touched
from core.local_time import local_date
from core.oversight.rule import Group, Rule, Setting
from core.oversight.rule_words import RULES, rules_of

GROUPS = tuple(Group)
EARLIER = 3
"""Most of what was set before that is shown. Our proposal."""


def card(
    facts: dict[str, Any], user_id: int, unit: Unit, now: datetime, buttons: say.Buttons, note: str = ""
) -> Message:
    """Return the screen that a prompt's facts ask for."""
    match facts["screen"]:
        case "group":
            which = GROUPS[facts["group"]]
            values = [(each, value_now(each, None, None, unit)) for each in rules_of(which)]
            return say.group(which, values, buttons)
        case "near":
            return say.which(facts["said"], [RULES[each] for each in facts["near"]], buttons)
        case "rule":
            return _one(wanted_in(facts), user_id, unit, buttons)
        case "preview":
            return _preview(wanted_in(facts), unit, now, buttons)
        case "set":
            mine = wanted_in(facts)
            scope = view_of(mine.client_id, mine.exercise, unit)
            value = value_now(mine.rule, mine.client_id, mine.exercise, unit)
            return say.done(mine.rule, scope, value, buttons)
    return say.menu(changed(user_id, unit), buttons, note)


def value_now(rule: Rule, client_id: int | None, exercise: str | None, unit: Unit) -> Setting:
    """Return what holds of a rule for a client and an exercise."""
    found: Setting = getattr(unit.rules.policy(client_id, exercise), rule.field)
    return found


def changed(user_id: int, unit: Unit) -> list[say.RuleSet]:
    """Return what is set, as it is shown: for all first, then by client and exercise."""
    unfit = {each.id for each in unit.rules.unfit()}
    found = [
        _view(each, user_id, unit, fits=each.id not in unfit)
        for each in unit.rules.standing()
        if each.field in RULES
    ]
    return sorted(
        found, key=lambda each: (each.scope.client or "", each.scope.exercise or "", each.rule.name)
    )


def of_client(client_id: int, user_id: int, unit: Unit) -> Message:
    """Say what is set for one client."""
    name = unit.clients.get(client_id).name
    return say.for_client(name, [each for each in changed(user_id, unit) if each.scope.client == name])


def _one(mine: Wanted, user_id: int, unit: Unit, buttons: say.Buttons) -> Message:
    kept = unit.rules.history(mine.rule.field, mine.client_id, mine.exercise)
    value = value_now(mine.rule, mine.client_id, mine.exercise, unit)
    return say.one(
        mine.rule,
        view_of(mine.client_id, mine.exercise, unit),
        value,
        [_view(each, user_id, unit) for each in kept[:EARLIER]],
        buttons,
        is_set=any(each.voided_at is None for each in kept),
    )


def _preview(mine: Wanted, unit: Unit, now: datetime, buttons: say.Buttons) -> Message:
    rules = unit.rules
    if mine.reset:
        tried = rules.without(mine.rule.field, mine.client_id, mine.exercise)
    else:
        tried = rules.tried(mine.rule.field, mine.value, mine.client_id, mine.exercise)
    whom = touched(mine.rule, mine.client_id, mine.exercise, tried.policy, unit, now)
    value = value_now(mine.rule, mine.client_id, mine.exercise, unit)
    scope = view_of(mine.client_id, mine.exercise, unit)
    return say.preview(mine.rule, scope, value, then_of(mine, unit), whom, buttons)


def _view(kept: KeptRule, user_id: int, unit: Unit, *, fits: bool = True) -> say.RuleSet:
    zone = unit.coaches.get(unit.tenant).zone
    rule = RULES[kept.field]
    return say.RuleSet(
        rule=rule,
        scope=view_of(kept.client_id, kept.exercise, unit),
        value=setting_in(rule, kept.value),
        by="you" if kept.by_user_id == user_id else "another account",
        on=local_date(kept.at, zone),
        ended=local_date(kept.voided_at, zone) if kept.voided_at is not None else None,
        fits=fits,
    )
