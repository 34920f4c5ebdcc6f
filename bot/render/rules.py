"""A coach's rules, in words: what is set, what may be, and whom a change touches."""

from collections.abc import Sequence
from datetime import date
from html import escape

from bot.messages import Action, Button, Message
from bot.messages import Rows as ButtonRows
from bot.render.dates import day_words
from bot.render.loads import dose_words
from bot.render.rule_values import RuleSet, Scope, Shift, Touched, range_words, source_words, value_words
from bot.render.setting_up import Buttons
from core.oversight.rule import Group, Rule, Setting, steps_from
from core.oversight.rule_words import rules_of
from core.programme.prescription import Dose

__all__ = ["Buttons", "RuleSet", "Scope", "Shift", "Touched"]

OLD = "That button was from before. This is how things stand."
EXAMPLES = (
    "<code>/rules quiet from 22:00</code>\n"
    "<code>/rules raise cap upper 4%</code>\n"
    "<code>/rules for Ada: pain drop 30%</code>\n"
    "<code>/rules bench press: raise by 1 kg</code>\n"
    "<code>/rules reset quiet from</code>"
)
NAMED = 6
"""Most clients who are named; the others are counted. Our proposal."""
FLOORS = (
    "No rule changes what a stop sign does, what is told at once, or lets a load rise at pain of 4 and over."
)


def menu(changed: Sequence[RuleSet], buttons: Buttons, note: str = "") -> Message:
    """Show what is set other than as it comes, then the groups."""
    lines = [*([f"{note}\n"] if note else []), "<b>Your rules</b>"]
    if changed:
        lines += ["Other than the defaults:", *(_set_line(each) for each in changed)]
    else:
        lines.append("All at their defaults.")
    lines += ["", "Tap what it is about, or type one line:", EXAMPLES, "", FLOORS]
    groups = [buttons.one(each.capitalize(), Action.PICK, place) for place, each in enumerate(Group)]
    return Message("\n".join(lines), rows=_in_rows(groups, 3), silent=True)


def for_client(name: str, changed: Sequence[RuleSet]) -> Message:
    """Show what is set for one client."""
    lines = [_set_line(each) for each in changed] or ["Nothing of their own: what holds for all."]
    typed = f"<code>/rules for {escape(name)}: pain drop 30%</code>"
    return Message("\n".join([f"<b>Rules for {escape(name)}</b>", *lines, "", typed]), silent=True)


def group(which: Group, values: Sequence[tuple[Rule, Setting]], buttons: Buttons) -> Message:
    """Show the rules of a group, each with its value, range and source, and a button."""
    lines = [f"<b>{which.capitalize()}</b>, for all"]
    for rule, value in values:
        lines += [
            f"<b>{rule.name}</b>: {value_words(rule, value)}",
            f"   {rule.does}. {range_words(rule).capitalize()}. {source_words(rule)}",
        ]
    rules = rules_of(which)
    made = [buttons.one(rule.name.capitalize(), Action.CHOOSE, place) for place, rule in enumerate(rules)]
    return Message("\n".join(lines), rows=(*_in_rows(made, 2), buttons.back), silent=True)


def one(
    rule: Rule, scope: Scope, value: Setting, set_before: Sequence[RuleSet], buttons: Buttons, *, is_set: bool
) -> Message:
    """Show a rule with what it may be set to by a button, who set it when, and how it is typed."""
    lines = [
        f"<b>{rule.name.capitalize()}</b>, {scope.words}",
        f"{rule.does}: <b>{value_words(rule, value)}</b>",
        f"Default {value_words(rule, rule.default)}, {range_words(rule)}.",
        source_words(rule),
    ]
    if set_before:
        lines += ["", *(_history_line(each) for each in set_before)]
    choices = steps_from(rule, value)
    typed = value_words(rule, choices[0] if choices else rule.default).replace(" %", "%")
    lines += ["", f"Or type <code>/rules {scope.typed}{rule.name} {typed}</code>"]
    made = [buttons.one(value_words(rule, each), Action.MOVE, place) for place, each in enumerate(choices)]
    reset = (buttons.one(f"Back to {value_words(rule, rule.default)}", Action.DROP),) if is_set else ()
    rows = (*_in_rows(made, 3), *((reset,) if reset else ()), buttons.back)
    return Message("\n".join(lines), rows=rows, silent=True)


