"""A dose in one line, both ways: `5x8 @ 92.5 kg`, `3x8-10 @ bw`, `3x30s`, `4x6 @ 100 lb, 2 left`.

`parse_planned(dose_text(dose))` is the same dose for every dose.
"""

import re
from decimal import Decimal

from core.programme.exercises import Basis, Exercise
from core.programme.grammar import squeezed
from core.programme.prescription import Dose, Load, LoadKind, Span
from core.units import Mass, Unit

_SIDE = r"(?:(?:a|each|per) ?(?:side|leg|arm)|/ ?(?:side|leg|arm))"
_UNIT = r"kgs?|kilos?|lbs?|pounds?|#"
_NUMBER = r"\d{1,5}(?:[.,]\d{1,3})?"
_PLANNED = re.compile(
    r"(?P<sets>\d{1,2}) ?(?:sets ?(?:of|x)?|x|×) ?"
    r"(?P<low>\d{1,4})(?: ?- ?(?P<high>\d{1,4}))? ?(?:reps?|(?P<unit>s|secs?|seconds?|mins?|minutes?))?"
    rf"(?: ?(?P<side>{_SIDE}))?"
    r"(?: ?(?:@|at) ?(?P<load>[^@;]*?))?"
    r"(?: ?[,;] ?(?P<left>\d) ?(?:left|rir|reps left|in reserve))?"
)
_MASS = re.compile(rf"(?P<number>{_NUMBER}) ?(?P<unit>{_UNIT})?(?: ?(?:(?:a|per|each) (?:hand|side)|total))?")
_BODYWEIGHT = re.compile(
    rf"(?:bw|body ?weight)(?: ?(?P<sign>[+-]) ?(?P<number>{_NUMBER}) ?(?P<unit>{_UNIT})?)?"
    rf"|(?P<bare_sign>[+-]) ?(?P<bare>{_NUMBER}) ?(?P<bare_unit>{_UNIT})?"
)


def parse_planned(text: str, unit: Unit, exercise: Exercise | None) -> Dose | None:
    """Return the dose that a line asks for; None when it cannot be read or is out of range.

    Args:
        text: As a person types it.
        unit: Of a load written without one.
        exercise: Whose dose it is: one done a side at a time or in seconds is read as such; None when unknown.
    """
    match = _PLANNED.fullmatch(squeezed(text))
    if match is None:
        return None
    load = _load(match["load"], unit, exercise) if match["load"] else None
    if match["load"] is not None and load is None:
        return None
    factor = 60 if (match["unit"] or "").startswith("m") else 1
    low = int(match["low"]) * factor
    high = int(match["high"]) * factor if match["high"] else low
    sets, left = int(match["sets"]), int(match["left"]) if match["left"] else None
    if not (1 <= sets <= 20 and 1 <= low <= high <= 1000 and (left is None or left <= 5)):
        return None
    span = Span(low=low, high=high)
    is_timed = match["unit"] is not None or (exercise is not None and exercise.timed)
    return Dose(
        sets=sets,
        reps=None if is_timed else span,
        seconds=span if is_timed else None,
        load=load,
        left=left,
        each_side=match["side"] is not None or (exercise is not None and exercise.each_side),
    )


def _load(text: str, unit: Unit, exercise: Exercise | None) -> Load | None:
    if text == "find":
        return Load.find()
    if match := _BODYWEIGHT.fullmatch(text):
        number = match["number"] or match["bare"]
        if number is None:
            return Load.bodyweight()
        added = _mass(number, match["unit"] or match["bare_unit"], unit)
        return Load.bodyweight(added * -1 if "-" in (match["sign"], match["bare_sign"]) else added)
    if match := _MASS.fullmatch(text):
        mass = _mass(match["number"], match["unit"], unit)
        is_added = exercise is not None and exercise.basis is Basis.BODYWEIGHT
        return Load.bodyweight(mass) if is_added else Load(LoadKind.MASS, mass)
    return None


def _mass(number: str, written: str | None, unit: Unit) -> Mass:
    if written is not None:
        unit = Unit.KG if written.startswith("k") else Unit.LB
    return Mass(Decimal(number.replace(",", ".")), unit)


def dose_text(dose: Dose) -> str:
    """Return a dose as one line that `parse_planned` reads back."""
    span = dose.seconds or dose.reps
    count = f"{dose.sets}x{span}{'s' if dose.seconds else ''}"
    side = " each side" if dose.each_side else ""
    load = f" @ {dose.load}" if dose.load else ""
    left = f", {dose.left} left" if dose.left is not None else ""
    return f"{count}{side}{load}{left}"
