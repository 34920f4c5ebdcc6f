"""The plan of a week, in words."""

from datetime import date

from setting_out import labels, plain_text

from bot.render import plan_week as say
from bot.render.moving import Move
from bot.render.setting_up import Buttons
from core.programme.replanning import How

BUTTONS = Buttons(1, 0)
FIRST, LAST = date(2026, 4, 13), date(2026, 4, 19)
LINES = (say.Line(1, date(2026, 4, 13), "Pull"), say.Line(2, date(2026, 4, 16), "Push & press"))


def test_the_week_with_a_button_for_each_session() -> None:
    message = say.week(LINES, FIRST, LAST, BUTTONS, movable=True, silent=False)

    assert plain_text(message) == (
        "Your week, Mon 13 April to Sun 19 April\n\n"
        "Mon 13 April  Pull\nThu 16 April  Push & press\n\n"
        "All stays as it is unless you move something, also without an answer."
    )
    assert labels(message) == ["Keep", "Move Mon Pull", "Move Thu Push & press"]
    assert not message.silent
    assert "Push &amp; press" in message.html


def test_after_a_move_it_can_be_taken_back() -> None:
    message = say.week(
        LINES, FIRST, LAST, BUTTONS, movable=True, note="Pull moved to Tue 14 April.", undo=True
    )

    assert plain_text(message).split("\n\n")[1] == "Pull moved to Tue 14 April."
    assert labels(message) == ["That is all", "Move Mon Pull", "Move Thu Push & press", "Undo"]


def test_next_in_line_there_is_nothing_to_move() -> None:
    message = say.week(LINES, FIRST, LAST, BUTTONS, movable=False)

    assert plain_text(message).endswith(
        "What comes next comes on your next training day. /settings changes your days."
    )
    assert labels(message) == ["Keep"]


def test_the_dates_of_a_session() -> None:
    slide = Move(How.SLIDE, date(2026, 4, 18), FIRST)
    both = Move(
        How.SLIDE_BOTH,
        date(2026, 4, 17),
        FIRST,
        other="Lower B",
        other_from=date(2026, 4, 17),
        other_on=date(2026, 4, 18),
    )
    message = say.dates(LINES[1], [slide, both], BUTTONS, note="A note.")

    assert plain_text(message) == (
        "Push & press, Thu 16 April\n\nA note.\n\n"
        "Fri 17 and Sat 18 April: this one on Fri 17 April, and Lower B on Sat 18 April in place of Fri 17 April.\n\n"
        "Which day instead?"
    )
    assert labels(message) == ["Sat 18 April", "Fri 17 and Sat 18 April", "Back"]
    assert say.moved(LINES[0], slide) == "Pull moved to Sat 18 April."
    assert say.moved(LINES[0], both) == "Pull moved to Fri 17 April. Lower B moves to Sat 18 April."


def test_no_date_at_all() -> None:
    message = say.dates(LINES[0], [], BUTTONS)

    assert plain_text(message) == "Pull, Mon 13 April\n\nNo other day of its week fits. It stays."
    assert labels(message) == ["Back"]


def test_what_is_said_at_the_end() -> None:
    assert plain_text(say.kept(LINES[:1], FIRST, LAST)) == (
        "Your week, Mon 13 April to Sun 19 April\n\nMon 13 April  Pull\n\nIt stands. /plan opens it again."
    )
    assert plain_text(say.nothing(FIRST, LAST)) == (
        "Mon 13 April to Sun 19 April\n\nNo session is planned that could move."
    )
    assert plain_text(say.over()) == "This plan is from before. /plan shows the coming week."
    assert plain_text(say.on_hold()) == (
        "Your plan is on hold, so there is no week to plan. Your coach releases it."
    )
