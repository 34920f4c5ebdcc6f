"""Loads, doses and sets in words."""

from collections.abc import Sequence

from core.checkin.training_log import LoggedSet
from core.programme.exercises import Basis, Exercise
from core.programme.prescription import Dose, Load, LoadKind
from core.units import plain

BASIS_WORDS = {Basis.PER_HAND: " a hand", Basis.PER_SIDE: " a side"}


def load_words(load: Load | None, basis: Basis | None = None) -> str:
    """Write a load: `92.5 kg`, `16 kg a hand`, `bodyweight`, `bw+5 kg`."""
    if load is None:
        return ""
    if load.kind is LoadKind.FIND:
        return "find the load"
    if load.kind is LoadKind.BODYWEIGHT and load.mass is None:
        return "bodyweight"
    return f"{load}{BASIS_WORDS.get(basis, '') if basis else ''}"


def dose_words(dose: Dose, exercise: Exercise) -> str:
    """Write a dose: `5 × 8 at 92.5 kg`, `3 × 10 a side`, `3 × 30 s`."""
    count = f"{dose.reps}" if dose.reps is not None else f"{dose.seconds} s"
    side = " a side" if dose.each_side or exercise.each_side else ""
    load = load_words(dose.load, exercise.basis)
    head = f"{dose.sets} × {count}{side}"
    if dose.load is None or load == "bodyweight":
        return head
    return f"{head}, {load}" if dose.load.kind is LoadKind.FIND else f"{head} at <b>{load}</b>"


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
    return both_sides and [(a.reps, a.seconds) for a in left] == [(b.reps, b.seconds) for b in right]


def _load_of(each: LoggedSet) -> str:
    if each.load is None or (each.load.kind is LoadKind.BODYWEIGHT and each.load.mass is None):
        return ""
    if each.load.kind is LoadKind.MASS and each.load.mass is not None:
        return f"{plain(each.load.mass.value)} {each.load.mass.unit}"
    return str(each.load)


def _group(head: str, sets: list[LoggedSet], *, side: bool) -> str:
    counts = " ".join(str(each.reps) if each.reps is not None else f"{each.seconds}s" for each in sets)
    named = f"{'left' if sets[0].side == 'L' else 'right'} {counts}" if side and sets[0].side else counts
    return f"{head} × {named}" if head else named
