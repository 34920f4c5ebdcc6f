"""Training beside the block, as people write it: what is taken, what is asked about, what is none."""

from datetime import date

import pytest
from rows import each_row

from core.checkin.other_training_words import (
    EFFORTS,
    OtherRead,
    Trained,
    effort_read,
    kind_read,
    minutes_read,
    training_beside,
    training_read,
)

TODAY = date(2026, 4, 16)
"""A Thursday."""


def read(text: str) -> OtherRead | None:
    return training_read(text, TODAY)


@pytest.mark.parametrize(
    ("text", "kind", "minutes", "day", "effort"),
    [
        ("ran 5k", Trained.RUN, None, 16, None),
        ("Ran 5 km in 30 min", Trained.RUN, 30, 16, None),
        ("football match 90 min yesterday", Trained.MATCH, 90, 15, None),
        ("yoga class on monday", Trained.CLASS, None, 13, None),
        ("swam 1h30", Trained.SWIM, 90, 16, None),
        ("swim 1.5 h", Trained.SWIM, 90, 16, None),
        ("swim 1 h 15 min", Trained.SWIM, 75, 16, None),
        ("went for an easy run, 40 minutes", Trained.RUN, 40, 16, 2),
        ("very hard ride 2 hours last tue", Trained.RIDE, 120, 14, 5),
        ("I hiked this morning", Trained.HIKE, None, 16, None),
        ("physical work 3h", Trained.WORK, 180, 16, None),
        ("had a game tonight", Trained.MATCH, None, 16, None),
        ("thursday run 20'", Trained.RUN, 20, 16, None),
    ],
)
def test_a_line_of_known_words_is_taken(
    text: str, kind: Trained, minutes: int | None, day: int, effort: int | None
) -> None:
    found = read(text)

    assert found is not None
    assert (found.kind, found.minutes, found.on.day, found.effort) == (kind, minutes, day, effort)
    assert found.clear


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("runing 40 min", Trained.RUN),
        ("footbal 90 min", Trained.MATCH),
        ("ran 5k by the river", Trained.RUN),
        ("swim and run", Trained.SWIM),
        ("run 900 min", Trained.RUN),
    ],
)
def test_a_strange_word_two_kinds_or_a_slip_of_a_digit_are_asked_about(text: str, kind: Trained) -> None:
    found = read(text)

    assert found is not None
    assert found.kind is kind
    assert not found.clear


def test_minutes_past_belief_are_not_kept() -> None:
    found = read("run 900 min")

    assert found is not None
    assert found.minutes is None


@each_row(
    "text",
    [
        "100 8 8 8",
        "8 8 8",
        "run 3 8 8",
        "done",
        "should I go for a run?",
        "can I run tomorrow",
        "I will run",
        "no run today",
        "my knee hurts when I run",
        "knee after the run",
        "I ran out of time",
        "match is cancelled",
        "the gym was full",
        "my sister played the piano at her wedding and I went running after the cake",
        "x" * 200,
        "",
        "tired",
        "ra",
    ],
)
def test_anything_else_is_none(text: str) -> None:
    assert read(text) is None


def test_a_distance_is_seen_and_not_kept() -> None:
    assert read("ran 5k") == OtherRead(kind=Trained.RUN, on=TODAY, distance=True)
    assert read("ran 30 min") == OtherRead(kind=Trained.RUN, on=TODAY, minutes=30)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("run", Trained.RUN),
        ("Physical work", Trained.WORK),
        ("football", Trained.MATCH),
        ("other", Trained.OTHER),
        ("x", None),
    ],
)
def test_a_kind_is_read_by_its_name(text: str, kind: Trained | None) -> None:
    assert kind_read(text) is kind


def test_efforts_are_five_words_from_very_easy_to_very_hard() -> None:
    assert [effort_read(each) for each in EFFORTS] == [1, 2, 3, 4, 5]
    assert effort_read("whatever") is None


@pytest.mark.parametrize(
    ("text", "minutes"), [("45 min", 45), ("1h", 60), ("2 hrs", 120), ("45", None), ("1:30", None)]
)
def test_minutes_are_read_with_their_unit(text: str, minutes: int | None) -> None:
    assert minutes_read(text)[0] == minutes


@pytest.mark.parametrize(
    ("text", "kind", "minutes", "rest"),
    [
        ("ran 30 min, left knee 5", Trained.RUN, 30, "left knee 5"),
        ("left knee 5 after a run 30 min", Trained.RUN, 30, "left knee 5 after"),
        ("rode 40 min - wrist 3", Trained.RIDE, 40, "wrist 3"),
    ],
)
def test_training_is_parted_from_what_hurt_in_it(text: str, kind: Trained, minutes: int, rest: str) -> None:
    ways = training_beside(text, TODAY)

    assert (OtherRead(kind=kind, on=TODAY, minutes=minutes), rest) in ways
    assert ways[0][0].minutes == minutes


@pytest.mark.parametrize(
    "text", ["ran 30 min", "left knee 5", "ran " * 30 + "knee 5", "my knee hurts after the run"]
)
def test_a_line_that_tells_of_one_of_the_two_is_not_parted(text: str) -> None:
    assert training_beside(text, TODAY) == []
