"""`/refer NAME WHOM: WHY`: sent on, seen, what came of it, when to look again. A client is told at her coach's word."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import referring as say
from bot.render.leaving import not_shown
from bot.render.setting_up import Buttons
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.referrals import Referral
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.effects import after_quiet
from bot.usecases.leaving import answer
from bot.usecases.named_first import named_first, which
from bot.usecases.taps_typed import typed_tap
from core.checkin.day_spans import day_said
from core.checkin.reminder_words import day_meant
from core.loads.clinician_words import clinician_first
from core.local_time import local_date
from core.oversight.waiting import ReferralDue

KIND, LIST = "referral", "referrals"
LONGEST, LONGEST_OUTCOME = 300, 500
"""Longest reason, longest outcome. [characters]"""
WORDS = {
    **dict.fromkeys(("tell", "tell them"), Action.WRITE),
    "only note it": Action.CANCEL,
    "seen": Action.SEEN,
    **dict.fromkeys(("close", "closed"), Action.DONE),
}
_SEEN = re.compile(r"seen(?: on)? ([^:]+?)(?:: ?(.+))?", re.IGNORECASE)
_SAID = re.compile(r"(outcome|seen): ?(.+)", re.IGNORECASE)
_REVIEW = re.compile(r"review(?: on| by| in)? (.+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class ReferSaid:
    """`/refer`, with what stands after it."""

    text: str = ""


@dataclass(frozen=True, slots=True)
class ReferralsAsked:
    """`/referrals`, alone or with a name."""

    text: str = ""


def refer_said(command: ReferSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep a referral and ask whether the client is told; with a name alone list hers."""
    if person.role != "coach":
        return only_for_coaches(person)
    if not command.text.strip():
        return [answer(person, KIND, say.how_to())]
    client, rest = named_first(command.text, unit)
    if client is None:
        return [which("refer", command.text, person, unit)]
    if not rest:
        return _listed(client, person, unit, now)
    to, why = clinician_first(rest)
    if to is None or not why:
        return [answer(person, KIND, say.how_to())]
    row = unit.referrals.add(client.id, to, why[:LONGEST].rstrip("."), now)
    return [_opened(row, client, person, unit, now, "tell")]


