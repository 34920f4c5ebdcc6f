"""The story, played as anybody plays it, and again with another hash seed, on PostgreSQL where there is one."""

import json
import re
import sqlite3
from itertools import zip_longest
from pathlib import Path
from typing import Any

import pytest
from reading import FEWEST, fixed_lines, grade, sentences, word_count
from scenario.features import (
    ASTRID,
    BETH,
    ERIK,
    FEATURES,
    INGRID,
    JONAS,
    JONAS_NEW,
    LARS,
    MARIT,
    MAYA,
    NUNO,
    OWEN,
    SUNNIVA,
    TOM,
    Feature,
)
from scenario.plays import Played, Story

ROOT = Path(__file__).parents[2]
HARDEST = 8
"""Flesch-Kincaid grade."""
HERS = (INGRID, TOM, NUNO, LARS, ASTRID, JONAS, MAYA, ERIK, SUNNIVA, JONAS_NEW)
"""The chats of Marit's clients."""


@pytest.fixture(scope="module")
def messages(played: Played) -> list[dict[str, Any]]:
    return [json.loads(line) for line in played.said.splitlines()]


def texts(messages: list[dict[str, Any]], *chats: int, sender: str = "bot") -> list[str]:
    return [each["text"] for each in messages if each["chat"] in chats and each["from"] == sender]


def unlike(one: bytes, other: bytes) -> list[tuple[bytes, bytes]]:
    """The first lines in which two plays differ."""
    both = zip_longest(one.splitlines(), other.splitlines(), fillvalue=b"")
    return [pair for pair in both if pair[0] != pair[1]][:3]


def test_both_plays_say_the_same(played: Played, story: Story) -> None:
    assert len(played.said) > 200_000
    assert unlike(played.said, story.said) == []


def test_it_prints_days_changed_loads_alerts_a_digest_and_where_everything_is(played):
    printed = played.printed
    for words in (
        "Ingrid's Monday, as she sees it",
        "Jonas stands a watch",
        "went up, and why",
        "pain brought down",
        "Back from the sea",
        "What reached the coach",
        "Her digest, Sunday at six",
        "plimsoll serve",
    ):
        assert words in printed
    assert str(played.called / "messages.jsonl") in printed
    assert (played.folder / "plimsoll.db").stat().st_size > 100_000
    assert (played.folder / "digest.png").read_bytes().startswith(b"\x89PNG")


def test_a_card_comes_on_her_own_day_at_her_own_hour(messages):
    card = next(
        each for each in messages if each["chat"] == INGRID and each["text"].startswith("Lower A · week")
    )
    assert card["at"] == "2026-04-13T15:00:00+00:00"
    assert "Hip thrust  4 × 8 at 90 kg" in card["text"]
    assert ["All done as written"] in card["buttons"]


def test_a_card_follows_somebody_who_travels(messages):
    when = {
        each["at"][:16]
        for each in messages
        if each["chat"] == NUNO and each["kind"] == "text" and each["text"].startswith("Lower A · week")
    }
    assert {"2026-04-13T18:00", "2026-04-20T18:00", "2026-04-27T17:00", "2026-05-04T18:00"} <= when


def test_a_typed_reply_is_said_back_as_it_was_read(messages):
    typed = next(number for number, each in enumerate(messages) if each["text"] == "40 15 14 13")
    answer = next(
        each
        for each in messages[typed:]
        if each["chat"] == INGRID
        and each["from"] == "bot"
        and "Noted: Calf raise 40 kg × 15 14 13" in each["text"]
    )
    assert answer["silent"]


def test_a_slip_of_the_finger_is_asked_about_and_not_kept(messages):
    asked = [each for each in messages if each["chat"] == INGRID and "62.5 kg" in str(each["buttons"])]
    assert asked
    assert not any("Noted: Bench press 625" in text for text in texts(messages, INGRID))


def cards(messages: list[dict[str, Any]], chat: int, title: str) -> list[str]:
    """The cards of a day of the block, week by week, as they came, without what is said of a break before them."""
    came = [
        each["text"]
        for each in messages
        if each["chat"] == chat and each["kind"] == "text" and not each["silent"]
    ]
    begun = re.compile(rf"^{re.escape(title)} · week", re.MULTILINE)
    return [text[found.start() :] for text in came if (found := begun.search(text))]


