"""A coach's questions, in words."""

from setting_out import labels, plain_text

from bot.render import check_in as say
from bot.render.setting_up import Buttons
from core.checkin.check_in import CHECK_IN, Kind

BUTTONS = Buttons(1, 0)


def test_every_kind_has_its_words() -> None:
    assert set(say.KINDS) == set(Kind)


def test_the_list_with_what_can_be_changed() -> None:
    message = say.listed(CHECK_IN[:2], "Sunday", ["Ada"], BUTTONS, "Changed.")

    assert plain_text(message) == (
        "Your check-in, Sunday, at most 4 questions\n\n"
        "Changed.\n\n"
        "1. How was your training week? (five words, very hard to very easy)\n"
        "2. How were sleep and stress? (sleep and stress, three words each)\n\n"
        "Not asked: Ada.\n\n"
        "The day is in /settings. /checkin off NAME leaves somebody out."
    )
    assert labels(message) == [
        "Change 1",
        "Take out 1",
        "Change 2",
        "Take out 2",
        "Add one",
        "As it was at first",
    ]


def test_no_question_at_all_is_said() -> None:
    message = say.listed((), "Monday", [], BUTTONS)

    assert "No question, so nobody is asked." in plain_text(message)
    assert labels(message) == ["Add one", "As it was at first"]


def test_four_questions_leave_no_room() -> None:
    assert "Add one" not in labels(say.listed(CHECK_IN, "Sunday", [], BUTTONS))


def test_one_question() -> None:
    message = say.one(3, CHECK_IN[2], BUTTONS, "A note.")

    assert plain_text(message) == (
        "Question 3\nIs anything worrying you? (a free line)\n\nA note.\n\n"
        "Type its new words, or choose how it is answered."
    )
    assert labels(message) == [
        "As five words, very bad to very good",
        "As yes or no",
        "As a free line",
        "Back",
    ]


def test_the_rest_of_its_words() -> None:
    assert plain_text(say.adding(BUTTONS)) == (
        "Type the new question. Put five words:, yes or no: or free line: first, if you like."
    )
    assert say.turned("<A>", on=True) == "&lt;A&gt; is asked again."
    assert say.turned("Ada", on=False) == "Ada is not asked any more."
    assert say.unknown("Zoe", ["Ada", "Cleo"]) == "Who is Zoe? Yours: Ada, Cleo. Nothing was changed."
    assert plain_text(say.closed()) == "This list is from before. /checkin shows it as it is now."
