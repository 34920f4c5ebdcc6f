from datetime import UTC, date, datetime, timedelta

from setting_out import block_of

from bot.store.units import Unit, Units
from core.checkin.training_log import NewSet
from core.programme.exercises import Basis
from core.programme.prescription import Dose, Load, LoadKind, Prescription, Span

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
ON = date(2026, 4, 7)
EIGHT, HOLD, CARRY = Span(low=8, high=10), Span(low=30, high=30), Span(low=20, high=20)
REPS, TIMED, FAR = Dose(sets=2, reps=EIGHT), Dose(sets=2, seconds=HOLD), Dose(sets=2, metres=CARRY)
OPEN = Dose(sets=2, to_left=True, left=1)
POUNDS, BODY = Load.of(45, "lb"), Load(LoadKind.BODYWEIGHT)
Done = tuple[int, str, Load | None, int | None]
"""Number of the set, side, load, and reps, seconds or metres as asked for."""

CASES: tuple[tuple[Dose, tuple[Done, ...], tuple[Load, bool] | None], ...] = (
    (REPS, ((1, "", Load.of(60), 8), (2, "", Load.of(60), 9)), (Load.of(60), True)),
    (REPS, ((1, "", Load.of(60), 8),), (Load.of(60), False)),
    (REPS, ((1, "", Load.of(60), 8), (2, "", Load.of(60), 7)), (Load.of(60), False)),
    (REPS, ((1, "", Load.of(60), 8), (2, "", Load.of(60), None)), (Load.of(60), False)),
    (REPS, ((1, "", Load.of("9.5"), 8), (2, "", Load.of(10), 8)), (Load.of(10), False)),
    (REPS, ((1, "", Load.of(20), 8), (2, "", POUNDS, 8)), (POUNDS, False)),
    (REPS, ((1, "L", Load.of(20), 8), (1, "R", Load.of(20), 8)), (Load.of(20), False)),
    (REPS, ((1, "", Load.of(60), 8), (2, "", Load.of(80), 0)), (Load.of(60), False)),
    (REPS, ((1, "", Load.of(60), 0), (2, "", None, 8)), None),
    (REPS, ((1, "", BODY, 8), (2, "", BODY, 8)), (BODY, True)),
    (REPS, ((1, "", BODY, 8), (2, "", Load.of(5), 8)), (Load.of(5), False)),
    (TIMED, ((1, "", Load.of(10), 30), (2, "", Load.of(10), 31)), (Load.of(10), True)),
    (TIMED, ((1, "", Load.of(10), 30), (2, "", Load.of(10), 29)), (Load.of(10), False)),
    (FAR, ((1, "", Load.of(24), 20), (2, "", Load.of(24), 20)), (Load.of(24), True)),
    (OPEN, ((1, "", Load.of(30), 15), (2, "", Load.of(30), 14)), (Load.of(30), False)),
)
"""What was asked for, the sets, and the heaviest load with whether all was done with it."""


def logged(unit: Unit, name: str, on: date = ON) -> int:
    """Lay a session with an item a case; return the client."""
    client_id = unit.clients.add(name, NOW)
    unit.blocks.assign(client_id, unit.blocks.keep(block_of(), NOW)[0], ON, NOW)
    running = unit.blocks.running(client_id)
    assert running is not None
    unit.sessions.lay(client_id, running.id, 2, "lower", on, NOW)
    [planned] = unit.sessions.of_client(client_id, ("planned",))
    for place, (dose, done, _) in enumerate(CASES):
        row = Prescription(order="A", exercise=f"lift-{place}", dose=dose)
        item_id = unit.sessions.add_item(planned.id, place, row.exercise, row, dose, None)
        unit.sets.add(item_id, [new_set(dose, each) for each in done], 1, None, NOW)
    return client_id


def new_set(dose: Dose, done: Done) -> NewSet:
    number, side, load, count = done
    reps = None if dose.seconds or dose.metres else count
    return NewSet(
        number,
        side,
        load,
        Basis.TOTAL,
        reps,
        count if dose.seconds else None,
        metres=count if dose.metres else None,
    )


def test_the_heaviest_load_of_each_exercise_is_added_up_by_client(units: Units) -> None:
    with units.open(None) as house:
        mine, other = (house.of(house.coaches.add(name, "Europe/Lisbon", NOW)) for name in ("Orla", "Marit"))
        ada, ben, _ = logged(mine, "Ada"), logged(mine, "Ben"), logged(other, "Cleo")
        early = logged(mine, "Dot", ON - timedelta(days=1))
        [item, *_] = mine.sessions.items(mine.sessions.of_client(ben, ("planned",))[0].id)
        mine.sets.void([each.id for each in mine.sets.standing([item.id])], "client", NOW)
        found, hers = mine.oversight.lifted(ON), mine.oversight.lifted(ON, ada)
        foreign = other.oversight.lifted(ON, ada)

    expected = [(f"lift-{place}", ON, *told) for place, (_, _, told) in enumerate(CASES) if told is not None]
    assert [(each.exercise, each.on, each.load, each.full) for each in found[ada]] == expected
    assert [each.exercise for each in found[ben]] == [exercise for exercise, *_ in expected[1:]]
    assert (early in found, hers, foreign) == (False, {ada: found[ada]}, {})
