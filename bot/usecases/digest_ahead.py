"""What the digest says of the coming week: what the next cards will give, and which raises bear on them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import raises
from bot.usecases.decisions import inputs_for, kit_of
from bot.usecases.personalise import placing
from bot.usecases.standing_in import Decides, chosen_for
from core.checkin.training_log import Session
from core.loads.comeback import FEWEST_AWAY
from core.loads.decision import Decision, Moment, next_decision
from core.loads.equipment import Kit
from core.loads.reasons import ReasonCode
from core.oversight.facts import Ahead, Lifted
from core.oversight.waiting import RaiseWaiting
from core.oversight.week import WEEK
from core.programme.exercises import Exercise
from core.programme.prescription import Dose, Prescription


@dataclass(frozen=True, slots=True)
class _Known:
    """What stands decided, and what may have changed it since."""

    decided: Mapping[tuple[int, str], tuple[datetime, str]]
    changed: Mapping[int, datetime]
    last: Mapping[tuple[int, str], date]
    unit: Unit
    kits: dict[int, tuple[Client, Kit]] = field(default_factory=dict)

    def has(self, client_id: int, exercise: str) -> bool:
        """Return whether anything was ever decided for an exercise."""
        return (client_id, exercise) in self.decided

    def client(self, client_id: int) -> tuple[Client, Kit]:
        """Return a client with her kit, read once."""
        if client_id not in self.kits:
            client = self.unit.clients.get(client_id)
            self.kits[client_id] = client, kit_of(client, self.unit)
        return self.kits[client_id]

    def decides(self, client_id: int, moment: Moment) -> Decides:
        """Return what decides as the card of that moment will.

        What stands decided is taken as it stands, unless the days that go by until then, or something that came or
        went since, may change it: then it is worked out, and not kept.
        """

        def decide(exercise: Exercise, dose: Dose) -> tuple[int, Decision]:
            asked = client_id, exercise.key
            made_at, output = self.decided.get(asked, (None, ""))
            away = (moment.today - self.last.get(asked, moment.today)).days >= FEWEST_AWAY
            if made_at is None or away or self.changed.get(client_id, made_at) > made_at:
                client, kit = self.client(client_id)
                inputs = inputs_for(client, exercise.key, dose, moment, kit, self.unit)
                return 0, next_decision(inputs)
            return 0, Decision.model_validate_json(output)

        return decide


def ahead_of(unit: Unit, on: date, lifted: Mapping[int, tuple[Lifted, ...]]) -> dict[int, tuple[Ahead, ...]]:
    """Return what comes in each client's sessions of the week after a date, in the order they come.

    An exercise that another stands in for is that other, as on the card; one that the coach left out does not come.
    """
    last = {(client_id, each.exercise): each.on for client_id, done in lifted.items() for each in done}
    known = _Known(unit.oversight.decided(), unit.oversight.changed(), last, unit)
    swaps = unit.placements.standing()
    found: dict[int, dict[str, Ahead]] = {}
    seen: set[tuple[int, str]] = set()
    for session, prescription, beside in _asked(unit, on):
        client_id, exercise = session.client_id, prescription.exercise
        mine = found.setdefault(client_id, {})
        if (client_id, exercise) in seen:
            continue
        seen.add((client_id, exercise))
        placed = swaps.get(session.assignment_id, {}).get(exercise)
        if placed is not None and placed.instead != exercise:
            coming = _stands_in(session, prescription, beside, known)
        elif known.has(client_id, exercise):
            coming = _written(session, prescription, known)
        else:
            continue
        if coming is not None:
            mine.setdefault(coming.exercise, coming)
    return {client_id: tuple(each.values()) for client_id, each in found.items()}


def _written(session: Session, prescription: Prescription, known: _Known) -> Ahead:
    exercise = known.unit.exercises.get(prescription.exercise)
    moment = Moment(today=session.local_on, week_no=session.week_no)
    _, decision = known.decides(session.client_id, moment)(exercise, prescription.dose)
    return Ahead(exercise=exercise.key, decision=decision)


def _stands_in(
    session: Session, prescription: Prescription, beside: frozenset[str], known: _Known
) -> Ahead | None:
    """Return what the card will give in place of an exercise; None where it is left out."""
    client, _ = known.client(session.client_id)
    how = placing(client, session.assignment_id, session.local_on, known.unit)
    moment = Moment(today=session.local_on, week_no=session.week_no)
    chosen = chosen_for(prescription, how, beside, known.decides(client.id, moment), known.unit)
    return None if chosen is None else Ahead(exercise=chosen.exercise, decision=chosen.decision)


def _asked(unit: Unit, on: date) -> Iterator[tuple[Session, Prescription, frozenset[str]]]:
    for session in unit.oversight.planned(on, on + WEEK):
        day = unit.versions.block_of(session).day(session.day_key)
        lines = day.in_week(session.week_no) if day is not None else ()
        beside = frozenset(each.exercise for each in lines)
        for prescription in lines:
            yield session, prescription, beside


def raises_ahead(
    unit: Unit, at: datetime, ahead: Mapping[int, tuple[Ahead, ...]]
) -> dict[int, tuple[RaiseWaiting, ...]]:
    """Return by client the raises that wait and that the next card would give at the coach's word.

    One of a lift that comes back lighter, or that another stands in for, waits for nothing.

    Args:
        unit: Open transaction.
        at: When they are told.
        ahead: What comes in the week after.
    """
    asked = raises.by_client(unit, at)
    gone = _swapped_out(unit) if asked else {}
    return {
        client_id: tuple(
            each
            for each in waiting
            if _bears(each.exercise, ahead.get(client_id, ()), gone.get(client_id, frozenset()))
        )
        for client_id, waiting in asked.items()
    }


def _bears(exercise: str, ahead: Sequence[Ahead], gone: frozenset[str]) -> bool:
    coming = next((each.decision for each in ahead if each.exercise == exercise), None)
    if coming is None:
        return exercise not in gone
    return any(one.code == ReasonCode.RAISE_WAITS for one in coming.reasons)


def _swapped_out(unit: Unit) -> dict[int, frozenset[str]]:
    """Return by client the exercises of her running block that another stands in for, or that are left out."""
    swaps, running = unit.placements.standing(), unit.blocks.running_all()
    return {
        client_id: frozenset(key for key, placed in swaps.get(each.id, {}).items() if placed.instead != key)
        for client_id, each in running.items()
    }
