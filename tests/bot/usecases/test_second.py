"""What cannot wait and stays unseen: again after 15 and 60 minutes, then to the person whom the coach has named."""

from datetime import datetime, timedelta

import pytest
from dialogs.talks import LISBON, Talk
from setting_out import Someone
from sqlalchemy import select, update

from bot.messages import Arrival, Level, Person
from bot.store.seconds import Second
from bot.store.tables import alert, outbox
from bot.store.units import Units
from bot.usecases import alerting, forwarding, helping, second, talk
from bot.usecases.effects import apply
from bot.usecases.runner import who
from bot.usecases.second_named import SecondAsked, second_asked

LENA, MINUTE = 9, timedelta(minutes=1)


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


@pytest.fixture
def marit(play: Talk) -> Someone:
    return play.someone("Marit")


def name(play: Talk, *, bound: bool = True) -> Someone:
    play.take("Marit: /second Lena")
    if bound:
        play.take("Lena opens the link for a second person")
    return play.someone("Lena")


def stop(play: Talk) -> datetime:
    """Ada writes a stop sign; returns when it was told."""
    play.typed(play.someone("Ada"), "chest pain and my left arm is numb")
    return play.house.now


def goes_on(play: Talk, told_at: datetime, *minutes: int) -> None:
    for each in minutes:
        play.tick((told_at + each * MINUTE).astimezone(LISBON))


def sent(play: Talk, user_id: int, text: str) -> list[str]:
    """The lanes of the messages with a text that were queued for somebody."""
    query = select(outbox.c.lane, outbox.c.body).where(outbox.c.chat_id == user_id, outbox.c.op == "send")
    with play.units.engine.connect() as connection:
        return [row.lane for row in connection.execute(query) if row.body and text in row.body["html"]]


def test_unseen_it_is_told_again_twice_and_then_the_second_person_once(play: Talk, marit: Someone) -> None:
    name(play)
    told_at = stop(play)

    goes_on(play, told_at, 14)
    assert sent(play, 100, "Not seen yet.") == []
    goes_on(play, told_at, 15, 15, 16, 59)
    assert sent(play, 100, "Not seen yet.") == ["safety"]
    goes_on(play, told_at, 60, 60, 74)
    assert sent(play, 100, "Not seen yet.") == ["safety"] * 2
    assert sent(play, LENA, "has not seen this") == []
    goes_on(play, told_at, 75, 75, 200, 1000)
    assert sent(play, LENA, "has not seen this") == ["safety"]
    assert sent(play, 100, "Not seen yet.") == ["safety"] * 2
    assert sent(play, 900, "Not seen yet.") == []


@pytest.mark.parametrize("label", ["Seen", "Write to them", "Show the log"])
def test_whoever_taps_under_it_has_seen_it(play: Talk, marit: Someone, label: str) -> None:
    name(play)
    told_at = stop(play)
    marit.tap(label)

    goes_on(play, told_at, 15, 60, 75)

    assert sent(play, 100, "Not seen yet.") == sent(play, LENA, "has not seen this") == []


def test_a_matter_that_is_over_is_not_told_again(play: Talk, marit: Someone) -> None:
    told_at = stop(play)
    marit.tap("Release the plan")
    marit.tap("Yes, release")

    goes_on(play, told_at, 15, 60, 75)

    assert sent(play, 100, "Not seen yet.") == []


def test_the_newer_message_has_the_buttons_and_seen_ends_it_there_too(play: Talk, marit: Someone) -> None:
    told_at = stop(play)
    play.kept(marit, "Seen", "first")
    goes_on(play, told_at, 15)
    play.tapped_old(marit, "first")
    assert "There is newer word of this further down" in marit.sees

    marit.tap("Seen")
    goes_on(play, told_at, 60, 75)
    assert sent(play, 100, "Not seen yet.") == ["safety"]


