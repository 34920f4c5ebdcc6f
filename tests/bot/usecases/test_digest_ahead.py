"""What the digest says of raises that wait, beside what the next cards will give."""

from datetime import date, datetime
from decimal import Decimal

from dialogs.talks import LISBON, Talk

from bot.store.placements import Placed
from bot.store.units import Units
from bot.usecases.digest import facts_of

DONE = ("Ada [All done as written]", "Ada: 40 12 12 12", "Ada [Nothing hurts]", "Ada [2]")


def test_a_raise_waits_only_while_the_next_card_would_give_it(units: Units) -> None:
    play = Talk(units)
    marit = play.someone("Marit")
    play.house.reading(
        marit, lambda unit: unit.rules.set("raise_asks_over", Decimal("0.01"), 100, play.house.now)
    )
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    for step in DONE:
        play.take(step)
    play.tick(datetime(2026, 4, 14, 7, tzinfo=LISBON))
    for step in (DONE[0], *DONE[2:]):
        play.take(step)
    client = play.house.client_of(marit, play.someone("Ada"))

    def told(on: date) -> tuple[list[str], dict[str, str]]:
        with units.read(marit.coach_id) as unit:
            (facts,) = facts_of(unit, on)
        coming = {each.exercise: str(each.decision.kind) for each in facts.ahead}
        return [each.exercise for each in facts.raises_waiting], coming

    def stands_in(key: str) -> None:
        with units.open(marit.coach_id) as unit:
            running = unit.blocks.running(client.id)
            assert running is not None
            unit.placements.keep(running.id, {"hip-thrust": Placed(key, chosen=True)})

    waiting, coming = told(date(2026, 4, 19))
    assert "hip-thrust" in waiting
    assert coming["hip-thrust"] == "hold"

    waiting, coming = told(date(2026, 4, 26))
    assert coming["hip-thrust"] == "lower"
    assert "hip-thrust" not in waiting

    stands_in("glute-bridge")
    for on in (date(2026, 4, 19), date(2026, 5, 20)):
        waiting, coming = told(on)
        assert "hip-thrust" not in {*waiting, *coming}
    stands_in("hip-thrust")
    assert "hip-thrust" in told(date(2026, 5, 2))[0]
