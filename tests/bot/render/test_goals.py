"""Goals, in words."""

from datetime import date

from setting_out import labels, plain_text

from bot.render import goals as say
from bot.render.setting_up import Buttons

BUTTONS = Buttons(1, 0)
GOALS = (say.Line("deadlift 100", date(2026, 6, 1)), say.Line("a < b"))


def test_no_goal_yet() -> None:
    message = say.listed((), BUTTONS)

    assert plain_text(message) == "Your goals\n\nNo goal yet."
    assert labels(message) == ["Add a goal"]


def test_the_list_with_what_can_be_done() -> None:
    message = say.listed(GOALS, BUTTONS, note="Added.", undo=True)

    assert plain_text(message) == "Your goals\n\nAdded.\n\n1. deadlift 100, by 1 June 2026\n2. a < b"
    assert labels(message) == [
        "1 reached",
        "1 given up",
        "1 change",
        "2 reached",
        "2 given up",
        "2 change",
        "Add a goal",
        "Undo",
    ]
    assert "a &lt; b" in message.html


def test_three_goals_leave_no_room() -> None:
    assert "Add a goal" not in labels(say.listed((*GOALS, GOALS[1]), BUTTONS))


def test_while_it_is_asked_there_is_only_the_way_back() -> None:
    message = say.listed(GOALS[:1], BUTTONS, asks=say.HOW)

    assert plain_text(message).endswith(
        "Type it in one line, with a date if you like: deadlift 100 by 1 June."
    )
    assert labels(message) == ["Back"]


def test_what_a_coach_reads_and_sends() -> None:
    assert plain_text(say.usage()) == "Write it like /goal Ada deadlift 100 by 1 June. /client shows goals."
    assert (
        plain_text(say.unknown("Zoe", ["Ada"]))
        == "Whose goal is that? I read Zoe. Yours: Ada. Nothing was changed."
    )
    assert plain_text(say.added_for("Ada", GOALS[0])) == (
        "A goal for Ada: deadlift 100, by 1 June 2026. /goals shows it there."
    )
    assert plain_text(say.refused("Ada", "Why.")) == "Ada: Why."
    assert plain_text(say.from_coach("Marit", GOALS[1])) == (
        "Marit has put a goal for you: a < b.\n/goals shows and changes it."
    )
    assert say.for_file(GOALS) == "Goals: deadlift 100, by 1 June 2026; a &lt; b."


def test_a_date_and_an_old_card() -> None:
    assert say.unread_date("6/7/2026") == (
        "I could not read the date 6/7/2026. Write it like <code>by 1 June</code>. Nothing was changed."
    )
    assert plain_text(say.closed()) == "These goals are from before. /goals shows them as they are now."
