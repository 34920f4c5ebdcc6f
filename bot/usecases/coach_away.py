"""A coach's own absence: who covers, what clients read, and that no load rises while it lasts."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import coach_away as say
from bot.store.coach_absences import CoachAbsence
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.leaving import answer
from bot.usecases.only_coaches import only_for_coaches
from core.checkin.day_spans import day_said, days_said
from core.loads.order import CoachOrder, OrderKind
from core.local_time import local_date

KIND = "coach away"
OVER = frozenset({"over", "back", "off", "stop", "end"})
MOST_DAYS = 92
"""Longest absence that is set at once. [days] Our proposal: over that somebody else coaches."""
LONGEST_COVER = 60
ONE_DAY = timedelta(days=1)
_COVER = re.compile(r"[,;\s]+(?:and\s+)?(?:cover(?:ed)?|with)(?:\s+by|\s+is|:)?\s+(\S.*)$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class AbsentSaid:
    """`/absent`, with what stands after it: nothing, `over`, or `3-10 May, cover Jo`."""

    text: str = ""


def absent_said(command: AbsentSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Set, show or end a coach's own absence."""
    if person.role != "coach":
        return only_for_coaches(person)
    today = _today(unit, now)
    said = " ".join(command.text.split())
    standing = unit.talking.absences.coming(today)
    if not said:
        shown = say.none() if standing is None else say.shown(_span(standing), standing.cover)
        return [answer(person, "absent", shown)]
    if said.casefold().strip(" .!") in OVER:
        return [answer(person, "absent", _ended(standing, today, unit, now))]
    cover = _COVER.search(said)
    days = _COVER.sub("", said)
    found = days_said(days, today)
    alone = day_said(days, today) if found is None else None
    if (found is None and alone is None) or (found is not None and found.rest):
        return [answer(person, "absent", say.how_to())]
    first, last = (found.first, found.last) if found is not None else (alone or today, alone or today)
    if (last - first).days >= MOST_DAYS:
        return [answer(person, "absent", say.too_long((last - first).days + 1, MOST_DAYS))]
    return _kept(first, last, cover[1].strip(" .")[:LONGEST_COVER] if cover else None, person, unit, now)


def _kept(
    first: date, last: date, cover: str | None, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    absence_id = unit.talking.absences.add(first, last, cover, now)
    prompt = unit.prompts.open(KIND, person.user_id, person.chat_id, now, subject=absence_id)
    unit.prompts.set_card(prompt.id, _key(prompt))
    line = say.for_client(unit.coaches.get(unit.tenant).name, last, cover)
    message = say.kept(say.span_words(first, last), cover, line, say.Buttons(prompt.id, prompt.revision))
    return [Send(person.chat_id, message, key=f"{_key(prompt)}:said", card=_key(prompt))]


def _ended(standing: CoachAbsence | None, today: date, unit: Unit, now: datetime) -> Message:
    if standing is None:
        return say.none()
    if standing.from_on > today:
        unit.talking.absences.void(standing.id, now)
        return say.taken_back(_span(standing))
    unit.talking.absences.end(today)
    return say.over(_span(standing))


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take an absence back."""
    kept = unit.talking.absences.get(prompt.subject or 0)
    if person.role != "coach" or kept is None:
        return []
    if tap.action is not Action.UNDO or kept.voided_at is not None:
        return refreshed(prompt, person, unit, now)
    unit.talking.absences.void(kept.id, now)
    unit.prompts.close(prompt.id, now)
    return [EditCard(_key(prompt), prompt.chat_id, say.taken_back(_span(kept)))]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Say how it stands, after a tap on an old button."""
    kept = unit.talking.absences.get(prompt.subject or 0)
    if person.role != "coach" or kept is None:
        return []
    stands = kept.voided_at is None and kept.ended_on is None and kept.until_on >= _today(unit, now)
    message = say.shown(_span(kept), kept.cover) if stands else say.settled(_span(kept))
    return [EditCard(_key(prompt), prompt.chat_id, message)]


def line_on_card(client: Client, unit: Unit, now: datetime) -> str | None:
    """Return what a card says of its coach's absence, once to each client; None where there is nothing to say."""
    absences = unit.talking.absences
    away = None if absences.are_none() else absences.on(_today(unit, now))
    if away is None or not unit.talking.tell_once(client.id, f"absence:{away.id}", now):
        return None
    return say.for_client(unit.coaches.get(unit.tenant).name, away.until_on, away.cover)


def told_to_who_writes(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Tell a client who writes that her coach is away, where no card has said it yet."""
    line = line_on_card(client, unit, now)
    if line is None:
        return []
    update = person.arrival.update_id if person.arrival else 0
    key = f"absence:{client.id}:{update}"
    return [Send(person.chat_id, Message(line, silent=True), key=key, client_id=client.id)]


def digest_line(unit: Unit, on: date) -> str:
    """Return what the digest says of her absence, one that is on or begins in the week after; else empty."""
    away = unit.talking.absences.coming(on)
    if away is None or away.from_on > on + 7 * ONE_DAY:
        return ""
    return say.in_digest(_span(away), away.cover)


def orders_with_absence(orders: Sequence[CoachOrder], today: date, unit: Unit) -> tuple[CoachOrder, ...]:
    """Return what is ordered for an exercise, and that nothing rises where its coach is away on a day.

    A load that she has ordered herself stands: she meant it. The order is kept nowhere; its row is the absence's with
    a minus, so that none can be that of an order.
    """
    away = unit.talking.absences.on(today)
    if away is None or any(each.kind is OrderKind.LOAD and each.stands(today) for each in orders):
        return tuple(orders)
    hold = CoachOrder(row_id=-away.id, kind=OrderKind.HOLD, from_on=away.from_on, until=away.until_on)
    return (hold, *orders)


def _span(kept: CoachAbsence) -> str:
    return say.span_words(kept.from_on, kept.until_on)


def _today(unit: Unit, now: datetime) -> date:
    return local_date(now, unit.coaches.get(unit.tenant).zone)


def _key(prompt: Prompt) -> str:
    return f"{KIND}:{prompt.id}"
