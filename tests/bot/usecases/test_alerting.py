"""What of a session, a video, a check-in and a block a coach hears by herself, how soon, and how often."""

from datetime import datetime, timedelta

import pytest
from dialogs.talks import LISBON, Talk
from setting_out import Someone
from sqlalchemy import select, update

from bot.messages import Level
from bot.store.alerts import Alert, alerts_due_anywhere, next_alert_due
from bot.store.tables import alert, due_question, outbox
from bot.store.units import Units
from bot.usecases import alerting
from bot.usecases.digest import facts_of, prepared, send_digest
from core.oversight.waiting import VideosWaiting

TUESDAYS = [datetime(2026, 4, day, 7, tzinfo=LISBON) for day in (7, 14, 21)]


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


@pytest.fixture
def marit(play: Talk) -> Someone:
    return play.someone("Marit")


def train(play: Talk, at: datetime, line: str, left: int = 0) -> None:
    """Ada does her hip thrusts, leaves the rest out, and says how many were left."""
    ada = play.someone("Ada")
    play.tick(at)
    ada.tap("Start")
    play.typed(ada, line)
    for _ in range(4):
        play.typed(ada, "skip")
    play.typed(ada, "nothing hurts")
    play.typed(ada, str(left))


def matters(play: Talk, coach: Someone, prefix: str = "") -> list[Alert]:
    """The open matters of a coach whose key begins so."""
    with play.units.open(coach.coach_id) as unit:
        rows = unit.connection.execute(
            select(alert.c.key).where(alert.c.coach_id == coach.coach_id, alert.c.closed_at.is_(None))
        ).scalars()
        found = [unit.alerts.open_one(key) for key in rows if key.startswith(prefix)]
    return [each for each in found if each is not None]


def told(play: Talk, user_id: int, text: str) -> int:
    """How many messages with a text were queued for somebody."""
    query = select(outbox.c.body).where(outbox.c.chat_id == user_id, outbox.c.op == "send")
    with play.units.engine.connect() as connection:
        return sum(text in body["html"] for body in connection.execute(query).scalars() if body)


def test_a_set_far_over_the_line_is_told_that_day_and_ends_with_its_correction(
    play: Talk, marit: Someone
) -> None:
    train(play, TUESDAYS[0], "105 8 8 8 8")
    assert [(each.level, each.grown) for each in matters(play, marit, "line:")] == [(Level.TODAY, 1)]
    assert told(play, 100, "the load line was 90 kg") == 1
    assert told(play, 1, "load line") == told(play, 900, "load line") == 0

    play.edited_before(play.someone("Ada"), "105 8 8 8 8", "90 8 8 8 8")
    assert matters(play, marit, "line:") == []


def test_a_set_a_step_over_the_line_is_told_to_nobody(play: Talk, marit: Someone) -> None:
    train(play, TUESDAYS[0], "91.25 8 8 8 8")

    assert matters(play, marit, "line:") == []


def test_none_left_is_told_when_it_comes_twice_running_and_not_a_third_time(
    play: Talk, marit: Someone
) -> None:
    train(play, TUESDAYS[0], "90 8 8 8 8")
    assert matters(play, marit, "left:") == []

    for at in TUESDAYS[1:]:
        train(play, at, "90 8 8 8 8")

    assert [(each.level, each.grown) for each in matters(play, marit, "left:")] == [(Level.TODAY, 1)]
    assert told(play, 100, "0 reps left where 2 were asked") == 1


def test_with_reps_left_again_the_matter_is_over(play: Talk, marit: Someone) -> None:
    for at, left in zip(TUESDAYS, (0, 0, 2), strict=True):
        train(play, at, "90 8 8 8 8", left)

    assert matters(play, marit, "left:") == []


def test_a_lift_that_falls_stands_once_in_the_digest_and_rings_nobody(play: Talk, marit: Someone) -> None:
    for at, load in zip(TUESDAYS, ("90", "87.5", "82.5"), strict=True):
        train(play, at, f"{load} 8 8 8 8", 1)
    [found] = matters(play, marit, "falling:")
    assert (found.level, found.told_at) == (Level.DIGEST, None)
    assert told(play, 100, "Hip thrust") == told(play, 100, "hip thrust") == 0

    due_at = datetime(2026, 4, 26, 18, tzinfo=LISBON)
    command = prepared(play.units, marit.coach_id or 0, due_at.date(), due_at)
    assert [lift.exercise for each in command.value.waits for lift in each.lifts] == ["hip-thrust"]
    with play.units.open(marit.coach_id) as unit:
        send_digest(command, None, unit, due_at)  # type: ignore[arg-type]
    again = prepared(play.units, marit.coach_id or 0, due_at.date() + timedelta(days=7), due_at)
    assert [each for each in again.value.waits if each.lifts] == []
    assert [each.told_at for each in matters(play, marit, "falling:")] == [due_at]


