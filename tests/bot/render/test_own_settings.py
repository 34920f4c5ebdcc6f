from dataclasses import replace
from datetime import time

import pytest
from rows import each_row
from setting_out import plain_text
from textstat import textstat

from bot.messages import decode
from bot.render.join import JoinView
from bot.render.own_settings import (
    CALLED,
    LABELS,
    OWN_QUESTIONS,
    STEPS,
    Own,
    changed,
    for_coach,
    menu,
    not_read,
    question,
    step_called,
)

VIEW = JoinView(
    step="None",
    number=1,
    of=1,
    name="Ada",
    coach="<Marit>",
    prompt_id=2**40,
    revision=2**20,
    facts={"days": [0], "zones": ["Europe/Lisbon"], "arms": True},
    hours=(time(6),),
    lengths=(30,),
)
OWN = Own(
    hour=time(7),
    days=(0, 3),
    zone="Europe/Lisbon",
    unit="kg",
    minutes=45,
    place="home",
    alone=True,
    arms=True,
    experience="trained",
    limits="knee. no <running>",
    pregnant=True,
    weekly="full",
)


def test_the_menu_says_all_that_is_set_with_a_button_to_change_each() -> None:
    message = menu(VIEW, OWN)
    assert message.html == (
        "<b>Your settings</b>\n"
        "Hour: 07:00\n"
        "Days: Mon Thu\n"
        "Clock: Lisbon\n"
        "Unit: kg\n"
        "Length: 45 min\n"
        "Place: home. /kit shows what is there\n"
        "Company: alone, safety arms\n"
        "Lifting: 3 months or longer\n"
        "Limits: knee. no &lt;running&gt;\n"
        "Pregnant: no load goes up by itself\n"
        "Weekly line: all of it\n\n"
        "What would you like to change? Tap, or type it, like <code>/settings hour</code>."
    )
    buttons = [button for row in message.rows for button in row]
    assert [button.label for button in buttons] == list(LABELS)
    taps = [decode(button.data or "") for button in buttons]
    assert [tap.argument for tap in taps if tap] == list(range(len(STEPS)))


def test_what_nobody_has_said_is_not_made_up() -> None:
    text = menu(VIEW, Own(hour=None, days=(), zone="UTC", unit="lb")).html
    assert "Hour: not set\nDays: not set\n" in text
    assert "Length: not set\n" in text
    assert "Limits: none said\nWeekly line: one short line" in text


def test_every_button_has_a_typed_name() -> None:
    assert [step_called(label) for label in LABELS] == list(STEPS)
    assert step_called("  Blood  Pressure ") == "pressure"
    assert step_called("") is None
    assert set(CALLED.values()) == set(STEPS)


@each_row("step", [step for step in OWN_QUESTIONS if step != "known"])
def test_every_question_of_the_settings_has_a_way_back_and_reads_easily(step: str) -> None:
    message = question(replace(VIEW, step=step, known=("knee",)))
    assert message.rows[-1][0].label == "Back"
    text = plain_text(message).replace("•", ".").replace("\n", ". ")
    assert textstat.flesch_kincaid_grade(text) <= 8
    assert ("Now it says: knee" in message.html) is (step == "limits")


def test_taking_consent_back_says_what_that_means() -> None:
    assert question(replace(VIEW, step="consent")).html == (
        "You have agreed that I keep and use health data for your training. You can take that back now.\n\n"
        "Then I use none of it any more. Without it I cannot work out loads, so no more sessions come, and "
        "&lt;Marit&gt; hears that you have stopped. What was kept stays until you ask for it to be "
        "erased: /forget does that.\n\n"
        "Tap <b>Take it back</b>, or type <code>take it back</code>."
    )


@pytest.mark.parametrize("step", ["unit", "minutes", "place", "alone", "experience", "limits", "weekly"])
def test_what_was_changed_is_said_back_escaped(step: str) -> None:
    said = changed(step, OWN)
    assert said.startswith("Your ")
    assert "<running>" not in said


def test_the_coach_hears_what_the_rules_go_by() -> None:
    said = [plain_text(for_coach("Ada", step, OWN)) for step in ("alone", "experience", "limits")]
    assert said == [
        "Ada, from /settings: company is now alone, safety arms.",
        "Ada, from /settings: has lifted regularly 3 months or longer.",
        "Ada, from /settings: limits and injuries, as said: knee. no <running>.",
    ]


def test_what_is_not_read_has_an_example() -> None:
    assert not_read("weekly") == (
        "I could not read that. Type <code>none</code>, <code>short</code> or <code>full</code>."
    )
    assert not_read("hour").endswith("Type a time, like <code>6:30</code> or <code>18</code>.")
