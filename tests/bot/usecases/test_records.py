"""Bests as they are kept: told once, kept apart by coach, taken back and given again with their sets."""

import pytest
from dialogs.talks import Talk
from setting_out import Someone, plain_text
from sqlalchemy import select

from bot.store.tables import record
from bot.store.units import Units
from bot.usecases import records_list

ROUND = ("skip", "skip", "skip", "skip")


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def trains(play: Talk, on: str, sets: str, *more: str) -> str:
    play.take(f"tick {on} 07:00")
    lines: list[str] = []
    for said in (sets, *more, *ROUND):
        lines = play.take(f"Ada: {said}")
    return "\n".join(
        [*play.take("Ada: nothing else" if more else "Ada: nothing hurts"), *play.take("Ada: 2"), *lines]
    )


def kept(play: Talk) -> list[tuple[str, bool, bool]]:
    """Kind, whether it was told, whether it stands."""
    with play.units.read(None) as house:
        rows = house.connection.execute(select(record).order_by(record.c.kind, record.c.id)).all()
    return [(row.kind, row.told_at is not None, row.retracted_at is None) for row in rows]


def test_a_best_is_told_in_the_closing_line_and_the_first_time_is_none(play: Talk) -> None:
    first = trains(play, "2026-04-07", "90 8 8 8 8")
    second = trains(play, "2026-04-14", "92.5 8 8 8 8")

    assert "Best so far" not in first
    assert "Best so far: hip thrust 92.5 kg × 8 (before: 90 kg × 8, 7 April)." in second
    assert "!" not in second
    assert kept(play) == [("estimate", False, True), ("load", True, True)]


def test_none_is_told_in_a_session_with_pain_of_4_and_over(play: Talk) -> None:
    trains(play, "2026-04-07", "90 8 8 8 8")

    second = trains(play, "2026-04-14", "92.5 8 8 8 8", "pain left knee 4")

    assert "Best so far" not in second
    assert kept(play) == [("estimate", False, True), ("load", False, True)]


def test_an_edit_retracts_it_and_one_back_gives_it_again_as_told(play: Talk) -> None:
    trains(play, "2026-04-07", "90 8 8 8 8")
    trains(play, "2026-04-14", "92.5 8 8 8 8")

    gone = "\n".join(play.take("Ada edits “92.5 8 8 8 8”: 90 8 8 8 8"))
    retracted = kept(play)
    back = "\n".join(play.take("Ada edits “92.5 8 8 8 8”: 92.5 8 8 8 8"))

    assert "No longer the best so far: hip thrust 92.5 kg × 8." in gone
    assert not any(stands for _, _, stands in retracted)
    assert "Best so far: hip thrust 92.5 kg × 8" in back
    assert [(kind, told) for kind, told, stands in kept(play) if stands] == [
        ("estimate", False),
        ("load", True),
    ]


def test_an_edit_of_an_earlier_session_changes_what_came_after_it(play: Talk) -> None:
    trains(play, "2026-04-07", "90 8 8 8 8")
    trains(play, "2026-04-14", "92.5 8 8 8 8")

    said = "\n".join(play.take("Ada edits “90 8 8 8 8”: 95 8 8 8 8"))

    assert "No longer the best so far: hip thrust 92.5 kg × 8." in said
    assert not any(stands for _, _, stands in kept(play))


def test_another_coach_finds_nobody_of_that_name(play: Talk) -> None:
    trains(play, "2026-04-07", "90 8 8 8 8")
    trains(play, "2026-04-14", "92.5 8 8 8 8")
    orla: Someone = play.someone("Orla")

    orla.does(records_list.records_asked, records_list.RecordsAsked("Ada"))

    assert "Which client?" in orla.sees
    assert "92.5" not in orla.sees


def test_who_asks_and_is_nobody_gets_the_one_line(play: Talk) -> None:
    somebody = play.someone("Somebody")

    somebody.does(records_list.records_asked, records_list.RecordsAsked())

    assert plain_text(somebody.last).startswith("I only talk with people")
