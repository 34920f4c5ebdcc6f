"""What may stand in a Load cell: `80 kg`, `82,5 kg a hand`, `bw+5 kg`, `75 % of estimate`, `light band`, `find`.

Bases are never mixed: what is written must be counted as the exercise is counted.
"""

import re
from decimal import Decimal

from core.programme.exercises import Basis, Exercise, Implement
from core.programme.grammar import squeezed, typed
from core.programme.prescription import Load, LoadKind, PercentOf
from core.programme.problems import Code
from core.programme.sheets import Cell, CellKind, UnreadError
from core.units import Mass, Unit, plain

HEAVIEST_KG = Decimal(1000)
"""Most that is believed of a written load. [kg] Our proposal; a slip of a digit is far over it."""
LEAST_PERCENT, MOST_PERCENT = Decimal(30), Decimal(105)
"""Shares of a maximum that are believed. [%] Our proposal: lighter is a ramp, heavier is lifted by nobody."""
LONGEST_BAND = 30
"""Longest name of a band. [characters] Our proposal: it stands on a card."""

# Two decimals at most: `1,250` could be a thousand and a quarter as well as one and a quarter.
_NUMBER = r"(?P<number>\d{1,4}(?:[.,]\d{1,2})?)"
_UNIT = r"(?P<unit>kg|kgs|kilos?|lb|lbs|pounds?)"
_PLAIN = re.compile(r"-?\d+(?:\.\d+)?")
_BODYWEIGHT = re.compile(rf"(?:bw|body ?weight)(?: ?(?P<sign>[+-]) ?{_NUMBER} ?{_UNIT}?)?")
_ADDED = re.compile(
    rf"(?P<sign>[+-]) ?{_NUMBER} ?{_UNIT}?(?P<last> (?:from|on|over|than) last (?:time|session))?"
)
_MASS = re.compile(
    rf"(?P<pair>2 ?[x×] ?)?{_NUMBER} ?{_UNIT}?"
    r"(?: ?(?:(?P<hand>(?:a|per|each|/) ?hand|each)"
    r"|(?P<side>(?:a|per|each|/) ?side)|(?P<total>(?:in )?total)))?"
)
_PERCENT = re.compile(
    rf"{_NUMBER} ?%"
    r"(?: (?:of )?(?:the )?(?:(?P<estimate>estimate|estimated max|e1rm)|(?P<max>max)))?"
)
_BAND = re.compile(r"(?P<band>[^\W_]+(?:[ -][^\W_]+)*) band")


def load_in(cell: Cell, unit: Unit | None, exercise: Exercise | None) -> Load:
    """Return the load of a cell.

    Args:
        cell: Holds something.
        unit: Of numbers written without one; None when the block names none.
        exercise: Whose load it is; None when its name was not understood.

    Raises:
        UnreadError: It cannot be read, has no unit, or is counted otherwise than the exercise is.
    """
    if cell.kind is CellKind.NUMBER and _PLAIN.fullmatch(cell.text):
        return _number(cell.text, unit, exercise)
    return load_of(squeezed(typed(cell)), unit, exercise, cell.text)


def load_of(text: str, unit: Unit | None, exercise: Exercise | None, written: str) -> Load:
    """Return the load of a squeezed text.

    Args:
        text: Squeezed.
        unit: Of numbers written without one; None when nothing names one.
        exercise: Whose load it is; None when it is not known.
        written: As typed, for the problem.

    Raises:
        UnreadError: It cannot be read, has no unit, or is counted otherwise than the exercise is.
    """
    if text == "find":
        return Load.find()
    if match := _BODYWEIGHT.fullmatch(text):
        load = Load.bodyweight(_signed(match, unit, written) if match["sign"] else None)
        return _counted_as(_believed(load, written), None, exercise, written)
    if match := _ADDED.fullmatch(text):
        return _added(match, unit, exercise, written)
    if match := _PERCENT.fullmatch(text):
        return _percent(match, exercise, written)
    if match := _BAND.fullmatch(text):
        return _band(match["band"], exercise, written)
    if match := _MASS.fullmatch(text):
        mass = _mass(match["number"], match["unit"], unit, written)
        load = _believed(Load(LoadKind.MASS, mass), written)
        return _counted_as(load, _basis_said(match), exercise, written)
    raise UnreadError(Code.LOAD_UNREADABLE, written=written)


def _number(text: str, unit: Unit | None, exercise: Exercise | None) -> Load:
    """Return the load of a number; a spreadsheet makes 0.75 of a typed `75 %`, which is no 0.75 kg."""
    if 0 < Decimal(text) <= MOST_PERCENT / 100 and Decimal(text) != 1:
        raise UnreadError(Code.LOAD_OR_PERCENT, written=text, percent=plain(Decimal(text) * 100))
    load = _believed(Load(LoadKind.MASS, _mass(text, None, unit, text)), text)
    return _counted_as(load, None, exercise, text)


