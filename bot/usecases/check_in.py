"""The weekly check-in: at most four questions that the coach edits, answered in a few taps."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person, Tap
from bot.render import check_in as say
from bot.render.questionnaire import no_open
from bot.store.due_questions import DueQuestion
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import alerting, check_in_questions, plan_week, questionnaire
from bot.usecases.join import answer
from bot.usecases.questionnaire import Turn
from bot.usecases.today import client_of
from bot.usecases.week_clock import BLOCK_END, CHECK_IN
from bot.usecases.weekly_line import WEEK, weekly_line


@dataclass(frozen=True, slots=True)
class CheckIn:
    """`/checkin`, with what a coach types after it."""

    text: str = ""


def check_in(command: CheckIn, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take up what is open again, for a client; show and edit the questions, for a coach."""
    if person.role == "coach":
        return check_in_questions.asked(command.text, person, unit, now)
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    for kind in (CHECK_IN, BLOCK_END):
        shown = questionnaire.taken_up(kind, client, person, unit, now)
        if shown:
            return shown
    waiting = unit.due_questions.waiting(client.id, CHECK_IN)
    return [answer(person, "checkin", no_open(waiting[0].local_on if waiting else None))]


def ask(question: DueQuestion, client: Client, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask on the coach's day; nobody for whom she has turned it off, and nothing when she has no questions."""
    account = unit.accounts.of_client(client.id)
    questions = check_in_questions.standing(unit)
    if account is None or not questions or unit.check_ins.is_off(client.id):
        return []
    if _was_on_hold(question, client, unit):
        return []
    plan = say.PLAN_COMES if plan_week.comes_after(question.local_on, client, unit, now) else ""
    week = weekly_line(client, unit, question.local_on)
    lead = "\n".join(each for each in (week, say.LEAD, plan) if each)
    begun = questionnaire.begin(question, say.TITLE, questions, client, account, unit, now, lead=lead)
    return [begun, *alerting.check_in_asked(client, unit, now)]


def _was_on_hold(question: DueQuestion, client: Client, unit: Unit) -> bool:
    """Return whether the plan was on hold for every session of the last seven days: there is no week to ask about."""
    week = unit.oversight.past(client.id, question.local_on - WEEK).get(client.id, ())
    return bool(week) and all(each.state == "held" for each in week)


def ended(turn: Turn, asked: DueQuestion, waits: bool) -> tuple[str, list[Effect]]:
    """Say that it is over, and go on to the plan of the week where that is for the same day."""
    if not waits:
        return say.LAST, plan_week.after_check_in(asked, turn.client, turn.person, turn.unit, turn.now)
    comes = plan_week.comes_after(asked.local_on, turn.client, turn.unit, turn.now)
    return f"{say.LAST} {say.PLAN_WAITS}" if comes else say.LAST, []


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the answer that was tapped."""
    return questionnaire.tapped(tap, prompt, person, unit, now, ended)


def typed(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a typed answer; None where no check-in is open, or the words are of something else."""
    return questionnaire.typed(text, CHECK_IN, client, person, unit, now, ended)