def preview(
    rule: Rule, scope: Scope, now: Setting, then: Setting, touched: Touched, buttons: Buttons
) -> Message:
    """Say what a change would be and whom it touches; it holds only when she says so."""
    lines = [
        f"<b>{rule.name.capitalize()}</b>, {scope.words}",
        f"{rule.does}: <b>{value_words(rule, then)}</b>, now {value_words(rule, now)}.",
        "",
        *_touched_lines(touched),
        "",
        "Nothing has changed yet. Tap, or type <code>set it</code>.",
    ]
    rows = ((buttons.one("Set it", Action.CONFIRM), buttons.one("Not now", Action.CANCEL)),)
    return Message("\n".join(lines), rows=rows, silent=True)


def done(rule: Rule, scope: Scope, now: Setting, buttons: Buttons | None, *, undone: bool = False) -> Message:
    """Say what holds from now on, with a way to take it back."""
    said = "Taken back." if undone else "Set."
    default = "" if now == rule.default else f" Default: {value_words(rule, rule.default)}."
    text = f"{said} {rule.name.capitalize()}, {scope.words}: <b>{value_words(rule, now)}</b>.{default}"
    if rule.group in (Group.LOADS, Group.PAIN, Group.ILLNESS) and not undone:
        text += "\nA card that is out stays as it is; it holds from the next one."
    rows = () if buttons is None else ((buttons.one("Undo", Action.UNDO),),)
    return Message(text, rows=rows, silent=True)


def which(written: str, near: Sequence[Rule], buttons: Buttons) -> Message:
    """Ask which rule is meant."""
    made = [buttons.one(each.name.capitalize(), Action.CHOOSE, place) for place, each in enumerate(near)]
    return Message(f"Which one is “{escape(written)}”?", rows=_in_rows(made, 2), silent=True)


def _set_line(each: RuleSet) -> str:
    left_out = "" if each.fits else " It does not fit what else is set, and is left out."
    default = value_words(each.rule, each.rule.default)
    return (
        f"{each.rule.name}, {each.scope.words}: <b>{value_words(each.rule, each.value)}</b>, "
        f"default {default}. {each.by.capitalize()}, {_day(each.on)}.{left_out}"
    )


def _history_line(each: RuleSet) -> str:
    until = "" if each.ended is None else f", until {_day(each.ended)}"
    return f"{value_words(each.rule, each.value)} by {each.by}, {_day(each.on)}{until}"


def _touched_lines(touched: Touched) -> list[str]:
    if touched.names is None:
        return ["It is about what you are shown; nobody's training changes."]
    spared = f"Not touched, since a rule of their own stands: {_names(touched.spared)}."
    lines = [f"Touches {_names(touched.names)}."] if touched.names else ["It touches nobody now."]
    lines += [spared] if touched.spared else []
    if touched.shifts is None:
        return lines
    if not touched.shifts:
        return [*lines, "In the next seven days each exercise's next load stays as it is."]
    shown = touched.shifts[:NAMED]
    lines += ["Next loads that change, of the next seven days:", *(_shift_line(each) for each in shown)]
    more = len(touched.shifts) - len(shown)
    return [*lines, f"and {more} more"] if more else lines


def _shift_line(each: Shift) -> str:
    now, then = dose_words(each.now, each.exercise), dose_words(each.then, each.exercise)
    if now == then:
        now, then = _left(each.now), f"{then}, {_left(each.then)}"
    return f"{escape(each.client)}, {escape(each.exercise.name)}: {then}, now {now}"


def _left(dose: Dose) -> str:
    """Say how many reps are to be left, where sets and loads are the same."""
    return "no reps left asked" if dose.left is None else f"{dose.left} reps left"


def _names(names: Sequence[str]) -> str:
    shown = ", ".join(escape(each) for each in names[:NAMED])
    return f"{shown} and {len(names) - NAMED} more" if len(names) > NAMED else shown


def _day(on: date) -> str:
    return day_words(on).partition(" ")[2] or day_words(on)


def _in_rows(made: Sequence[Button], width: int) -> ButtonRows:
    return tuple(tuple(made[at : at + width]) for at in range(0, len(made), width))
