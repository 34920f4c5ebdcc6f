from datetime import date

import pytest
from setting_out import plain_text
from textstat import textstat

from bot.messages import Message
from bot.render import health_said as say

NAME = "<Ada>"
TO_COACH = [
    (
        say.is_pregnant(NAME),
        (
            "<Ada> is pregnant, as <Ada> says.\n"
            "From now on no load of <Ada> rises by itself, and 3 or more are left in each set. <Ada> was told to ask a "
            "doctor or midwife first. I am no doctor and clear nobody. Speak with each other."
        ),
    ),
    (
        say.is_pregnant(NAME, eased=True),
        (
            "<Ada> is pregnant, as <Ada> says.\n"
            "From now on no load of <Ada> rises by itself, and 3 or more are left in each set. <Ada> was told to ask a "
            "doctor or midwife first. The card that is out was changed at once. I am no doctor and clear nobody. "
            "Speak with each other."
        ),
    ),
    (
        say.pregnant_joins(NAME, ()),
        (
            "<Ada> is pregnant, as <Ada> says when joining.\n"
            "The plan is on hold, and <Ada> was told to see a doctor first. I am no doctor and clear nobody. "
            "After your release no load rises by itself, and 3 or more are left in each set."
        ),
    ),
    (
        say.has_given_birth(NAME, date(2026, 1, 20), ()),
        (
            "<Ada> gave birth on Tue 20 January 2026, as <Ada> says.\n"
            "The plan is on hold, and <Ada> was told to see a doctor first. I am no doctor and clear nobody. "
            "After your release <Ada> starts as somebody new: loads are looked for again."
        ),
    ),
    (
        say.pregnancy_over(NAME, ()),
        (
            "<Ada> is no longer pregnant, as <Ada> says.\n"
            "Loads stay held as in a pregnancy until you let them rise. I am no doctor and clear nobody. "
            "Speak with each other first."
        ),
    ),
    (
        say.pressure_untreated(NAME),
        (
            "<Ada>: high blood pressure, not treated or not said.\n"
            "No set of <Ada> goes to the limit. <Ada> was told to ask a doctor. I am no doctor and clear nobody."
        ),
    ),
    (
        say.pressure_over(NAME, ()),
        (
            "<Ada>: blood pressure now treated or not high, as <Ada> says.\n"
            "Sets stay away from the limit until you release that. I am no doctor and clear nobody."
        ),
    ),
]


@pytest.mark.parametrize(("message", "expected"), TO_COACH)
def test_the_coach_hears_who_what_and_what_was_done_already(message: Message, expected: str) -> None:
    assert plain_text(message) == expected
    assert NAME not in message.html


def test_a_birth_without_a_date_is_said_without_one() -> None:
    assert "gave birth</b> in the last 12 months, as" in say.has_given_birth("Ada", None, ()).html


@pytest.mark.parametrize(
    "text",
    [
        say.pregnancy_binds("<M>"),
        say.pressure_binds("<M>"),
        say.waits_for_coach("<M>"),
        say.birth_stays("<M>"),
    ],
)
def test_what_a_client_hears_reads_easily_and_clears_nobody(text: str) -> None:
    assert "<M>" not in text
    assert textstat.flesch_kincaid_grade(text) <= 8
    assert not any(word in text.lower() for word in ("safe", "cleared", "no problem", "you can train"))


def test_all_that_was_said_stands_on_the_coachs_card_a_line_each() -> None:
    lines = say.said_lines(
        minutes=45,
        limits="knee",
        pregnant=True,
        pregnant_over=True,
        birth=True,
        birth_on=None,
        screen=True,
        untreated=True,
    )
    assert lines == (
        "Usual length of a session: 45 min.",
        "Limits and injuries, as said: knee",
        "Says the pregnancy is over: loads stay held until you release them.",
        "Gave birth in the last 12 months.",
        "A yes to the health question, no details asked.",
        "High blood pressure, not treated or not said: no set to the limit.",
    )


def test_a_birth_that_is_said_to_be_a_slip_stands_as_both() -> None:
    lines = say.said_lines(
        minutes=None,
        limits=None,
        pregnant=False,
        pregnant_over=False,
        birth=True,
        birth_on=None,
        screen=False,
        untreated=False,
        birth_slip=True,
    )
    assert lines == ("Gave birth in the last 12 months, but says now that it was a slip.",)
    assert plain_text(say.birth_slip(NAME, ())) == (
        "<Ada> did not give birth in the last 12 months, as <Ada> says now.\n"
        "What <Ada> said before still counts until you take it back. I am no doctor and clear nobody. "
        "Speak with each other first."
    )


def test_nothing_said_is_no_line() -> None:
    lines = say.said_lines(
        minutes=None,
        limits=None,
        pregnant=False,
        pregnant_over=False,
        birth=False,
        birth_on=None,
        screen=False,
        untreated=False,
    )
    assert lines == ()
