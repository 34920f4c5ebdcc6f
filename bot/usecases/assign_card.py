"""The card on which a coach puts a client on a block: who, which block, from when, and what it comes to."""

from collections.abc import Callable, Mapping
from datetime import date, datetime, timedelta
from typing import Any

from bot.messages import Message
from bot.render import personalise as fit_words
from bot.render import setting_up as words
from bot.store.blocks import Assignment
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.assign_changes import open_question, result_of
from bot.usecases.assigning import (
    blocks_of,
    joined_clients,
    ready,
    start_checked,
    starts_offered,
)
from bot.usecases.season_spans import last_of
from core.local_time import local_date
from core.programme.block import Weekday
from core.programme.calendar import sessions_between
from core.programme.day_length import longer_days
from core.programme.spacing_checks import ClosePair, close_pairs


def step_of(facts: Mapping[str, Any]) -> str:
    """Return what is to be chosen next; "summary" when all is chosen."""
    return next((name for name in ("client", "version", "starts_on") if name not in facts), "summary")


def client_of(facts: Mapping[str, Any], unit: Unit) -> Client:
    """Return the client who was chosen, while she can be put on a block.

    Raises:
        NotJoinedYet: She has stopped since.
    """
    return ready(unit.clients.get(facts["client"]))


def card(prompt: Prompt, unit: Unit, now: datetime, note: str | None = None) -> Message:
    """Return the card at the step it is on."""
    buttons = words.Buttons(prompt.id, prompt.revision)
    return _CARDS[step_of(prompt.facts)](prompt.facts, unit, now, buttons, note)


def _client_card(
    _: Mapping[str, Any], unit: Unit, now: datetime, buttons: words.Buttons, note: str | None
) -> Message:
    del now
    return words.which_client([(one.id, one.name) for one in joined_clients(unit)], buttons, note)


def _block_card(
    facts: Mapping[str, Any], unit: Unit, now: datetime, buttons: words.Buttons, note: str | None
) -> Message:
    del now
    blocks = [(row, name) for row, name, _ in blocks_of(unit)]
    return words.which_block(client_of(facts, unit).name, blocks, buttons, note)


def _start_card(
    facts: Mapping[str, Any], unit: Unit, now: datetime, buttons: words.Buttons, note: str | None
) -> Message:
    client = client_of(facts, unit)
    return words.which_start(client.name, starts_offered(client, now), buttons, note)


def _summary_card(
    facts: Mapping[str, Any], unit: Unit, now: datetime, buttons: words.Buttons, note: str | None
) -> Message:
    client, block = client_of(facts, unit), unit.blocks.version(facts["version"])
    catalogue, question = unit.exercises.catalogue(), open_question(facts, client, unit)
    result = result_of(facts, client, unit)
    if question is not None:
        text = fit_words.question(client.name, question, len(result.asked), catalogue)
        return words.which_instead(text, [catalogue[key].name for key in question.likely], buttons, note)
    starts_on = start_checked(date.fromisoformat(facts["starts_on"]), client, now)
    days = [Weekday(day) for day in client.days or []]
    first_week: list[tuple[date, str]] = []
    close: tuple[ClosePair, ...] = ()
    if len(days) >= len(block.days):
        week = sessions_between(block, starts_on, days, starts_on, starts_on + timedelta(days=6))
        first_week = [(one.on, day.name) for one in week if (day := block.day(one.day_key))]
        close = close_pairs(result.block, starts_on, days, catalogue)
    running, today = unit.blocks.running(client.id), local_date(now, client.zone or "UTC")
    summary = words.Summary(
        client=client.name,
        block=block.name,
        weeks=block.weeks,
        needed=len(block.days),
        first_week=first_week,
        days=[int(day) for day in days],
        hour=client.hour,
        zone=client.zone,
        fitted=[
            *fit_words.changes_part(client.name, result.changes, catalogue),
            *fit_words.elsewhere_part(result.elsewhere, catalogue),
        ],
        ends=unit.blocks.version(running.version_id).name if running else None,
        goes_on=starts_on > today,
        frozen=client.frozen_at is not None,
        over_on=_over_on(client, running, today, unit),
        close=close,
        minutes=client.minutes,
        longer=longer_days(result.block, client.minutes, catalogue) if client.minutes else (),
    )
    return words.summary_card(summary, buttons, note)


def _over_on(client: Client, running: Assignment | None, today: date, unit: Unit) -> date | None:
    """Return the last date of what a client runs, where that lies behind."""
    last = last_of(client, running, unit, today) if running is not None else today
    return last if last < today else None


_CARDS: dict[str, Callable[[Mapping[str, Any], Unit, datetime, words.Buttons, str | None], Message]] = {
    "client": _client_card,
    "version": _block_card,
    "starts_on": _start_card,
    "summary": _summary_card,
}
