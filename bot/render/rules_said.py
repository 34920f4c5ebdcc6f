"""What is answered to a line of `/rules` that cannot be, in words."""

from collections.abc import Sequence
from html import escape

from bot.messages import Message
from bot.render.rule_values import Scope, range_words, value_words
from bot.render.rules import EXAMPLES, FLOORS
from core.oversight.rule import Kind, Rule, Setting


def not_now(rule: Rule, scope: Scope, now: Setting) -> Message:
    """Say that nothing was changed."""
    words = f"Left as it is: {rule.name}, {scope.words}, {value_words(rule, now)}."
    return Message(words, silent=True)


def out_of_range(rule: Rule) -> Message:
    """Say what a rule may be set to."""
    return _plain(f"{rule.name.capitalize()} goes {range_words(rule)}. Nothing was changed.")


def not_read(rule: Rule, written: str) -> Message:
    """Say what kind of value is read."""
    said = f"I could not read “{escape(written)}” for {rule.name}. It goes {range_words(rule)}."
    return _plain(f"{said} Nothing was changed.")


def in_the_way(rule: Rule, value: Setting, other: Rule, stands: Setting, *, under: bool) -> Message:
    """Say which other rule a value would not stand beside."""
    side = "before" if rule.kind is Kind.HOUR and under else "after" if rule.kind is Kind.HOUR else ""
    side = side or ("under" if under else "over")
    return _plain(
        f"{rule.name.capitalize()} {value_words(rule, value)} must be {side} {other.name}, which is "
        f"{value_words(other, stands)}. Change that first. Nothing was changed."
    )


def only_for_all(rule: Rule) -> Message:
    """Say that a rule is not for one client or exercise."""
    return _plain(f"{rule.name.capitalize()} holds for all alike. <code>/rules {rule.name} …</code>")


def not_for_exercise(rule: Rule) -> Message:
    """Say that a rule is not for one exercise."""
    return _plain(
        f"{rule.name.capitalize()} is not about the load of an exercise: for all, or for one client. "
        "Nothing was changed."
    )


def nobody(written: str, near: Sequence[str]) -> Message:
    """Say that what stands before the colon is neither a client nor an exercise, or may be both."""
    like = f" Did you mean {escape(' or '.join(near))}?" if near else ""
    return _plain(
        f"I do not know “{escape(written)}” as one client or one exercise.{like} Nothing was changed."
    )


def unknown(written: str) -> Message:
    """Say that no rule is called so."""
    return _plain(
        f"I know no rule “{escape(written)}”. /rules lists them, and reads lines such as\n{EXAMPLES}"
    )


def closed() -> Message:
    """Say that this card is over."""
    return _plain("These rules are from before. /rules shows them as they are now.")


def never() -> Message:
    """Say what no rule reaches."""
    return _plain(f"{FLOORS} Nothing was changed.")


def nothing_to_undo() -> Message:
    """Say that there is nothing to take back."""
    return _plain("There is no change of a rule to take back.")


def _plain(text: str) -> Message:
    return Message(text, silent=True)
