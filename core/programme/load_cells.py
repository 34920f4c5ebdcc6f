"""What may stand in a Load cell: `80 kg`, `82,5 kg a hand`, `bw`, `bw+5 kg`, `find`.

Bases are never mixed: what is written must be counted as the exercise is counted.
"""

import re
from decimal import Decimal

from core.programme.exercises import Basis, Exercise, Implement
from core.programme.grammar import squeezed, typed
from core.programme.prescription import Load, LoadKind
from core.programme.problems import Code
from core.programme.sheets import Cell, CellKind, UnreadError
from core.units import Mass, Unit

HEAVIEST_KG = Decimal(1000)
"""Most that is believed of a written load. [kg] Our proposal; a slip of a digit is far over it."""

# Two decimals at most: `1,250` could be a thousand and a quarter as well as one and a quarter.
_NUMBER = r"(?P<number>\d{1,4}(?:[.,]\d{1,2})?)"
_UNIT = r"(?P<unit>kg|kgs|kilos?|lb|lbs|pounds?)"
_BODYWEIGHT = re.compile(rf"(?:bw|body ?weight)(?: ?(?P<sign>[+-]) ?{_NUMBER} ?{_UNIT}?)?")
_ADDED = re.compile(rf"(?P<sign>[+-]) ?{_NUMBER} ?{_UNIT}?")
_MASS = re.compile(
    rf"(?P<pair>2 ?[x×] ?)?{_NUMBER} ?{_UNIT}?"
    r"(?: ?(?:(?P<hand>(?:a|per|each|/) ?hand|each)"
    r"|(?P<side>(?:a|per|each|/) ?side)|(?P<total>(?:in )?total)))?"
)


def load_in(cell: Cell, unit: Unit | None, exercise: Exercise | None) -> Load:
    """Return the load of a cell.

    Args:
        cell: Holds something.
        unit: Of numbers written without one; None when the block names none.
        exercise: Whose load it is; None when its name was not understood.

    Raises:
        UnreadError: It cannot be read, has no unit, or is counted otherwise than the exercise is.
    """
    if cell.kind is CellKind.NUMBER:
        load = _believed(Load(LoadKind.MASS, _mass(cell.text, None, unit, cell)), cell)
        return _counted_as(load, None, exercise, cell)
    text = squeezed(typed(cell))
    if text == "find":
        return Load.find()
    if match := _BODYWEIGHT.fullmatch(text):
        load = Load.bodyweight(_signed(match, unit, cell) if match["sign"] else None)
        return _counted_as(_believed(load, cell), None, exercise, cell)
    if exercise is not None and exercise.basis is Basis.BODYWEIGHT and (match := _ADDED.fullmatch(text)):
        return _believed(Load.bodyweight(_signed(match, unit, cell)), cell)
    if match := _MASS.fullmatch(text):
        load = _believed(Load(LoadKind.MASS, _mass(match["number"], match["unit"], unit, cell)), cell)
        return _counted_as(load, _basis_said(match), exercise, cell)
    raise UnreadError(Code.LOAD_UNREADABLE, written=cell.text)


def _mass(number: str, written: str | None, unit: Unit | None, cell: Cell) -> Mass:
    if written is not None:
        unit = Unit.KG if written.startswith("k") else Unit.LB
    if unit is None:
        raise UnreadError(Code.LOAD_WITHOUT_UNIT, written=cell.text)
    return Mass(Decimal(number.replace(",", ".")), unit)


def _signed(match: re.Match[str], unit: Unit | None, cell: Cell) -> Mass:
    mass = _mass(match["number"], match["unit"], unit, cell)
    return mass * -1 if match["sign"] == "-" else mass


def _believed(load: Load, cell: Cell) -> Load:
    if load.mass is not None:
        low = -HEAVIEST_KG if load.kind is LoadKind.BODYWEIGHT else Decimal(0)
        if not low < load.mass.kg <= HEAVIEST_KG:
            raise UnreadError(Code.LOAD_OUT_OF_RANGE, written=cell.text)
    return load


def _basis_said(match: re.Match[str]) -> Basis | None:
    if match["total"]:
        return Basis.TOTAL
    if match["side"]:
        return Basis.PER_SIDE
    return Basis.PER_HAND if match["hand"] or match["pair"] else None


def _counted_as(load: Load, said: Basis | None, exercise: Exercise | None, cell: Cell) -> Load:
    if exercise is None:
        return load
    name, basis = exercise.name, exercise.basis
    if exercise.implement is Implement.BAND:
        raise UnreadError(Code.LOAD_ON_BAND, exercise=name, written=cell.text)
    if load.kind is LoadKind.BODYWEIGHT:
        if load.mass is not None and basis is not Basis.BODYWEIGHT:
            raise UnreadError(Code.BW_ADDED_TO_LOADED, exercise=name, written=cell.text, basis=basis.value)
        return load
    if basis is Basis.BODYWEIGHT:
        raise UnreadError(Code.LOAD_NEEDS_BW, exercise=name, written=cell.text)
    if said is not None and said is not basis:
        raise UnreadError(Code.LOAD_BASIS, exercise=name, written=cell.text, basis=basis.value)
    return load
