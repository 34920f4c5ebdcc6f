"""Last loads, sent by a coach: read, shown, kept, and waiting for those who have not joined yet."""

from datetime import date

import pytest
from dialogs.talks import Talk
from joining import joins
from set_up_once import set_up_once
from setting_out import House
from sqlalchemy import select

from bot.files.sent_file import read_sent
from bot.messages import Action
from bot.store.tables import last_load
from bot.store.units import Units
from bot.usecases import setting_up
from bot.usecases.last_loads_form import LastLoadsAsked, last_loads_asked, names_in
from core.programme.catalogue import CATALOGUE
from core.programme.last_loads import LastLoadsFile

HEAD = "Client,Exercise,Load,Reps,Date"


@pytest.fixture
def house(units: Units) -> House:
    found = House(units)

    def set_up() -> None:
        orla = found.coach("Orla", 900)
        joins(found.invited(orla, "Ben", 901))
        marit = found.coach("Marit", 100)
        joins(found.invited(marit, "Ada", 1))

    set_up_once(found, "two coaches' clients, just joined", set_up)
    return found


def sends(house: House, *rows: str, who: int = 100, name: str = "loads.csv") -> str:
    content = "\n".join((HEAD, *rows)).encode()
    command = setting_up.FileSent("file1", name, len(content))
    person = house.someone(who)
    person.does(setting_up.file_sent, setting_up.opened(command, content, CATALOGUE))
    return person.sees


def kept(house: House) -> list[tuple[int, str, str, int, bool]]:
    with house.units.engine.connect() as connection:
        rows = connection.execute(select(last_load).order_by(last_load.c.id)).all()
    return [
        (row.coach_id, row.exercise, f"{row.load} {row.unit}", row.reps, row.voided_at is None)
        for row in rows
    ]


ADA_ROW = "Ada,Hip thrust,90 kg,8,2026-03-27"


def test_a_sheet_is_shown_first_and_kept_with_a_tap(house: House) -> None:
    said = sends(house, ADA_ROW, "ada,One-leg hinge,16 kg a hand,10,2026-03-20")

    assert said == (
        "loads.csv: 2 last loads of 1 person. Nothing is kept yet.\n\n"
        "Ada\nHip thrust 90 kg × 8, Fri 27 March\nOne-leg hinge 16 kg a hand × 10, Fri 20 March"
    )
    assert kept(house) == []
    marit = house.someone(100)
    marit.tap("Keep")

    assert marit.sees.startswith("Kept: 2 last loads of 1 person.")
    assert kept(house) == [(2, "hip-thrust", "90 kg", 8, True), (2, "one-leg-hinge", "16 kg", 10, True)]


@pytest.mark.parametrize(("said", "count"), [("keep", 1), ("Yes!", 1), ("leave it", 0), ("no", 0)])
def test_the_buttons_have_words_too(house: House, said: str, count: int) -> None:
    sends(house, ADA_ROW)

    house.someone(100).type(said)

    assert len(kept(house)) == count


def test_leave_it_keeps_nothing_and_an_old_button_does_nothing(house: House) -> None:
    sends(house, ADA_ROW)
    marit = house.someone(100)
    keep = marit.data("Keep")
    marit.tap("Leave it")
    assert marit.sees.startswith("Nothing was kept.")

    marit.tap_data(keep)

    assert marit.sees.startswith("This is settled.")
    assert kept(house) == []


def test_other_words_and_other_taps_show_the_question_again(house: House) -> None:
    sends(house, ADA_ROW)
    marit = house.someone(100)

    marit.type("what?")
    assert marit.buttons == ["Keep", "Leave it"]
    marit.tap_data(marit.forged("Keep", action=Action.PICK))
    assert marit.buttons == ["Keep", "Leave it"]


