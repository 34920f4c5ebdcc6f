"""What falls due at an instant, in the order in which the program does it."""

from collections.abc import Callable, Iterator
from datetime import datetime, time, timedelta
from typing import Any

from bot.store import oversight
from bot.store.alerts import alerts_due_anywhere
from bot.store.aways import clocks_anywhere
from bot.store.contracts import contracts_due_anywhere
from bot.store.due import due_anywhere, preps_due_anywhere
from bot.store.due_questions import questions_due_anywhere
from bot.store.reminders import reminders_due_anywhere
from bot.store.units import Units
from bot.usecases.alerting import AlertDue, due
from bot.usecases.asking import Ask, ask
from bot.usecases.contract_end import ContractEnds, tell_end
from bot.usecases.daily_card import SendPrep, send_prep
from bot.usecases.digest import prepared, send_digest
from bot.usecases.misses import SettleSession, settle_session
from bot.usecases.reminding import Remind, remind
from bot.usecases.sending import SendSession, send_session
from bot.usecases.silence import EndPause, end_pause
from bot.usecases.travelling import TurnClock, next_turn, turn
from core.local_time import instant_of
from core.oversight.misses import grace_end
from core.oversight.week import last_hour, week_key
from core.policy import Policy

PUNCTUAL = timedelta(hours=1)
"""A talk whose clock leaps over a digest's hour leaves that digest out, so that it shows what it is about."""

Due = tuple[int, Callable[..., Any], Any]


def due_work(units: Units, now: datetime) -> Iterator[Due]:
    """Each coach, use-case and command that is due; a stage is asked for when the one before it is done."""
    for stage in (
        _past_grace,
        _pauses,
        _clocks,
        _matters,
        _sessions,
        _preps,
        _questions,
        _reminders,
        _digests,
    ):
        with units.read(None) as unit:
            found = list(stage(unit, now))
        for coach_id, usecase, command in found:
            yield coach_id, usecase, command(units) if usecase is send_digest else command


def _past_grace(unit: Any, now: datetime) -> Iterator[Due]:
    for each in oversight.open_anywhere(unit.connection):
        if grace_end(each.on, each.zone, Policy()) <= now:
            yield each.coach_id, settle_session, SettleSession(each.session_id)


def _pauses(unit: Any, now: datetime) -> Iterator[Due]:
    for coach_id, client_id, on, zone in oversight.pauses_anywhere(unit.connection):
        if instant_of(on, time(0), zone) <= now:
            yield coach_id, end_pause, EndPause(client_id)


def _clocks(unit: Any, now: datetime) -> Iterator[Due]:
    for each in clocks_anywhere(unit.connection):
        if next_turn(each).earliest <= now:
            yield each.coach_id, turn, TurnClock(each.away_id)


def _matters(unit: Any, now: datetime) -> Iterator[Due]:
    """What stays unseen is told again at its minutes; a talk whose clock leaps over them leaves that out."""
    for coach_id, alert_id in alerts_due_anywhere(unit.connection, now, 50):
        found = unit.of(coach_id).alerts.get(alert_id)
        if found.told_at is None or now - found.due_at < PUNCTUAL:
            yield coach_id, due, AlertDue(alert_id)


def _sessions(unit: Any, now: datetime) -> Iterator[Due]:
    for coach_id, session_id in due_anywhere(unit.connection, now, 50):
        yield coach_id, send_session, SendSession(session_id)


def _preps(unit: Any, now: datetime) -> Iterator[Due]:
    for coach_id, prep_id in preps_due_anywhere(unit.connection, now, 50):
        yield coach_id, send_prep, SendPrep(prep_id)


def _questions(unit: Any, now: datetime) -> Iterator[Due]:
    for coach_id, question_id in questions_due_anywhere(unit.connection, now, 50):
        yield coach_id, ask, Ask(question_id)


def _reminders(unit: Any, now: datetime) -> Iterator[Due]:
    for coach_id, reminder_id in reminders_due_anywhere(unit.connection, now, 50):
        yield coach_id, remind, Remind(reminder_id)
    for coach_id, contract_id in contracts_due_anywhere(unit.connection, now, 50):
        yield coach_id, tell_end, ContractEnds(contract_id)


def _digests(unit: Any, now: datetime) -> Iterator[Due]:
    for hour in oversight.digest_hours(unit.connection):
        on, due_at = last_hour(now, hour.zone, hour.weekday, hour.at)
        queued = oversight.is_queued(unit.connection, hour.coach_id, week_key(on))
        if (
            not queued
            and now - due_at < PUNCTUAL
            and oversight.had_sessions(unit.connection, hour.coach_id, due_at)
        ):

            def command(units: Units, coach_id: int = hour.coach_id, on=on, due_at=due_at) -> Any:
                return prepared(units, coach_id, on, due_at)

            yield hour.coach_id, send_digest, command
