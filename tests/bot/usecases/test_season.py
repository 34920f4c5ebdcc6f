"""Seasons from the rows: what was run, who is away, whose holidays they are, and what is taken out again."""

from datetime import date, timedelta

import pytest
from dialogs.talks import Talk

from bot.store.units import Units
from bot.usecases import blocks_running, drawn_taps, season
from bot.usecases.season_spans import season_seen
from core.oversight.season import Season, SpanKind

TODAY = date(2026, 4, 7)


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def seen(play: Talk, today: date = TODAY) -> Season:
    marit = play.someone("Marit")
    client = play.house.client_of(marit, play.someone("Ada"))
    with play.units.open(marit.coach_id) as unit:
        return season_seen(client, unit, today)


def blocks(found: Season) -> list[tuple[date, date]]:
    return [(each.first, each.last) for each in found.rows[0].of(SpanKind.BLOCK)]


def test_a_block_lasts_until_the_next_begins(play: Talk) -> None:
    assert blocks(seen(play)) == [(date(2026, 4, 7), date(2026, 5, 4))]
    marit = play.someone("Marit")
    client = play.house.client_of(marit, play.someone("Ada"))
    with play.units.open(marit.coach_id) as unit:
        version = unit.blocks.running(client.id).version_id  # type: ignore[union-attr]
        unit.blocks.assign(client.id, version, date(2026, 4, 27), play.house.now)

    assert blocks(seen(play)) == [
        (date(2026, 4, 7), date(2026, 4, 26)),
        (date(2026, 4, 27), date(2026, 5, 24)),
    ]


def test_a_block_that_was_ended_ends_there(play: Talk) -> None:
    marit = play.someone("Marit")
    client = play.house.client_of(marit, play.someone("Ada"))
    with play.units.open(marit.coach_id) as unit:
        unit.blocks.end(client.id, play.house.now + timedelta(days=7))

    assert blocks(seen(play)) == [(date(2026, 4, 7), date(2026, 4, 13))]


def test_a_block_that_never_began_is_none(play: Talk) -> None:
    marit = play.someone("Marit")
    client = play.house.client_of(marit, play.someone("Ada"))
    with play.units.open(marit.coach_id) as unit:
        unit.blocks.end(client.id, play.house.now - timedelta(days=1))

    assert blocks(seen(play)) == []


def test_absences_stand_beside_the_block(play: Talk) -> None:
    marit = play.someone("Marit")
    client = play.house.client_of(marit, play.someone("Ada"))
    with play.units.open(marit.coach_id) as unit:
        for first, training in ((date(2026, 4, 18), False), (date(2026, 5, 18), True)):
            unit.aways.add(client.id, first, first + timedelta(days=3), play.house.now, training=training)

    found = seen(play).rows[0].of(SpanKind.AWAY)

    assert [(each.name, each.first.month) for each in found] == [("", 4), ("(trains there)", 5)]


def test_one_coachs_season_is_none_of_the_others(play: Talk) -> None:
    play.take("Marit: /holiday Ada Crete 3-10 May")
    marit, orla = play.someone("Marit"), play.someone("Orla")
    data = marit.data("Undo")

    orla.tap_data(data)
    theirs = "\n".join(play.take("Orla: /season"))
    play.take("Orla: /season remove 1")

    assert "Crete" not in theirs
    assert "Crete" in "\n".join(play.take("Marit: /season"))
    with play.units.open(orla.coach_id) as unit:
        assert unit.seasons.standing(TODAY) == []
        assert unit.seasons.get(1) is None


def test_undo_takes_out_and_puts_back_and_a_stale_button_shows_how_it_stands(play: Talk) -> None:
    play.take("Marit: /holiday Ada 3-10 May")
    marit = play.someone("Marit")
    old = marit.data("Undo")

    assert "Taken out of the season of Ada" in "\n".join(play.take("Marit [Undo]"))
    marit.tap_data(old)
    assert "Taken out of the season of Ada" in marit.sees
    assert "falls in week 4 of Harbour strength" in "\n".join(play.take("Marit [Put it back]"))
    marit.tap_data(marit.forged("Undo", argument=3))


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("/holiday all: 20-31 July", "In the season of everybody: Holiday, 20 to 31 July."),
        ("/holiday everybody 20-31 July", "In the season of everybody: Holiday, 20 to 31 July."),
        ("/holiday Ada: Crete 3-10 May", "In the season of Ada: Holiday Crete, 3 to 10 May."),
        ("/event ada 10k row 14 June", "In the season of Ada: Event 10k row, Sun 14 June"),
        ("/event Adda: 10k row 14 June", "Whom is it for?"),
        ("/event 14 June", "I need a name and a day to come."),
        ("/event Ada: 14 June", "I need a name and a day to come."),
    ],
)
def test_a_line_says_whose_it_is(play: Talk, line: str, words: str) -> None:
    assert words in "\n".join(play.take(f"Marit: {line}"))


def test_pictures_are_drawn_for_coaches_of_their_own_clients(play: Talk) -> None:
    def drawn(user_id: int, text: str = "") -> int:
        return len(season.prepared(play.units, user_id, season.SeasonAsked(text), play.house.now).drawn)

    assert drawn(100) == drawn(100, "Ada") == drawn(900) == 1
    assert drawn(900, "Ada") == drawn(1) == drawn(555) == 0


def test_whats_running_shows_its_season_and_other_buttons_nothing(play: Talk) -> None:
    play.take("Marit: /blocks")
    marit = play.someone("Marit")
    data = marit.data("Season")

    assert "        <photo>" in play.take("Marit [Season]")
    before = len(play.house.sends)
    play.someone("Orla").tap_data(data)
    marit.tap_data(marit.forged("Season", revision=5))
    assert len(play.house.sends) == before
    with play.units.open(marit.coach_id) as unit:
        assert blocks_running.season_of_all(unit, play.house.now).rows[0].name == "Ada"
    assert drawn_taps.NOTHING.files == ()
