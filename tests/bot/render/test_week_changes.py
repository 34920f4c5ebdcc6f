from setting_out import labels, plain_text

from bot.messages import Message
from bot.render import week_changes as say
from bot.render.setting_up import Buttons
from core.programme.problems import Code, Place, problem

BUTTONS = Buttons(7, 0)
EVIL = "<b>x</b>"


def test_who_and_which_week_are_asked() -> None:
    assert plain_text(say.whose(["Ada", "Ben"])) == (
        "Whose week? Write the name with it:\n/change Ada\n/change Ben"
    )
    assert plain_text(say.whose([f"C{number}" for number in range(42)])).endswith(
        "/change C39\n… and 2 more."
    )
    card = say.which_week("Ada", "Tide", [3, 4], [4], BUTTONS, "Old.")
    assert plain_text(card) == (
        "Old.\n\nAda, Tide: which week do you change for Ada alone? Tap, or type /change Ada, 3."
    )
    assert labels(card) == ["Week 3", "Week 4, changed"]


def test_the_file_says_what_it_is_for() -> None:
    assert plain_text(Message(say.copy("Ada", "Tide", 3, begun=True))) == (
        "Ada, week 3 of Tide. Change it and send it back: it holds for Ada alone, and a new version of the block "
        "keeps it. What was sent of it stays as it was."
    )


def test_a_preview_says_what_is_different_and_what_is_worth_another_look() -> None:
    warning = problem(Code.ROWS_HIDDEN, Place(), rows="3")
    card = say.preview("Ada", "Tide", 3, ["one", "two"], [warning], BUTTONS, back_to_block=False)

    assert plain_text(card) == (
        "Ada, week 3 of Tide, for Ada alone\n\nWhat is different\n• one\n• two\n\nWorth another look\n"
        "• Hidden rows were read like the others: 3.\n\n"
        "What was sent stays as it was. A new version keeps this week."
    )
    assert labels(card) == ["Apply", "Leave it"]
    back = say.preview("Ada", "Tide", 3, ["one"], [], BUTTONS, back_to_block=True)
    assert plain_text(back).endswith("What was sent stays as it was. That is the block's own week again.")


def test_what_was_done_is_said() -> None:
    texts = [
        say.applied("Ada", "Tide", 3, BUTTONS, back_to_block=False),
        say.applied("Ada", "Tide", 3, BUTTONS, back_to_block=True),
        say.taken_back("Ada", "Tide", 3),
        say.too_late("Ada", 3),
        say.left("Ada", 3),
        say.nothing_different("Ada", 3),
        say.not_to_come("Ada", 9, [3, 4]),
        say.nothing_to_come("Ada", "Tide"),
        say.no_block("Ada"),
    ]

    assert [plain_text(each) for each in texts] == [
        "Week 3 of Tide is changed for Ada alone.",
        "Week 3 of Tide is as in the block again for Ada.",
        "Taken back. Week 3 of Tide is for Ada as it was before.",
        "Something of week 3 was sent to Ada since, or it was changed again, so it stays.",
        "Left. Week 3 of Ada stays as it is.",
        "Week 3 of Ada is like that already. Nothing was changed.",
        "Week 9 cannot be changed for Ada. Still to come: weeks 3–4.",
        "Nothing of Tide is still to come for Ada.",
        "Ada runs no block now. /assign puts a client on one.",
    ]
    assert say.weeks_alone("Ada", [3]) == "Week 3 is changed for Ada alone."
    assert say.weeks_alone("Ada", [3, 5]) == "Weeks 3, 5 are changed for Ada alone."
    assert plain_text(Message(say.for_alone(["Ada", "Ben"], 3))) == (
        "This week is changed for Ada, Ben alone: /change Ada, 3 shows it."
    )


def test_what_a_person_wrote_is_only_text() -> None:
    texts = (
        say.whose([EVIL]).html,
        say.no_block(EVIL).html,
        say.nothing_to_come(EVIL, EVIL).html,
        say.not_to_come(EVIL, 1, [2]).html,
        say.which_week(EVIL, EVIL, [1], [], BUTTONS).html,
        say.copy(EVIL, EVIL, 1, begun=False),
        say.nothing_different(EVIL, 1).html,
        say.preview(EVIL, EVIL, 1, [], [], BUTTONS, back_to_block=True).html,
        say.applied(EVIL, EVIL, 1, BUTTONS, back_to_block=False).html,
        say.taken_back(EVIL, EVIL, 1).html,
        say.too_late(EVIL, 1).html,
        say.left(EVIL, 1).html,
        say.for_alone([EVIL], 1),
        say.weeks_alone(EVIL, [1]),
    )

    assert all("<b>x" not in text and "&lt;b&gt;x" in text for text in texts)
