"""The closing lines of a session."""

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
    return "All done. Logged." if done == planned else f"{done} of {planned} exercises done. Logged."


def next_load_line(exercise: Exercise, given: Dose, decision: Decision) -> str | None:
    """Say what changes next time, with the reason; None when nothing does."""
    name = escape(exercise.name)
    if decision.kind is Kind.PAUSE:
        return f"{name}: on hold. {why_line(decision)}"
    if decision.kind is Kind.SWAP:
        return f"{name}: something else next time. {why_line(decision)}"
    if decision.load is None or decision.load == given.load:
        return None
    return f"{name} next time: <b>{load_words(decision.load, exercise.basis)}</b>. {why_line(decision)}"


def next_session_line(day: str, on: date) -> str:
    """Say when the next session is."""
    return f"Next: {escape(day)}, {day_words(on)}."
