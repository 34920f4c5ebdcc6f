"""Reports, logs and reasons, asked for and tapped: of whose client, and of which block."""

from io import BytesIO

import pytest
from dialogs.moments import acted_out
from dialogs.talks import Talk
from openpyxl import load_workbook
from setting_out import plain_text
from sqlalchemy import select

from bot.messages import Action, Send, Tap, decode
from bot.store.tables import picture
from bot.store.units import Units
from bot.usecases import client_papers, client_why, drawn_taps, report


def trained_with_pain(play: Talk) -> None:
    play.take("tick 2026-04-07 07:00")
    for said in ("90 8 8 8 8", "skip", "skip", "skip", "skip", "nothing hurts", "2"):
        play.take(f"Ada: {said}")
    play.take("Ada: pain left knee 3")


@pytest.fixture
def play(units: Units) -> Talk:
    return acted_out(units, trained_with_pain)


def made(play: Talk, user_id: int, text: str) -> report.Made | None:
    command = report.ReportAsked(text)
    return report.prepared(play.units, user_id, command, play.house.now).made


def test_a_report_is_made_for_her_own_coach_alone(play: Talk) -> None:
    found = made(play, 100, "Ada")

    assert found is not None
    assert [name for name, _ in found.files] == ["ada-harbour-strength.pdf", "ada-harbour-strength.xlsx"]
    assert (found.value.name, found.value.kept.kept, found.value.pain[0].worst) == ("Ada", 1, 3)
    for other in (900, 1, 901, 555):
        assert made(play, other, "Ada") is None


def test_the_tables_of_a_report_hold_every_set(play: Talk) -> None:
    found = made(play, 100, "Ada")
    assert found is not None

    book = load_workbook(BytesIO(found.files[1][1]))

    assert book.sheetnames[-1] == "Sets"
    rows = list(book["Sets"].iter_rows(min_row=2, values_only=True))
    assert [row[5] for row in rows if row[4] == "Hip thrust"] == [1, 2, 3, 4]


def test_who_has_had_no_block_has_no_report(play: Talk) -> None:
    with play.units.open(play.someone("Marit").coach_id) as unit:
        unit.clients.add("Zed", play.house.now)

    lines = play.take("Marit: /report Zed")

    assert lines == ["    to Marit:", "        Zed has had no block yet. /assign puts a client on one."]


def tap(play: Talk, label: str) -> Tap:
    found = decode(play.someone("Marit").data(label))
    assert found is not None
    return found


def test_what_a_button_asks_for_is_made_for_the_coach_whose_button_it_is(play: Talk) -> None:
    play.take("Marit: /client Ada")
    now = play.house.now

    for label, has in (("Report", "made"), ("Log as a file", "files"), ("Progress", "files")):
        asked = tap(play, label)
        assert getattr(drawn_taps.drawn_for(play.units, 100, asked, now), has)
        for other in (900, 1, 901, 555):
            assert drawn_taps.drawn_for(play.units, other, asked, now) == drawn_taps.NOTHING
    assert drawn_taps.drawn_for(play.units, 100, None, now) == drawn_taps.NOTHING
    assert drawn_taps.drawn_for(play.units, 100, tap(play, "Why"), now) == drawn_taps.NOTHING
    forged = Tap(99_999, 0, Action.CHART)
    assert drawn_taps.drawn_for(play.units, 100, forged, now) == drawn_taps.NOTHING


def test_progress_comes_from_the_card_and_the_same_button_is_good_again(play: Talk) -> None:
    play.take("Marit: /client Ada")

    first, second = play.take("Marit [Progress]"), play.take("Marit [Progress]")

    assert first == second
    assert "        Progress, Ada" in first
    assert first.count("        <photo>") == 3


def test_the_log_is_a_file_of_the_client_and_erased_with_her(play: Talk) -> None:
    play.take("Marit: /logfile Ada")

    with play.units.open(play.someone("Marit").coach_id) as unit:
        rows = unit.connection.execute(select(picture.c.name, picture.c.client_id, picture.c.bytes)).all()
        (ada,) = unit.clients.roster()
    (row,) = [each for each in rows if each.name == "ada-log.xlsx"]
    book = load_workbook(BytesIO(row.bytes))
    assert row.client_id == ada.id
    assert book.sheetnames == ["Sets", "Body"]
    assert [each[1] for each in book["Body"].iter_rows(min_row=2, values_only=True)] == [
        "Pain: left knee 3 of 10"
    ]


def said(play: Talk, who: str, usecase: object, command: object) -> list[str]:
    effects = play.someone(who).does(usecase, command)  # type: ignore[arg-type]
    return [plain_text(each.message) for each in effects if isinstance(each, Send)]


def test_another_coachs_client_has_no_log_and_no_reasons(play: Talk) -> None:
    prepared = client_papers.prepared(play.units, 900, client_papers.LogAsked("Ada"), play.house.now)

    assert prepared.content is None
    assert client_papers.prepared(play.units, 1, prepared, play.house.now).content is None
    assert "Which client?" in said(play, "Orla", client_papers.log_asked, prepared)[0]
    assert "Which client?" in said(play, "Orla", client_why.why_asked, client_why.WhyAsked("Ada, hip"))[0]
    assert "Only a coach" in said(play, "Ada", client_why.why_asked, client_why.WhyAsked("Ada, hip"))[-1]
    assert "Only a coach" in said(play, "Ada", client_papers.log_asked, prepared)[-1]


def test_a_why_goes_back_to_the_sets_and_their_dates(play: Talk) -> None:
    play.take("tick 2026-04-14 07:00")

    lines = play.take("Marit: /why Ada, hip thrust")

    assert "        The sets it rests on" in lines
    assert sum("Tue 7 April, set" in line for line in lines) == 4


def test_a_why_of_somebody_new_has_nothing_to_show(play: Talk) -> None:
    with play.units.open(play.someone("Marit").coach_id) as unit:
        unit.clients.add("Zed", play.house.now)

    assert play.take("Marit: /why Zed") == ["    to Marit:", "        Nothing has been decided for Zed yet."]


def test_forged_and_old_buttons_do_nothing(play: Talk) -> None:
    play.take("Marit: /why Ada")
    marit = play.someone("Marit")
    before = len(play.house.sends)

    marit.tap_data(marit.forged("Hip thrust", argument=30))
    marit.tap_data(marit.forged("Hip thrust", revision=7))

    assert len(play.house.sends) == before


def test_the_end_of_a_block_offers_its_report_even_when_another_one_runs(play: Talk) -> None:
    marit = play.someone("Marit")
    client = play.house.client_of(marit, play.someone("Ada"))
    with play.units.open(marit.coach_id) as unit:
        running = unit.blocks.running(client.id)
        assert running is not None
        rows = report.offered(client, running.id, unit, play.house.now)
        prompt = unit.prompts.get(decode(rows[0][0].data or "").prompt)  # type: ignore[union-attr]
        assert prompt is not None
        unit.blocks.assign(client.id, running.version_id, running.starts_on, play.house.now)
    asked = decode(rows[0][0].data or "")

    drawn = drawn_taps.drawn_for(play.units, 100, asked, play.house.now)

    assert drawn.made is not None
    assert drawn.made.value.kept.kept == 1
    marit.tap_data(rows[0][0].data or "")
    assert "Report" in [label for row in rows for label in [each.label for each in row]]
