"""A client's card and log, in words: what stands, never longer than a message may be."""

from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time

import pytest
from rows import each_row
from setting_out import labels, plain_text

from bot.render.client_file import Buttons, ClientView, Coming, client_card
from bot.render.client_log import DoneSession, log, report_line
from core.oversight.season import Span, SpanKind

DAY = date(2026, 4, 7)
VIEW = ClientView(
    name="Ada",
    block=None,
    week=0,
    weeks=0,
    days=(1, 3),
    hour=time(7),
    zone="Europe/Lisbon",
    on_hold=None,
    reachable=True,
    state="active",
    kit="dumbbells",
    alone=False,
    card_out=None,
    sessions=(),
    pain=(),
    stop_signs=(),
    orders=(),
    coming=None,
    can_correct=False,
    release=(),
    note=None,
)


@dataclass(frozen=True)
class Said:
    kind: str = "pain"
    site: str | None = "knee"
    side: str | None = "L"
    score: int | None = 4
    exercise: str | None = None
    sudden: bool = False
    spreading: bool = False
    released_at: datetime | None = None
    local_on: date = DAY


def span(kind: str, name: str, first: int, last: int) -> Span:
    return Span(kind=SpanKind(kind), name=name, first=date(2026, 4, first), last=date(2026, 4, last))


def shown(**changes: object) -> str:
    return plain_text(client_card(replace(VIEW, **changes), Buttons(1, 0)))


@each_row(
    ("changes", "line"),
    [
        ({"on_hold": DAY}, "The plan is on hold since Tue 7 April. Only you can release it."),
        (
            {"on_hold": DAY, "coming": Coming("Lower", DAY, ())},
            "No card goes out while the plan is on hold. The next one laid out is Lower, Tue 7 April.",
        ),
        (
            {"stop_signs": (Said(kind="stop_sign", site=None, score=None),)},
            "Stop sign, not released (Tue 7 April).",
        ),
        ({"state": "joining"}, "Still joining."),
        ({"state": "paused"}, "Paused: no cards go out."),
        ({"reachable": False}, "Has blocked me: nothing arrives there."),
        ({"alone": True}, "Trains alone without safety arms: always 2 or more left under a bar."),
        ({"block": "Harbour", "week": 5, "weeks": 4}, "Ada · Harbour, over"),
        ({}, "No session is laid out."),
        ({"limits": ("By a doctor: no < 1.",)}, "By a doctor: no < 1."),
        (
            {"ahead": (span("holiday", "Crete", 7, 10),), "today": DAY},
            "Holiday Crete: 7 to 10 April, now",
        ),
        (
            {"ahead": (span("away", "", 9, 9),), "today": DAY},
            "Away: Thu 9 April, in 2 days",
        ),
        (
            {"ahead": (span("event", "10k row", 20, 20),), "today": DAY},
            "Event 10k row: Mon 20 April, in 1 week and 6 days",
        ),
        (
            {"pain": (Said(), Said(score=None, spreading=True))},
            "left knee: 4 (7/4), no number spreading (7/4)",
        ),
        (
            {"card_out": DoneSession("Lower", 1, DAY, "sent", ())},
            "Tue 7 April, Lower, week 1: card out, not begun",
        ),
    ],
)
def test_what_stands_is_said(changes: dict, line: str) -> None:
    assert line in shown(**changes).splitlines()


def test_only_what_can_be_done_has_a_button() -> None:
    assert labels(client_card(VIEW, Buttons(1, 0))) == [
        "Write to them",
        "Show the log",
        "Ask for a video",
        "Progress",
        "Report",
        "Log as a file",
        "Why",
    ]


def test_a_card_that_would_be_too_long_loses_its_oldest_sessions() -> None:
    long = tuple(DoneSession("L" * 1500, week, DAY, "missed", ()) for week in (3, 2, 1))

    text = shown(sessions=long)

    assert len(text) <= 4096
    assert [f"week {week}: missed" in text for week in (3, 2, 1)] == [True, True, False]


def test_what_is_ruled_out_stands_first_and_even_on_a_card_that_is_too_long() -> None:
    assert shown(limits=("By you: no hanging.",)).split("\n\n")[1:3] == [
        "Ruled out or limited\nBy you: no hanging.",
        "No session is laid out.",
    ]
    assert shown(note="n" * 5000, limits=("By you: no hanging.",)).endswith("By you: no hanging.")


def test_a_card_that_is_too_long_without_them_says_at_least_who_and_where() -> None:
    assert shown(note="n" * 5000) == "Ada · no block\nTue Thu at 07:00, clock of Lisbon\nDumbbells."


@pytest.mark.parametrize(
    ("said", "line"),
    [
        (Said(), "Pain: left knee 4 of 10"),
        (Said(score=None, sudden=True), "Pain: left knee no number, sudden"),
        (Said(exercise="back-squat", spreading=True), "Pain: left knee 4 of 10, spreading, back squat"),
        (Said(kind="soreness", site="quads", score=6), "Sore: quads 6"),
        (Said(kind="soreness", site=None, score=None), "Sore: muscles"),
        (Said(kind="stop_sign"), "Stop sign, not released"),
        (Said(kind="stop_sign", released_at=datetime(2026, 4, 8, tzinfo=UTC)), "Stop sign, released"),
    ],
)
def test_what_was_said_of_the_body_stands_in_the_log(said: Said, line: str) -> None:
    assert report_line(said) == line


def test_a_long_log_stands_on_several_messages() -> None:
    days = [(date(2026, 4, number), [f"line {number} " * 80]) for number in range(1, 15)]

    pages = log("Ada", 14, days)

    assert len(pages) > 2
    assert all(len(page.html) <= 4096 for page in pages)
    assert [
        number for number in range(1, 15) if not any(f"line {number} " in page.html for page in pages)
    ] == []
    assert plain_text(log("Ada", 14, [])[0]) == "Ada, the last 14 days\n\nNothing yet."


def test_a_client_is_not_passed_on_by_a_slip() -> None:
    pages = log("Ada", 14, [(DAY, ["left knee 4"])])

    assert all(each.protect for each in (*pages, client_card(VIEW, Buttons(1, 0))))
