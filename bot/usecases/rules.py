"""`/rules`: what a coach has set for herself, changed by a button or in one line; nothing holds before [Set it]."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import rules as say
from bot.render import rules_said as answers
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.leaving import answer
from bot.usecases.rule_scopes import Unclear, scope_in, view_of
from bot.usecases.rule_wanted import Wanted, checked, chosen, wanted_in
from bot.usecases.rules_seen import GROUPS, card, of_client, value_now
from bot.usecases.rules_touched import follow
from core.oversight.rule import steps_from
from core.oversight.rule_lines import RuleLine, read_line, rule_meant
from core.oversight.rule_words import RULES, rules_of
from core.programme.folding import folded

KIND = "rules"
YES, NO = frozenset({"set it", "set", "yes"}), frozenset({"not now", "no"})
UNDO, SAFETY = "undo", "stopsign"


@dataclass(frozen=True, slots=True)
class RulesAsked:
    """`/rules`, with what stands after it."""

    text: str = ""


def rules_asked(command: RulesAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the rules, or take a line: read back first, with whom it touches."""
    if person.role != "coach":
        return only_for_coaches(person)
    text = " ".join(command.text.split())
    if folded(text) == UNDO:
        return _undone_last(person, unit, now)
    groups = [each for each in GROUPS if folded(each) == folded(text)]
    if not text or groups:
        screen = {"screen": "group", "group": GROUPS.index(groups[0])} if groups else {"screen": "all"}
        return [_opened(screen, person, unit, now)]
    return _line(read_line(text), text, person, unit, now)