def test_a_lift_that_comes_back_is_no_matter_any_more(play: Talk, marit: Someone) -> None:
    for at, load in zip(TUESDAYS, ("90", "87.5", "82.5"), strict=True):
        train(play, at, f"{load} 8 8 8 8", 1)
    play.edited_before(play.someone("Ada"), "82.5 8 8 8 8", "92.5 8 8 8 8")

    assert matters(play, marit, "falling:") == []


def test_a_video_without_an_answer_is_late_after_two_days_and_told_after_five(
    play: Talk, marit: Someone
) -> None:
    play.take("Ada sends a video: deep enough?")
    came = play.house.now
    ada = play.house.client_of(marit, play.someone("Ada"))

    def late(after: timedelta) -> dict[int, VideosWaiting]:
        with play.units.open(marit.coach_id) as unit:
            return alerting.videos_waiting(unit, came + after)

    assert late(timedelta(hours=47)) == {}
    assert late(timedelta(hours=49)) == {ada.id: VideosWaiting(count=1, days=2)}
    assert late(timedelta(days=40)) == {}
    with play.units.open(play.someone("Orla").coach_id) as unit:
        assert alerting.videos_waiting(unit, came + timedelta(days=3)) == {}

    play.tick((came + timedelta(days=4)).astimezone(LISBON))
    assert told(play, 100, "a video has had no answer") == 0
    for hours in (121, 122, 300):
        play.tick((came + timedelta(hours=hours)).astimezone(LISBON))
    assert told(play, 100, "a video has had no answer for 5 days") == 1
    assert told(play, 900, "a video") == 0


def test_a_video_that_was_answered_is_told_to_nobody_and_the_next_one_begins_anew(
    play: Talk, marit: Someone
) -> None:
    play.take("Ada sends a video: deep enough?")
    play.take("Marit replies to “deep enough?”: Yes, go on.")
    came = play.house.now
    play.tick((came + timedelta(days=6)).astimezone(LISBON))
    assert told(play, 100, "had no answer") == 0

    play.take("Ada sends a video: and this?")
    play.tick((came + timedelta(days=12)).astimezone(LISBON))
    assert told(play, 100, "had no answer") == 1


def test_of_several_videos_the_oldest_without_an_answer_counts(play: Talk, marit: Someone) -> None:
    play.take("Ada sends a video: the first")
    first = play.house.now
    play.house.now = first + timedelta(days=3)
    play.take("Ada sends a video: the second")
    play.take("Marit replies to “the first”: Good.")

    play.tick((first + timedelta(days=5, hours=1)).astimezone(LISBON))
    assert told(play, 100, "had no answer") == 0
    play.tick((first + timedelta(days=8, hours=1)).astimezone(LISBON))
    assert told(play, 100, "a video has had no answer for 5 days") == 1


def test_a_picture_waits_for_nobody(play: Talk, marit: Someone) -> None:
    play.take("Ada sends a photo: deep enough?")

    assert matters(play, marit, "video:") == []


def test_check_ins_without_an_answer_for_two_weeks_are_told_when_the_next_goes_out(
    play: Talk, marit: Someone
) -> None:
    sundays = [datetime(2026, 4, day, 18, tzinfo=LISBON) for day in (12, 19, 26)]
    for at in sundays[:2]:
        play.tick(at)
    assert told(play, 100, "check-ins") == 0

    play.tick(sundays[2])
    assert told(play, 100, "no answer to the last 2 check-ins, since Sun 12 April") == 1
    assert len(matters(play, marit, "checkin:")) == 1


def test_with_an_answer_the_matter_of_check_ins_is_over(play: Talk, marit: Someone) -> None:
    for day in (12, 19, 26):
        play.tick(datetime(2026, 4, day, 18, tzinfo=LISBON))
    play.take("Ada [About right]")
    client = play.house.client_of(marit, play.someone("Ada"))

    with play.units.open(marit.coach_id) as unit:
        assert alerting.check_in_asked(client, unit, play.house.now + timedelta(days=7)) == []
    assert matters(play, marit, "checkin:") == []