def line(card: str, exercise: str) -> str:
    return next(each for each in card.splitlines() if exercise in each)


def test_a_load_goes_up_with_its_true_reason(messages):
    first, second = cards(messages, INGRID, "Push")[:2]
    assert "Bench press  4 × 6 at 60 kg" in first
    assert "Bench press  4 × 6 at 62.5 kg\n     last time 60 kg × 8 8 8 8" in second
    reason = "From 60 kg to 62.5 kg: all 4 sets reached 8 reps."
    assert any(f"Bench press next time: 62.5 kg. {reason}" in text for text in texts(messages, INGRID))
    assert any(f"A  Bench press: {reason}" in text for text in texts(messages, INGRID))


def test_after_the_lighter_week_the_load_goes_on_from_before_it(messages):
    found = [line(each, "Hip thrust") for each in cards(messages, INGRID, "Lower A")]
    assert [each.partition(" at ")[2] for each in found[2:5]] == ["92.5 kg", "82.5 kg", "97.5 kg"]
    said = "The lighter week is over: on from 92.5 kg, the load of Mon 27 April."
    assert any(said in text for text in texts(messages, INGRID))


def test_a_load_is_lowered_for_pain_and_rises_again_only_long_after(messages):
    [why, *_] = [text for text in texts(messages, TOM) if "B1  Reverse lunge: " in text]
    assert "Reverse lunge: 20 % less because of left knee (4 of 10, Mon 13 April)" in why
    squats = [line(each, "Goblet squat") for each in cards(messages, TOM, "Squat day")]
    loads = [int(each.partition(" at ")[2].split()[0]) for each in squats]
    assert loads[0] == 40
    assert max(loads[:4]) == 40
    assert loads[4:] == [40, 45]


def test_a_session_without_time_moves_or_gives_its_main_lift_to_another(messages):
    moved = cards(messages, INGRID, "Pull")[2]
    assert moved.startswith("Pull · week 2 of 6 · Base · Sat 25 April\nMoved from Fri 24 April.")
    merged = cards(messages, JONAS, "Full C")[3]
    assert "With deadlift from Full B (Wed 6 May)." in merged
    assert "Deadlift  3 × 5 at 82.5 kg" in merged


def test_who_was_away_for_weeks_comes_back_to_less(messages):
    back = next(each for each in cards(messages, ASTRID, "Lower A") if "Mon 11 May" in each)
    assert "Hip thrust  2 × 6 at 80 kg\n     last time 90 kg × 8 8 8 8" in back


def test_the_coach_hears_of_pain_of_a_stop_sign_and_of_a_silence_once_each(messages):
    heard = [each["text"] for each in messages if each["chat"] == MARIT and each["kind"] == "text"]
    for words in ("Tom: left knee, 4 of 10", "Lars: stop sign.", "Maya has not answered the last 3 cards."):
        assert sum(text.startswith(words) for text in heard) == 1


def test_a_stop_sign_gets_its_fixed_text_within_the_same_minute(messages):
    said = next(each for each in messages if each["text"].startswith("my chest feels tight"))
    answer = next(
        each
        for each in messages
        if each["chat"] == LARS and each["at"] >= said["at"] and "emergency number" in each["text"]
    )
    assert answer["at"] == said["at"]


def test_no_card_comes_until_the_coach_releases_the_plan(messages):
    said = next(each["at"] for each in messages if each["text"].startswith("my chest feels tight"))
    when = [
        each["at"]
        for each in messages
        if each["chat"] == LARS
        and each["kind"] == "text"
        and " · week " in each["text"]
        and each["at"] > said
    ]
    assert min(when) == "2026-05-11T16:00:00+00:00"
    released = next(each["at"] for each in messages if each["text"] == "Yes, release")
    assert released < min(when)


def test_no_more_cards_come_to_who_is_silent_until_she_speaks(messages):
    mine = [each for each in messages if each["chat"] == MAYA and each["kind"] == "text"]
    stopped = next(each["at"] for each in mine if "so I send no more for now" in each["text"])
    spoke = next(each["at"] for each in mine if each["text"].startswith("Life."))
    between = [each["text"] for each in mine if stopped < each["at"] < spoke]
    assert not [text for text in between if " · week " in text]
    assert [text for text in texts(messages, MAYA) if text.startswith("Full B · week 6 of 6")]