def test_when_it_grows_it_begins_anew(play: Talk, marit: Someone) -> None:
    told_at = stop(play)
    goes_on(play, told_at, 15)
    marit.tap("Seen")
    play.house.now = told_at + 20 * MINUTE
    again_at = stop(play)

    goes_on(play, again_at, 14)
    assert sent(play, 100, "Not seen yet.") == ["safety"]
    goes_on(play, again_at, 15, 60)
    assert sent(play, 100, "Not seen yet.") == ["safety"] * 3


def test_what_can_wait_is_never_told_again(play: Talk, marit: Someone) -> None:
    name(play)
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    play.typed(play.someone("Ada"), "pain left knee 5")
    told_at = play.house.now
    assert len(sent(play, 100, "left knee, 5 of 10")) == 1

    goes_on(play, told_at, 15, 60, 75, 200)

    assert sent(play, 100, "Not seen yet.") == sent(play, LENA, "has not seen this") == []


def test_without_a_second_person_nothing_more_comes(play: Talk, marit: Someone) -> None:
    told_at = stop(play)
    goes_on(play, told_at, 15, 60, 75, 200)

    assert len(sent(play, 100, "Not seen yet.")) == 2
    with play.units.engine.connect() as connection:
        due = connection.execute(select(alert.c.due_at).where(alert.c.level == Level.NOW)).scalars().all()
    assert due == [None]


def test_she_reads_whom_and_what_kind_and_nothing_that_was_said(play: Talk) -> None:
    lena = name(play)
    goes_on(play, stop(play), 15, 60, 75)

    assert "Ada: a stop sign." in lena.sees
    assert "chest" not in lena.sees
    assert lena.buttons == ["Seen"]


def test_her_seen_ends_it_and_the_coach_reads_who_it_was(play: Talk, marit: Someone) -> None:
    lena = name(play)
    goes_on(play, stop(play), 15, 60, 75)
    data = lena.data("Seen")
    lena.tap_data(data)
    lena.tap_data(data)

    assert "Lena has seen the alert about Ada" in marit.sees
    assert len(sent(play, 100, "Lena has seen")) == 1
    with play.units.engine.connect() as connection:
        seen = connection.execute(select(alert.c.seen_at).where(alert.c.level == Level.NOW)).scalars().all()
    assert len(seen) == 1
    assert seen[0] is not None


def test_where_the_coach_was_first_her_seen_changes_nothing(play: Talk, marit: Someone) -> None:
    lena = name(play)
    goes_on(play, stop(play), 15, 60, 75)
    marit.tap("Seen")
    lena.tap("Seen")

    assert sent(play, 100, "Lena has seen") == []
    assert lena.sees.endswith("Seen. Thank you.")


def test_what_she_writes_is_a_stranger_s_and_a_stop_sign_of_hers_is_answered(play: Talk) -> None:
    lena = name(play)
    before = len(sent(play, 100, ""))

    play.typed(lena, "done")
    lena.does(forwarding.reached, forwarding.Reached(reachable=False))
    lena.does(helping.help_asked, helping.Help())
    lena.does(second_asked, SecondAsked("off"))
    play.typed(lena, "chest pain and my left arm is numb")

    assert "Stop now." in lena.sees
    assert len(sent(play, 100, "")) == before
    with play.units.open(None) as house:
        assert house.seconds.who(LENA) is not None


def test_no_button_but_her_own_does_anything_for_her(play: Talk, marit: Someone) -> None:
    lena = name(play)
    goes_on(play, stop(play), 15, 60, 75)
    release = marit.data("Release the plan")
    lena.tap_data(release)
    lena.tap_data(lena.forged("Seen", action="rl"))

    client = play.house.client_of(marit, play.someone("Ada"))
    assert client.frozen_at is not None
    with play.units.open(marit.coach_id) as unit:
        prompt = unit.prompts.open("assign", LENA, LENA, play.house.now)
        person = Person(LENA, LENA, marit.coach_id, second.ROLE)
        tap = talk.Tapped(second.Tap(prompt.id, prompt.revision, second.Action.BACK))
        assert talk.tapped(tap, person, unit, play.house.now) == []
        assert second.refreshed(prompt, person, unit, play.house.now) == []


