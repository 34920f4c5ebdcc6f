"""Travel across zones: what has gone out stays, what is planned moves, nothing comes twice on a date or is lost."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from dialogs.talks import Talk

from bot.messages import Person
from bot.store.aways import clocks_anywhere
from bot.store.due import due_anywhere
from bot.store.units import Unit, Units
from bot.usecases.effects import apply
from bot.usecases.replanning import planned_anew
from bot.usecases.sending import SendSession, send_session
from bot.usecases.travelling import TurnClock, next_turn, turn, turning

FIRST, LAST = date(2026, 4, 9), date(2026, 4, 16)
"""A Thursday to a Thursday."""
BEGIN = datetime(2026, 4, 6, 18, tzinfo=UTC)
DATES = ["07", "09", "10", "13", "14", "16", "17", "20", "21"]
"""Dates of April on which a session of hers is written, from the 7th to the 21st."""


def look(play: Talk, what: Any) -> Any:
    ada = play.house.client_of(play.someone("Marit"), play.someone("Ada")).id
    with play.units.open(play.someone("Marit").coach_id) as unit:
        return what(unit, ada)


def lives_in(play: Talk, zone: str, hour: time) -> None:
    def change(unit: Unit, ada: int) -> None:
        unit.clients.change(ada, zone=zone, hour=hour)
        planned_anew(ada, unit, BEGIN)

    look(play, change)


def goes_to(play: Talk, zone: str) -> int:
    return look(play, lambda unit, ada: unit.aways.add(ada, FIRST, LAST, BEGIN, training=True, zone=zone))


def ticks(until: datetime) -> Iterator[datetime]:
    now = BEGIN
    while now < until:
        now += timedelta(minutes=30)
        yield now


def tick(play: Talk, now: datetime) -> bool:
    """Do what is due, clocks first; whether anything was."""
    with play.units.read(None) as unit:
        clocks = [each for each in clocks_anywhere(unit.connection) if next_turn(each).earliest <= now]
        sessions = sessions_due(unit, now)
    for each in clocks:
        does(play, each.coach_id, turn, TurnClock(each.away_id), now)
    if clocks:
        with play.units.read(None) as unit:
            sessions = sessions_due(unit, now)
    for coach_id, session_id in sessions:
        does(play, coach_id, send_session, SendSession(session_id), now)
    return bool(clocks or sessions)


def sessions_due(unit: Unit, now: datetime) -> list[tuple[int, int]]:
    return list(due_anywhere(unit.connection, now, 50))


def does(play: Talk, coach_id: int, usecase: Any, command: Any, now: datetime) -> None:
    with play.units.open(coach_id) as unit:
        apply(usecase(command, Person(0, 0, coach_id, "clock"), unit, now), unit, now)


def cards(play: Talk, until: datetime) -> list[tuple[str, datetime]]:
    """Live through it half an hour by half an hour: date of each card of hers, and when it came.

    What was done once is done again at once; where nothing was due, the same would be read a second time.
    """
    for now in ticks(until):
        tick(play, now) and tick(play, now)
    sent = look(
        play, lambda unit, ada: unit.sessions.of_client(ada, ("sent", "missed", "unsent", "left_out"))
    )
    return sorted((f"{each.local_on:%d}", each.sent_at) for each in sent)


@pytest.mark.parametrize(
    ("home", "there", "hour"),
    [
        ("Pacific/Auckland", "America/Los_Angeles", time(7)),
        ("Pacific/Auckland", "America/Los_Angeles", time(18)),
        ("America/Los_Angeles", "Pacific/Auckland", time(7)),
        ("America/Los_Angeles", "Pacific/Auckland", time(18)),
        ("Europe/Lisbon", "Asia/Tokyo", time(18)),
        ("Pacific/Pago_Pago", "Pacific/Kiritimati", time(7)),
        ("Pacific/Kiritimati", "Pacific/Pago_Pago", time(7)),
        ("Asia/Kathmandu", "Australia/Lord_Howe", time(7)),
    ],
)
def test_each_date_has_its_card_once_by_the_clock_of_where_she_is(
    units: Units, home: str, there: str, hour: time
) -> None:
    play = Talk(units)
    lives_in(play, home, hour)
    goes_to(play, there)

    found = cards(play, datetime(2026, 4, 22, 12, tzinfo=UTC))

    assert [on for on, _ in found if on <= "21"] == DATES
    for on, at in found:
        local = at.astimezone(ZoneInfo(there if FIRST.day <= int(on) <= LAST.day else home))
        late = datetime.combine(local.date(), local.time()) - datetime.combine(date(2026, 4, int(on)), hour)
        # On the day of a change, and of the first look, it may come some hours after her hour, always on its own date.
        assert timedelta(0) <= late < timedelta(hours=24 - hour.hour), (on, local)
        if on not in ("07", "09", "17"):
            assert late < timedelta(minutes=30), (on, local)


def test_clocks_that_change_on_the_way_move_no_card(units: Units) -> None:
    """Auckland's clocks go back on 5 April, Los Angeles' went forward in March: its hour is hers all the same."""
    at = turning(date(2026, 4, 5), "Pacific/Auckland", "America/Los_Angeles")
    night = turning(date(2026, 10, 25), "Europe/Lisbon", "Europe/Berlin")

    assert (at.earliest, at.latest) == (
        datetime(2026, 4, 4, 11, tzinfo=UTC),
        datetime(2026, 4, 4, 11, tzinfo=UTC),
    )
    assert (night.earliest, night.latest) == (
        datetime(2026, 10, 24, 22, tzinfo=UTC),
        datetime(2026, 10, 24, 23, tzinfo=UTC),
    )


def zone_of(play: Talk) -> str:
    return look(play, lambda unit, ada: unit.clients.get(ada).zone)


def test_a_clock_that_she_has_set_herself_meanwhile_stays(units: Units) -> None:
    play = Talk(units)
    goes_to(play, "Asia/Tokyo")
    cards(play, datetime(2026, 4, 10, tzinfo=UTC))
    assert zone_of(play) == "Asia/Tokyo"

    look(play, lambda unit, ada: unit.clients.change(ada, zone="Asia/Seoul"))
    cards(play, datetime(2026, 4, 18, tzinfo=UTC))

    assert zone_of(play) == "Asia/Seoul"


def test_back_gives_her_her_own_clock_at_once_and_undo_too(units: Units) -> None:
    play = Talk(units)
    goes_to(play, "Asia/Tokyo")
    cards(play, datetime(2026, 4, 10, tzinfo=UTC))
    play.house.now = datetime(2026, 4, 11, 9, tzinfo=UTC)

    play.take("Ada: /back")

    assert zone_of(play) == "Europe/Lisbon"
    assert look(play, lambda unit, ada: unit.aways.standing(ada, FIRST)[0].last_on) == date(2026, 4, 10)
    cards(play, datetime(2026, 4, 18, tzinfo=UTC))
    assert zone_of(play) == "Europe/Lisbon"


def test_one_absence_after_another_gives_back_her_own_clock(units: Units) -> None:
    play = Talk(units)
    goes_to(play, "Asia/Tokyo")
    look(
        play,
        lambda unit, ada: unit.aways.add(
            ada, date(2026, 4, 17), date(2026, 4, 20), BEGIN, training=True, zone="America/Los_Angeles"
        ),
    )

    cards(play, datetime(2026, 4, 18, 12, tzinfo=UTC))
    assert zone_of(play) == "America/Los_Angeles"
    cards(play, datetime(2026, 4, 22, tzinfo=UTC))
    assert zone_of(play) == "Europe/Lisbon"


def test_another_coachs_client_keeps_her_clock(units: Units) -> None:
    play = Talk(units)
    goes_to(play, "Asia/Tokyo")
    cards(play, datetime(2026, 4, 10, tzinfo=UTC))

    ben = play.house.client_of(play.someone("Orla"), play.someone("Ben"))

    assert ben.zone == "Europe/Lisbon"
    with play.units.open(play.someone("Orla").coach_id) as unit, pytest.raises(LookupError):
        unit.aways.get(1)
