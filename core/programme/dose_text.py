"""A dose in one line, both ways: `5x8 @ 92.5 kg`, `3x8-10 @ bw`, `3x30s`, `1 + 2 descending: 8 @ 40 kg`.

`parse_planned(dose_text(dose))` is the same dose for every dose that a coach can write.
"""

import re
from decimal import Decimal

from core.programme import session_sheet
from core.programme.count_cells import Count, count_of, reps_text
from core.programme.dose_fit import Cells, dose_of, misfits
from core.programme.effort_cells import effort_of, left_words
from core.programme.exercises import Basis, Exercise, Implement
from core.programme.grammar import squeezed
from core.programme.load_cells import load_of
from core.programme.prescription import Dose, Load, LoadKind
from core.programme.problems import Code
from core.programme.set_cells import sets_of, sets_text
from core.programme.sheets import UnreadError
from core.programme.way_cells import misfit, way_text
from core.programme.ways_up import WORDS, WayKind, WayUp
from core.units import Mass, Unit

_UNIT = r"kgs?|kilos?|lbs?|pounds?|#"
_NUMBER = r"\d{1,5}(?:[.,]\d{1,3})?"
_LINE = re.compile(
    r"(?:(?P<styled>[^@;:]+?): ?|(?P<sets>\d{1,2}) ?(?:sets ?(?:of|x)?|x|×) ?)"
    r"(?P<count>[^@;]+?)"
    r"(?: ?(?:@|\bat\b) ?(?P<load>[^@;]*?))?"
    r"(?: ?[,;] ?(?P<left>\d(?:-\d)? ?(?:left|rir|reps left|in reserve)|rpe ?[\d.,-]+))?"
    r"(?: ?; ?(?P<way>[^@;]*?))?"
)
_LIGHTER = "; lighter week"
_MASS = re.compile(rf"(?P<number>{_NUMBER}) ?(?P<unit>{_UNIT})?(?: ?(?:(?:a|per|each) (?:hand|side)|total))?")
_BODYWEIGHT = re.compile(
    rf"(?:bw|body ?weight)(?: ?(?P<sign>[+-]) ?(?P<number>{_NUMBER}) ?(?P<unit>{_UNIT})?)?"
    rf"|(?P<bare_sign>[+-]) ?(?P<bare>{_NUMBER}) ?(?P<bare_unit>{_UNIT})?"
)
_KEY = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_PATH = f"{WORDS[WayKind.VARIANTS]}: "
_NO_TEXTS = dict.fromkeys(session_sheet.COLUMNS, "")
_BY_WORDS = {words.casefold(): kind for kind, words in WORDS.items() if kind is not WayKind.VARIANTS}


def parse_planned(text: str, unit: Unit, exercise: Exercise | None) -> Dose | None:
    """Return the dose that a line asks for; None when it cannot be read or is out of range.

    Args:
        text: As a person types it.
        unit: Of a load written without one.
        exercise: Whose dose it is: one done a side at a time or in seconds is read as such; None when unknown.
    """
    line = squeezed(text)
    match = _LINE.fullmatch(line.removesuffix(_LIGHTER))
    if match is None:
        return None
    try:
        dose = _dose(match, unit, exercise)
    except UnreadError:
        return None
    return dose if dose is None else dose.model_copy(update={"lighter": line.endswith(_LIGHTER)})


def _dose(match: re.Match[str], unit: Unit, exercise: Exercise | None) -> Dose | None:
    sets = sets_of(match["styled"] or match["sets"], "")
    count = _counted(count_of(match["count"], ""), exercise)
    load = None if match["load"] is None else _load(match["load"], unit, exercise)
    effort = effort_of(match["left"], "") if match["left"] else None
    way = None if match["way"] is None else _way(match["way"])
    cells = Cells(sets=sets, count=count, load=load, effort=effort, way=way, texts=_NO_TEXTS)
    if any(misfits(cells)):
        return None
    dose = dose_of(sets, count, cells, sided=exercise is not None and exercise.each_side)
    shares = load is not None and load.kind is LoadKind.PERCENT
    if shares and dose.reps is None and not dose.to_left:
        return None
    loaded = exercise is None or not (
        exercise.basis is Basis.BODYWEIGHT or exercise.implement is Implement.BAND
    )
    first = way.path[0] if way is not None and way.path else ""
    return dose if way is None or misfit(way, dose, first, loaded=loaded) is None else None


def _counted(count: Count, exercise: Exercise | None) -> Count:
    """Return a count in seconds where the exercise is counted so and nothing else is written."""
    bare = not (count.timed or count.metres or count.or_more or count.portion or count.parts or count.effort)
    timed = exercise is not None and exercise.timed
    return count._replace(timed=True) if bare and timed else count


def _way(text: str) -> WayUp:
    kind = _BY_WORDS.get(text)
    if kind is not None:
        return WayUp(kind=kind)
    path = tuple(text.removeprefix(_PATH).split(" > "))
    if not text.startswith(_PATH) or len(path) < 2 or not all(_KEY.fullmatch(key) for key in path):
        raise UnreadError(Code.WAY_UNREADABLE, written=text, known="")
    return WayUp(kind=WayKind.VARIANTS, path=path)


def _load(text: str, unit: Unit, exercise: Exercise | None) -> Load:
    is_added = exercise is not None and exercise.basis is Basis.BODYWEIGHT
    if match := _BODYWEIGHT.fullmatch(text):
        number = match["number"] or match["bare"]
        if number is None:
            return Load.bodyweight()
        if match["bare"] and exercise is not None and not is_added:
            return load_of(text, unit, exercise, text)
        added = _mass(number, match["unit"] or match["bare_unit"], unit)
        return Load.bodyweight(added * -1 if "-" in (match["sign"], match["bare_sign"]) else added)
    if match := _MASS.fullmatch(text):
        mass = _mass(match["number"], match["unit"], unit)
        return Load.bodyweight(mass) if is_added else Load(LoadKind.MASS, mass)
    return load_of(text, unit, None, text)


def _mass(number: str, written: str | None, unit: Unit) -> Mass:
    if written is not None:
        unit = Unit.KG if written.startswith("k") else Unit.LB
    return Mass(Decimal(number.replace(",", ".")), unit)


def dose_text(dose: Dose) -> str:
    """Return a dose as one line that `parse_planned` reads back."""
    head = f"{dose.sets}x" if dose.style is None else f"{sets_text(dose)}: "
    count = f"{' ' if dose.to_left and dose.style is None else ''}{reps_text(dose, ' each side')}"
    load = f" @ {dose.load}" if dose.load else ""
    left = "" if dose.to_left or dose.left is None else f", {left_words(dose)}"
    way = f"; {way_text(dose.way, str)}" if dose.way is not None else ""
    return f"{head}{count}{load}{left}{way}{_LIGHTER if dose.lighter else ''}"