def _added(match: re.Match[str], unit: Unit | None, exercise: Exercise | None, written: str) -> Load:
    """Return what is added to bodyweight, or a step over last time where the exercise is loaded."""
    if exercise is not None and exercise.implement is Implement.BAND:
        raise UnreadError(Code.LOAD_ON_BAND, exercise=exercise.name, written=written)
    mass = _signed(match, unit, written)
    loaded = exercise is not None and exercise.basis is not Basis.BODYWEIGHT
    if not loaded and match["last"] is None:
        return _believed(Load.bodyweight(mass), written)
    if mass.value < 0:
        raise UnreadError(Code.LOAD_DOWN, written=written)
    return _believed(Load.up(mass), written)


def _percent(match: re.Match[str], exercise: Exercise | None, written: str) -> Load:
    if exercise is not None:
        _counts_percent(exercise, written)
    if match["estimate"] is None and match["max"] is None:
        raise UnreadError(Code.PERCENT_OF, written=written)
    percent = Decimal(match["number"].replace(",", "."))
    if not LEAST_PERCENT <= percent <= MOST_PERCENT:
        raise UnreadError(Code.PERCENT_OUTSIDE, written=written)
    return Load.share(percent, PercentOf.ESTIMATE if match["estimate"] else PercentOf.MAX)


def _counts_percent(exercise: Exercise, written: str) -> None:
    if exercise.implement is Implement.BAND:
        raise UnreadError(Code.LOAD_ON_BAND, exercise=exercise.name, written=written)
    if exercise.basis is Basis.BODYWEIGHT:
        raise UnreadError(Code.PERCENT_ON_BODYWEIGHT, exercise=exercise.name, written=written)


def _band(name: str, exercise: Exercise | None, written: str) -> Load:
    if exercise is not None and exercise.implement is not Implement.BAND:
        raise UnreadError(Code.BAND_ON_OTHER, exercise=exercise.name, written=written)
    if len(name) > LONGEST_BAND:
        raise UnreadError(Code.TEXT_TOO_LONG, length=len(name), limit=LONGEST_BAND)
    return Load.banded(name)


def _mass(number: str, written_unit: str | None, unit: Unit | None, written: str) -> Mass:
    if written_unit is not None:
        unit = Unit.KG if written_unit.startswith("k") else Unit.LB
    if unit is None:
        raise UnreadError(Code.LOAD_WITHOUT_UNIT, written=written)
    return Mass(Decimal(number.replace(",", ".")), unit)


def _signed(match: re.Match[str], unit: Unit | None, written: str) -> Mass:
    mass = _mass(match["number"], match["unit"], unit, written)
    return mass * -1 if match["sign"] == "-" else mass


def _believed(load: Load, written: str) -> Load:
    if load.mass is not None:
        low = -HEAVIEST_KG if load.kind is LoadKind.BODYWEIGHT else Decimal(0)
        if not low < load.mass.kg <= HEAVIEST_KG:
            raise UnreadError(Code.LOAD_OUT_OF_RANGE, written=written)
    return load


def _basis_said(match: re.Match[str]) -> Basis | None:
    if match["total"]:
        return Basis.TOTAL
    if match["side"]:
        return Basis.PER_SIDE
    return Basis.PER_HAND if match["hand"] or match["pair"] else None


def _counted_as(load: Load, said: Basis | None, exercise: Exercise | None, written: str) -> Load:
    if exercise is None:
        return load
    name, basis = exercise.name, exercise.basis
    if exercise.implement is Implement.BAND:
        raise UnreadError(Code.LOAD_ON_BAND, exercise=name, written=written)
    if load.kind is LoadKind.BODYWEIGHT:
        if load.mass is not None and basis is not Basis.BODYWEIGHT:
            raise UnreadError(Code.BW_ADDED_TO_LOADED, exercise=name, written=written, basis=basis.value)
        return load
    if basis is Basis.BODYWEIGHT:
        raise UnreadError(Code.LOAD_NEEDS_BW, exercise=name, written=written)
    if said is not None and said is not basis:
        raise UnreadError(Code.LOAD_BASIS, exercise=name, written=written, basis=basis.value)
    return load


_BASIS_WORDS = {Basis.PER_HAND: " a hand", Basis.PER_SIDE: " a side"}


def load_text(load: Load | None, basis: Basis) -> str:
    """Return the cell under Load, which `load_in` reads back, with what it is counted by; empty for none."""
    if load is None:
        return ""
    return f"{load}{_BASIS_WORDS.get(basis, '')}" if load.kind is LoadKind.MASS else str(load)
