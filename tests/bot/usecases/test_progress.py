"""Progress and the weekly line, gathered from the log: whose, of what, and what is left out."""

from datetime import date

import pytest
from dialogs.moments import acted_out
from dialogs.talks import Talk
from setting_out import plain_text

from bot.messages import Send, decode
from bot.store.units import Units
from bot.usecases import progress
from bot.usecases.weekly_line import weekly_line


def trained_twice(play: Talk) -> None:
    for on, load in (("2026-04-07", "90"), ("2026-04-14", "92.5")):
        play.take(f"tick {on} 07:00")
        for said in (f"{load} 8 8 8 8", "skip", "skip", "skip", "skip", "nothing hurts", "2"):
            play.take(f"Ada: {said}")


@pytest.fixture
def play(units: Units) -> Talk:
    return acted_out(units, trained_twice)


def line(play: Talk, length: str, who: str = "Ada", on: date = date(2026, 4, 14)) -> str | None:
    coach = play.coach_of(play.someone(who))
    client = play.house.client_of(coach, play.someone(who))
    with play.units.open(coach.coach_id) as unit:
        unit.clients.change(client.id, weekly_line=length)
        return weekly_line(unit.clients.get(client.id), unit, on)


@pytest.mark.parametrize(
    ("length", "words"),
    [
        ("none", None),
        ("short", "Last 7 days: 1 of 1 sessions kept. Main lifts: 1 up."),
        (
            "full",
            "Last 7 days: 1 of 1 sessions kept. Main lifts: 1 up.\nHip thrust 92.5 kg (before 90 kg)",
        ),
    ],
)
def test_the_week_is_as_long_as_the_client_wants_it(play: Talk, length: str, words: str | None) -> None:
    assert line(play, length) == words


def test_a_week_with_nothing_in_it_is_no_line(play: Talk) -> None:
    assert line(play, "full", "Ben") is None
    assert line(play, "short", on=date(2026, 4, 6)) is None


def test_a_first_time_is_no_rise(play: Talk) -> None:
    assert line(play, "short", on=date(2026, 4, 8)) == "Last 7 days: 1 of 1 sessions kept. Main lifts: 1 new."


def test_pictures_are_drawn_for_whoever_may_see_them(play: Talk) -> None:
    def drawn(user_id: int, text: str = "") -> list[str]:
        command = progress.ProgressAsked(text)
        return [what for what, _ in progress.prepared(play.units, user_id, command, play.house.now).drawn]

    assert drawn(1) == ["lifts", "kept"]
    assert drawn(1, "hip thrust") == ["lifts"]
    assert drawn(1, "no such lift") == []
    assert drawn(100, "Ada") == ["lifts", "kept"]
    assert drawn(100, "Ada, hip") == ["lifts"]
    assert drawn(901) == ["kept"]
    assert drawn(100) == drawn(900, "Ada") == drawn(555) == []


def test_a_button_is_good_for_whom_it_was_made_alone(play: Talk) -> None:
    play.take("Ada: /progress")
    ada, ben = play.someone("Ada"), play.someone("Ben")
    data = ada.data("Hip thrust")
    tap = decode(data)
    assert tap is not None

    assert [what for what, _ in progress.tap_drawn(play.units, 1, tap)] == ["lifts"]
    for other in (901, 900, 100, 555):
        assert progress.tap_drawn(play.units, other, tap) == ()
    before = len(play.house.sends)
    ben.tap_data(data)
    ada.tap_data(ada.forged("Hip thrust", argument=9))
    assert len(play.house.sends) == before


def test_another_coachs_client_is_nobody(play: Talk) -> None:
    orla = play.someone("Orla")

    effects = orla.does(progress.progress_asked, progress.ProgressAsked("Ada"))

    said = [plain_text(each.message) for each in effects if isinstance(each, Send)]
    assert len(said) == 1
    assert "Which client?" in said[0]
    assert "92.5" not in said[0]
