"""The way up as written in its cell: `add reps, then load`, `load each week`, `easier to harder: A > B > C`."""

import re
from collections.abc import Callable

from core.programme.exercises import Exercise
from core.programme.grammar import squeezed
from core.programme.prescription import Dose, LoadKind
from core.programme.problems import Code
from core.programme.set_styles import StyleKind
from core.programme.sheets import UnreadError
from core.programme.ways_up import BY_TABLE, TABLE_REPS, TABLE_SETS, WORDS, WayKind, WayUp

_KINDS = {words.casefold(): kind for kind, words in WORDS.items()} | {
    "reps, then load": WayKind.ADD_REPS,
    "add reps then load": WayKind.ADD_REPS,
    "reps then load": WayKind.ADD_REPS,
    "more load each week": WayKind.EACH_WEEK,
    "add load each week": WayKind.EACH_WEEK,
    "load every week": WayKind.EACH_WEEK,
    "reps left": WayKind.BY_LEFT,
    "by rir": WayKind.BY_LEFT,
    "last set": WayKind.LAST_SET,
    "all sets twice then load": WayKind.DONE_TWICE,
    "no change": WayKind.UNCHANGED,
    "the same": WayKind.UNCHANGED,
    "reps in all, then load": WayKind.TOTAL_REPS,
    "add reps in all then load": WayKind.TOTAL_REPS,
    "total reps, then load": WayKind.TOTAL_REPS,
    "total reps": WayKind.TOTAL_REPS,
    "apre3": WayKind.APRE_3,
    "apre6": WayKind.APRE_6,
    "apre10": WayKind.APRE_10,
    "dapre later bands": WayKind.DAPRE_LATER,
}
_PATH = re.compile(r"(?:easier to harder|variants?|variant path) ?: ?(?P<path>.+)")
_STEP = re.compile(r" ?(?:>|→|;|,? then ) ?")
LONGEST_PATH = 6
"""Most exercises of a path. Our proposal."""


def way_of(text: str, known: Callable[[str], Exercise]) -> WayUp:
    """Return the way up of a cell's text.

    Args:
        text: As typed.
        known: Gives the exercise of a name, or raises `UnreadError`.

    Raises:
        UnreadError: It is no way up, or names an exercise that is not known.
    """
    said = squeezed(text).rstrip(".")
    kind = _KINDS.get(said)
    if kind is not None and kind is not WayKind.VARIANTS:
        return WayUp(kind=kind)
    match = _PATH.fullmatch(said)
    names = [name.strip() for name in _STEP.split(match["path"])] if match else []
    if not 1 < len(names) <= LONGEST_PATH or not all(names):
        raise UnreadError(Code.WAY_UNREADABLE, written=text, known=_known())
    path = tuple(known(name).key for name in names)
    if len(set(path)) < len(path):
        raise UnreadError(Code.WAY_PATH_TWICE, written=text)
    return WayUp(kind=WayKind.VARIANTS, path=path)


def _known() -> str:
    others = [words for kind, words in WORDS.items() if kind is not WayKind.VARIANTS]
    return "; ".join([*others, f"{WORDS[WayKind.VARIANTS]}: A > B"])


def way_text(way: WayUp | None, name_of: Callable[[str], str]) -> str:
    """Return the cell under Way up, which `way_of` reads back; empty for none."""
    if way is None:
        return ""
    path = " > ".join(name_of(key) for key in way.path)
    return f"{WORDS[way.kind]}: {path}" if path else WORDS[way.kind]


def misfit(way: WayUp, dose: Dose, exercise: str, *, loaded: bool = True) -> Code | None:
    """Return what in a dose stands against a way up; None when it fits.

    Args:
        way: As written.
        dose: With everything else that was written.
        exercise: Key of the exercise that is done.
        loaded: False where the exercise is done with the body or a band.
    """
    kind, load = way.kind, dose.load
    keeps = kind in (WayKind.AS_WRITTEN, WayKind.UNCHANGED)
    says = load is not None and load.kind in (LoadKind.PERCENT, LoadKind.UP)
    if says and kind is not WayKind.AS_WRITTEN:
        return Code.WAY_AGAINST_LOAD
    if dose.to_left and not keeps:
        return Code.WAY_WITH_OPEN_REPS
    if dose.style is not None and dose.style.kind is StyleKind.CLUSTER and not keeps:
        return Code.WAY_NOT_FOR_CLUSTER
    if kind in BY_TABLE:
        return _against_table(kind, dose, loaded=loaded)
    if kind is WayKind.VARIANTS and exercise not in way.path:
        return Code.WAY_PATH_ELSEWHERE
    return _against_count(kind, dose)


def _against_count(kind: WayKind, dose: Dose) -> Code | None:
    """Return what in the count of a set stands against a way up; None when it fits."""
    if kind in (WayKind.ADD_REPS, WayKind.TOTAL_REPS) and dose.span is not None and dose.span.fixed:
        return Code.WAY_NEEDS_RANGE
    if kind is WayKind.DONE_TWICE and dose.span is not None and not dose.span.fixed:
        return Code.WAY_NEEDS_FIXED
    if kind is WayKind.LAST_SET and not dose.or_more:
        return Code.WAY_NEEDS_OPEN
    if kind is WayKind.BY_LEFT and (dose.left is None or dose.reps is None):
        return Code.WAY_NEEDS_LEFT
    return None


def _against_table(kind: WayKind, dose: Dose, *, loaded: bool) -> Code | None:
    """Return what stands against a way up by a table: it has its own sets and reps, to the limit, with a load."""
    unloaded = dose.load is not None and dose.load.kind in (LoadKind.BODYWEIGHT, LoadKind.BAND)
    if not loaded or unloaded:
        return Code.WAY_NEEDS_LOAD
    if dose.sets != TABLE_SETS or dose.style is not None:
        return Code.WAY_NEEDS_FOUR_SETS
    span, reps = dose.reps, TABLE_REPS[kind]
    if span is None or (span.low, span.high) != (reps, reps) or dose.or_more or dose.portion is not None:
        return Code.WAY_NEEDS_ITS_REPS
    return Code.WAY_TO_THE_LIMIT if dose.left is not None else None
