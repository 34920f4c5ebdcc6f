"""Loads, doses and sets in words."""

from collections.abc import Sequence
from html import escape

from core.checkin.training_log import LoggedSet
from core.programme.effort_cells import left_words
from core.programme.exercises import Basis, Exercise
from core.programme.prescription import Dose, Load, LoadKind
from core.programme.set_styles import StyleKind
from core.units import plain

BASIS_WORDS = {Basis.PER_HAND: " a hand", Basis.PER_SIDE: " a side"}


def load_words(load: Load | None, basis: Basis | None = None) -> str:
    """Write a load: `92.5 kg`, `16 kg a hand`, `bodyweight`, `bw+5 kg`."""
    if load is None:
        return ""
    if load.kind is LoadKind.FIND:
        return "find the load"
    if load.kind is LoadKind.UP:
        return f"{load.mass} more than last time"
    if load.kind is LoadKind.BODYWEIGHT and load.mass is None:
        return "bodyweight"
    return f"{load}{BASIS_WORDS.get(basis, '') if basis else ''}"


def dose_words(dose: Dose, exercise: Exercise) -> str:
    """Write a dose as HTML: `5 × 8 at 92.5 kg`, `3 × 10 a side`, `3 × 30 s`, `3 sets to 2 left at 40 kg`."""
    side = " a side" if dose.each_side or exercise.each_side else ""
    head = f"{_sets(dose)} {_count(dose)}{side}"
    if dose.portion is not None:
        head += f" in {dose.portion}s"
    if dose.or_more and dose.reps is not None:
        head += f", the last set {dose.reps.low} or more"
    return f"{head}{_at(dose, exercise)}{_style(dose)}"


def _sets(dose: Dose) -> str:
    if dose.to_left:
        return "1 set" if dose.sets == 1 else f"{dose.sets} sets"
    return f"{dose.sets} ×"


def _count(dose: Dose) -> str:
    if dose.to_left:
        return f"to {left_words(dose)}"
    if dose.style is not None and dose.style.parts:
        return f"({' + '.join(str(part) for part in dose.style.parts)})"
    if dose.metres is not None:
        return f"{dose.metres} m"
    return f"{dose.reps}" if dose.reps is not None else f"{dose.seconds} s"


def _at(dose: Dose, exercise: Exercise) -> str:
    load = escape(load_words(dose.load, exercise.basis))
    if dose.load is None or load == "bodyweight":
        return ""
    if dose.load.kind in (LoadKind.FIND, LoadKind.UP):
        return f", {load}"
    if dose.load.kind is LoadKind.BAND:
        return f" with a <b>{load}</b>"
    ascends = dose.style is not None and dose.style.kind is StyleKind.ASCENDING
    return f", heavier each set up to <b>{load}</b>" if ascends else f" at <b>{load}</b>"


def _style(dose: Dose) -> str:
    style = dose.style
    if style is None or (style.kind is StyleKind.ASCENDING and dose.load is not None):
        return ""
    match style.kind:
        case StyleKind.ASCENDING:
            return ", heavier each set"
        case StyleKind.DESCENDING:
            steps = "1 step" if style.steps == 1 else f"{style.steps} steps"
            return f", then {steps} down without a rest, {style.drop_text.replace('-', '–')} % lighter each"
        case StyleKind.REST_PAUSE:
            return f", with pauses of {style.pause} s in the set"
        case StyleKind.CLUSTER:
            return f", {style.pause} s between the parts"


def sets_words(sets: Sequence[LoggedSet]) -> str:
    """Write logged sets: `92.5 kg × 8 8 8 7`, `16 kg × L 10 9, R 10 10`; a new load starts a new group."""
    groups: list[tuple[str, list[LoggedSet]]] = []
    for each in sorted(sets, key=lambda one: (one.side, one.set_no)):
        head = _load_of(each)
        if not groups or groups[-1][0] != head or groups[-1][1][-1].side != each.side:
            groups.append((head, []))
        groups[-1][1].append(each)
    if len(groups) == 2 and groups[0][0] == groups[1][0] and _same_counts(groups[0][1], groups[1][1]):
        return f"{_group(groups[0][0], groups[0][1], side=False)} each side"
    return ", ".join(_group(head, each, side=True) for head, each in groups)


def _same_counts(left: list[LoggedSet], right: list[LoggedSet]) -> bool:
    both_sides = left[0].side != right[0].side
    return both_sides and [_counted(a) for a in left] == [_counted(b) for b in right]


def _counted(each: LoggedSet) -> str:
    if each.metres is not None:
        return f"{each.metres} m"
    return str(each.reps) if each.reps is not None else f"{each.seconds}s"


def _load_of(each: LoggedSet) -> str:
    if each.load is None or (each.load.kind is LoadKind.BODYWEIGHT and each.load.mass is None):
        return ""
    if each.load.kind is LoadKind.MASS and each.load.mass is not None:
        return f"{plain(each.load.mass.value)} {each.load.mass.unit}"
    return str(each.load)


def _group(head: str, sets: list[LoggedSet], *, side: bool) -> str:
    counts = " ".join(_counted(each) for each in sets)
    named = f"{'left' if sets[0].side == 'L' else 'right'} {counts}" if side and sets[0].side else counts
    return f"{head} × {named}" if head else named


def rest_words(seconds: int) -> str:
    """Return a rest: `1:30 min`, `45 s`. [s]"""
    minutes, rest = divmod(seconds, 60)
    return f"{minutes}:{rest:02d} min" if minutes else f"{rest} s"
