"""A block that clients run comes anew: from when it holds is asked, what changes is shown, applied, taken back."""

from datetime import timedelta

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.render.versions import MOST_CLIENTS
from bot.store.units import Units
from core.errors import StartOutside, StartUnreadable
from core.programme.block import Block
from tests.bot.usecases.new_versions import (
    asked,
    harbour,
    look,
    named,
    plan,
    sends,
    steps,
    with_days,
    with_load,
)

ASK = (
    "Harbour strength: Ada runs an earlier version. From when does version 2 hold? What was sent stays as it was.\n"
    "Tap, or type next week, today, a date like 2026-04-08, or new clients."
)
SUMMARY = (
    "Harbour strength, version 2, from each client's next week\n"
    "\n"
    "What is different\n"
    "• Push, weeks 2–3: A Bench press: load 65 kg (was 60 kg)\n"
    "• Push, week 4: A Bench press: load 65 kg (was 55 kg)\n"
    "\n"
    "Ada: from Tue 14 April, week 2 of 4. 3 sessions change.\n"
    "\n"
    "What was sent stays as it was."
)
CLOSED = "This is settled, or can no longer be done. Send the file again to be asked again."


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


@pytest.fixture
def newer() -> Block:
    return with_load(harbour(), "bench-press", 65)


def sees(play: Talk, name: str = "Marit") -> str:
    return play.someone(name).sees


def test_from_when_it_holds_is_asked_only_of_whose_clients_run_it(play: Talk, newer: Block) -> None:
    assert sends(play, newer) == ASK
    assert play.someone("Marit").buttons == [
        "From next week",
        "From today on",
        "From a date",
        "Only for new clients",
    ]
    assert "earlier" not in sends(play, newer.model_copy(update={"name": "Slipway"}))
    assert sends(play, harbour(), "Orla").startswith("Harbour strength\n")


def test_what_changes_is_shown_and_nothing_changes_before_it_is_applied(play: Talk, newer: Block) -> None:
    sends(play, newer)
    before = asked(play, "bench-press")
    play.take("Marit [From next week]")

    assert sees(play) == SUMMARY
    assert play.someone("Marit").buttons == ["Apply", "Leave it", "Back"]
    assert asked(play, "bench-press") == before


def test_from_next_week_the_weeks_to_come_are_new_and_this_one_stays(play: Talk, newer: Block) -> None:
    sends(play, newer)
    steps(play, ["Marit [From next week]", "Marit [Apply]"])

    assert sees(play) == "Harbour strength, version 2, holds:\nAda from Tue 14 April"
    assert asked(play, "bench-press") == {"09 planned": "60 kg", "16 planned": "65 kg"}
    steps(play, ["tick 2026-04-16 07:00", "tick 2026-04-23 07:00"])
    assert asked(play, "bench-press") == {
        "09 unsent": "60 kg",
        "16 missed": "65 kg",
        "23 sent": "65 kg",
        "30 planned": "65 kg",
    }


def test_from_today_on_what_was_sent_today_stays(play: Talk, newer: Block) -> None:
    play.take("tick 2026-04-09 07:00")
    sends(play, newer)
    steps(play, ["Marit: today", "Marit: apply"])

    assert sees(play) == "Harbour strength, version 2, holds:\nAda from Fri 10 April"
    assert asked(play, "bench-press") == {"09 sent": "60 kg", "16 planned": "65 kg", "23 planned": "65 kg"}


def test_from_a_date_that_is_typed(play: Talk, newer: Block) -> None:
    sends(play, newer)
    play.take("Marit [From a date]")

    assert sees(play) == "Harbour strength: from which date? Type it, like 2026-04-08."
    assert play.someone("Marit").buttons == ["Back"]
    with pytest.raises(StartUnreadable):
        play.take("Marit: soon")
    with pytest.raises(StartOutside):
        play.take("Marit: 2026-04-05")
    with pytest.raises(StartOutside):
        play.take("Marit: 2027-04-05")
    play.take("Marit: 2026-04-23")
    assert sees(play).startswith("Harbour strength, version 2, from Thu 23 April\n")
    steps(play, ["Marit: yes", "tick 2026-04-17 07:00"])
    assert asked(play, "bench-press") == {
        "09 unsent": "60 kg",
        "16 unsent": "60 kg",
        "23 planned": "65 kg",
        "30 planned": "65 kg",
    }


