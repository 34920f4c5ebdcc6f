"""The digest of a log: its numbers are the rows', one coach's alone, and it is queued once with its picture."""

import random
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest
from faults.crew import ADA, BEN, DUE, two_crews
from setting_out import House
from sqlalchemy import func, select, update

from bot.messages import Message, Person, Send
from bot.render.digest import digest_texts
from bot.store.placements import Placed
from bot.store.tables import account, assignment, client, outbox, picture, session
from bot.store.units import Units
from bot.usecases.digest import facts_of, pictures_of, prepared, send_digest
from bot.usecases.effects import apply
from bot.usecases.sending import SendSession, send_session
from core.loads.order import OrderKind
from core.oversight.digest import Digest, digest
from core.policy import Policy
from core.programme.prescription import Load

SUNDAY = date(2026, 4, 12)
HOUR = datetime(2026, 4, 12, 17, tzinfo=UTC)
ENDED = [
    ("done", None),
    ("done", None),
    ("partial", None),
    ("missed", None),
    ("missed", "ill"),
    ("left_out", "time"),
    ("left_out", "away"),
    ("held", None),
    ("unsent", "system"),
    ("sent", None),
    ("planned", None),
]


def coach_of(units: Units, user_id: int) -> int:
    with units.read(None) as unit:
        return unit.connection.execute(
            select(account.c.coach_id).where(account.c.user_id == user_id)
        ).scalar_one()


def value_of(units: Units, user_id: int = ADA, on: date = SUNDAY) -> Digest:
    with units.read(coach_of(units, user_id)) as unit:
        return digest(facts_of(unit, on), on, Policy())


def chance_of(seed: int) -> random.Random:
    return random.Random(seed)  # noqa: S311  (the same every time is what is wanted)


def filled(units: Units, chance: random.Random) -> None:
    """Sessions of both clients over seven weeks, each ended by chance."""
    with units.open(None) as unit:
        unit.connection.execute(session.delete())
        for row in unit.connection.execute(
            select(assignment.c.id, assignment.c.coach_id, assignment.c.client_id)
        ):
            for number in range(chance.randrange(40)):
                state, reason = chance.choice(ENDED)
                on = SUNDAY + timedelta(days=chance.randrange(-40, 7))
                unit.connection.execute(
                    session.insert().values(
                        coach_id=row.coach_id,
                        client_id=row.client_id,
                        assignment_id=row.id,
                        week_no=1,
                        day_key=f"day-{number}",
                        local_on=on,
                        due_at=DUE,
                        sent_at=DUE,
                        state=state,
                        left_reason=reason,
                    )
                )


def counted(units: Units, coach_id: int, days: int) -> tuple[int, int]:
    """Kept and due of the last days, asked of the table."""
    within = (
        session.c.coach_id == coach_id,
        session.c.local_on > SUNDAY - timedelta(days=days),
        session.c.local_on <= SUNDAY,
    )
    kept = session.c.state.in_(("done", "partial"))
    excused = func.coalesce(session.c.left_reason, "").in_(("ill", "away", "coach"))
    lost = session.c.state.in_(("missed", "left_out")) & ~excused
    with units.read(None) as unit:
        found = [
            unit.connection.execute(
                select(func.count()).select_from(session).where(*within, which)
            ).scalar_one()
            for which in (kept, kept | lost)
        ]
    return found[0], found[1]


@pytest.mark.parametrize("seed", range(12))
def test_the_numbers_are_those_of_the_log(units: Units, seed: int) -> None:
    two_crews(units)
    filled(units, chance_of(seed))

    for user_id in (ADA, BEN):
        value = value_of(units, user_id)
        (kept,) = value.kept
        coach_id = coach_of(units, user_id)
        assert (kept.week.kept, kept.week.due) == counted(units, coach_id, 7)
        assert (kept.month.kept, kept.month.due) == counted(units, coach_id, 28)
        assert (value.week.kept, value.week.due) == (kept.week.kept, kept.week.due)


def trained(units: Units, *typed: str, day: int = 7) -> House:
    """Ada has her card and types."""
    town = House(units, now=datetime(2026, 4, day, 6, tzinfo=UTC), updates=1000 * day)
    coach_id = coach_of(units, ADA)
    with units.open(coach_id) as unit:
        (session_id,) = unit.sessions.due(town.now, 10)
        apply(
            send_session(SendSession(session_id), Person(0, 0, coach_id, "clock"), unit, town.now),
            unit,
            town.now,
        )
    for text in typed:
        town.someone(ADA).type(text)
    return town


