"""Questions asked in turn: whole texts, as the person sees them."""

from datetime import date

from setting_out import labels, plain_text

from bot.render import questionnaire as say
from bot.render.setting_up import Buttons
from core.checkin.check_in import BLOCK_END, CHECK_IN, Question

BUTTONS = Buttons(1, 0)


def view(question: Question, number: int = 1, **more: object) -> say.View:
    return say.View("Your check-in", number, 4, question, **{"chosen": {}, **more})  # type: ignore[arg-type]


def test_a_question_of_five_words() -> None:
    message = say.screen(view(CHECK_IN[0], lead="A few quick ones."), BUTTONS)

    assert plain_text(message) == "Your check-in · 1 of 4\n\nA few quick ones.\n\nHow was your training week?"
    assert labels(message) == ["Very hard", "Hard", "About right", "Easy", "Very easy", "Skip"]
    assert message.silent


def test_two_rows_of_words_the_second_after_the_first_was_chosen() -> None:
    message = say.screen(view(CHECK_IN[1], 2, chosen={0: 2}, lead="Only at first."), BUTTONS)

    assert plain_text(message) == "Your check-in · 2 of 4\n\nHow were sleep and stress?\n\nSleep: bad"
    assert labels(message) == ["Stress low", "Stress medium", "Stress high", "Skip"]


def test_a_free_line_after_something_was_noted() -> None:
    message = say.screen(view(CHECK_IN[2], 3, note=say.NOTED), BUTTONS)

    assert plain_text(message) == (
        "Your check-in · 3 of 4\n\nNoted, and passed on to your coach.\n\n"
        "Is anything worrying you?\nType it in one line, or send a voice message."
    )
    assert labels(message) == ["Nothing"]


def test_quick_words_with_a_line_of_her_own() -> None:
    message = say.screen(view(BLOCK_END[3], 4), BUTTONS)

    assert plain_text(message).endswith("Is there any pain or worry that stays?\nOr type a line of your own.")
    assert labels(message) == ["Pain", "Nothing"]


def test_a_coachs_own_words_are_shown_as_words() -> None:
    asked = CHECK_IN[2].model_copy(update={"text": "<b>Sleep</b> & food?"})

    assert "&lt;b&gt;Sleep&lt;/b&gt; &amp; food?" in say.screen(view(asked), BUTTONS).html


def test_the_rest_waits_and_is_over() -> None:
    waits = say.waits("Your check-in", 4, 4, BUTTONS)

    assert plain_text(waits) == "Your check-in · 4 of 4\n\nThis first. The rest waits here."
    assert labels(waits) == ["Go on"]
    assert plain_text(say.over("Your check-in")) == "Your check-in\n\nThis one is over. Nothing is missing."
    assert plain_text(say.ended("Your check-in", "That is all.")) == "Your check-in\n\nThat is all."


def test_what_the_coach_reads_of_a_line() -> None:
    message = say.passed_on("Ada <3", "check-in", "Is anything worrying you?", "a < b")

    assert message.html == "<b>Ada &lt;3</b>, check-in\nIs anything worrying you?\na &lt; b"
    assert not message.silent
    assert say.answering("check-in", "A & B?") == "Check-in: A &amp; B?"


def test_answers_in_one_line_are_cut_where_they_are_long() -> None:
    assert say.said_line([("How?", "hard"), ("Worry?", "a\nb <c>")]) == "hard; a b &lt;c&gt;"
    assert say.said_line([("Worry?", "x" * 200)]) == "x" * 149 + "…"


def test_no_check_in_is_open() -> None:
    assert plain_text(say.no_open(date(2026, 4, 12))) == "No check-in is open. The next comes Sun 12 April."
    assert plain_text(say.no_open(None)) == "No check-in is open."
