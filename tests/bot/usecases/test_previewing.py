"""A preview: the card as a client would get it, sent to nobody."""

import pytest
from dialogs.talks import Talk
from setting_out import Someone, block_of
from sqlalchemy import func, select

from bot.store.tables import outbox, session
from bot.store.units import Units
from bot.usecases import setting_up
from core.programme.rows import BlockFile


@pytest.fixture
def play(units: Units) -> Talk:
    play = Talk(units)
    play.someone("Marit").does(
        setting_up.block_read, setting_up.BlockRead("tide.xlsx", BlockFile(block=block_of("Tide")))
    )
    return play


@pytest.fixture
def marit(play: Talk) -> Someone:
    return play.someone("Marit")


def counted(play: Talk) -> tuple[int, int]:
    with play.units.read(None) as house:
        others = select(func.count()).where(outbox.c.chat_id != 100)
        return (
            house.connection.execute(others).scalar_one(),
            house.connection.execute(select(func.count()).select_from(session)).scalar_one(),
        )


def test_block_day_and_week_are_chosen_and_nothing_is_sent(play: Talk, marit: Someone) -> None:
    before = counted(play)
    play.commanded(marit, "preview", None)
    assert marit.buttons == ["Harbour strength", "Tide"]
    for label in ("Tide", "Upper", "Week 3"):
        marit.tap(label)

    assert marit.sees.startswith("Preview, loads as written. Nobody is sent this.\n\nUpper · week 3 of 4")
    assert "A  Back squat  3 × 8 at 60 kg" in marit.sees
    assert marit.buttons == ["A", "B", "Back"]
    marit.tap("B")
    assert "To come: A Back squat" in marit.sees
    for _ in range(4):
        marit.tap("Back")
    assert marit.buttons == ["Harbour strength", "Tide"]
    assert counted(play) == before


@pytest.mark.parametrize(
    ("steps", "argument"),
    [([], 999), (["Tide"], 9), (["Tide", "Upper"], 0), (["Tide", "Upper", "Week 1"], 3)],
)
def test_what_is_not_offered_is_not_shown(
    play: Talk, marit: Someone, steps: list[str], argument: int
) -> None:
    play.commanded(marit, "preview", None)
    for label in steps:
        marit.tap(label)
    before = marit.sees
    picked = next(label for label in marit.buttons if label != "Back")

    marit.tap_data(marit.forged(picked, argument=argument))

    assert marit.sees == f"That button was from an earlier question. Here is where we are.\n\n{before}"
