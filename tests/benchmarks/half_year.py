"""Clients with half a year behind them: sessions, sets, decisions and reports, put into the rows at once."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from setting_out import House, Someone
from sqlalchemy import insert, select

from bot.store.body import NewReport
from bot.store.people import Client
from bot.store.tables import assignment, body_report, decision, item, logged_set, session
from bot.store.units import Unit, Units
from bot.usecases.decisions import decide
from bot.usecases.layout import lay_out
from bot.usecases.merging import moment_of
from core.checkin.training_log import NewSet
from core.programme.block import Block, Day, Line
from core.programme.prescription import Dose, Load, Prescription, Span

WEEKS = 26
STARTS = date(2026, 4, 6)
NOW = datetime(2026, 9, 27, 16, tzinfo=UTC)
APART = 100_000
"""Between the numbers of rows of two clients."""
NUMBERS = (
    "id",
    "assignment_id",
    "session_id",
    "item_id",
    "decision_id",
    "cursor_item_id",
    "superseded_by",
    "moved_to",
)
EXERCISES = {
    "lower": ("back-squat", "romanian-deadlift-dumbbell", "leg-curl", "calf-raise"),
    "upper": ("bench-press", "barbell-row", "lateral-raise", "curl"),
}


def long_block() -> Block:
    """Thirty weeks of two days with four exercises each."""
    weeks = frozenset(range(1, 31))

    def line(place: int, exercise: str) -> Line:
        dose = Dose(sets=4, reps=Span(low=8, high=8), load=Load.of(20 + place))
        return Line(weeks=weeks, prescription=Prescription(order="ABCD"[place], exercise=exercise, dose=dose))

    days = tuple(
        Day(key=key, name=key.title(), lines=tuple(line(*each) for each in enumerate(exercises)))
        for key, exercises in EXERCISES.items()
    )
    return Block(name="Long haul", weeks=30, days=days)


@dataclass
class HalfYear:
    """A coach with clients who have trained for half a year."""

    house: House
    coach: Someone
    clients: list[Client]


def half_year(units: Units, count: int, weeks: int = WEEKS) -> HalfYear:
    """Set clients up with so many weeks; the decisions of the last one are worked out and kept."""
    house = House(units)
    coach = house.coach("Marit", 100)
    clients = []
    with units.open(coach.coach_id) as unit:
        version, _ = unit.blocks.keep(long_block(), NOW - timedelta(weeks=WEEKS))
        for number in range(count):
            client_id = unit.clients.add(f"Client {number:03}", NOW)
            unit.clients.change(
                client_id,
                state="active",
                unit="kg",
                zone="Europe/Lisbon",
                hour=time(7),
                days=[0, 3],
                kit_kind="both",
                experience="trained",
                age_band="18-39",
            )
            unit.accounts.bind(5000 + number, 5000 + number, unit.tenant, "client", client_id)
            clients.append(unit.clients.get(client_id))
        unit.blocks.assign(clients[0].id, version, STARTS, NOW - timedelta(weeks=WEEKS))
        _trained(clients[0], unit, WEEKS - weeks)
        lay_out(clients[0].id, unit, NOW)
        _copied(clients, unit)
    house.now = NOW
    return HalfYear(house, coach, clients)


def _copied(clients: list[Client], unit: Unit) -> None:
    """Give every other client what the first one has, under numbers of its own."""
    for table in (assignment, session, decision, item, logged_set, body_report):
        rows = [dict(row._mapping) for row in unit.connection.execute(select(table))]
        made = []
        for place, client in enumerate(clients[1:], 1):
            for row in rows:
                moved = {name: row[name] + APART * place for name in NUMBERS if row.get(name) is not None}
                whose = {"client_id": client.id} if "client_id" in row else {}
                made.append({**row, **moved, **whose})
        if made:
            unit.connection.execute(insert(table), made)


def _trained(client: Client, unit: Unit, before: int) -> None:
    running = unit.blocks.running(client.id)
    assert running is not None
    block = unit.blocks.version(running.version_id)
    for week in range(before + 1, WEEKS):
        for place, day in enumerate(block.days):
            on = STARTS + timedelta(days=7 * (week - 1) + 3 * place)
            at = datetime.combine(on, time(7), tzinfo=UTC)
            unit.sessions.lay(client.id, running.id, week, day.key, on, at)
            planned = unit.sessions.of_client(client.id, ("planned",))[0]
            state = "missed" if week % 9 == 0 else "done"
            for position, asked in enumerate(day.in_week(week) if state == "done" else ()):
                load = Load.of(str(20 + week + position))
                given = asked.dose.model_copy(update={"load": load})
                kept = 0
                if week == WEEKS - 1:
                    kept, _ = decide(
                        client, asked.exercise, asked.dose, moment_of(planned, unit), "card", unit, at
                    )
                item_id = unit.sessions.add_item(
                    planned.id, position, asked.exercise, asked, given, kept or None
                )
                basis = unit.exercises.get(asked.exercise).basis
                sets = [NewSet(no, "", load, basis, 8, None, rir=2) for no in range(1, 5)]
                unit.sets.add(item_id, sets, 1, None, at)
            unit.sessions.change(planned.id, state=state, sent_at=at, closed_at=at)
            if week % 8 == 3:
                report = NewReport(kind="pain", local_on=on, at=at, site="knee", side="L", score=week % 4)
                unit.body.add(client.id, report)
