"""What follows from what a client says of pregnancy, birth and blood pressure, in words for her and for her coach."""

from datetime import date
from html import escape

from bot.messages import Message, Rows
from bot.render.dates import day_words

CLEARS_NOBODY = "I am no doctor and clear nobody."
HELD_FOR_HEALTH = "After what you told me: nothing here goes up, and more is left in each set."


def pregnancy_binds(coach: str) -> str:
    """Say to a client what a pregnancy means for her loads."""
    return (
        "Thank you for saying so. From now on no load goes up by itself, and you stop each set with 3 or more left. "
        "A card that is out already is changed at once; lift no more than last time on it. "
        f"Please ask your doctor or midwife before you train on. I have told {escape(coach)}."
    )


def is_pregnant(name: str, *, eased: bool = False) -> Message:
    """Tell the coach of a pregnancy during a plan; `eased` where a card that was out was changed for it."""
    who = escape(name)
    now = "The card that is out was changed at once. " if eased else ""
    return Message(
        f"<b>{who} is pregnant</b>, as {who} says.\n"
        f"From now on no load of {who} rises by itself, and 3 or more are left in each set. {who} was told to ask a "
        f"doctor or midwife first. {now}{CLEARS_NOBODY} Speak with each other."
    )


def pregnant_joins(name: str, rows: Rows) -> Message:
    """Tell the coach of a pregnancy when joining."""
    who = escape(name)
    return Message(
        f"<b>{who} is pregnant</b>, as {who} says when joining.\n"
        f"The plan is on hold, and {who} was told to see a doctor first. {CLEARS_NOBODY} "
        "After your release no load rises by itself, and 3 or more are left in each set.",
        rows=rows,
    )


def has_given_birth(name: str, on: date | None, rows: Rows) -> Message:
    """Tell the coach of a birth."""
    who = escape(name)
    when = f"on {day_words(on)} {on.year}" if on is not None else "in the last 12 months"
    return Message(
        f"<b>{who} gave birth</b> {when}, as {who} says.\n"
        f"The plan is on hold, and {who} was told to see a doctor first. {CLEARS_NOBODY} "
        f"After your release {who} starts as somebody new: loads are looked for again.",
        rows=rows,
    )


def pregnancy_over(name: str, rows: Rows) -> Message:
    """Tell the coach that a client is no longer pregnant, as she says."""
    who = escape(name)
    return Message(
        f"<b>{who} is no longer pregnant</b>, as {who} says.\n"
        f"Loads stay held as in a pregnancy until you let them rise. {CLEARS_NOBODY} Speak with each other first.",
        rows=rows,
    )


def pressure_untreated(name: str) -> Message:
    """Tell the coach of high blood pressure that is not treated, or of which nobody knows."""
    who = escape(name)
    return Message(
        f"<b>{who}: high blood pressure, not treated or not said.</b>\n"
        f"No set of {who} goes to the limit. {who} was told to ask a doctor. {CLEARS_NOBODY}"
    )


def pressure_over(name: str, rows: Rows) -> Message:
    """Tell the coach that blood pressure is treated or not high, as a client says."""
    who = escape(name)
    return Message(
        f"<b>{who}: blood pressure now treated or not high</b>, as {who} says.\n"
        f"Sets stay away from the limit until you release that. {CLEARS_NOBODY}",
        rows=rows,
    )


def pressure_binds(coach: str) -> str:
    """Say to a client what untreated blood pressure means."""
    return (
        "Thank you. No set of yours goes to the limit now. Please ask your doctor about it. "
        f"I have told {escape(coach)}."
    )


def waits_for_coach(coach: str) -> str:
    """Say that nothing changes until the coach has looked."""
    return f"Noted. Nothing changes until {escape(coach)} has looked; I have told {escape(coach)}."


def birth_stays(coach: str) -> str:
    """Say that a birth that was said stays said."""
    return (
        f"A birth that you told me of still counts for 12 months, unless {escape(coach)} takes it back. "
        f"I have told {escape(coach)}."
    )


def birth_slip(name: str, rows: Rows) -> Message:
    """Tell the coach that a client no longer says that she gave birth."""
    who = escape(name)
    return Message(
        f"<b>{who} did not give birth in the last 12 months</b>, as {who} says now.\n"
        f"What {who} said before still counts until you take it back. {CLEARS_NOBODY} Speak with each other first.",
        rows=rows,
    )


def said_lines(
    *,
    minutes: int | None,
    limits: str | None,
    pregnant: bool,
    pregnant_over: bool,
    birth: bool,
    birth_on: date | None,
    screen: bool,
    untreated: bool,
    birth_slip: bool = False,
) -> tuple[str, ...]:
    """Write what a client has said of length, limits and health, a line each, as plain text.

    Args:
        minutes: Usual length of a session. [min]
        limits: Limits and injuries in her words.
        pregnant: She is pregnant, as she says.
        pregnant_over: She says that it is over, and the coach has not released it yet.
        birth: She gave birth in the last 12 months, as she says.
        birth_on: When, if she said.
        screen: A yes to the health question.
        untreated: High blood pressure, not treated or not said.
        birth_slip: She says that the birth was a slip, and the coach has not taken it back.
    """
    when = f" on {day_words(birth_on)} {birth_on.year}" if birth_on is not None else " in the last 12 months"
    listed = (
        (f"Usual length of a session: {minutes} min.", minutes is not None),
        (f"Limits and injuries, as said: {limits}", bool(limits)),
        ("Pregnant: no load rises by itself, 3 or more left.", pregnant and not pregnant_over),
        ("Says the pregnancy is over: loads stay held until you release them.", pregnant and pregnant_over),
        (f"Gave birth{when}.", birth and not birth_slip),
        (f"Gave birth{when}, but says now that it was a slip.", birth and birth_slip),
        ("A yes to the health question, no details asked.", screen),
        ("High blood pressure, not treated or not said: no set to the limit.", untreated),
    )
    return tuple(line for line, holds in listed if holds)
