"""A holiday that a coach gives holds cards: what is planned follows it, and its client is told once, ahead of it."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from bot.messages import Effect, Send
from bot.render import holiday as say
from bot.store.due_questions import DueQuestion
from bot.store.people import Client
from bot.store.seasons import SeasonEntry
from bot.store.units import Unit
from bot.usecases.away_plan import follow_time_off
from bot.usecases.effects import after_quiet
from bot.usecases.in_line import style_of
from bot.usecases.layout import carry_on
from bot.usecases.season_spans import last_of
from bot.usecases.time_off import HOLIDAY, TOLD_FROM, holidays
from core.local_time import local_date
from core.programme.replanning import Style

KIND = HOLIDAY
TOLD = "told"
"""Where a question keeps the holidays that were told with it."""
LOOK_BACK = timedelta(days=14)
"""How long before a holiday it may have been told. [days] Our proposal."""


def follow(entry: SeasonEntry, unit: Unit, now: datetime) -> list[Effect]:
    """Have what is planned follow a holiday that was put or taken out; who was told of one that is out hears so."""
    effects: list[Effect] = []
    for client in of_whom(entry, unit):
        carry_on(client.id, unit, now)
        follow_time_off(client, unit, now)
        if entry.voided_at is not None:
            effects += _told_it_is_off(entry, client, unit, now)
    return effects


def of_whom(entry: SeasonEntry, unit: Unit) -> list[Client]:
    """Return the clients whom an entry is for, while they train here."""
    return [
        each
        for each in unit.clients.roster()
        if each.state in ("active", "paused") and entry.client_id in (None, each.id)
    ]


def comes_to(entry: SeasonEntry, today: date, unit: Unit) -> say.Comes:
    """Return what a holiday comes to: how many sessions of how many clients are left out, as laid out now."""
    found = [
        sum(
            each.left_reason == HOLIDAY and entry.from_on <= each.local_on <= entry.until_on
            for each in unit.sessions.of_client(client.id, ("left_out",))
        )
        for client in of_whom(entry, unit)
    ]
    return say.Comes(
        sessions=sum(found),
        clients=sum(count > 0 for count in found),
        days=(entry.until_on - entry.from_on).days + 1,
        in_line=style_of(unit) is Style.IN_LINE,
        begun=entry.from_on <= today,
    )


def ask(question: DueQuestion, client: Client, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Tell a client of the holidays that begin soon and that she does not know of yet; nothing is asked."""
    running, account = unit.blocks.running(client.id), unit.accounts.of_client(client.id)
    if running is None or account is None:
        return []
    today = question.local_on
    last = last_of(client, running, unit, today)
    known = {row for each in _told(client, today, unit) for row in _rows(each)}
    soon = [
        each
        for each in holidays(client.id, today, unit)
        if each.first <= min(today + TOLD_FROM, last) and each.entry not in known
    ]
    if not soon:
        return []
    unit.due_questions.note(question.id, {TOLD: [each.entry for each in soon]})
    message = say.ahead(unit.coaches.get(unit.tenant).name, [(each.first, each.last) for each in soon], today)
    key = f"{KIND}:{question.id}"
    return [Send(account.chat_id, message, key=key, client_id=client.id, unasked=True)]


def _told_it_is_off(entry: SeasonEntry, client: Client, unit: Unit, now: datetime) -> list[Effect]:
    today, account = local_date(now, client.zone or "UTC"), unit.accounts.of_client(client.id)
    told = [each for each in _told(client, entry.from_on, unit) if entry.id in _rows(each)]
    for each in told:
        unit.due_questions.note(each.id, {TOLD: [row for row in _rows(each) if row != entry.id]})
    if not told or account is None or entry.until_on < today:
        return []
    message = say.off_again(unit.coaches.get(unit.tenant).name, entry.from_on, entry.until_on, today)
    due_at = after_quiet(now, client.zone or "UTC", unit.rules.policy(client.id))
    key = f"{KIND}:{entry.id}:{client.id}:off:{told[-1].id}"
    return [Send(account.chat_id, message, key=key, due_at=due_at, client_id=client.id, unasked=True)]


def _told(client: Client, on: date, unit: Unit) -> list[DueQuestion]:
    """Return what was told of holidays from some time before a date on."""
    since = on - LOOK_BACK
    return [each for each in unit.due_questions.of_client(client.id, KIND, since) if each.sent_at is not None]


def _rows(question: DueQuestion) -> list[int]:
    return [int(row) for row in (question.answers or {}).get(TOLD, ())]