def test_a_date_may_be_typed_without_the_button(play: Talk, newer: Block) -> None:
    sends(play, newer)
    play.take("Marit: 2026-04-16")

    assert "Ada: from Thu 16 April, week 2 of 4." in sees(play)


def test_only_for_new_clients_changes_nothing_and_the_same_file_asks_again(play: Talk, newer: Block) -> None:
    sends(play, newer)
    play.take("Marit [Only for new clients]")

    assert sees(play) == (
        "Harbour strength, version 2, is for new clients only. Who runs an earlier one stays on it. "
        "Send the file again to be asked again."
    )
    assert set(asked(play, "bench-press").values()) == {"60 kg"}
    assert sends(play, newer) == ASK
    steps(play, ["Marit: today", "Marit: leave it"])
    assert set(asked(play, "bench-press").values()) == {"60 kg"}


def test_once_it_is_applied_the_same_file_asks_no_more(play: Talk, newer: Block) -> None:
    sends(play, newer)
    steps(play, ["Marit: next week", "Marit: apply"])

    assert "earlier" not in sends(play, newer).replace("Who runs an earlier one stays on it", "")


def test_each_step_has_a_way_back_and_words(play: Talk, newer: Block) -> None:
    sends(play, newer)
    steps(play, ["Marit [From a date]", "Marit [Back]", "Marit: from a date", "Marit: back"])
    assert sees(play) == ASK
    steps(play, ["Marit: from next week", "Marit: back"])
    assert sees(play) == ASK
    play.take("Marit: what is this?")
    assert "/assign puts a client on a block." in sees(play)
    steps(play, ["Marit: next week", "Marit: what is this?"])
    assert "/assign puts a client on a block." in sees(play)
    play.take("Marit: only for new clients")
    assert "/assign puts a client on a block." in sees(play)


def test_it_is_taken_back_while_nothing_of_it_was_sent(play: Talk, newer: Block) -> None:
    before = plan(play)
    sends(play, with_days(newer, *newer.days[:3], named(newer.days[3], "Core"), weeks=5))
    steps(play, ["Marit: next week", "Marit: apply", "Marit [Take it back]"])

    assert sees(play) == "Taken back. Harbour strength is for Ada as it was before version 2."
    assert plan(play) == before
    assert set(asked(play, "bench-press").values()) == {"60 kg"}
    steps(play, ["tick 2026-04-14 07:00", "tick 2026-05-01 07:00"])
    assert all("core" not in each for each in plan(play))


def test_it_stays_for_whom_something_of_it_was_sent(play: Talk, newer: Block) -> None:
    sends(play, newer)
    steps(play, ["Marit: next week", "Marit: apply", "tick 2026-04-14 07:00", "Marit: undo"])

    assert sees(play) == "For Ada version 2 stays: something of it was sent."
    assert asked(play, "bench-press")["16 planned"] == "65 kg"


def test_an_earlier_version_is_not_taken_back_under_a_later_one(play: Talk, newer: Block) -> None:
    sends(play, newer)
    steps(play, ["Marit: next week", "Marit: apply", "Marit keeps [Take it back] as first"])
    sends(play, with_load(newer, "bench-press", 70))
    steps(play, ["Marit: next week", "Marit: apply", "Marit taps the old first"])

    assert sees(play) == "For Ada version 2 stays: something of it was sent."
    assert asked(play, "bench-press")["16 planned"] == "70 kg"
    play.take("Marit [Take it back]")
    assert asked(play, "bench-press")["16 planned"] == "65 kg"


def test_old_buttons_show_how_it_stands(play: Talk, newer: Block) -> None:
    sends(play, newer)
    play.take("Marit keeps [From next week] as asked")
    steps(play, ["Marit [From today on]", "Marit taps the old asked"])
    assert sees(play).startswith(
        "That button was from before. This is how things stand.\n\nHarbour strength,"
    )
    steps(play, ["Marit keeps [Apply] as summary", "Marit [Apply]", "Marit taps the old summary"])
    assert sees(play).startswith(
        "That button was from before. This is how things stand.\n\nHarbour strength,"
    )
    assert sees(play).endswith("holds:\nAda from Wed 8 April")
    steps(play, ["Marit [Take it back]", "Marit taps the old summary"])
    assert sees(play) == CLOSED


