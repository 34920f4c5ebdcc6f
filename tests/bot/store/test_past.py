import pytest
from benchmarks.half_year import half_year
from sqlalchemy import update
from sqlalchemy.exc import NoResultFound

from bot.store.tables import decision
from bot.store.units import Units
from bot.usecases.decisions import LOOK_BACK, read_history
from core.checkin.training_log import Session
from core.loads.decision import next_decision
from tests.bot.store.test_read_once import asked
from tests.core.loads.lifts import dose, inputs

EXERCISES = ("back-squat", "leg-curl", "bench-press", "pull-up")


def test_what_is_read_ahead_of_several_exercises_is_what_is_read_of_each(units: Units) -> None:
    found = half_year(units, 2, weeks=4)
    for client in found.clients:
        for limit in (2, LOOK_BACK):
            with units.read(found.coach.coach_id) as unit:
                each = [unit.sessions.past_items(client.id, one, limit) for one in EXERCISES]
            with units.read(found.coach.coach_id) as unit:
                unit.sessions.read_past(client.id, EXERCISES, limit)
                with asked(units) as seen:
                    assert [unit.sessions.past_items(client.id, one, limit) for one in EXERCISES] == each
                assert seen == []
            assert [len(past) for past in each[:3]] == [min(limit, 3)] * 3
            assert each[3] == []
        assert {session.client_id for past in each for session, _ in past} == {client.id}


def test_the_sets_of_what_is_read_ahead_are_asked_for_no_more(units: Units) -> None:
    found = half_year(units, 1, weeks=3)
    client_id = found.clients[0].id
    with units.read(found.coach.coach_id) as unit:
        items = {
            one: [item.id for _, item in unit.sessions.past_items(client_id, one, 12)] for one in EXERCISES
        }
        sets = [unit.sets.standing(ids) for ids in items.values()]
    with units.read(found.coach.coach_id) as unit:
        read_history(client_id, EXERCISES, unit)
        with asked(units) as seen:
            assert [unit.sets.standing(ids) for ids in items.values()] == sets
        assert seen == []
    assert [len(each) for each in sets] == [8, 8, 8, 0]


def test_what_was_read_ahead_is_forgotten_with_what_is_written(units: Units) -> None:
    found = half_year(units, 1, weeks=3)
    client_id = found.clients[0].id

    with units.open(found.coach.coach_id) as unit:
        read_history(client_id, EXERCISES, unit)
        newest: Session = unit.sessions.past_items(client_id, "back-squat", LOOK_BACK)[-1][0]
        unit.sessions.change(newest.id, state="missed")
        left = unit.sessions.past_items(client_id, "back-squat", LOOK_BACK)

    assert newest.id not in {session.id for session, _ in left}


def test_of_decisions_kept_together_each_replaces_the_one_before_it(units: Units) -> None:
    found = half_year(units, 1, weeks=2)
    client_id = found.clients[0].id
    squat, curl = (inputs(each, dose(3, "8", "40")) for each in ("back-squat", "leg-curl"))
    with units.open(found.coach.coach_id) as unit:
        unit.connection.execute(update(decision).values(superseded_by=None))
        before = {each.exercise: each.id for each in reversed(list(unit.decisions.of_client(client_id)))}
        made = [(each, next_decision(each)) for each in (squat, curl, squat)]
        rows = unit.decisions.keep_all(client_id, "card", made, found.house.now)
        unit.decisions.for_items({rows[0]: 7, rows[2]: 8})
        values = unit.decisions.values(rows)

    with units.read(found.coach.coach_id) as unit:
        kept = {each: unit.decisions.get(each) for each in rows}
        assert unit.decisions.values(rows) == values
        assert unit.decisions.get(before["back-squat"]).superseded_by == rows[0]
        assert unit.decisions.get(before["leg-curl"]).superseded_by == rows[1]
    assert [kept[each].superseded_by for each in rows] == [rows[2], None, None]
    assert [kept[each].item_id for each in rows] == [7, None, 8]
    assert [kept[each].inputs for each in rows] == [each.model_dump_json() for each, _ in made]


def test_a_block_that_another_coach_has_too_is_not_had_by_its_row(units: Units) -> None:
    found = half_year(units, 1, weeks=2)
    other = found.house.coach("Ines", 200)
    with units.read(found.coach.coach_id) as unit:
        running = unit.blocks.running(found.clients[0].id)
        assert running is not None
        block = unit.blocks.version(running.version_id)
        assert unit.of(found.coach.coach_id).blocks.version(running.version_id) == block

    with units.read(other.coach_id) as unit, pytest.raises(NoResultFound):
        unit.blocks.version(running.version_id)