def test_another_coach_s_tap_on_it_is_nobody_s(play: Talk) -> None:
    lena = name(play)
    goes_on(play, stop(play), 15, 60, 75)
    play.someone("Orla").tap_data(lena.data("Seen"))

    assert sent(play, 100, "Lena has seen") == []


def test_the_link_is_good_once_and_a_week_and_for_strangers_alone(play: Talk, marit: Someone) -> None:
    name(play, bound=False)
    for other in ("Ada", "Ben", "Orla", "Marit"):
        play.take(f"{other} opens the link for a second person")
    standing = play.house.reading(marit, lambda unit: unit.seconds.of(marit.coach_id))
    assert standing.user_id is None

    play.take("Cleo opens the link for a second person")
    play.take("Lena opens the link for a second person")
    with play.units.open(None) as house:
        assert house.seconds.who(7) == Second(marit.coach_id, "Lena", 7, 7, None)
        assert house.seconds.who(LENA) is None

    name(play, bound=False)
    play.house.now += timedelta(days=7)
    play.take("Lena opens the link for a second person")
    with play.units.open(None) as house:
        assert house.seconds.who(7) is house.seconds.who(LENA) is None


def test_off_ends_it_and_nobody_is_told(play: Talk, marit: Someone) -> None:
    name(play)
    play.take("Marit: /second off")
    play.take("Marit: /second off")
    assert "Nobody is named." in marit.sees

    goes_on(play, stop(play), 15, 60, 75)
    assert sent(play, LENA, "has not seen this") == []
    with play.units.open(None) as house:
        arrival = Arrival(1, LENA, LENA)
        tap = talk.Tapped(second.Tap(1, 1, second.Action.SEEN))
        assert who(house, arrival, tap, play.house.now).role == "stranger"


def test_after_off_her_old_button_does_nothing(play: Talk, marit: Someone) -> None:
    lena = name(play)
    goes_on(play, stop(play), 15, 60, 75)
    data = lena.data("Seen")
    play.take("Marit: /second Somebody")
    lena.tap_data(data)

    assert sent(play, 100, "Lena has seen") == []


def test_somebody_who_became_a_client_here_is_told_nothing(play: Talk, marit: Someone) -> None:
    name(play)
    with play.units.open(None) as house:
        house.accounts.bind(LENA, LENA, play.someone("Orla").coach_id or 0, "coach")
    goes_on(play, stop(play), 15, 60, 75)
    play.take("Marit: /second")

    assert sent(play, LENA, "has not seen this") == []
    assert "has not opened the link yet" in marit.sees


def test_only_a_coach_names_somebody(play: Talk) -> None:
    ada = play.someone("Ada")
    play.take("Ada: /second Lena")

    assert "coach" in ada.sees.casefold()
    with play.units.open(None) as house:
        assert [house.seconds.of(each) for each in house.coaches.ids()] == [None, None]


def test_a_name_that_is_too_long_is_not_taken(play: Talk, marit: Someone) -> None:
    play.take(f"Marit: /second {'x' * 81}")

    assert marit.sees == "A name has at most 80 letters."


def test_a_look_at_what_is_not_due_changes_nothing(play: Talk, marit: Someone) -> None:
    told_at = stop(play)
    with play.units.open(marit.coach_id) as unit:
        query = select(alert.c.id).where(alert.c.level == Level.NOW)
        row = unit.connection.execute(query).scalar_one()
        early = told_at + 14 * MINUTE
        assert alerting.due(alerting.AlertDue(row), None, unit, early) == []  # type: ignore[arg-type]
        unit.connection.execute(update(alert).where(alert.c.id == row).values(closed_at=told_at))
        late = told_at + 16 * MINUTE
        assert alerting.due(alerting.AlertDue(row), None, unit, late) == []  # type: ignore[arg-type]
        apply([], unit, late)