@pytest.mark.parametrize("action", ["u", "ok", "no", "zz"])
def test_a_button_that_the_step_has_not_shows_how_it_stands(play: Talk, newer: Block, action: str) -> None:
    sends(play, newer)
    marit = play.someone("Marit")
    changes = {"action": action} if action != "zz" else {"argument": 99}
    marit.tap_data(marit.forged("From next week", **changes))

    assert ASK in sees(play)


def test_a_forged_button_under_the_preview_shows_how_it_stands(play: Talk, newer: Block) -> None:
    sends(play, newer)
    play.take("Marit [From next week]")
    marit = play.someone("Marit")
    marit.tap_data(marit.forged("Apply", action="pk", argument=99))
    assert SUMMARY in sees(play)
    marit.tap("Apply")
    marit.tap_data(marit.forged("Take it back", action="ok"))
    assert "holds:" in sees(play)


def test_nobody_else_can_tap_it(play: Talk, newer: Block) -> None:
    sends(play, newer)
    data = play.someone("Marit").data("From next week")
    orla, ada = play.someone("Orla"), play.someone("Ada")

    before = sees(play, "Orla")
    orla.tap_data(data)
    ada.tap_data(data)

    assert (sees(play, "Orla"), sees(play)) == (before, ASK)


def test_who_trains_on_too_few_days_stays_on_her_version(play: Talk, newer: Block) -> None:
    five = with_days(newer, *newer.days, named(newer.days[0], "Core"))
    sends(play, five)
    play.take("Marit: next week")

    assert "Ada trains on 4 days, and this version has 5 sessions a week: stays on version 1." in sees(play)
    assert play.someone("Marit").buttons == ["Leave it", "Back"]
    play.take("Marit: apply")
    assert "stays on version 1" in sees(play)
    assert look(play, lambda unit, ada: unit.versions.standing(unit.blocks.running(ada.id).id)) == []


def test_many_clients_are_a_tap_away_and_all_are_changed(play: Talk, newer: Block) -> None:
    def more(unit, ada):
        running = unit.blocks.running(ada.id)
        for number in range(MOST_CLIENTS + 1):
            made = unit.clients.add(f"Client {number}", play.house.now)
            unit.clients.change(made, state="active", zone=ada.zone, hour=ada.hour, days=ada.days)
            unit.blocks.assign(made, running.version_id, running.starts_on, play.house.now)

    look(play, more)
    sends(play, newer)
    assert "Ada, Client 0, Client 1, Client 2, Client 3, Client 4, Client 5, Client 6 and 2 more run" in sees(
        play
    )
    play.take("Marit: next week")
    assert "… and 2 more." in sees(play)
    assert play.someone("Marit").buttons == ["Apply", "Leave it", "See all", "Back"]
    play.take("Marit [See all]")
    assert all(f"Client {number}: from Tue 14 April" in sees(play) for number in range(MOST_CLIENTS + 1))
    play.house.now += timedelta(minutes=1)
    play.take("Marit: see all")
    play.take("Marit: apply")
    assert sees(play).count("from Tue 14 April") == MOST_CLIENTS + 2


def test_clients_on_several_versions_are_told_apart(play: Talk, newer: Block) -> None:
    def another(unit, ada):
        running = unit.blocks.running(ada.id)
        made = unit.clients.add("Cleo", play.house.now)
        unit.clients.change(made, state="paused", zone=ada.zone, hour=ada.hour, days=ada.days)
        unit.clients.change(made, frozen_at=play.house.now)
        second, _ = unit.blocks.keep(newer, play.house.now)
        unit.blocks.assign(made, second, running.starts_on, play.house.now)

    look(play, another)
    sends(play, with_load(newer, "bench-press", 70))
    play.take("Marit: today")

    assert sees(play) == (
        "Harbour strength, version 3, from today on\n"
        "\n"
        "What is different from version 1\n"
        "• Push, weeks 1–3: A Bench press: load 70 kg (was 60 kg)\n"
        "• Push, week 4: A Bench press: load 70 kg (was 55 kg)\n"
        "\n"
        "Ada: from Wed 8 April, week 1 of 4. 4 sessions change.\n"
        "\n"
        "What is different from version 2\n"
        "• Push, weeks 1–4: A Bench press: load 70 kg (was 65 kg)\n"
        "\n"
        "Cleo (paused) (on hold): from Tue 7 April, week 1 of 4. 4 sessions change.\n"
        "\n"
        "What was sent stays as it was."
    )
