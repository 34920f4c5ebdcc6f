"""Words beside a client's log as a file, and beside the reasons of a decision."""

from collections.abc import Sequence
from datetime import datetime
from html import escape

from bot.messages import Message
from bot.render.dates import day_words
from bot.render.decision import decision_lines
from bot.render.setting_up import Buttons
from core.loads.decision import Decision, Inputs

__all__ = ["Buttons"]

MOST = 3900


def log_file(name: str) -> str:
    """Say what the file is."""
    return f"<b>{escape(name)}</b>, the whole training log: every set, and what was said of the body."


def why_which(name: str, exercises: Sequence[str], buttons: Buttons) -> Message:
    """Ask which exercise's decision is meant."""
    if not exercises:
        return Message(f"Nothing has been decided for {escape(name)} yet.", silent=True)
    rows = buttons.picks(list(enumerate(exercises)), 2)
    typed = f"<code>/why {escape(name)}, {escape(exercises[0])}</code>"
    return Message(f"<b>{escape(name)}</b>: why which load? Tap, or type {typed}", rows=rows, silent=True)


def why(name: str, number: int, made_at: datetime, inputs: Inputs, decision: Decision) -> list[Message]:
    """Show a decision with all that it rests on, down to the sets with their dates."""
    head = f"<b>{escape(name)}</b>, decision {number} of {day_words(made_at.date())}"
    lines = [escape(each) for each in decision_lines(inputs, decision, coach=True)]
    used = _used(inputs, decision)
    if used:
        lines += ["", "<b>The sets it rests on</b>", *used]
    pages = [head]
    for line in lines:
        if len(pages[-1]) + len(line) > MOST:
            pages.append(line)
        else:
            pages[-1] += f"\n{line}"
    return [Message(page, silent=True) for page in pages]


def _used(inputs: Inputs, decision: Decision) -> list[str]:
    rows = set(decision.used)
    return [
        f"{day_words(past.on)}, set {one.set_no}: {_set(one.load, one.reps, one.seconds, one.metres)}"
        f" (row {one.row_id})"
        for past in inputs.history
        for one in past.sets
        if one.row_id in rows
    ]


def _set(load: object, reps: int | None, seconds: int | None, metres: int | None) -> str:
    counted = [f"{reps} reps"] * (reps is not None) + [f"{seconds} s"] * (seconds is not None)
    counted += [f"{metres} m"] * (metres is not None)
    return escape(" × ".join([*([str(load)] if load is not None else []), *counted]))