def _line(line: RuleLine, text: str, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    if line.about is None and text.casefold().startswith("for "):
        line = RuleLine(about=text[4:])
    scope = scope_in(line.about, unit)
    if isinstance(scope, Unclear):
        return [answer(person, KIND, answers.nobody(scope.written, scope.near))]
    if not line.words and line.value is None and scope.client_id is not None:
        return [answer(person, KIND, of_client(scope.client_id, person.user_id, unit))]
    among = [
        each
        for each in RULES.values()
        if scope.exercise is None or each.is_for(unit.exercises.get(scope.exercise))
    ]
    meant = rule_meant(line.words, line.value, among)
    if SAFETY in folded(line.words) and meant.rule is None:
        return [answer(person, KIND, answers.never())]
    if meant.rule is None and not meant.near:
        return [answer(person, KIND, answers.unknown(text))]
    wanted = {"client": scope.client_id, "exercise": scope.exercise, "text": line.value, "reset": line.reset}
    if meant.rule is None:
        fields = [each.field for each in meant.near]
        return [_opened({"screen": "near", "near": fields, "said": line.words, **wanted}, person, unit, now)]
    facts = chosen(meant.rule, wanted, unit)
    if isinstance(facts, Message):
        return [answer(person, KIND, facts)]
    return [_opened(facts, person, unit, now)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what was tapped; only [Set it] and [Undo] change anything."""
    if person.role != "coach":
        return []
    screen = prompt.facts.get("screen")
    match screen, tap.action:
        case "all", Action.PICK if tap.argument < len(GROUPS):
            return [_shown({"screen": "group", "group": tap.argument}, prompt, unit, now)]
        case "group", Action.CHOOSE:
            rules = rules_of(GROUPS[prompt.facts["group"]])
            if tap.argument < len(rules):
                return [_shown({"screen": "rule", **Wanted(rules[tap.argument]).facts}, prompt, unit, now)]
        case "near", Action.CHOOSE if tap.argument < len(prompt.facts["near"]):
            facts = chosen(RULES[prompt.facts["near"][tap.argument]], prompt.facts, unit)
            return [_shown(facts, prompt, unit, now)]
        case "rule", Action.MOVE | Action.DROP:
            return _stepped(tap, prompt, unit, now)
        case _, Action.BACK:
            return [_shown(_back(prompt), prompt, unit, now)]
    return _answered(tap, prompt, person, unit, now)


def _answered(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    match prompt.facts.get("screen"), tap.action:
        case "preview", Action.CONFIRM:
            return _set(prompt, person, unit, now)
        case "preview", Action.CANCEL:
            return _left(prompt, unit, now)
        case "set", Action.UNDO:
            return _undone(prompt, person, unit, now)
    return refreshed(prompt, person, unit, now)


def _back(prompt: Prompt) -> dict[str, Any]:
    facts = prompt.facts
    if facts.get("screen") != "rule":
        return {"screen": "all"}
    return {"screen": "group", "group": GROUPS.index(RULES[facts["field"]].group)}


def _stepped(tap: Tap, prompt: Prompt, unit: Unit, now: datetime) -> Sequence[Effect]:
    wanted = wanted_in(prompt.facts)
    if tap.action is Action.DROP:
        changes = checked(Wanted(wanted.rule, wanted.client_id, wanted.exercise, reset=True), unit)
    else:
        steps = steps_from(wanted.rule, value_now(wanted.rule, wanted.client_id, wanted.exercise, unit))
        if tap.argument >= len(steps):
            return []
        value = steps[tap.argument]
        changes = checked(Wanted(wanted.rule, wanted.client_id, wanted.exercise, value), unit)
    return [_shown(changes, prompt, unit, now)]


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect] | None:
    """Take `set it` or `not now` to what was read back; None for other words."""
    words = " ".join(text.casefold().strip(" .!").split())
    if person.role != "coach" or prompt.facts.get("screen") != "preview" or words not in YES | NO:
        return None
    return _set(prompt, person, unit, now) if words in YES else _left(prompt, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the card as it stands, after a tap on a button that is no longer good."""
    if person.role != "coach":
        return []
    if prompt.closed_at is not None:
        return [EditCard(_key(prompt), prompt.chat_id, answers.closed())]
    return [_shown(prompt.facts, prompt, unit, now, note=say.OLD)]


def _set(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep what was read back, unless something else has come in its way since."""
    wanted = wanted_in(prompt.facts)
    again = checked(wanted, unit)
    if isinstance(again, Message):
        return [_shown(again, prompt, unit, now)]
    place: dict[str, Any] = {"client_id": wanted.client_id, "exercise": wanted.exercise}
    before = unit.rules.at(wanted.rule.field, wanted.client_id, wanted.exercise)
    kept = 0
    if wanted.reset:
        unit.rules.drop(wanted.rule.field, now, **place)
    else:
        kept = unit.rules.set(wanted.rule.field, wanted.value, person.user_id, now, **place)
    follow(wanted.rule, wanted.client_id, unit, now)
    facts = {**wanted.facts, "screen": "set", "kept": kept, "before": before.value if before else None}
    facts["was_set"] = before is not None
    return [_shown(facts, prompt, unit, now)]


def _left(prompt: Prompt, unit: Unit, now: datetime) -> Sequence[Effect]:
    wanted = wanted_in(prompt.facts)
    value = value_now(wanted.rule, wanted.client_id, wanted.exercise, unit)
    scope = view_of(wanted.client_id, wanted.exercise, unit)
    unit.prompts.close(prompt.id, now)
    return [EditCard(_key(prompt), prompt.chat_id, answers.not_now(wanted.rule, scope, value))]


def _undone_last(person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    prompt = unit.prompts.newest(KIND, unit.tenant)
    if prompt is None or prompt.closed_at is not None or prompt.facts.get("screen") != "set":
        return [answer(person, KIND, answers.nothing_to_undo())]
    return _undone(prompt, person, unit, now)


def _undone(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Put back what stood before, while what was set with this card still stands."""
    wanted, facts = wanted_in(prompt.facts), prompt.facts
    place: dict[str, Any] = {"client_id": wanted.client_id, "exercise": wanted.exercise}
    standing = unit.rules.at(wanted.rule.field, wanted.client_id, wanted.exercise)
    unit.prompts.close(prompt.id, now)
    if (standing.id if standing is not None else 0) != facts["kept"]:
        return [EditCard(_key(prompt), prompt.chat_id, answers.closed())]
    if facts["was_set"]:
        unit.rules.restore(wanted.rule.field, facts["before"], person.user_id, now, **place)
    else:
        unit.rules.drop(wanted.rule.field, now, **place)
    follow(wanted.rule, wanted.client_id, unit, now)
    value = value_now(wanted.rule, wanted.client_id, wanted.exercise, unit)
    scope = view_of(wanted.client_id, wanted.exercise, unit)
    told = say.done(wanted.rule, scope, value, None, undone=True)
    return [EditCard(_key(prompt), prompt.chat_id, told)]


def _opened(facts: dict[str, Any], person: Person, unit: Unit, now: datetime) -> Send:
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        subject=unit.tenant,
        facts=facts,
        expects_text=facts["screen"] == "preview",
    )
    unit.prompts.set_card(prompt.id, _key(prompt))
    buttons = say.Buttons(prompt.id, prompt.revision)
    message = card(facts, person.user_id, unit, now, buttons)
    return Send(person.chat_id, message, key=f"{_key(prompt)}:card", card=_key(prompt))


def _shown(
    facts: dict[str, Any] | Message, prompt: Prompt, unit: Unit, now: datetime, note: str = ""
) -> EditCard:
    """Show another screen on the card; or why there is none, which leaves what was asked open."""
    if isinstance(facts, Message):
        return EditCard(_key(prompt), prompt.chat_id, facts, moved=True)
    revised = unit.prompts.revise(prompt.id, facts=facts)
    if facts["screen"] == "preview":
        unit.prompts.expect_text(revised)
    buttons = say.Buttons(revised.id, revised.revision)
    return EditCard(_key(prompt), prompt.chat_id, card(facts, prompt.user_id, unit, now, buttons, note))


def _key(prompt: Prompt) -> str:
    return f"{KIND}:{prompt.id}"
