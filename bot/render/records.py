"""Bests so far, in words: facts with what was before them, and no praise."""

from collections.abc import Sequence
from datetime import date
from html import escape

from bot.messages import Message
from bot.render.dates import MONTHS
from bot.render.exercise_names import in_sentence
from bot.render.loads import load_words
from core.oversight.records import LoggedLift, Record, RecordKind
from core.programme.exercises import Exercise
from core.programme.prescription import Load, LoadKind

MOST_SHOWN = 12
"""Exercises on one message."""

Bests = tuple[Exercise, tuple[Record, ...]]


def best_line(exercise: Exercise, best: Record, today: date) -> str:
    """Say a best once, with what it is held against."""
    name = escape(in_sentence(exercise.name))
    when = _date(best.before.on, today)
    if best.kind is RecordKind.ESTIMATE:
        return (
            f"Best so far: {name}, about {best.lift.maximum} for one rep. "
            f"That is from {_set(best.lift)}. Before: about {best.before.maximum}, {when}."
        )
    return f"Best so far: {name} {_set(best.lift)} (before: {_set(best.before)}, {when})."


def more_line(count: int) -> str:
    """Say that there are more."""
    return f"And {count} more: /records"


def taken_back_line(exercise: Exercise, best: Record) -> str:
    """Say that a best that was told is none any more."""
    name = escape(in_sentence(exercise.name))
    if best.kind is RecordKind.ESTIMATE:
        return f"No longer the best so far: {name}, about {best.lift.maximum} for one rep."
    return f"No longer the best so far: {name} {_set(best.lift)}."


def listed(name: str | None, bests: Sequence[Bests], today: date, more: Sequence[str] = ()) -> Message:
    """List the bests that stand now, by exercise.

    Args:
        name: Whose, for a coach; None for the client herself.
        bests: Exercises with their bests.
        today: The client's local date.
        more: Names of exercises that did not fit.
    """
    whose = f"<b>Best so far, {escape(name)}</b>" if name is not None else "<b>Best so far</b>"
    lines = [whose]
    for exercise, found in bests:
        lines += ["", f"<b>{escape(exercise.name)}</b>", *dict.fromkeys(_listed(one, today) for one in found)]
    if more:
        lines += [
            "",
            f"And {', '.join(escape(in_sentence(each)) for each in more)}: name one after /records.",
        ]
    return Message("\n".join(lines), silent=True)


def _listed(best: Record, today: date) -> str:
    when = _date(best.lift.on, today)
    if best.kind is RecordKind.ESTIMATE:
        return f"about {best.lift.maximum} for one rep, from {_set(best.lift)} ({when})"
    return f"{_set(best.lift)} ({when})"


def none_yet(name: str | None, asked: str = "") -> Message:
    """Say that there is none, and why."""
    whose = f" of {escape(name)}" if name is not None else ""
    what = f" for “{escape(asked[:40])}”" if asked else ""
    return Message(
        f"No best so far is kept{whose}{what}. The first time of an exercise is what later ones are held against.",
        silent=True,
    )


def _set(lift: LoggedLift) -> str:
    load = Load.bodyweight(lift.load if lift.load.value else None) if lift.bodyweight else None
    said = load_words(load or Load(LoadKind.MASS, lift.load), lift.basis)
    return f"{said} × {lift.reps}{' each side' if lift.side else ''}"


def _date(on: date, today: date) -> str:
    year = "" if on.year == today.year else f" {on.year}"
    return f"{on.day} {MONTHS[on.month - 1]}{year}"
