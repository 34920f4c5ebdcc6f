"""What stands in for an exercise that cannot be loaded here."""

from dialogs.talks import Talk

from bot.store.units import Units


def card(play: Talk, instant: str) -> list[str]:
    return [line.strip() for line in play.take(f"tick {instant}")]


def test_the_coachs_own_equal_goes_first(units: Units) -> None:
    play = Talk(units)
    play.take("Ada has dumbbells at hand")

    assert "A  Dumbbell bench press (instead of bench press)  4 × 6, find the load" in card(
        play, "2026-04-09 07:00"
    )


def test_a_hold_is_never_replaced_by_reps(units: Units) -> None:
    play = Talk(units)
    play.take("Ada has bodyweight at hand")

    assert "C  Plank (instead of farmer carry)  3 × 30 s" in card(play, "2026-04-10 07:00")


def test_what_stands_in_keeps_its_own_log(units: Units) -> None:
    play = Talk(units)
    play.take("Ada has dumbbells at hand")
    play.take("tick 2026-04-09 07:00")
    play.take("Ada: 22kg 8 8 8 8")

    assert "last time 22 kg × 8 8 8 8" in card(play, "2026-04-16 07:00")