def test_there_is_a_digest_for_each_of_the_six_weeks_with_its_picture(messages):
    mine = [each for each in messages if each["chat"] == MARIT and each["from"] == "bot"]
    digests = [each for each in mine if each["kind"] == "text" and " sessions due." in each["text"]]
    pictures = [each for each in mine if each["kind"] == "photo" and "kept of due" in each["text"]]
    sundays = [f"2026-{day}T16:00" for day in ("04-19", "04-26", "05-03", "05-10", "05-17", "05-24")]
    assert [each["at"][:16] for each in digests] == sundays
    assert [each["at"][:16] for each in pictures] == sundays


def test_what_is_missed_comes_next_in_line_where_the_coach_chose_so(messages):
    assert any("It comes again on Sat 2 May." in text for text in texts(messages, BETH))
    again = next(each for each in cards(messages, BETH, "Press day") if "Sat 2 May" in each)
    assert "week 3 of 4" in again


def test_neither_coach_sees_anything_of_the_other_one_s_people(messages):
    hers = ("Ingrid", "Tom", "Nuno", "Lars", "Astrid", "Jonas", "Maya", "Erik", "Sunniva", "Marit")
    marits = texts(messages, MARIT, *HERS)
    owens = texts(messages, OWEN, BETH)
    assert not [text for text in marits if "Beth" in text or "Owen" in text]
    assert not [text for text in owens if any(name in text for name in hers)]
    assert any("Beth" in text for text in owens)


@pytest.mark.parametrize("feature", FEATURES, ids=lambda feature: feature.name.replace(" ", "-"))
def test_each_feature_of_the_clients_side_is_played(messages, feature: Feature):
    assert any(feature.words in text for text in texts(messages, feature.chat))


def test_the_words_of_a_feature_are_of_that_feature_alone():
    assert len({(feature.chat, feature.words) for feature in FEATURES}) == len(FEATURES)
    assert len({feature.name for feature in FEATURES}) == len(FEATURES)


def test_a_jump_and_a_session_left_for_hours_go_on_where_they_were(messages):
    jumped = next(number for number, each in enumerate(messages) if each["text"] == "go to leg curl")
    card = next(each["text"] for each in messages[jumped + 1 :] if each["chat"] == INGRID)
    assert "B2  Leg curl  3 × 10 at 35 kg" in card
    late = next(
        number for number, each in enumerate(messages) if each["text"].startswith("12 12/12 12/12 12/12")
    )
    assert messages[late]["at"] == "2026-05-07T19:40:00+00:00"
    card = next(each["text"] for each in messages[late + 1 :] if each["chat"] == INGRID)
    assert card.startswith("Noted: Split squat 12 kg × 12 12 12 each side.")


@pytest.fixture(scope="module")
def htmls(played: Played) -> dict[int, list[str]]:
    """Each different text that went out, with its markup, by chat."""
    with sqlite3.connect(played.folder / "plimsoll.db") as database:
        rows = database.execute(
            "SELECT chat_id, body FROM outbox WHERE state = 'sent' ORDER BY id"
        ).fetchall()
    found: dict[int, dict[str, None]] = {}
    for chat, body in rows:
        found.setdefault(chat, {})[(json.loads(body or "{}") or {}).get("html") or ""] = None
    return {chat: list(said) for chat, said in found.items()}


def test_every_message_reads_at_lower_secondary_level(htmls):
    # Those of under twelve words are measured together, one chat at a time: one long word would decide alone.
    every = [html for said in htmls.values() for html in said]
    hard = [
        (round(grade(html), 1), sentences(html))
        for html in every
        if word_count(html) >= FEWEST and grade(html) > HARDEST
    ]
    together = {
        chat: grade(*(html for html in said if word_count(html) < FEWEST)) for chat, said in htmls.items()
    }

    assert hard == []
    assert [chat for chat, hardness in together.items() if hardness > HARDEST] == []
    assert {MARIT, *HERS} - {ERIK} <= set(htmls)  # what went to Erik is deleted
    assert sum(word_count(html) >= FEWEST for html in every) > 300


def test_a_line_of_fixed_width_fits_the_screen_of_a_phone(htmls):
    lines = [line for said in htmls.values() for html in said for line in fixed_lines(html)]

    assert len(lines) > 50
    assert [line for line in lines if len(line) > 32] == []
