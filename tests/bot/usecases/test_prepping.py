"""The prep that a coach writes for a day of a block, on the card and in the preview."""

from datetime import date, datetime
from pathlib import Path

import pytest
from dialogs.talks import LISBON, Talk

from bot.files.block_file import read_block
from bot.store.units import Unit, Units
from bot.usecases import previewing, setting_up
from bot.usecases.daily_prep import PrepAsked, prep_asked
from bot.usecases.prepping import too_sore
from core.programme.exercises import Site
from core.programme.restrictions import Restriction
from core.programme.rows import BlockFile

FILE = Path(__file__).parents[2] / "blocks" / "harbour-strength.xlsx"
TUESDAY = datetime(2026, 4, 7, 7, tzinfo=LISBON)


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def written(play: Talk, *preps: tuple[str, ...] | None) -> None:
    """Marit's block with a prep for its days, given to Ada."""
    found = read_block(FILE.read_bytes(), FILE.name)
    assert isinstance(found, BlockFile)
    days = [day.model_copy(update={"prep": prep}) for day, prep in zip(found.block.days, preps, strict=True)]
    block = found.block.model_copy(update={"days": tuple(days), "name": "With prep"})
    marit = play.someone("Marit")
    marit.does(setting_up.block_read, setting_up.BlockRead("a.xlsx", BlockFile(block=block)))
    marit.assign("Ada, With prep, 2026-04-07")
    marit.tap("Start it")


def prep_on_card(play: Talk) -> list[str]:
    lines = [line.strip() for line in play.tick(TUESDAY)]
    return [line for line in lines if line.startswith("Prep ")]


def drills(play: Talk) -> list[str]:
    """The drills of the prep, step by step, and back to the card."""
    found, told = [], play.take("Ada [Prep]")
    while any("Prep " in line and " to go" in line for line in told):
        at = next(place for place, line in enumerate(told) if line.endswith(" to go"))
        found.append(told[at + 1].strip().split("  ")[0])
        told = play.take("Ada: next")
    return found


def all_again(play: Talk) -> list[str]:
    play.take("Ada [Prep again]")
    play.take("Ada: skip the rest")
    return drills(play)


def test_the_coachs_drills_are_on_the_card_in_her_order(play: Talk) -> None:
    written(play, ("ankle-rock", "leg-swing"), None, None, None)

    assert prep_on_card(play) == ["Prep 2 min: ankle, calf, shin"]
    assert drills(play) == ["Ankle rock", "Leg swing"]


def test_a_day_for_which_she_wrote_none_has_none(play: Talk) -> None:
    written(play, (), None, None, None)

    assert prep_on_card(play) == []
    assert "Prep" not in play.someone("Ada").buttons


def test_a_drill_of_hers_that_moves_what_hurts_4_or_more_is_left_out(play: Talk) -> None:
    written(play, ("ankle-rock", "leg-swing"), None, None, None)
    play.take("Ada: pain left ankle 4")
    play.tick(TUESDAY)

    assert drills(play) == ["Leg swing"]
    play.take("Ada: pain right hip 3")
    play.take("Ada: back")
    play.take("Ada: /today")
    assert all_again(play) == ["Leg swing"]


def test_a_daily_prep_comes_before_the_days_own_and_no_drill_twice(play: Talk) -> None:
    written(play, ("ankle-rock", "leg-swing"), None, None, None)
    play.someone("Marit").does(prep_asked, PrepAsked("Ada: chin glide, leg swing"))
    play.tick(TUESDAY)

    assert drills(play) == ["Chin glide", "Leg swing", "Ankle rock"]


def test_the_preview_shows_what_she_wrote(play: Talk) -> None:
    written(play, ("ankle-rock",), None, None, None)
    marit = play.someone("Marit")
    marit.does(previewing.preview, previewing.Preview())
    for label in ("With prep", "Lower A", "Week 1"):
        marit.tap(label)

    assert "Prep 1 min: " in marit.sees


def limits(play: Talk, *given: Restriction) -> None:
    marit = play.someone("Marit")
    with play.units.open(marit.coach_id) as unit:
        client = unit.accounts.find(1).client_id
        unit.restrictions.say(client, given, marit.user_id, play.house.now)


def test_no_drill_breaks_a_limit_whoever_named_it(play: Talk) -> None:
    written(play, ("cat-camel", "ankle-rock"), None, None, None)
    limits(play, Restriction.FLOOR)
    said = play.someone("Marit")
    said.does(prep_asked, PrepAsked("Ada: cat and camel, chin glide"))
    assert "Left out, for it breaks a limit that was given: Cat and camel." in said.sees
    play.tick(TUESDAY)

    assert drills(play) == ["Chin glide", "Ankle rock"]


def test_a_limit_that_came_after_the_daily_prep_went_out_counts_too(play: Talk) -> None:
    play.someone("Marit").does(prep_asked, PrepAsked("Ada: cat and camel, chin glide"))
    play.tick(datetime(2026, 4, 8, 7, tzinfo=LISBON))
    limits(play, Restriction.FLOOR)

    play.someone("Ada").tap("Step by step")

    assert "Chin glide" in play.someone("Ada").sees
    assert "Cat and camel" not in play.someone("Ada").sees


@pytest.mark.parametrize(
    ("said", "sore"),
    [
        ("pain left knee 3", False),
        ("pain left knee 4", True),
        ("pain left knee 7", True),
    ],
)
def test_what_is_too_sore_is_read_as_the_rules_of_loads_read_it(play: Talk, said: str, sore: bool) -> None:
    play.take(f"Ada: {said}")

    def look(unit: Unit) -> set[Site]:
        reports = unit.body.bearing(unit.accounts.find(1).client_id, date(2026, 3, 1))
        return too_sore(reports, date(2026, 4, 7))

    assert play.house.reading(play.someone("Marit"), look) == ({Site.KNEE} if sore else set())


def test_pain_that_only_the_coach_releases_is_too_sore_however_old(play: Talk) -> None:
    play.take("Ada: pain left knee 8")
    marit = play.someone("Marit")

    def look(unit: Unit) -> set[Site]:
        reports = unit.body.bearing(unit.accounts.find(1).client_id, date(2026, 6, 1))
        return too_sore(reports, date(2026, 6, 10))

    assert play.house.reading(marit, look) == {Site.KNEE}
    with play.units.open(marit.coach_id) as unit:
        unit.body.release(unit.accounts.find(1).client_id, play.house.now, "pain")
    assert play.house.reading(marit, look) == set()
