"""What became of check-ins, for those who read of them: the digest, a client's card."""

from datetime import date, datetime, timedelta

from bot.render.beside_block import Answered
from bot.render.questionnaire import said_line
from bot.store.due_questions import DueQuestion
from bot.store.units import Unit
from bot.usecases.questionnaire import said_in
from bot.usecases.week_clock import BLOCK_END, CHECK_IN
from core.oversight.facts import CheckedIn

WEEK = timedelta(days=7)
ONE_DAY = timedelta(days=1)
"""A check-in can be answered so long; then it counts as unanswered."""
LOOK_BACK_FOR_FILE = timedelta(days=28)
"""How far back a client's card shows answers. Our proposal."""
LOOK_BACK = timedelta(days=10)
"""Covers a week and the days in which a check-in can be answered, on every clock."""


def check_ins_told(unit: Unit, due_at: datetime) -> dict[int, CheckedIn]:
    """Return each client's check-in that was answered or lapsed in the seven days up to a digest, the newest."""
    found: dict[int, CheckedIn] = {}
    for client_id, asked in unit.due_questions.since(CHECK_IN, due_at.date() - LOOK_BACK).items():
        for each in asked:
            settled = _settled_at(each)
            if settled is not None and due_at - WEEK < settled <= due_at:
                found[client_id] = CheckedIn(on=each.local_on, said=said_in(each))
    return found


def _settled_at(asked: DueQuestion) -> datetime | None:
    """Return when a check-in was answered, or its time was over."""
    if asked.answered_at is not None or asked.sent_at is None:
        return asked.answered_at
    return asked.sent_at + ONE_DAY


def last_said(client_id: int, today: date, unit: Unit) -> tuple[Answered, ...]:
    """Return the last two check-ins, and the last end of a block, that a client answered, newest first."""
    found: list[Answered] = []
    for kind, most in ((CHECK_IN, 2), (BLOCK_END, 1)):
        asked = unit.due_questions.of_client(client_id, kind, today - LOOK_BACK_FOR_FILE)
        said = [each for each in reversed(asked) if said_in(each)]
        found += [
            Answered(said_line(said_in(each)), each.local_on, of_block=kind == BLOCK_END)
            for each in said[:most]
        ]
    return tuple(sorted(found, key=lambda each: each.on, reverse=True))
