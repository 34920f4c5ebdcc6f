from dataclasses import replace
from datetime import date, time

from bot.messages import Action, decode
from bot.render.setting_up import MOST_BUTTONS, Buttons, Summary, invitation, summary_card, which_client
from core.programme.block import Weekday
from core.programme.exercises import Pattern
from core.programme.spacing_checks import ClosePair

BUTTONS = Buttons(prompt_id=7, revision=3)
SUMMARY = Summary(
    client="Ada",
    block="Harbour <strength>",
    weeks=1,
    needed=2,
    first_week=[(date(2026, 4, 13), "Lower & more"), (date(2026, 4, 16), "Upper")],
    days=[0, 3],
    hour=time(7),
    zone="Europe/Lisbon",
    fitted=["\nChanged for Ada:", "Back squat → goblet squat: no bar at home"],
    ends="Winter",
    goes_on=False,
    frozen=True,
)


def test_the_summary_says_all_that_it_comes_to() -> None:
    assert summary_card(SUMMARY, BUTTONS, None).html == (
        "<b>Ada: Harbour &lt;strength&gt;</b>, 1 week\n"
        "First week at 07:00, clock of Lisbon:\n"
        "Mon 13 April: Lower &amp; more\n"
        "Thu 16 April: Upper\n"
        "\n"
        "Changed for Ada:\n"
        "Back squat → goblet squat: no bar at home\n"
        "\n"
        "Ends what Ada runs now: Winter.\n"
        "\n"
        "Ada's plan is on hold; no session goes out until you release it."
    )


def test_the_summary_names_sessions_that_come_close() -> None:
    pair = ClosePair(
        days=(("Lower & more", Weekday.SUN), ("Upper", Weekday.MON)),
        patterns=(Pattern.SQUAT, Pattern.HINGE),
        weeks=(1, 2, 4),
    )
    html = summary_card(replace(SUMMARY, close=[pair] * 9), BUTTONS, None).html

    assert (
        "\n\nLess than 48 h apart:\n"
        "Lower &amp; more (Sun) and Upper (Mon), both heavy: squat, hinge; week 1-2, 4\n"
    ) in html
    assert html.count("both heavy") == 4


def test_the_buttons_of_the_summary_start_it_leave_it_or_go_back() -> None:
    rows = summary_card(SUMMARY, BUTTONS, None).rows
    taps = [decode(button.data or "") for row in rows for button in row]
    assert [tap.action for tap in taps if tap] == [Action.CONFIRM, Action.CANCEL, Action.BACK]


def test_a_long_roster_keeps_to_the_buttons_that_fit_and_takes_a_typed_name() -> None:
    clients = [(number, f"{'Ada ' * 15}{number}") for number in range(200)]
    message = which_client(clients, BUTTONS, None)
    buttons = [button for row in message.rows for button in row]
    assert len(buttons) == MOST_BUTTONS
    assert all(len(button.label) <= 40 for button in buttons)
    assert "type the name" in message.html


def test_an_invitation_escapes_names_and_leaves_the_link_whole() -> None:
    assert invitation("<Ada>", "M&m", "plimsoll_story_bot", "abc234").html == (
        "Hello &lt;Ada&gt;, M&amp;m would like to send you your training here. Open this link:\n"
        "https://t.me/plimsoll_story_bot?start=abc234\n\n"
        "Or write to @plimsoll_story_bot: <code>/start abc234</code>"
    )
