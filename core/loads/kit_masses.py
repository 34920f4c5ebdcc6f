"""Masses in a line of typed kit: single ones, counted ones, runs at even steps. What is unclear is not guessed."""

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal
from enum import StrEnum
from typing import TypeVar

from core.loads.kit import MOST_STEPS, Plates, Run
from core.units import Mass, Unit, plain

MOST_MASS = 500
"""Heaviest single thing of a kit. [kg or lb] Our proposal: over any stack; it catches a lost decimal point."""
MOST_PAIRS = 9
"""Most pairs of one plate that are counted. Our proposal: more are plenty, and 2x20 was meant the other way round."""
MOST_ITEMS = 60
"""Most things in a list. Our proposal: over any kit that there is."""
MOST_PLATES = 16
"""Most different plates. Our proposal: over any set that there is; their sums are reckoned while she waits."""
MOST_ADDS = 4
"""Most masses to be laid on a stack. Our proposal: over any that there are; each doubles the loads."""
FINEST = Decimal("0.025")
"""Masses of plates are multiples of this. [kg or lb] Our proposal: an eighth and a twentieth are; it keeps sums few."""

_DECIMALS = frozenset({"0", "00", "5", "50", "25", "75", "125", "375", "625", "875"})
"""What may follow a decimal comma; anything else may be two numbers."""
_UNITS = {"kg": Unit.KG, "ki": Unit.KG, "lb": Unit.LB, "po": Unit.LB}
_MASS = r"(\d[\d.,]*(?<![.,]))(?:\s*(kgs?|kilos?|lbs?|pounds?)(?![^\W\d_]))?"
_RUN = rf"{_MASS}\s*(?:-|to\b|up\s+to\b)\s*{_MASS}(?:,?\s*(?:by|(?:in\s+)?steps?\s+of|step)\s*{_MASS})?"
_ITEM = re.compile(rf"(?:{_RUN}|{_MASS}\s*x\s*(\d+)|{_MASS})(?=[\s,;&+]|$)")
_BETWEEN = re.compile(r"(?:[\s,;&+]|and\b)*")
_PLENTY = re.compile(r"(?:^|[\s,x])plenty(?:\s+of\s+(?:each|all|them))?$")

Item = Mass | Plates | Run
Found = TypeVar("Found", bound=Sequence[object])


class Wrong(StrEnum):
    """What is wrong with a line of typed kit."""

    WORD = "no such word"
    NUMBER = "not a number"
    COMMA = "comma"
    ZERO = "nothing"
    HEAVY = "too heavy"
    FINE = "too fine"
    STEP = "no step"
    OFF_STEP = "off the step"
    FALLS = "falls"
    STEPS = "too many steps"
    MANY = "too many"
    PAIRS = "pairs"
    UNITS = "units"
    ONE = "one mass"
    EACH = "each or together"
    TWICE = "twice"
    EXERCISE = "exercise"
    YES_NO = "yes or no"
    EMPTY = "empty"
    PLACE = "place"
    BANDS = "bands"
    NAME = "name"


class Unclear(ValueError):
    """A line cannot be read for sure.

    Attributes:
        code: What is wrong.
        fact: The words that it is about.
    """

    def __init__(self, code: Wrong, fact: str = "") -> None:
        super().__init__(code)
        self.code, self.fact = code, fact


def number_in(text: str) -> Decimal:
    """Return the number that is written with a decimal point or comma.

    Raises:
        Unclear: It may be two numbers, or is nothing or too much for one thing of a kit.
    """
    whole, _, decimals = text.replace(",", ".").partition(".")
    if "." in decimals or ("," in text and decimals not in _DECIMALS):
        raise Unclear(Wrong.COMMA, text)
    value = Decimal(f"{whole}.{decimals or 0}")
    if value == 0:
        raise Unclear(Wrong.ZERO, text)
    if value > MOST_MASS:
        raise Unclear(Wrong.HEAVY, text)
    return Decimal(plain(value))


def items_in(text: str, unit: Unit) -> tuple[Item, ...]:
    """Return what a list holds, in its order: `4 6 8`, `2-30 by 2`, `20x2 10`.

    A unit that is written once on a line is that of all its numbers; where both are written, each number needs one.

    Args:
        text: The list, in lower case.
        unit: What a bare number is in.

    Raises:
        Unclear: Something of it is no mass, or may be more than one thing.
    """
    written = {_UNITS[word[:2]] for word in re.findall(r"(?<=[\d\s])(kg|kilo|lb|pound)", text)}
    bare = unit if not written else next(iter(written)) if len(written) == 1 else None
    found = tuple(_item(each, bare) for each in _matches(text))
    if not found:
        raise Unclear(Wrong.EMPTY)
    return few(found, MOST_ITEMS)


