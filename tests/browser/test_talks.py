"""What people do on the page, by its roles and names, and what comes of it."""

import re

from browser.desk import Desk, Opens
from browser.first_way import drawn
from browser.line import HERE, Line
from browser.trial import Trial
from house.tree import ROOT
from playwright.sync_api import expect

from bot.render.safety import HOLD

BLOCKS = ROOT / "demo_scenario" / "blocks"
KIM = "Kim Sayer"
MARIT = "Marit Halvorsen"
LAST = 12
"""Messages that are compared, some older ones among them."""


def test_a_stranger_joins_by_an_invitation_that_the_coach_has_written(desk: Desk) -> None:
    marit, kim = desk.panel(MARIT), desk.panel(KIM)
    marit.says("/invite Kim")
    invitation = marit.shows("Hello Kim, Marit Halvorsen would like", "/start").inner_text()
    kim.says(re.findall(r"/start \S+", invitation)[-1])
    kim.shows("Hello Kim. I am a program. Marit Halvorsen writes your training")
    kim.taps("Go on")
    kim.taps("I agree")
    kim.taps("18–39")
    kim.taps("Neither")
    kim.taps("None of these")
    kim.taps("Nothing")
    kim.taps("kg")
    kim.says("Oslo")
    kim.taps("07:00")
    kim.says("mon wed fri")
    kim.taps("60 min")
    kim.taps("Home")
    kim.taps("Dumbbells")
    kim.taps("Alone")
    kim.taps("3 months or longer")

    marit.shows("Kim has joined.")


def test_a_typed_reply_that_is_far_off_is_asked_about_and_then_noted(desk: Desk) -> None:
    tom = desk.panel("Tom")
    tom.taps("Start")
    tom.says("400 9 9 9 9")
    question = tom.shows("That is far from what was planned", "Nothing is stored yet.")
    question.get_by_role("button", name="40 lb × 9 9 9 9", exact=True).click()

    tom.shows("Noted: Goblet squat 40 lb × 9 9 9 9.")


def test_words_of_a_stop_sign_get_the_fixed_text_and_the_coach_an_alert(desk: Desk) -> None:
    lars, marit = desk.panel("Lars"), desk.panel(MARIT)
    lars.says("my chest feels tight")

    lars.shows("Stop now. This may be an emergency.", "Do not drive yourself.", HOLD)
    marit.shows("Lars: stop sign.", "my chest feels tight")


def test_a_block_with_problems_is_told_all_of_them_and_a_right_one_is_taken(desk: Desk) -> None:
    marit = desk.panel(MARIT)
    marit.attaches("File", BLOCKS / "broken.xlsx")
    marit.shows("broken.xlsx was not taken: 29 problems.", "Block, row 3, First day of the week (B3)")
    marit.attaches("File", BLOCKS / "home-dumbbells-2.xlsx")

    marit.shows("Home dumbbells, part two", "Kept. Next: /assign puts a client on it.")


def test_what_one_writes_appears_beside_it_on_the_other_side(desk: Desk) -> None:
    nuno, marit = desk.panel("Nuno"), desk.panel(MARIT)
    one, other = nuno.region.bounding_box(), marit.region.bounding_box()
    nuno.says("The boat leaves early on Friday")

    marit.shows("Nuno", "The boat leaves early on Friday")
    assert one
    assert other
    assert abs(one["y"] - other["y"]) < 1
    assert one["x"] + one["width"] <= other["x"] or other["x"] + other["width"] <= one["x"]


def test_new_messages_are_counted_on_the_name_until_they_are_seen(desk: Desk) -> None:
    desk.leaves(desk.panel(MARIT))
    marit = desk.toggle(MARIT)
    expect(marit).to_have_accessible_name(f"{MARIT}, coach")
    desk.panel("Nuno").says("The slip is icy this morning")
    expect(marit).to_have_accessible_name(f"{MARIT}, coach, 1 new")
    desk.panel(MARIT)

    expect(marit).to_have_accessible_name(f"{MARIT}, coach")


def test_a_connection_that_was_cut_loses_no_message(desk: Desk, opens: Opens, morning: Trial) -> None:
    with Line(morning.port) as line:
        far = opens(at=morning.url.replace(HERE, "localhost"))
        over = far.panel("Nuno")
        assert over.articles.last.inner_text()
        line.cut()
        expect(far.page.get_by_text("The connection is lost.")).to_be_visible()
        here = desk.panel("Nuno")
        here.says("Swell from the west today")
        here.says("/progress")
        here.shows("Your progress")
        assert over.newest("Swell from the west today").count() == 0
        line.mend()

        over.shows("Swell from the west today")
        over.shows("Your progress")
        assert over.articles.all_inner_texts()[-LAST:] == here.articles.all_inner_texts()[-LAST:]
        far.context.close()


def test_one_replies_to_a_message_and_mends_ones_own(desk: Desk) -> None:
    ingrid, marit = desk.panel("Ingrid"), desk.panel(MARIT)
    ingrid.says("Is the boathouse open at noon?")
    heard = marit.shows("Is the boathouse open at noon?")
    heard.get_by_role("button", name="Reply", exact=True).click()
    marit.says("From eleven on")
    ingrid.shows("From eleven on")
    ingrid.newest("Is the boathouse open").get_by_role("button", name="Edit", exact=True).click()
    expect(ingrid.box).to_have_value("Is the boathouse open at noon?")
    ingrid.says("Is the boathouse open at one?")

    ingrid.shows("Is the boathouse open at one?", "edited")


def test_a_photo_goes_to_the_coach(desk: Desk) -> None:
    ingrid, marit = desk.panel("Ingrid"), desk.panel(MARIT)
    ingrid.attaches("Photo", ROOT / "demo_scenario" / "pictures" / "session.png", "The rack is bent")
    shown = marit.shows("The rack is bent").get_by_role("img")

    expect(shown).to_be_visible()
    drawn(shown)


def test_a_file_of_the_coachs_comes_down_as_it_is(desk: Desk) -> None:
    marit = desk.panel(MARIT)
    marit.says("/block Harbour strength as yaml")
    with desk.page.expect_download() as coming:
        marit.shows("harbour-strength.yaml").get_by_role("link").click()

    assert "Harbour strength" in coming.value.path().read_text(encoding="utf-8")


def test_what_lies_behind_a_load_is_shown_with_its_reason(desk: Desk) -> None:
    table = desk.happened("Decisions")
    expect(table.get_by_text("Why, by authority").first).not_to_be_visible()
    table.get_by_text("What lies behind it").first.click()

    expect(table.get_by_text("Why, by authority").first).to_be_visible()
