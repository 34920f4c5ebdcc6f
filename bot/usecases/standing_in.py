"""The exercise that is done: the one written, or an equal where that one cannot be done here."""

from dataclasses import dataclass
from datetime import datetime

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import decide, dose_for, kit_of
from core.loads.decision import Decision, Kind, Moment
from core.loads.equipment import is_likely_there
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.prescription import Dose, Prescription


@dataclass(frozen=True, slots=True)
class Chosen:
    """An exercise with what was decided for it."""

    exercise: str
    dose: Dose
    decision_id: int
    decision: Decision


def chosen_for(
    prescription: Prescription, client: Client, moment: Moment, unit: Unit, now: datetime
) -> Chosen:
    """Decide for the exercise that is written; where nothing here can load it, for the first equal that can be done.

    The coach's own equals go first, then the catalogue's, those first whose kit is likely there. An equal counts as a
    new exercise: its load follows from its own log, or is found. Without any the written one comes back as it was
    decided, to be left out.
    """
    written = _decided(CATALOGUE[prescription.exercise], prescription, client, moment, unit, now)
    if written.decision.kind is not Kind.SWAP:
        return written
    own, kit = CATALOGUE[prescription.exercise], kit_of(client, unit)
    equals = sorted(own.equals, key=lambda key: not is_likely_there(CATALOGUE[key], kit))
    for key in (*prescription.instead, *equals):
        equal = CATALOGUE.get(key)
        if equal is None or equal.timed != own.timed:
            continue
        found = _decided(equal, prescription, client, moment, unit, now)
        if found.decision.kind not in (Kind.SWAP, Kind.PAUSE):
            return found
    return written


def _decided(
    exercise: Exercise, prescription: Prescription, client: Client, moment: Moment, unit: Unit, now: datetime
) -> Chosen:
    dose = dose_for(exercise, prescription)
    decision_id, decision = decide(client, exercise.key, dose, moment, "card", unit, now)
    return Chosen(exercise.key, dose, decision_id, decision)