def test_what_was_lifted_is_the_heaviest_load_of_the_session(units: Units) -> None:
    two_crews(units)
    trained(units, "90 8 8 8 8", "10 10 9", "16 10 10 10", "10 12 12 12", "40 15 14 13")
    with units.read(coach_of(units, ADA)) as unit:
        (facts,) = facts_of(unit, SUNDAY)
    found = {each.exercise: (each.load, each.full) for each in facts.lifted}

    assert found["hip-thrust"] == (Load.of(90), True)
    assert [full for _, full in found.values()] == [True, False, True, True, True]
    assert {each.on for each in facts.lifted} == {date(2026, 4, 7)}


def test_loads_of_one_session_that_differ_are_not_a_whole_set_of_work(units: Units) -> None:
    two_crews(units)
    trained(units, "90 8 8, 95 8 8")
    with units.read(coach_of(units, ADA)) as unit:
        (facts,) = facts_of(unit, SUNDAY)

    assert [(each.load, each.full) for each in facts.lifted] == [(Load.of(95), False)]


def test_a_client_of_another_coach_is_in_no_digest_of_mine(units: Units) -> None:
    two_crews(units)

    assert [[each.name for each in value_of(units, user).kept] for user in (ADA, BEN)] == [["Ada"], ["Ben"]]


def test_who_has_not_joined_or_has_stopped_is_left_out(units: Units) -> None:
    two_crews(units)
    with units.open(None) as unit:
        unit.connection.execute(update(client).where(client.c.name == "Ada").values(state="stopped"))

    assert value_of(units).kept == ()


def test_the_facts_of_a_client_are_hers(units: Units) -> None:
    two_crews(units)
    trained(units, "90 8 8 8 8", "pain left knee 5")
    with units.open(None) as unit:
        unit.accounts.set_reachable(ADA, HOUR, reachable=False)
        unit.connection.execute(update(client).where(client.c.name == "Ada").values(frozen_at=HOUR))
    with units.read(coach_of(units, ADA)) as unit:
        (facts,) = facts_of(unit, SUNDAY)

    assert (facts.block, facts.block_ends) == ("Harbour strength", date(2026, 5, 4))
    assert (facts.reachable, facts.frozen_on, facts.frozen_by_health) == (False, SUNDAY, False)
    assert facts.began_on == date(2026, 4, 7)
    assert [each.score for each in facts.pain] == [5]
    assert [each.state for each in facts.past] == ["started"]
    assert facts.heard_at == datetime(2026, 4, 7, 6, tzinfo=UTC)


def test_without_a_block_there_is_none_in_the_facts(units: Units) -> None:
    two_crews(units)
    with units.open(None) as unit:
        unit.connection.execute(update(assignment).values(ended_at=HOUR))

    assert [each.block for each in value_of(units).ending] == [None]


def sent(units: Units, user_id: int = ADA, at: datetime = HOUR) -> list[Any]:
    coach_id = coach_of(units, user_id)
    command = prepared(units, coach_id, SUNDAY, HOUR)
    with units.open(coach_id) as unit:
        effects = send_digest(command, Person(0, 0, coach_id, "clock"), unit, at)
        apply(effects, unit, at)
    return effects


def test_a_digest_is_its_words_and_then_its_picture(units: Units) -> None:
    two_crews(units)
    filled(units, chance_of(4))
    words, drawn = sent(units)

    assert isinstance(words, Send)
    assert not words.message.silent
    assert [words.message.html] == list(digest_texts(value_of(units)))
    assert (drawn.message.media_kind, drawn.message.silent) == ("photo", True)
    with units.read(None) as unit:
        rows = unit.connection.execute(select(picture.c.id, picture.c.coach_id, picture.c.bytes)).all()
    assert [(row.id, row.coach_id) for row in rows] == [(drawn.message.picture_id, coach_of(units, ADA))]
    assert rows[0].bytes.startswith(b"\x89PNG")
    assert len(rows[0].bytes) < 100_000


