from datetime import date
from typing import Any

import pytest
from setting_out import labels, plain_text

from bot.messages import Message
from bot.render import versions as say
from bot.render.setting_up import Buttons
from core.programme.versions import Stays

MONDAY = date(2026, 4, 20)
BUTTONS = Buttons(7, 0)


def client(**more: Any) -> say.ForClient:
    facts = {"name": "Ada", "number": 1, "from_on": MONDAY, "week": 3, "weeks": (4, 4), "changed": 2}
    return say.ForClient(**facts | more)


LINES = [
    ({}, "Ada: from Mon 20 April, week 3 of 4. 2 sessions change."),
    ({"changed": 1}, "Ada: from Mon 20 April, week 3 of 4. 1 session changes."),
    ({"changed": 0}, "Ada: from Mon 20 April, week 3 of 4. Nothing that is still to come changes."),
    ({"changed": 0, "weeks": (4, 6)}, "Ada: from Mon 20 April, week 3 of 6 instead of 4."),
    ({"week": 0}, "Ada: from Mon 20 April. Nothing of the block is left to change."),
    (
        {"week": 0, "weeks": (4, 1)},
        "Ada: from Mon 20 April. Nothing comes from then on: 1 week instead of 4.",
    ),
    (
        {"name": "<b>", "paused": True, "on_hold": True},
        "<b> (paused) (on hold): from Mon 20 April, week 3 of 4. 2 sessions change.",
    ),
    (
        {"changed": 0, "added": (("Core", 1),), "gone": (("Pull", 2), ("Push", 1))},
        "Ada: from Mon 20 April, week 3 of 4. New: Core (1 session). Gone: Pull (2 sessions), Push (1 session).",
    ),
    (
        {
            "alone": (
                Stays(week=3),
                Stays(week=4),
                Stays(week=5, days_gone=("Pull", "Core")),
                Stays(week=6, gone=True),
            )
        },
        (
            "Ada: from Mon 20 April, week 3 of 4. 2 sessions change. Weeks 3–4 stay as changed for Ada alone. "
            "Week 5 stays as changed for Ada alone; gone from it: Pull, Core. "
            "Week 6, changed for Ada alone, is gone: the version is shorter."
        ),
    ),
    (
        {"too_few": (4, 1)},
        "Ada trains on 1 day, and this version has 4 sessions a week: stays on version 1.",
    ),
]


@pytest.mark.parametrize(("facts", "line"), LINES)
def test_what_changes_for_a_client_is_one_line(facts: dict[str, Any], line: str) -> None:
    assert plain_text(Message(say.client_line(client(**facts)))) == line


def test_the_question_names_who_runs_an_earlier_version() -> None:
    one = say.ask("Tide", 2, ["Ada"], MONDAY, BUTTONS)
    many = say.ask("Tide", 2, [f"C{number}" for number in range(10)], MONDAY, BUTTONS, "Again.")

    assert plain_text(one) == (
        "Tide: Ada runs an earlier version. From when does version 2 hold? What was sent stays as it was.\n"
        "Tap, or type next week, today, a date like 2026-04-20, or new clients."
    )
    assert plain_text(many).startswith(
        "Again.\n\nTide: C0, C1, C2, C3, C4, C5, C6, C7 and 2 more run an earlier"
    )
    assert labels(one) == ["From next week", "From today on", "From a date", "Only for new clients"]


def test_a_preview_is_cut_to_a_card_and_whole_on_a_tap() -> None:
    clients = tuple(client(name=f"C{number}") for number in range(10))
    group = say.Group(1, tuple(f"line {number}" for number in range(12)), clients)
    preview = say.Preview("Tide", 2, "2026-04-20", (group, say.Group(2, (), (client(too_few=(4, 3)),))))
    card = say.summary(preview, BUTTONS)
    text = plain_text(card)

    assert text.startswith(
        "Tide, version 2, from Mon 20 April\n\nWhat is different from version 1\n• line 0\n"
    )
    assert "• … and 2 more.\n" in text
    assert "C7: from" in text
    assert "C8: from" not in text
    assert "… and 3 more.\n\nWhat was sent stays as it was." in text
    assert labels(card) == ["Apply", "Leave it", "See all", "Back"]
    whole = "\n".join(plain_text(each) for each in say.all_of_it(preview))
    assert all(f"• line {number}" in whole for number in range(12))
    assert all(f"C{number}: from" in whole for number in range(10))
    assert "Nothing is different from version 2 in what is still to come." in whole
    assert labels(say.summary(say.Preview("Tide", 2, "today", preview.groups[1:]), BUTTONS)) == [
        "Leave it",
        "Back",
    ]


def test_what_was_done_is_said_with_the_way_back() -> None:
    done = say.applied("Tide", 2, [("Ada", MONDAY)], BUTTONS, [client(name="Ben", too_few=(4, 3))], "Old.")

    assert plain_text(done) == (
        "Old.\n\nTide, version 2, holds:\nAda from Mon 20 April\n"
        "Ben trains on 3 days, and this version has 4 sessions a week: stays on version 1."
    )
    assert labels(done) == ["Take it back"]
    assert plain_text(say.taken_back("Tide", 2, ["Ada", "Ben"], ["Cleo"])) == (
        "Taken back. Tide is for Ada and Ben as it was before version 2.\n"
        "For Cleo version 2 stays: something of it was sent."
    )


def test_a_name_that_a_person_wrote_is_only_text() -> None:
    evil = "<b>x</b>"
    texts = (
        say.ask(evil, 2, [evil], MONDAY, BUTTONS).html,
        say.ask_date(evil, MONDAY, BUTTONS).html,
        say.only_new(evil, 2).html,
        say.taken_back(evil, 2, [evil], [evil]).html,
        say.client_line(client(name=evil, added=((evil, 1),), alone=(Stays(week=1, days_gone=(evil,)),))),
        say.client_line(client(name=evil, alone=(Stays(week=1, gone=True), Stays(week=2)))),
        say.applied(evil, 2, [(evil, MONDAY)], BUTTONS).html,
        say.all_of_it(say.Preview(evil, 2, "week", ()))[0].html,
    )

    assert all("<b>x" not in text and "&lt;b&gt;x" in text for text in texts)
