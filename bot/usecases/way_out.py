"""The way out of pain that stays low and steady: the coach is asked once for a place whether raises go on there.

Her silence holds. What she allows ends with the first report above it, which is told to her like any other.
"""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from bot.messages import Action, EditCard, Effect, Level, Message, Person, Tap, Tell
from bot.render import pain as words
from bot.render import way_out as say
from bot.store.body import BodyReport
from bot.store.go_aheads import AskedOf
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.pain_reports import known_until
from core.checkin.pain import PainReport
from core.checkin.pain_course import marked
from core.loads.go_ahead import STEADY_WITHIN, GoAhead, ended, steady_at
from core.loads.looking_back import PAIN_BEARS
from core.local_time import local_date
from core.programme.exercises import Side

KIND = "raises"


def coach_asked(kept: BodyReport, unit: Unit, now: datetime) -> list[Effect]:
    """Ask the coach whether raises go on, where a place is steady at 1 to 3 and has settled by the morning; once."""
    report, known = known_until(kept, unit)
    score = steady_at(report, known, kept.local_on, _trained(kept, unit))
    coach = unit.accounts.coach(unit.tenant)
    asked_before = [
        *unit.go_aheads.of(kept.client_id),
        *unit.go_aheads.lately(kept.client_id, now - STEADY_WITHIN),
    ]
    if score is None or coach is None or any(_is_here(each, kept) for each in asked_before):
        return []
    asked = unit.go_aheads.ask(kept.client_id, report.site, kept.side, score, coach.user_id, now)
    prompt = unit.prompts.open(
        KIND, coach.user_id, coach.chat_id, now, client_id=kept.client_id, subject=asked
    )
    client = unit.clients.get(kept.client_id)
    message = say.ask(prompt, client.name, words.place_words(report.site, kept.side), score)
    return [Tell(client.id, f"{KIND}:{asked}", 1, Level.TODAY, message)]


def _trained(kept: BodyReport, unit: Unit) -> set[date]:
    """Return the dates on which something was trained lately, those of sessions that are not closed yet among them."""
    tomorrow = kept.local_on + timedelta(days=1)
    closed = unit.sessions.trained_on(kept.client_id, kept.local_on - STEADY_WITHIN, tomorrow)
    begun = [
        each.local_on
        for each in unit.sessions.of_client(kept.client_id, ("started",))
        if any(item.state == "done" for item in unit.sessions.items(each.id))
    ]
    return {*closed, *begun}


def _is_here(asked: AskedOf, kept: BodyReport) -> bool:
    return asked.site.value == kept.site and asked.side == kept.side


def end_what_is_over(kept: BodyReport, known: Sequence[PainReport], unit: Unit, now: datetime) -> None:
    """End for good what was allowed where a report has gone above it: rules look back on reports for some weeks only.

    The coach may be asked anew once it has been steady again, four weeks later at the soonest.
    """
    over = {one.row_id for one in unit.go_aheads.allowed(kept.client_id) if ended(one, known)}
    unit.go_aheads.end(sorted(over), now)


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the coach's answer; what she has allowed she may take back with the same button later."""
    asked = next(
        (each for each in unit.go_aheads.of(prompt.client_id or 0) if each.id == prompt.subject), None
    )
    if person.role != "coach" or tap.action not in (Action.AGREE, Action.DECLINE):
        return refreshed(prompt, person, unit, now)
    if asked is None or _has_risen(asked, unit, now):
        return [_closed(prompt, unit, now)]
    allowed = tap.action is Action.AGREE
    kept = unit.go_aheads.answer(asked.id, allowed=allowed, by_user_id=person.user_id, now=now)
    prompt = unit.prompts.revise(prompt.id, subject=kept)
    return [_card(prompt, _message(prompt, unit))]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the question, or the answer, as it stands."""
    return [_card(prompt, _message(prompt, unit))] if person.role == "coach" else []


def _has_risen(asked: AskedOf, unit: Unit, now: datetime) -> bool:
    """Return whether a report since the question is above what it was asked for; then it no longer stands."""
    today = local_date(now, unit.clients.get(asked.client_id).zone or "UTC")
    known = marked(each.as_pain() for each in unit.body.bearing(asked.client_id, today - PAIN_BEARS))
    side = Side(asked.side) if asked.side else None
    found = ended(GoAhead(row_id=asked.id, site=asked.site, side=side, score=asked.score, at=asked.at), known)
    if found:
        unit.go_aheads.end([asked.id], now)
    return found


def _closed(prompt: Prompt, unit: Unit, now: datetime) -> EditCard:
    unit.prompts.close(prompt.id, now)
    return _card(unit.prompts.revise(prompt.id), say.over(unit.clients.get(prompt.client_id or 0).name))


def _message(prompt: Prompt, unit: Unit) -> Message:
    name = unit.clients.get(prompt.client_id or 0).name
    asked = next(
        (each for each in unit.go_aheads.of(prompt.client_id or 0) if each.id == prompt.subject), None
    )
    if asked is None:
        return say.over(name)
    place = words.place_words(asked.site, asked.side)
    if asked.allowed is None:
        return say.ask(prompt, name, place, asked.score)
    return say.answered(prompt, name, place, asked.score, allowed=asked.allowed)


def _card(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(prompt.card_key or f"{KIND}:{prompt.id}", prompt.chat_id, message, moved=True)