def test_a_digest_goes_once_in_a_week(units: Units) -> None:
    two_crews(units)
    filled(units, chance_of(4))
    first, second, other = sent(units), sent(units, at=HOUR + timedelta(hours=5)), sent(units, BEN)
    with units.read(None) as unit:
        keys = (
            unit.connection.execute(select(outbox.c.key).where(outbox.c.key.like("%digest%"))).scalars().all()
        )

    assert (len(first), second, len(keys)) == (2, [], 2 + len(other))


def test_a_coach_without_an_account_gets_none(units: Units) -> None:
    two_crews(units)
    coach_id = coach_of(units, ADA)
    command = prepared(units, coach_id, SUNDAY, HOUR)
    with units.open(coach_id) as unit:
        unit.connection.execute(account.delete().where(account.c.role == "coach"))
        assert send_digest(command, Person(0, 0, coach_id, "clock"), unit, HOUR) == []


def test_a_long_digest_is_several_messages_and_rings_once(units: Units) -> None:
    two_crews(units)
    coach_id = coach_of(units, ADA)
    with units.open(coach_id) as unit:
        for number in range(200):
            client_id = unit.clients.add(f"Client with a long name, number {number}", HOUR)
            unit.clients.change(client_id, state="active", bodyweight=Decimal(70))
    found = sent(units)
    silent = [each.message.silent for each in found]

    assert len(found) > 2
    assert silent == [False, *([True] * (len(found) - 1))]
    assert len({each.key for each in found}) == len(found)


def test_no_picture_is_drawn_of_nothing(units: Units) -> None:
    two_crews(units)

    assert pictures_of(value_of(units)) == ()
    assert [each.message for each in sent(units) if each.message.media_kind] == list[Message]()


def ahead_of(units: Units, on: date) -> dict[str, str]:
    with units.read(coach_of(units, ADA)) as unit:
        (facts,) = facts_of(unit, on)
    return {each.exercise: f"{each.decision.kind} {each.decision.load}" for each in facts.ahead}


def planned_again(units: Units, on: date, week: int = 2) -> None:
    """Ada's first day comes again on a date."""
    with units.open(coach_of(units, ADA)) as unit:
        unit.connection.execute(session.delete().where(session.c.state == "planned"))
        ada = next(each.id for each in unit.clients.roster())
        running = unit.blocks.running(ada)
        assert running is not None
        unit.sessions.lay(ada, running.id, week, "lower-a", on, HOUR)


def test_what_comes_is_worked_out_anew_where_days_go_by(units: Units) -> None:
    two_crews(units)
    trained(units, "all done", "40 15 14 13", "nothing hurts", "2")
    planned_again(units, date(2026, 4, 14))
    assert ahead_of(units, SUNDAY)["hip-thrust"] == "hold 90 kg"

    planned_again(units, date(2026, 4, 22))
    assert ahead_of(units, date(2026, 4, 19))["hip-thrust"] == "lower 80 kg"


def test_what_comes_is_worked_out_anew_after_what_was_said_since(units: Units) -> None:
    two_crews(units)
    trained(units, "all done", "40 15 14 13", "nothing hurts", "2")
    planned_again(units, date(2026, 4, 14))
    with units.open(coach_of(units, ADA)) as unit:
        ada = next(each.id for each in unit.clients.roster())
        unit.orders.add(ada, OrderKind.EASE, HOUR, facts={"percent": 10})

    assert ahead_of(units, SUNDAY)["hip-thrust"] == "lower 80 kg"


def test_what_comes_is_what_stands_in_for_the_block_and_not_what_is_written(units: Units) -> None:
    two_crews(units)
    trained(units, "all done", "40 15 14 13", "nothing hurts", "2")
    planned_again(units, date(2026, 4, 14))
    assert "hip-thrust" in ahead_of(units, SUNDAY)
    placed(units, "hip-thrust", "glute-bridge")
    swapped = ahead_of(units, SUNDAY)
    assert "hip-thrust" not in swapped
    assert swapped["glute-bridge"] == "start bw"

    placed(units, "hip-thrust", None)
    assert {"hip-thrust", "glute-bridge"}.isdisjoint(ahead_of(units, SUNDAY))


def placed(units: Units, written: str, instead: str | None) -> None:
    """Marit has Ada do another exercise, or none, for the whole block."""
    with units.open(coach_of(units, ADA)) as unit:
        running = unit.blocks.running(next(each.id for each in unit.clients.roster()))
        assert running is not None
        unit.placements.keep(running.id, {written: Placed(instead, chosen=True)})
