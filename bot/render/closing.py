"""The closing lines of a session."""

from collections.abc import Sequence
from datetime import date
from html import escape

from bot.render.dates import day_words
from bot.render.loads import load_words
from bot.render.reasons import why_line
from core.loads.decision import Decision, Kind
from core.programme.exercises import Exercise
from core.programme.prescription import Dose


def done_line(done: int, planned: int) -> str:
    """Say how much was done."""
    if done == 0:
        return "The session is closed. Nothing was logged."
    return "All done. Logged." if done == planned else f"{done} of {planned} exercises done. Logged."


def next_load_lines(decided: Sequence[tuple[Exercise, Dose, Decision]]) -> tuple[str, ...]:
    """Say what changes next time, with the reason; exercises held for the same reason share a line."""
    named: dict[str, list[str]] = {}
    for exercise, given, decision in decided:
        said = _change(exercise, given, decision)
        if said is not None:
            named.setdefault(said, []).append(escape(exercise.name))
    return tuple(f"{', '.join(names)}{said}" for said, names in named.items())


def _change(exercise: Exercise, given: Dose, decision: Decision) -> str | None:
    if decision.kind is Kind.PAUSE:
        return f": on hold. {why_line(decision)}"
    if decision.kind is Kind.SWAP:
        return f": something else next time. {why_line(decision)}"
    if decision.load is None or decision.load == given.load:
        return None
    return f" next time: <b>{load_words(decision.load, exercise.basis)}</b>. {why_line(decision)}"


def next_session_line(day: str, on: date) -> str:
    """Say when the next session is."""
    return f"Next: {escape(day)}, {day_words(on)}."
