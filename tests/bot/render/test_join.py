from dataclasses import replace
from datetime import UTC, datetime, time

import pytest
from rows import each_row

from bot.messages import Message, decode
from bot.render.join import EXAMPLES, QUESTIONS, JoinView, question, understood
from bot.render.joined import doctor_first, health_gate, still_on_hold

VIEW = JoinView(
    step="health",
    number=4,
    of=15,
    name="Ada",
    coach="Marit",
    prompt_id=2**40,
    revision=2**20,
    facts={
        "days": [0, 6],
        "zones": ["Europe/Lisbon", "America/Argentina/Buenos_Aires"],
        "arms": True,
        "sites": [4],
        "known": ["zone"],
    },
    lengths=(30, 45),
    known=("Lisbon",),
    hours=(time(6), time(18)),
    can_go_back=True,
)


def shown(step: str, **changes: object) -> Message:
    return question(replace(VIEW, step=step, **changes))  # type: ignore[arg-type]


def test_the_health_question_asks_for_one_answer_to_all_and_no_details() -> None:
    assert shown("health").html == (
        "Joining, 4 of 15\n\n"
        "Is any of these true for you?\n\n"
        "• a heart, kidney or blood sugar illness, or high blood pressure\n"
        "• pain or pressure in the chest, at rest or when you are active\n"
        "• you have fainted, or get dizzy\n"
        "• you get out of breath at rest, lying flat, or with light effort\n"
        "• your heart races or skips, or your ankles swell\n"
        "• you take medicine for your heart, blood pressure, blood sugar or bones\n"
        "• an operation in the last year, or one you still feel\n"
        "• epilepsy, eye trouble, or a hernia\n"
        "• a doctor has told you to limit what you do, or to train only with someone watching\n\n"
        "You need not say which."
    )
    labels = [[button.label for button in row] for row in shown("health").rows]
    assert labels == [["None of these"], ["One or more"], ["Back"]]


def test_consent_names_what_is_kept_who_sees_it_and_how_to_take_it_back() -> None:
    assert shown("consent").html == (
        "Joining, 4 of 15\n\n"
        "To do this I must keep <b>health data</b> about you: your age band, what you answer about your health, "
        "limits and injuries, pain, soreness, illness, and what you write about them.\n\n"
        "Marit sees it. If something urgent waits, a second person whom Marit names hears your name and what "
        "kind of thing it is. It is kept by whoever runs this bot for Marit. It passes through this chat service, "
        "which can read what is sent to a bot.\n\n"
        "You can take your consent back at any time, in /settings or with /stop. "
        "Do you agree that I keep and use this data for your training?"
    )


@each_row("step", list(QUESTIONS))
def test_every_button_fits_and_answers_the_prompt_it_is_under(step: str) -> None:
    message = shown(step, facts={**VIEW.facts, "asked": True})
    buttons = [button for row in message.rows for button in row]
    assert all(1 <= len(button.label) <= 40 for button in buttons)
    assert all(len(button.data or "") <= 64 for button in buttons)
    taps = [decode(button.data or "") for button in buttons]
    assert {(tap.prompt, tap.revision) for tap in taps if tap} == {(VIEW.prompt_id, VIEW.revision)}
    assert len(set(taps)) == len(taps)
    assert message.silent


@each_row("step", list(QUESTIONS))
def test_every_question_has_an_example_of_its_own(step: str) -> None:
    assert "<code>" in EXAMPLES[step]
    assert len(set(EXAMPLES.values())) == len(QUESTIONS)


def test_chosen_days_are_said_in_words_not_by_a_mark_alone() -> None:
    message = shown("days")
    assert message.html.endswith("Chosen: Mon Sun")
    assert [button.label for row in message.rows[:2] for button in row] == [
        "Mon: yes",
        "Tue",
        "Wed",
        "Thu",
        "Fri",
        "Sat",
        "Sun: yes",
    ]


@pytest.mark.parametrize(
    ("step", "value", "expected"),
    [
        ("zone", "Europe/Lisbon", "Your clock: Lisbon, 17:40 now."),
        ("hour", time(6, 30), "Your hour: 06:30."),
        ("days", [0, 3], "Your days: Mon Thu."),
        ("unit", None, None),
        ("hour", None, None),
    ],
)
def test_what_no_button_showed_is_said_back(step: str, value: object, expected: str | None) -> None:
    assert understood(step, value, datetime(2026, 4, 14, 16, 40, tzinfo=UTC)) == expected


def test_a_yes_refers_to_a_doctor_and_names_no_condition() -> None:
    assert doctor_first("Marit") == (
        "Thank you for saying so. <b>Please see a doctor before you train with this plan.</b> "
        "Your plan waits until Marit has looked and taken it up; I have told Marit. "
        "Nobody watches this chat in real time: if you feel very unwell, call your local emergency number.\n"
        "The other questions can be answered now."
    )
    assert "heart" not in health_gate("Ada", ()).html


def test_names_are_escaped_wherever_they_stand() -> None:
    views = [shown(step, name="<Ada>", coach="<M>").html for step in ("caution", "consent")]
    texts = [*views, doctor_first("<M>"), still_on_hold("<M>"), health_gate("<Ada>", ()).html]
    assert all("<Ada>" not in text and "<M>" not in text for text in texts)
