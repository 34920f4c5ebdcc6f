"""A daily prep that is due: sent on days without a session, short and without a sound; and what its client taps."""

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import daily_prep as say
from bot.store.people import Client
from bot.store.preps import KeptPrep
from bot.store.prompts import Prompt
from bot.store.rules import DEFAULTS
from bot.store.units import Unit
from bot.usecases.effects import is_quiet
from bot.usecases.prepping import daily_now, still_good
from bot.usecases.sending import LATE, late_until
from core.local_time import instant_of, local_date
from core.policy import Policy
from core.programme.prep import PrepStep

KIND = "daily prep"
TRAINING = ("planned", "sent", "started", "asking", "done", "partial")
"""States of a session that make its day a training day: its card has the daily prep in it."""
DONE, STEPS, SHORT = ("done", "daily prep done"), ("daily prep", "step by step"), ("back",)
DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class SendPrep:
    """A daily prep is due."""

    prep_id: int


def next_due(client: Client, now: datetime, policy: Policy = DEFAULTS) -> datetime:
    """Return when a client's next daily prep is due: at her hour, out of quiet hours, on her own clock."""
    today = local_date(now, client.zone or "UTC")
    due = due_on(today, client, policy)
    return due if due > now else due_on(today + DAY, client, policy)


def due_on(day: date, client: Client, policy: Policy = DEFAULTS) -> datetime:
    """Return when a client's daily prep is due on a date."""
    hour = client.hour or policy.quiet_to
    if is_quiet(hour, policy):
        # Who trains at 5 or at 22 gets her card then; what she need not have at once waits for the day.
        hour = policy.quiet_to if hour < policy.quiet_to else policy.late_latest
    return instant_of(day, hour, client.zone or "UTC")


def planned_anew(client: Client, unit: Unit, now: datetime) -> None:
    """Have a daily prep be due at a client's new hour, or by her new clock."""
    running = unit.daily_preps.running(client.id)
    if running is not None:
        unit.daily_preps.move(running.id, next_due(client, now, unit.rules.policy(client.id)))


def send_prep(command: SendPrep, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Send a daily prep that is due, and have the next day's be due. It goes out once a day at most.

    Not on a training day, nor to somebody who is paused, on hold, gone or out of reach, nor at night, nor where all of
    it moves what hurts. What an outage has kept back comes later on its day, or not at all.
    """
    kept = unit.daily_preps.get(command.prep_id)
    if kept is None or kept.ended_at is not None:
        return []
    client = unit.clients.get(kept.client_id)
    policy = unit.rules.policy(client.id)
    unit.daily_preps.move(kept.id, next_due(client, now, policy))
    today = local_date(now, client.zone or "UTC")
    # Due later than it may be, or at an hour that she has changed since: the hour of the day counts.
    if kept.due_at > now or now < due_on(today, client, policy) or not _may_go(client, today, unit, now):
        return []
    steps = daily_now(kept.asked, client, unit, today)
    asked_before = unit.prompts.newest(KIND, kept.id)
    if not steps or (asked_before is not None and asked_before.facts["on"] == today.isoformat()):
        return []
    return _sent(kept, steps, client, today, unit, now)


def _may_go(client: Client, today: date, unit: Unit, now: datetime) -> bool:
    account = unit.accounts.of_client(client.id)
    if client.state != "active" or client.frozen_at is not None or account is None or not account.reachable:
        return False
    zone, policy = client.zone or "UTC", unit.rules.policy(client.id)
    if is_quiet(now.astimezone(ZoneInfo(zone)).time(), policy):
        return False
    if now - due_on(today, client, policy) > LATE and late_until(today, now, zone, policy) is None:
        return False
    sessions = unit.sessions.of_client(client.id, TRAINING)
    return all(each.local_on != today for each in sessions)


def _sent(
    kept: KeptPrep, steps: tuple[PrepStep, ...], client: Client, today: date, unit: Unit, now: datetime
) -> list[Effect]:
    account = unit.accounts.of_client(client.id)
    if account is None:
        return []
    key = f"daily-prep:{client.id}:{today.isoformat()}"
    prompt = unit.prompts.open(
        KIND,
        account.user_id,
        account.chat_id,
        now,
        client_id=client.id,
        subject=kept.id,
        card_key=key,
        facts={"on": today.isoformat(), "steps": [step.model_dump(mode="json") for step in steps]},
    )
    return [
        Send(
            account.chat_id,
            say.short(steps, say.Buttons(prompt.id, prompt.revision)),
            key=key,
            card=key,
            client_id=client.id,
            not_after=instant_of(today + DAY, time(0), client.zone or "UTC"),
        )
    ]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the routine step by step, or take it as done."""
    match tap.action:
        case Action.PREP:
            return [_shown(prompt, unit, now, steps=True)]
        case Action.BACK:
            return [_shown(prompt, unit, now, steps=False)]
        case Action.DONE:
            return [_done(prompt, unit, now)]
        case _:
            return refreshed(prompt, person, unit, now)


def typed(
    text: str, client: Client, person: Person, unit: Unit, now: datetime, *, in_session: bool
) -> list[Effect] | None:
    """Do what the words of a button ask, typed; None where none is open today, or the words are of something else.

    `done` is the session's while one is open.
    """
    said = " ".join(text.casefold().strip(" .!").split())
    if said not in (*STEPS, *DONE, *SHORT, "prep"):
        return None
    running = unit.daily_preps.running(client.id)
    prompt = unit.prompts.of(KIND, running.id) if running is not None else None
    today = local_date(now, client.zone or "UTC").isoformat()
    if prompt is None or prompt.facts["on"] != today:
        return None
    if said in STEPS or (said == "prep" and not in_session):
        return [_shown(prompt, unit, now, steps=True, moved=True)]
    if said in DONE[in_session:]:
        return [_done(prompt, unit, now, moved=True)]
    return [_shown(prompt, unit, now, steps=False, moved=True)] if said in SHORT and not in_session else None


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show it as it stands, after a tap on a button that is no longer good."""
    if prompt.closed_at is not None:
        return [_card(prompt, say.done(_steps(prompt, unit, now)))]
    return [_shown(prompt, unit, now, steps=bool(prompt.facts.get("open")))]


def _done(prompt: Prompt, unit: Unit, now: datetime, *, moved: bool = False) -> EditCard:
    unit.prompts.close(prompt.id, now)
    return _card(prompt, say.done(_steps(prompt, unit, now)), moved=moved)


def _shown(prompt: Prompt, unit: Unit, now: datetime, *, steps: bool, moved: bool = False) -> EditCard:
    revised = unit.prompts.revise(prompt.id, facts={**prompt.facts, "open": steps})
    buttons, routine = say.Buttons(revised.id, revised.revision), _steps(prompt, unit, now)
    if not routine:
        return _card(prompt, say.nothing_now(), moved=moved)
    message = say.by_steps(routine, unit.clips.standing(), buttons) if steps else say.short(routine, buttons)
    return _card(prompt, message, moved=moved)


def _steps(prompt: Prompt, unit: Unit, now: datetime) -> tuple[PrepStep, ...]:
    """Return what went out, without what has come to hurt since."""
    client = unit.clients.get(prompt.client_id or 0)
    steps = (PrepStep.model_validate(each) for each in prompt.facts["steps"])
    return still_good(steps, client.id, unit, local_date(now, client.zone or "UTC"))


def _card(prompt: Prompt, message: Message, *, moved: bool = False) -> EditCard:
    key = prompt.card_key or f"daily-prep:{prompt.id}"
    return EditCard(key, prompt.chat_id, message, moved=moved, client_id=prompt.client_id)