def test_a_block_that_ends_with_none_after_it_is_told_a_week_before_and_once(
    play: Talk, marit: Someone
) -> None:
    play.tick(datetime(2026, 4, 26, 7, tzinfo=LISBON))
    assert told(play, 100, "no block follows it") == 0

    for day in (27, 28, 30):
        play.tick(datetime(2026, 4, day, 7, tzinfo=LISBON))

    assert told(play, 100, "<b>Ada</b>: Harbour strength ends Mon 4 May, and no block follows it") == 1
    assert told(play, 900, "<b>Ben</b>: Harbour strength ends Mon 4 May, and no block follows it") == 1
    assert told(play, 100, "<b>Ben</b>") == told(play, 900, "<b>Ada</b>") == 0


def test_where_another_block_follows_nobody_is_told(play: Talk, marit: Someone) -> None:
    play.house.now = datetime(2026, 4, 20, 12, tzinfo=LISBON)
    marit.assign("Ada, Harbour strength, 2026-05-05")
    marit.tap("Start it")

    play.tick(datetime(2026, 4, 28, 7, tzinfo=LISBON))

    assert told(play, 100, "no block follows it") == 0


def test_a_block_that_was_left_is_closed_when_it_is_looked_at(play: Talk, marit: Someone) -> None:
    client = play.house.client_of(marit, play.someone("Ada"))
    [found] = matters(play, marit, "block:")
    with play.units.open(marit.coach_id) as unit:
        unit.blocks.end(client.id, play.house.now)
        later = datetime(2026, 4, 27, 12, tzinfo=LISBON)
        assert alerting.due(alerting.AlertDue(found.id), None, unit, later) == []  # type: ignore[arg-type]
    assert matters(play, marit, "block:") == []


def test_a_block_whose_end_has_moved_is_looked_at_again_then(play: Talk, marit: Someone) -> None:
    [found] = matters(play, marit, "block:")
    early = datetime(2026, 4, 10, 12, tzinfo=LISBON)
    with play.units.open(marit.coach_id) as unit:
        unit.alerts.put_off(found.id, early)
        assert alerting.due(alerting.AlertDue(found.id), None, unit, early) == []  # type: ignore[arg-type]
    [again] = matters(play, marit, "block:")
    assert again.due_at == found.due_at


def test_a_block_that_is_over_is_not_told_to_end(play: Talk, marit: Someone) -> None:
    [found] = matters(play, marit, "block:")
    late = datetime(2026, 5, 20, 12, tzinfo=LISBON)
    with play.units.open(marit.coach_id) as unit:
        assert alerting.due(alerting.AlertDue(found.id), None, unit, late) == []  # type: ignore[arg-type]
    assert matters(play, marit, "block:") == []


def test_what_is_due_is_asked_by_its_time_and_of_open_matters_alone(play: Talk, marit: Someone) -> None:
    with play.units.open(None) as house:
        soonest = next_alert_due(house.connection)
        assert soonest is not None
        assert alerts_due_anywhere(house.connection, soonest - timedelta(seconds=1), 50) == []
        assert len(alerts_due_anywhere(house.connection, soonest, 1)) == 1
        house.connection.execute(update(alert).values(closed_at=soonest))
        assert alerts_due_anywhere(house.connection, soonest, 50) == []
        assert next_alert_due(house.connection) is None


def test_one_coach_cannot_look_at_a_matter_of_another(play: Talk, marit: Someone) -> None:
    [found] = matters(play, marit, "block:")

    with play.units.open(play.someone("Orla").coach_id) as unit:
        with pytest.raises(LookupError):
            alerting.due(alerting.AlertDue(found.id), None, unit, play.house.now)  # type: ignore[arg-type]
        unit.alerts.put_off(found.id, None)
        unit.alerts.again(found.id, 3, None)
    assert matters(play, marit, "block:") == [found]


def test_the_digest_shows_a_video_of_its_own_coach_alone(play: Talk, marit: Someone) -> None:
    play.take("Ada sends a video: deep enough?")
    on = play.house.now + timedelta(days=3)

    def waits(coach: Someone) -> list[str]:
        with play.units.open(coach.coach_id) as unit:
            return [each.name for each in facts_of(unit, on.date(), on) if each.waits.is_anything]

    assert waits(marit) == ["Ada"]
    assert waits(play.someone("Orla")) == []


def test_a_check_in_that_never_went_out_counts_as_nothing(play: Talk, marit: Someone) -> None:
    for day in (12, 19):
        play.tick(datetime(2026, 4, day, 18, tzinfo=LISBON))
    with play.units.engine.begin() as connection:
        connection.execute(update(due_question).values(sent_at=None))
    client = play.house.client_of(marit, play.someone("Ada"))
    with play.units.open(marit.coach_id) as unit:
        now = datetime(2026, 4, 26, 18, tzinfo=LISBON)
        assert alerting.check_in_asked(client, unit, now) == []