def few(found: Found, most: int) -> Found:
    """Return what was found.

    Raises:
        Unclear: There are more than can be.
    """
    if len(found) > most:
        raise Unclear(Wrong.MANY, str(most))
    return found


def _matches(text: str) -> Iterator[re.Match[str]]:
    place = _past(text, 0)
    while place < len(text):
        each = _ITEM.match(text, place)
        if each is None:
            raise Unclear(Wrong.NUMBER, text[place:].split(maxsplit=1)[0])
        yield each
        place = _past(text, each.end())


def _past(text: str, place: int) -> int:
    between = _BETWEEN.match(text, place)
    return between.end() if between is not None else place


def _item(found: re.Match[str], bare: Unit | None) -> Item:
    first, last, step, counted, single = ((found[place], found[place + 1]) for place in (1, 3, 5, 7, 10))
    if first[0] is not None:
        if step[0] is None:
            raise Unclear(Wrong.STEP, found[0])
        return _run(_mass(*first, bare), _mass(*last, bare), _mass(*step, bare), found[0])
    if counted[0] is not None:
        pairs = int(found[9])
        if not 1 <= pairs <= MOST_PAIRS:
            raise Unclear(Wrong.PAIRS, found[0])
        return Plates(mass=_mass(*counted, bare), pairs=pairs)
    return _mass(*single, bare)


def _mass(number: str, unit: str | None, bare: Unit | None) -> Mass:
    marked = _UNITS[unit[:2]] if unit is not None else bare
    if marked is None:
        raise Unclear(Wrong.UNITS, number)
    return Mass(number_in(number), marked)


def _run(first: Mass, last: Mass, step: Mass, text: str) -> Run:
    if not first.unit is last.unit is step.unit:
        raise Unclear(Wrong.UNITS, text)
    if last <= first:
        raise Unclear(Wrong.FALLS, text)
    count, rest = divmod((last - first).value, step.value)
    if rest:
        raise Unclear(Wrong.OFF_STEP, f"{first + step * int(count)}")
    if count >= MOST_STEPS:
        raise Unclear(Wrong.STEPS, text)
    return Run(first=first, last=last, step=step)


def masses_and_runs(text: str, unit: Unit) -> tuple[tuple[Mass, ...], tuple[Run, ...]]:
    """Return the single masses of a list, rising and each once, and its runs.

    Raises:
        Unclear: Something of it is neither.
    """
    found = items_in(text, unit)
    for each in found:
        if isinstance(each, Plates):
            raise Unclear(Wrong.NUMBER, f"{plain(each.mass.value)}x{each.pairs}")
    masses = {each for each in found if isinstance(each, Mass)}
    return tuple(sorted(masses)), tuple(each for each in found if isinstance(each, Run))


def masses_in(text: str, unit: Unit) -> tuple[Mass, ...]:
    """Return every mass of a list, those of its runs too, rising and each once.

    Raises:
        Unclear: Something of it is no mass.
    """
    masses, runs = masses_and_runs(text, unit)
    return tuple(sorted({*masses, *(mass for run in runs for mass in run.masses)}))


def mass_in(text: str, unit: Unit) -> Mass:
    """Return the one mass that is written.

    Raises:
        Unclear: It is not one mass.
    """
    found = items_in(text, unit)
    if len(found) != 1 or not isinstance(found[0], Mass):
        raise Unclear(Wrong.ONE, text)
    return found[0]


def run_in(text: str, unit: Unit) -> Run:
    """Return the one run that is written: `5 to 100 by 5`.

    Raises:
        Unclear: It is not one run.
    """
    found = items_in(text, unit)
    if len(found) != 1 or not isinstance(found[0], Run):
        raise Unclear(Wrong.STEP, text)
    return found[0]


def plates_in(text: str, unit: Unit) -> tuple[Plates, ...]:
    """Return plates, heaviest first: `20x2` is two pairs, `20` alone or with `plenty` is plenty.

    Raises:
        Unclear: Something of it is no plate, or one mass is written twice.
    """
    bare = _PLENTY.sub("", text)
    found = few(items_in(bare, unit), MOST_PLATES)
    if bare != text and isinstance(found[-1], Plates):
        raise Unclear(Wrong.NUMBER, "plenty")
    plates: dict[Mass, Plates] = {}
    for each in found:
        if isinstance(each, Run):
            raise Unclear(Wrong.NUMBER, f"{plain(each.first.value)}-{plain(each.last.value)}")
        one = each if isinstance(each, Plates) else Plates(mass=each)
        if one.mass.value % FINEST:
            raise Unclear(Wrong.FINE, plain(one.mass.value))
        if one.mass in plates:
            raise Unclear(Wrong.TWICE, plain(one.mass.value))
        plates[one.mass] = one
    return tuple(plates[mass] for mass in sorted(plates, reverse=True))
