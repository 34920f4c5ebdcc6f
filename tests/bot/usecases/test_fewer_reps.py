"""Pain in an exercise without a load: fewer reps on the card, and whoever does them has missed nothing."""

from datetime import datetime

import pytest
from dialogs.talks import LISBON, Talk

from bot.store.units import Unit, Units
from bot.usecases.decisions import exposures

PUSH = [datetime(2026, 4, day, 7, tzinfo=LISBON) for day in (9, 16, 23)]


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def hurt_in_push_ups(play: Talk) -> None:
    play.tick(PUSH[0])
    play.take("Ada [Start]")
    for words in ("60 6 6 6 6", "14 8 8 8", "6 12 12 12", "pain left shoulder 5", "8 8 8"):
        play.take(f"Ada: {words}")


def test_a_card_with_fewer_reps_that_is_done_is_no_miss(play: Talk) -> None:
    hurt_in_push_ups(play)

    eased = play.tick(PUSH[1])
    play.take("Ada [All done as written]")
    marit, ada = play.someone("Marit"), play.someone("Ada")
    client = play.house.client_of(marit, ada)

    def look(unit: Unit) -> list[tuple[int | None, list[int | None]]]:
        found = exposures(client.id, "push-up", unit)
        return [(each.least, [one.reps for one in each.sets]) for each in found]

    assert [line.strip() for line in eased if "Push-up  3" in line] == ["C  Push-up  3 × 6"]
    after = play.tick(PUSH[2])
    told = play.take("Ada [Why these loads]")
    assert [line.strip() for line in after if "Push-up  3" in line] == ["C  Push-up  3 × 6"]
    assert not any("Fewer than asked" in line or "were asked" in line for line in told)
    assert play.house.reading(marit, look) == [(None, [8, 8, 8]), (6, [6, 6, 6])]
