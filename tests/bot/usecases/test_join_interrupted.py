"""Joining goes on from any question after any interruption, by button and in words; it is short, and plain to read."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest
from joining import BY_BUTTON, STEPS, answer, joins, up_to
from setting_out import House, Someone, plain_text
from sqlalchemy import update
from textstat import textstat

from bot.store.tables import prompt
from bot.store.units import Units
from bot.usecases import coach_settings, forwarding, helping, join_place, kit, media, own_settings, today

MOST_TAPS = 18
"""Taps from the link to the end, for somebody with three training days. Our proposal."""
MOST_TAPS_KNOWN = 8
"""Taps where the coach has filled in what she can. Our proposal."""
GRADE = 8.0
"""Hardest school grade of a text, by Flesch and Kincaid. Our proposal: lower secondary."""


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    house.coach("Orla", 900)
    return house.coach("Marit", 100)


@pytest.fixture
def ada(house: House, coach: Someone) -> Someone:
    return house.invited(coach, "Ada", 1)


def restarted(ada: Someone) -> None:
    """The program was away, and what it had asked is lost but for what stands in her row."""
    with ada.house.units.open(None) as house:
        house.connection.execute(
            update(prompt).where(prompt.c.user_id == ada.user_id).values(closed_at=ada.house.now)
        )


INTERRUPTIONS: dict[str, Callable[[Someone], object]] = {
    "start": lambda ada: ada.start(),
    "start with an old code": lambda ada: ada.start("code1x2"),
    "stop sign": lambda ada: ada.type("I have chest pain"),
    "pain": lambda ada: ada.type("pain left knee 4"),
    "photo": lambda ada: ada.does(media.media_sent, forwarding.MediaSent("photo", "file", "")),
    "sticker": lambda ada: ada.does(helping.cannot_use, helping.CannotUse()),
    "place": lambda ada: ada.does(join_place.place_shared, join_place.PlaceShared("Europe/Lisbon")),
    "help": lambda ada: ada.does(helping.help_asked, helping.Help()),
    "other commands": lambda ada: [
        ada.does(today.today, today.Today()),
        ada.does(coach_settings.settings, own_settings.Settings()),
        ada.does(kit.kit_said, kit.KitSaid()),
    ],
    "stopping and going on": lambda ada: (ada.stop(), ada.tap("Go on")),
    "a restart": restarted,
    "days of nothing": lambda ada: setattr(ada.house, "now", ada.house.now + timedelta(days=3)),
}


@pytest.mark.parametrize("by", ["button", "text"])
@pytest.mark.parametrize("what", sorted(INTERRUPTIONS))
def test_joining_goes_on_from_every_question_after(
    house: House, coach: Someone, ada: Someone, what: str, by: str
) -> None:
    for step in STEPS:
        if not (what == "place" and step == "zone"):
            INTERRUPTIONS[what](ada)
        assert house.client_of(coach, ada).join_step == step
        if by == "button" and what == "a restart":
            ada.start()
        answer(ada, step, by)
    client = house.client_of(coach, ada)
    assert (client.state, client.unit, client.days, client.minutes) == ("active", "kg", [0, 1, 3], 60)
    assert (client.frozen_at is not None) is (what == "stop sign")


@pytest.mark.parametrize("step", [step for step in STEPS if step != "limits"])
def test_an_unreadable_word_changes_nothing_at_any_question(
    house: House, coach: Someone, ada: Someone, step: str
) -> None:
    up_to(ada, step)
    before = house.client_of(coach, ada)
    ada.type("qwrtz 77777 &&")
    assert replace(house.client_of(coach, ada), heard_at=None) == replace(before, heard_at=None)
    answer(ada, step, "button")
    assert house.client_of(coach, ada).join_step != step


def test_two_who_join_at_once_never_mix(house: House, coach: Someone, ada: Someone) -> None:
    bo = house.invited(coach, "Bo", 2)
    eve = house.invited(house.people[900], "Eve", 3)
    for step in STEPS:
        answer(ada, step, "button")
        bo.type("18 to 39" if step == "age" else {"unit": "lb", "days": "sat", "hour": "18"}.get(step, "?"))
        answer(bo, step, "text") if house.client_of(coach, bo).join_step == step else None
        answer(eve, step, "text")
    ours, hers = house.client_of(coach, ada), house.client_of(coach, bo)
    assert (ours.unit, ours.days, ours.state) == ("kg", [0, 1, 3], "active")
    assert (hers.unit, hers.days, hers.state) == ("lb", [5], "active")
    assert [each.name for each in house.reading(coach, lambda unit: unit.clients.roster())] == ["Ada", "Bo"]


def test_joining_takes_few_taps(house: House, coach: Someone, ada: Someone) -> None:
    before = house.updates
    joins(ada)
    assert house.updates - before <= MOST_TAPS
    assert len(BY_BUTTON) == len(STEPS)


def test_what_the_coach_knows_saves_taps(house: House, coach: Someone) -> None:
    bo = house.invited(coach, "Bo: kg, 7:00, mon tue thu, Lisbon, gym, bar, 60 min, new", 2)
    before = house.updates
    for step in ("caution", "consent", "age", "pregnancy", "health", "limits"):
        answer(bo, step, "button")
    bo.tap("All right")
    answer(bo, "alone", "button")
    assert house.client_of(coach, bo).state == "active"
    assert house.updates - before <= MOST_TAPS_KNOWN


@pytest.mark.parametrize("step", STEPS)
def test_every_question_reads_easily(ada: Someone, step: str) -> None:
    up_to(ada, step)
    for text in (ada.sees, ada.sees.partition("\n\n")[2]):
        sentences = text.replace("•", ".").replace("\n", ". ")
        assert textstat.flesch_kincaid_grade(sentences) <= GRADE, text


def test_the_last_words_of_joining_read_easily(ada: Someone) -> None:
    joins(ada)
    assert textstat.flesch_kincaid_grade(plain_text(ada.last)) <= GRADE
