"""The exercise that is done: the one written, or another where that one cannot be done, or is not for this client."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import dose_for
from bot.usecases.merging import written_for
from bot.usecases.personalise import Placing, placing
from core.checkin.training_log import Session
from core.loads.decision import Decision, Kind
from core.loads.equipment import Kit
from core.loads.substitutes import Against, substitutes
from core.programme.exercises import Exercise
from core.programme.prescription import Dose, Prescription


@dataclass(frozen=True, slots=True)
class Chosen:
    """An exercise with what was decided for it.

    Attributes:
        exercise: Key.
        dose: What is asked for of it.
        decision_id: What whoever decides knows the decision by: its row; 0 where it is not kept.
        decision: What was decided.
        because: Why it is another than the one written; None where it is not.
    """

    exercise: str
    dose: Dose
    decision_id: int
    decision: Decision
    because: str | None = None


MOST_TRIED = 8
"""Most exercises that are tried in place of one. Our proposal: what comes after is far from it."""

Decides = Callable[[Exercise, Dose], tuple[int, Decision]]
"""Decides for an exercise and what is asked for of it; returns what it knows the decision by, and the decision."""


def chosen_in(
    session: Session, client: Client, decides: Decides, unit: Unit, kit: Kit | None = None
) -> Iterator[tuple[int, Prescription, Chosen]]:
    """Yield what a session gives: the place of each line among those written, the line, and what is chosen for it.

    What the coach has left out for this client is not among it. With a kit, it is that of one place.
    """
    lines = written_for(session, unit).lines
    how = placing(client, session.assignment_id, session.local_on, unit, kit)
    beside = {each.exercise for each in lines}
    for position, prescription in enumerate(lines):
        chosen = chosen_for(prescription, how, frozenset(beside), decides, unit)
        if chosen is not None:
            beside.add(chosen.exercise)
            yield position, prescription, chosen


def chosen_for(
    prescription: Prescription, placing: Placing, beside: frozenset[str], decides: Decides, unit: Unit
) -> Chosen | None:
    """Decide for the exercise that is written, or for the first in its place that can be done.

    In its place comes what the coach chose, or was shown, for this block; then her own equals, the catalogue's, and
    others of the pattern and of its sisters, those that the session has already last. It counts as another exercise:
    its load follows from its own log, or is found.

    Args:
        prescription: As written.
        placing: How exercises are placed for the client.
        beside: Keys of what the session has besides.
        decides: What comes next for an exercise.
        unit: Open transaction.

    Returns:
        What is given; the written exercise with a swap or a pause where nothing can be, to be left out, as it always is
        where a clinician has ruled it out and nothing stands in. None where the coach left it out, and where she has
        ruled it out and nothing stands in.
    """
    said = placing.said(prescription.exercise)
    if said is not None and said.chosen and said.instead is None:
        return None
    because, written = placing.why(prescription, unit), None
    if because is None:
        own = unit.exercises.get(prescription.exercise)
        written = _decided(own, prescription, None, decides)
        if written.decision.kind is not Kind.SWAP:
            return written
    for equal in islice(_in_place(prescription, placing, beside, unit), MOST_TRIED):
        found = _decided(equal, prescription, because or Against.KIT.value, decides)
        if found.decision.kind not in (Kind.SWAP, Kind.PAUSE):
            return found
        written = written or found
    if because == Against.LIMIT.value:  # left out under its own name, so that the card says whose limit it is
        return _decided(unit.exercises.get(prescription.exercise), prescription, None, decides)
    return written


def _in_place(
    prescription: Prescription, placing: Placing, beside: frozenset[str], unit: Unit
) -> Iterator[Exercise]:
    """Yield what may stand in: first what was shown or chosen, as long as nobody rules it out today."""
    own, catalogue = unit.exercises.get(prescription.exercise), unit.exercises.catalogue()
    said = placing.said(own.key)
    first = catalogue.get(said.instead) if said is not None and said.instead not in (None, own.key) else None
    if first is not None and placing.about.allows(first):
        yield first
    near = substitutes(own, prescription.instead, placing.about, catalogue)
    for key in sorted(near, key=lambda one: one in beside):
        if first is None or key != first.key:
            yield catalogue[key]


def _decided(exercise: Exercise, prescription: Prescription, because: str | None, decides: Decides) -> Chosen:
    dose = dose_for(exercise, prescription)
    return Chosen(exercise.key, dose, *decides(exercise, dose), because)
