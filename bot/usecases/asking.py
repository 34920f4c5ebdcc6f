"""Questions that have fallen due: asked on their day, at a decent hour, when there is room for one more message.

A subject that asks has an asker here, `(question, client, unit, now) -> effects`. It marks its message `unasked`, opens
its own prompt with the question's id in the facts, and keeps the answers with `unit.due_questions`. No effects mean
that it is needless: it is dropped.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person
from bot.store.due_questions import DueQuestion
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import block_end, check_in, holiday, illness, morning, plan_week, week_clock
from bot.usecases.effects import after_quiet
from bot.usecases.unasked import has_room
from core.local_time import local_date
from core.policy import Policy

Asker = Callable[[DueQuestion, Client, Unit, datetime], Sequence[Effect]]

ASKERS: Mapping[str, Asker] = {
    morning.KIND: morning.ask,
    week_clock.CHECK_IN: check_in.ask,
    week_clock.PLAN: plan_week.ask,
    week_clock.BLOCK_END: block_end.ask,
    "illness": illness.ask_how,
    holiday.KIND: holiday.ask,
}
"""By kind, who asks. A kind that is not here is dropped: the program was set back to one that does not know it."""


@dataclass(frozen=True, slots=True)
class Ask:
    """A question is due."""

    question_id: int


def ask(command: Ask, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask what is due, once.

    It is dropped when its day is over, and for somebody who is paused, on hold, gone or out of reach. In quiet hours
    it waits for their end, and a day that has brought enough already leaves it out.
    """
    question = unit.due_questions.get(command.question_id)
    if question.sent_at is not None or question.dropped_at is not None:
        return []
    client = unit.clients.get(question.client_id)
    policy, zone = unit.rules.policy(client.id), client.zone or "UTC"
    waits = after_quiet(now, zone, policy)
    if waits > now and local_date(waits, zone) == question.local_on:
        unit.due_questions.put_off(question.id, waits)
        return []
    effects = _asked(question, client, unit, now, policy) if waits == now else []
    if effects:
        unit.due_questions.sent(question.id, now)
    else:
        unit.due_questions.drop(question.id, now)
    if question.kind in week_clock.KINDS:
        week_clock.planned(client.id, unit, now)
    return effects


def _asked(
    question: DueQuestion, client: Client, unit: Unit, now: datetime, policy: Policy
) -> Sequence[Effect]:
    asker = ASKERS.get(question.kind)
    account = unit.accounts.of_client(client.id)
    reachable = account is not None and account.reachable
    if asker is None or not reachable or client.state != "active" or client.frozen_at is not None:
        return []
    zone = client.zone or "UTC"
    if local_date(now, zone) != question.local_on:
        return []
    kept = 1 if _card_comes(client, unit, now) else 0
    return asker(question, client, unit, now) if has_room(client, unit, now, policy, keep=kept) else []


def _card_comes(client: Client, unit: Unit, now: datetime) -> bool:
    """Return whether a card is still to come today, for which a place is kept."""
    zone = client.zone or "UTC"
    today = local_date(now, zone)
    return any(each.local_on == today for each in unit.sessions.of_client(client.id, ("planned",)))