def referrals_asked(command: ReferralsAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """List what is open, of everybody; of one client also what is closed."""
    if person.role != "coach":
        return only_for_coaches(person)
    if not command.text.strip():
        return _listed(None, person, unit, now)
    client, _ = named_first(command.text, unit)
    if client is None:
        return [which(LIST, command.text, person, unit)]
    return _listed(client, person, unit, now)


def _listed(client: Client | None, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    found = unit.referrals.of_client(client.id) if client is not None else unit.referrals.open()
    prompt = unit.prompts.open(
        LIST, person.user_id, person.chat_id, now, client_id=client.id if client is not None else None
    )
    names = {each.id: each.name for each in unit.clients.roster()}  # who has left is shown no more
    shown = [
        (each.id, _words(each, names[each.client_id], unit)) for each in found if each.client_id in names
    ]
    message = say.listed(shown, Buttons(prompt.id, prompt.revision), _today(unit, now))
    client_id = client.id if client is not None else None
    return [replace(answer(person, LIST, message), client_id=client_id)]


def list_tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Open one of the list; every button stays good."""
    found = unit.referrals.get(tap.argument) if tap.action is Action.PICK else None
    if found is None or person.role != "coach":
        return []
    client = unit.clients.get(found.client_id)
    return [] if client.state == "stopped" else [_opened(found.id, client, person, unit, now, None)]


def list_refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """What was listed is listed; `/referrals` lists it anew."""
    return []


def _opened(row: int, client: Client, person: Person, unit: Unit, now: datetime, asks: str | None) -> Send:
    unit.prompts.close_kind(KIND, row, now)
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=row,
        facts={"asks": asks},
    )
    key = f"{KIND}:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    unit.prompts.expect_text(prompt)
    return Send(
        person.chat_id, _message(prompt, client, unit), key=f"{key}:card", card=key, client_id=client.id
    )


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Tell the client or not; note that she was seen, when to look again, or that it is over."""
    found = unit.referrals.get(prompt.subject or 0)
    if found is None or person.role != "coach":
        return []
    client = unit.clients.get(found.client_id)
    today = local_date(now, client.zone or "UTC")
    asks = prompt.facts.get("asks")
    match tap.action:
        case Action.WRITE if asks == "tell":
            return _told(found, prompt, client, unit, now)
        case Action.CANCEL if asks == "tell":
            return [_shown(prompt, client, unit, say.NOT_TOLD)]
        case Action.SEEN if found.seen_on is None:
            unit.referrals.change(found.id, seen_on=today)
            return [_shown(prompt, client, unit, say.SEEN, asks="outcome")]
        case Action.LATER if tap.argument in say.REVIEWS:
            unit.referrals.change(found.id, review_on=_today(unit, now) + timedelta(weeks=tap.argument))
            return [_shown(prompt, client, unit, say.REVIEW)]
        case Action.DONE if found.closed_at is None:
            unit.referrals.change(found.id, closed_at=now)
            return [_shown(prompt, client, unit, say.CLOSED)]
        case _:
            return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how a referral stands, after a tap on a button that is no longer good."""
    found = unit.referrals.get(prompt.subject or 0)
    if found is None or person.role != "coach":
        return []
    client = unit.clients.get(found.client_id)
    if client.state == "stopped":
        return [EditCard(prompt.card_key or f"{KIND}:{prompt.id}", prompt.chat_id, not_shown(client.name))]
    asks = prompt.facts.get("asks") if prompt.closed_at is None else None
    return [_shown(prompt, client, unit, say.STALE, asks=asks)]


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a button's words, a day, or what came of it; None for other words."""
    found = unit.referrals.get(prompt.subject or 0)
    if found is None:
        return None
    words = " ".join(text.split())
    tap = typed_tap(words, prompt, WORDS)
    client = unit.clients.get(found.client_id)
    if tap is None and words.casefold() == f"tell {client.name.casefold()}":
        tap = Tap(prompt.id, prompt.revision, Action.WRITE)
    if tap is not None:
        effects = tapped(tap, prompt, person, unit, now)
        return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]
    note = _noted(words, found, prompt, client, unit, now)
    return None if note is None else [replace(_shown(prompt, client, unit, note), moved=True)]


def _noted(
    words: str, found: Referral, prompt: Prompt, client: Client, unit: Unit, now: datetime
) -> str | None:
    """Keep what a line says of a referral; return what is said of it, None for other words."""
    said, seen, review = _SAID.fullmatch(words), _SEEN.fullmatch(words), _REVIEW.fullmatch(words)
    today = local_date(now, client.zone or "UTC")
    if said is not None:
        first = {"seen_on": today} if said[1].casefold() == "seen" and found.seen_on is None else {}
        unit.referrals.change(found.id, outcome=said[2][:LONGEST_OUTCOME], **first)
        return say.OUTCOME
    if seen is not None:
        on = day_said(seen[1], today, past=True)
        if on is None:
            return say.not_read(seen[1])
        outcome: dict[str, Any] = {"outcome": seen[2][:LONGEST_OUTCOME]} if seen[2] else {}
        unit.referrals.change(found.id, seen_on=on, **outcome)
        return say.SEEN
    if review is not None:
        on = day_meant(review[1], _today(unit, now))
        if on is None:
            return say.not_read(review[1])
        unit.referrals.change(found.id, review_on=on)
        return say.REVIEW
    if prompt.facts.get("asks") == "outcome":
        unit.referrals.change(found.id, outcome=words[:LONGEST_OUTCOME])
        return say.OUTCOME
    return None


def _told(found: Referral, prompt: Prompt, client: Client, unit: Unit, now: datetime) -> list[Effect]:
    account = unit.accounts.of_client(client.id)
    reached = account is not None and account.reachable and client.state in ("active", "paused")
    if account is None or not reached:
        return [_shown(prompt, client, unit, say.CANNOT_TELL)]
    unit.referrals.change(found.id, told_at=now)
    text = say.told(unit.coaches.get(unit.tenant).name, found.to, found.why)
    sent = Send(
        account.chat_id,
        Message(text),
        key=f"{KIND}:{found.id}:told",
        due_at=after_quiet(now, client.zone or "UTC", unit.rules.policy(client.id)),
        client_id=client.id,
        unasked=True,
    )
    return [sent, _shown(prompt, client, unit, say.TOLD)]


def due_for_review(unit: Unit, on: date) -> dict[int, tuple[ReferralDue, ...]]:
    """Return, by client, the referrals that are to be looked at again by a date; for the digest."""
    found: dict[int, tuple[ReferralDue, ...]] = {}
    for each in unit.referrals.due(on):
        if each.review_on is not None:
            due = ReferralDue(what=f"{each.to.value}, {each.why}", review_on=each.review_on)
            found[each.client_id] = (*found.get(each.client_id, ()), due)
    return found


def lines_of(client: Client, unit: Unit) -> tuple[str, ...]:
    """Return a client's open referrals for her coach, as plain text."""
    return tuple(
        f"Referral: {say.referral_line(_words(each, client.name, unit))}"
        for each in unit.referrals.of_client(client.id)
        if each.closed_at is None
    )


def _today(unit: Unit, now: datetime) -> date:
    """Return the coach's own date."""
    return local_date(now, unit.coaches.get(unit.tenant).zone)


def _words(found: Referral, name: str, unit: Unit) -> say.Shown:
    zone = unit.coaches.get(unit.tenant).zone
    return say.Shown(
        client=name,
        to=found.to,
        why=found.why,
        on=local_date(found.at, zone),
        told_on=local_date(found.told_at, zone) if found.told_at is not None else None,
        seen_on=found.seen_on,
        outcome=found.outcome,
        review_on=found.review_on,
        closed=found.closed_at is not None,
    )


def _shown(
    prompt: Prompt, client: Client, unit: Unit, note: str = "", *, asks: str | None = None
) -> EditCard:
    revised = unit.prompts.revise(prompt.id, facts={**prompt.facts, "asks": asks})
    key = prompt.card_key or f"{KIND}:{prompt.id}"
    return EditCard(key, prompt.chat_id, _message(revised, client, unit, note), client_id=client.id)


def _message(prompt: Prompt, client: Client, unit: Unit, note: str = "") -> Message:
    found = unit.referrals.get(prompt.subject or 0)
    if found is None:
        raise LookupError(f"no referral {prompt.subject} here")
    buttons, shown = Buttons(prompt.id, prompt.revision), _words(found, client.name, unit)
    if prompt.facts.get("asks") == "tell":
        return say.ask_telling(shown, unit.coaches.get(unit.tenant).name, buttons)
    return say.card(shown, buttons, note, asks_outcome=prompt.facts.get("asks") == "outcome")
