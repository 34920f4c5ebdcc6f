"""The end of a block: the day after its last session, four questions, and one message to the coach."""

from collections.abc import Sequence
from datetime import datetime

from bot.messages import Effect, Message, Person, Send, Tap
from bot.render import block_end as say
from bot.store.blocks import Assignment
from bot.store.due_questions import DueQuestion
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import questionnaire, report
from bot.usecases.effects import after_quiet
from bot.usecases.in_line import LIVE
from bot.usecases.questionnaire import Turn
from bot.usecases.week_clock import BLOCK_END
from core.checkin.check_in import BLOCK_END as QUESTIONS
from core.checkin.training_log import Session
from core.oversight.misses import OPEN, Past, Tally, tally
from core.programme.prescription import Load, LoadKind


def ask(question: DueQuestion, client: Client, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Say what was done, and ask four things; not while a session of the block is still to come."""
    account = unit.accounts.of_client(client.id)
    rows = _rows(question, unit)
    if account is None or not rows or any(each.state == "planned" for each in rows):
        return []
    ran = _ran(question, unit)
    lead = say.lead(_block(ran, unit), _kept(rows), _lifts(rows, unit))
    return [questionnaire.begin(question, say.TITLE, QUESTIONS, client, account, unit, now, lead=lead)]


def ended(turn: Turn, asked: DueQuestion, waits: bool) -> tuple[str, list[Effect]]:
    """Say that it is over, and tell the coach in one message, whatever else is asked first."""
    del waits
    client, unit, now = turn.client, turn.unit, turn.now
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if chat_id is None:
        return say.KEPT, []
    rows = _rows(asked, unit)
    text = say.for_coach(
        client.name,
        _block(_ran(asked, unit), unit),
        _kept(rows),
        _lifts(rows, unit),
        questionnaire.said_in(asked),
    )
    key = f"blockend:{asked.id}:told"
    unit.forwards.add(client.id, key, chat_id, None, "text", now)
    offered = report.offered(client, asked.subject or 0, unit, now)
    due_at = after_quiet(now, unit.coaches.get(unit.tenant).zone, unit.rules.policy())
    return say.LAST, [Send(chat_id, Message(text, rows=offered), key=key, due_at=due_at)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the answer that was tapped."""
    return questionnaire.tapped(tap, prompt, person, unit, now, ended)


def typed(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a typed answer; None where none is asked, or the words are of something else."""
    return questionnaire.typed(text, BLOCK_END, client, person, unit, now, ended)


def _ran(question: DueQuestion, unit: Unit) -> Assignment:
    return unit.blocks.assignment(question.subject or 0)


def _rows(question: DueQuestion, unit: Unit) -> list[Session]:
    return unit.moves.of_assignment(_ran(question, unit).id)


def _block(ran: Assignment, unit: Unit) -> str:
    return unit.versions.course(ran).first.name


def _kept(rows: Sequence[Session]) -> Tally:
    """Count sessions kept of due; one whose card is still open was not kept yet, and is due."""
    past = [
        Past(session_id=each.id, on=each.local_on, state=each.state, reason=each.left_reason) for each in rows
    ]
    counted = tally(past, min(each.on for each in past), max(each.on for each in past))
    waiting = sum(each.state in OPEN for each in rows)
    return Tally(kept=counted.kept, due=counted.due + waiting)


def _tells(session: Session, unit: Unit) -> bool:
    return session.state in LIVE and session.week_no not in unit.versions.block_of(session).lighter_weeks


def _lifts(rows: Sequence[Session], unit: Unit) -> list[say.Lift]:
    """Return the main lifts of a block, or the first of each day, with the heaviest load at first and at last.

    What was lifted in a planned lighter week says nothing of where a lift has come to, and is left out.
    """
    loads: dict[str, list[Load]] = {}
    for session in sorted((each for each in rows if _tells(each, unit)), key=lambda each: each.local_on):
        items = unit.sessions.items(session.id)
        chosen = [each for each in items if unit.exercises.get(each.exercise).main_lift] or items[:1]
        for item in chosen:
            done = [each.load for each in unit.sets.standing([item.id]) if each.load is not None]
            massed = [each for each in done if each.kind is LoadKind.MASS and each.mass is not None]
            if massed:
                top = max(massed, key=lambda each: each.mass.kg if each.mass is not None else 0)
                loads.setdefault(item.exercise, []).append(top)
    return [
        say.Lift(unit.exercises.get(key), found[0], found[-1])
        for key, found in loads.items()
        if len(found) > 1
    ]