def test_a_newer_row_voids_the_older_and_the_same_again_changes_nothing(house: House) -> None:
    marit = house.someone(100)
    for row in (ADA_ROW, "Ada,Hip thrust,95 kg,6,2026-04-01", "Ada,Hip thrust,95 kg,6,2026-04-01"):
        said = sends(house, row)
        marit.tap("Keep")

    assert "(kept already)" in said
    assert marit.sees.startswith("Kept: 1 last load of 1 person. 1 of them stood so already.")
    assert kept(house) == [(2, "hip-thrust", "90 kg", 8, False), (2, "hip-thrust", "95 kg", 6, True)]


def test_what_a_row_replaces_is_shown(house: House) -> None:
    sends(house, "Ada,Hip thrust,90 kg,8,2025-12-27")
    house.someone(100).tap("Keep")

    assert "95 kg × 6, Wed 1 April (in place of 90 kg × 8, Sat 27 December 2025)" in sends(
        house, "Ada,Hip thrust,95 kg,6,2026-04-01"
    )


def test_nothing_is_kept_of_a_sheet_with_problems_and_names_that_are_like_are_told(house: House) -> None:
    said = sends(house, ADA_ROW, "Adda,Hip thrust,90,8,2026-03-27", "Ben,Hip thrust,90 kg,8,2027-03-27")

    assert said.splitlines() == [
        "loads.csv was not taken: 4 problems. Put them right and send it again.",
        "",
        (
            '• Row 3, Client (A3): "Adda" is not a client of yours, nor somebody whom you have invited. '
            "Did you mean Ada?"
        ),
        "• Row 3, Load (C3): 90 has no unit. Write 90 kg or 90 lb, or add a column Unit.",
        '• Row 4, Client (A4): "Ben" is not a client of yours, nor somebody whom you have invited.',
        "• Row 4, Date (E4): 2027-03-27 is still to come. Look for a slip in the date.",
    ]
    assert kept(house) == []


def test_warnings_stand_under_what_the_sheet_comes_to(house: House) -> None:
    said = sends(house, ADA_ROW, "Ada,Hip thrust,80 kg,8,2026-01-27", "Ada,Deadlift,80 kg,8,2022-01-27")

    assert said.splitlines()[-3:] == [
        "Please look again:",
        "• Row 3, Exercise (B3): Row 2 has a later date; this one does not count.",
        "• Row 4, Date (E4): 2022-01-27 is more than two years ago. Is the year right?",
    ]


def test_a_long_sheet_comes_on_several_messages_and_the_last_one_asks(house: House) -> None:
    rows = [
        f"Ada,{row.name},{'bw' if row.basis == 'bodyweight' else '20 kg'},8,2026-03-27"
        for row in CATALOGUE.values()
        if not row.timed and row.implement != "band"
    ]
    sends(house, *rows)
    pages = [effect for effect in house.sends if "last-loads:" in effect.key]

    assert len(pages) > 1
    assert [bool(page.message.rows) for page in pages] == [*[False] * (len(pages) - 1), True]
    house.someone(100).tap("Keep")
    assert len(kept(house)) == len(rows)


def invites(house: House, name: str) -> str:
    code = f"code{house.updates}"
    house.someone(100).does(setting_up.invite, setting_up.Invite(name, code, "bot"))
    return code


def test_last_loads_of_somebody_invited_wait_until_she_has_joined(house: House) -> None:
    code = invites(house, "Cleo")
    said = sends(house, "Cleo,Hip thrust,90 kg,8,2026-03-27", ADA_ROW)
    assert "Cleo, who has not joined yet: they wait with the invitation\nHip thrust 90 kg × 8" in said
    house.someone(100).tap("Keep")
    assert [exercise for _, exercise, *_ in kept(house)] == ["hip-thrust"]
    assert "(kept already)" in sends(house, "Cleo,Hip thrust,90 kg,8,2026-03-27")

    cleo = house.someone(3)
    cleo.start(code)
    assert len(kept(house)) == 1
    joins(cleo)

    assert [(row[1], row[2]) for row in kept(house)] == [("hip-thrust", "90 kg")] * 2
    client = house.client_of(house.someone(100), cleo)
    with house.units.open(2) as unit:
        standing = unit.last_loads.standing(client.id)
        assert [each.value.on for each in standing.values()] == [date(2026, 3, 27)]
        assert [each.prefill["last_loads"] for each in unit.invites.of_client(client.id)] == [[]]


