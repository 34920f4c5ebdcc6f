"""The end of a block: what was done, and what the coach hears of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from bot.render.loads import load_words
from core.oversight.misses import Tally
from core.programme.exercises import Exercise
from core.programme.prescription import Load

TITLE = ("The end of your block", "end of the block")
LAST = "That is all. Your coach has been told."
KEPT = "That is all. It is kept for your coach."
MOST_LIFTS = 4
"""Most main lifts that are told. Our proposal: what fits a screen."""


@dataclass(frozen=True, slots=True)
class Lift:
    """A main lift, first to last in the block."""

    exercise: Exercise
    first: Load
    last: Load


def lead(block: str, kept: Tally, lifts: Sequence[Lift]) -> str:
    """Say what was done, in numbers, and why questions follow."""
    return "\n".join(
        [
            f"{escape(block)} is over. {_kept(kept)}",
            *lift_lines(lifts),
            "",
            "A few quick ones for what comes next. Your coach reads them.",
        ]
    )


def _kept(kept: Tally) -> str:
    return f"Sessions kept: {kept.kept} of {kept.due}." if kept.due else "No session was due."


def lift_lines(lifts: Sequence[Lift]) -> list[str]:
    """Write each main lift with its load at first and at last."""
    return [
        f"{escape(each.exercise.name)}: {load_words(each.first, each.exercise.basis)} at first, "
        f"{load_words(each.last, each.exercise.basis)} last"
        for each in lifts[:MOST_LIFTS]
    ]


def for_coach(
    name: str, block: str, kept: Tally, lifts: Sequence[Lift], said: Sequence[tuple[str, str]]
) -> str:
    """Tell the coach how a block ended, in one message."""
    answers = [f"{escape(question)} {escape(answer[:300])}" for question, answer in said]
    parts = [
        f"<b>{escape(name)}</b> has ended {escape(block)}. {_kept(kept)}",
        *lift_lines(lifts),
        "",
        *(answers or ["Every question was skipped."]),
    ]
    return "\n".join(parts)
