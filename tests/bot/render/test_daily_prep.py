"""A daily prep in words: to the coach who sets it, and to her client."""

from dataclasses import replace
from datetime import UTC, datetime

from setting_out import labels, plain_text

from bot.render.client_file import Buttons as CardButtons
from bot.render.client_file import client_card
from bot.render.clips import clip_of, listed
from bot.render.daily_prep import (
    Buttons,
    SetView,
    by_steps,
    done,
    for_file,
    nothing_now,
    read_back,
    short,
    taken_back,
)
from core.programme.daily_prep import DailyPrep, written_steps
from core.programme.drills import DRILLS
from core.programme.exercises import Site
from tests.bot.render.test_client_file import VIEW as CARD

ASKED = DailyPrep(sites=(Site.HIP,), drills=("ankle-rock", "gone"))
STEPS = written_steps(("ankle-rock", "doorway-stretch"))
VIEW = SetView(
    name="Ada & Co",
    asked=ASKED,
    steps=STEPS,
    left_out=(),
    due_at=datetime(2026, 4, 8, 6, tzinfo=UTC),
    zone="Europe/Lisbon",
)
BUTTONS = Buttons(3, 0)


def test_it_is_read_back_with_doses_hour_and_clock() -> None:
    assert plain_text(read_back(VIEW)) == (
        "Ada & Co, every day: hip, Ankle rock\n"
        "About 2 min:\n"
        "• Ankle rock  8 times a side\n"
        "• Doorway stretch  30 s\n"
        "On a training day it is part of the card's prep. On other days it comes by itself, without a sound, "
        "at 07:00, clock of Lisbon."
    )
    assert "Ada &amp; Co" in read_back(VIEW).html


def test_what_is_left_out_is_said_with_its_cause() -> None:
    view = replace(VIEW, steps=(), left_out=(Site.HIP, Site.KNEE), limited=("Cat and camel",), done=2, sent=5)

    assert plain_text(read_back(view)).splitlines()[1:4] == [
        "Left out while it hurts 4 or more: hip, knee.",
        "Left out, for it breaks a limit that was given: Cat and camel.",
        "Nothing of it is left now, so nothing goes out as long as that stands.",
    ]
    assert plain_text(read_back(view)).endswith("Tapped as done: 2 of 5 in the last 7 days.")


def test_the_client_gets_a_line_and_the_steps_on_request() -> None:
    line, steps = (
        short(STEPS, BUTTONS),
        by_steps(STEPS, {"ankle-rock": "https://clips.example/?a=1&b=2"}, BUTTONS),
    )

    assert (line.silent, steps.silent) == (True, True)
    assert plain_text(line) == "Daily prep, about 2 min: ankle, calf, shin."
    assert labels(line) == ["Step by step", "Done"]
    assert plain_text(steps) == (
        "Daily prep, about 2 min. Easy, and without pain: leave out what hurts.\n"
        "\n"
        "1  Ankle rock  8 times a side\n"
        "Toes a hand from the wall, knee towards it, heel stays down.\n"
        "See it: https://clips.example/?a=1&b=2\n"
        "\n"
        "2  Doorway stretch  30 s\n"
        f"{DRILLS['doorway-stretch'].cue}"
    )
    assert "?a=1&amp;b=2" in steps.html
    assert labels(steps) == ["Done", "Back"]


def test_done_says_what_was_done() -> None:
    assert plain_text(done(STEPS)) == "Daily prep done: ankle, calf, shin."
    assert plain_text(done(())) == "Daily prep done."
    assert plain_text(nothing_now()) == "Nothing of the daily prep today: all of it moves what hurts."


def test_taken_back_says_what_stands_now() -> None:
    assert plain_text(taken_back("Ada", ASKED)) == "Taken back. Ada: every day hip, Ankle rock, as before."
    assert plain_text(taken_back("Ada", None)) == "Taken back. Ada: no daily prep, as before."


def test_it_stands_on_the_clients_card() -> None:
    daily = for_file(ASKED, [Site.HIP])

    assert daily == "Daily prep: hip, Ankle rock (hip left out while it hurts)."
    assert daily in plain_text(client_card(replace(CARD, daily=daily), CardButtons(1, 0)))
    assert for_file(ASKED, []) == "Daily prep: hip, Ankle rock."


def test_clips_are_listed_with_how_one_is_kept() -> None:
    (none,) = listed({})
    (some,) = listed({"ankle-rock": "https://clips.example/a"})

    assert plain_text(none).splitlines() == [
        "Your clip of a prep drill is shown with it, step by step. Write the drill and the address:",
        "/clip ankle rock https://clips.example/ankle-rock",
        "/clip ankle rock stop takes it away.",
    ]
    assert plain_text(some).splitlines()[3:] == ["", "Kept", "Ankle rock: https://clips.example/a"]
    assert plain_text(clip_of(DRILLS["ankle-rock"], None)).endswith("There is no clip of it.")