def test_a_new_link_for_the_same_name_waits_with_the_same_loads(house: House) -> None:
    invites(house, "Cleo")
    sends(house, "Cleo,Hip thrust,90 kg,8,2026-03-27", "Cleo,Deadlift,100 kg,5,2026-03-27")
    house.someone(100).tap("Keep")
    sends(house, "Cleo,Deadlift,105 kg,5,2026-04-01")
    house.someone(100).tap("Keep")

    code = invites(house, "cleo")
    cleo = house.someone(3)
    cleo.start(code)
    joins(cleo)

    assert [(row[1], row[2]) for row in kept(house)] == [("hip-thrust", "90 kg"), ("deadlift", "105 kg")]


def test_another_coachs_invitation_of_the_name_gets_none_of_it(house: House) -> None:
    invites(house, "Cleo")
    sends(house, "Cleo,Hip thrust,90 kg,8,2026-03-27")
    house.someone(100).tap("Keep")

    orla = house.someone(900)
    orla.does(setting_up.invite, setting_up.Invite("Cleo", "hercode", "bot"))
    cleo = house.someone(4)
    cleo.start("hercode")
    joins(cleo)

    assert kept(house) == []


def test_nothing_is_kept_where_somebody_has_gone_meanwhile(house: House) -> None:
    sends(house, ADA_ROW)
    ada = house.someone(1)
    ada.stop()
    ada.tap("Stop")
    marit = house.someone(100)

    marit.tap("Keep")

    assert marit.sees.startswith("Nothing was kept: Ada can no longer be found")
    assert kept(house) == []


def test_who_has_gone_is_still_shown_by_the_name_that_was_written(house: House) -> None:
    sends(house, ADA_ROW)
    ada = house.someone(1)
    ada.stop()
    ada.tap("Stop")
    marit = house.someone(100)

    marit.type("and now?")

    assert "\n\nAda\nHip thrust 90 kg × 8" in marit.sees


def test_a_clients_file_goes_to_her_coach_and_nobody_elses_question_is_answered(house: House) -> None:
    sends(house, ADA_ROW)
    data = house.someone(100).data("Keep")

    sends(house, ADA_ROW, who=1)
    house.someone(1).tap_data(data)
    house.someone(900).tap_data(data)

    assert kept(house) == []


def test_the_log_counts_where_it_has_the_exercise_by_that_date(units: Units) -> None:
    play = Talk(units)
    play.take("tick 2026-04-07 07:00")
    play.take("Ada [All done as written]")
    play.take("Ada [Skip]")
    play.take("Ada [Nothing hurts]")
    play.take("Ada [2]")
    house = play.house

    assert "Hip thrust 95 kg × 8, Tue 7 April. Logged here by then, so the log counts" in sends(
        house, "Ada,Hip thrust,95 kg,8,2026-04-07"
    )
    assert "so the log counts" not in sends(house, "Ada,Hip thrust,95 kg,8,2026-04-06")


def test_the_form_offers_her_people_and_goes_to_coaches_alone(house: House) -> None:
    invites(house, "Cleo")
    with house.units.read(2) as unit:
        assert names_in(unit, house.now) == ["Ada", "Cleo"]

    marit = house.someone(100)
    marit.does(last_loads_asked, LastLoadsAsked(b"form"))
    assert marit.last.media_kind == "document"
    assert marit.sees.startswith("For people who have trained before:")
    for other in (1, 55):
        house.someone(other).does(last_loads_asked, LastLoadsAsked())
        assert house.someone(other).sees == "Only a coach can do that here. Nothing was changed."


def test_a_block_is_still_a_block() -> None:
    sheet = f"{HEAD}\n{ADA_ROW}".encode()

    assert isinstance(read_sent(sheet, "a.csv", CATALOGUE), LastLoadsFile)
    assert not isinstance(read_sent(b"Day,Order,Exercise,Sets,Reps", "a.csv", CATALOGUE), LastLoadsFile)
