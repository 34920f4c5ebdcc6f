"""The morning after: one question about what hurt the day before, and what is asked next in it.

It is planned with each report that asks for it, and asked of what then stands: a report that was taken back is not
asked about. Soreness of a muscle raises none.
"""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from bot.messages import Effect, Person
from bot.store.body import BodyReport
from bot.store.due_questions import DueQuestion
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.pain_questions import asked, side_of
from bot.usecases.pain_reports import FELT, SITES
from core.checkin.pain import Felt, PainReport
from core.checkin.pain_course import ASKED_WITHIN, asked_next_morning, marked, same_place
from core.loads.looking_back import PAIN_BEARS
from core.local_time import instant_of

KIND = "morning"
"""Kind of the question, as it is planned and asked."""
PLACES = "places"
MOST_PLACES = 3
"""Most places that one morning asks about, the worst first. Our proposal."""


def planned(report_id: int, unit: Unit, now: datetime) -> None:
    """Have a report asked about the next morning where it asks for that, as soon as quiet hours are over."""
    kept = unit.body.get(report_id)
    client = unit.clients.get(kept.client_id)
    known = _known(client.id, kept.local_on, unit)
    if not _is_asked(kept.as_pain(), known, client.id, unit):
        return
    zone, policy = client.zone or "UTC", unit.rules.policy(client.id)
    on = _next_morning(now, zone, policy.quiet_to)
    unit.due_questions.plan(
        client.id, KIND, on, instant_of(on, policy.quiet_to, zone), now, subject=report_id
    )


def _next_morning(now: datetime, zone: str, quiet_to: time) -> date:
    """Return the date of the morning that comes: what is told after midnight is asked about the same morning."""
    local = now.astimezone(ZoneInfo(zone))
    return local.date() if local.time() < quiet_to else local.date() + timedelta(days=1)


def _known(client_id: int, until: date, unit: Unit) -> tuple[PainReport, ...]:
    return marked(each.as_pain() for each in unit.body.bearing(client_id, until - PAIN_BEARS))


def _is_asked(report: PainReport, known: Sequence[PainReport], client_id: int, unit: Unit) -> bool:
    report = next((each for each in known if each.row_id == report.row_id), report)
    return asked_next_morning(report, known, _asked_on(report, client_id, unit))


def _asked_on(report: PainReport, client_id: int, unit: Unit) -> list[date]:
    """Return the mornings of the last week on which a place was asked about."""
    place = [report.site.value, report.side.value if report.side else None]
    found = unit.due_questions.of_client(client_id, KIND, report.on - ASKED_WITHIN)
    return [each.local_on for each in found if place in (each.answers or {}).get(PLACES, ())]


def ask(question: DueQuestion, client: Client, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask about the worst place of the day before; the others follow once it is answered."""
    account = unit.accounts.of_client(client.id)
    places = _places(question, client, unit)
    if account is None or not places:
        return []
    told = [[each.site, each.side] for each in places]
    unit.due_questions.note(question.id, {PLACES: told})
    person = Person(account.user_id, account.chat_id, unit.tenant, "client", client.id)
    ids = [each.id for each in places]
    return [_asked(ids, question.id, question.local_on, person, unit, now, unasked=True)]


def _places(question: DueQuestion, client: Client, unit: Unit) -> list[BodyReport]:
    """Return the last report of each place that is to be asked about, the worst first."""
    known = _known(client.id, question.local_on, unit)
    day_before = question.local_on - timedelta(days=1)
    lately = [each for each in unit.body.since(client.id, day_before) if each.at <= question.due_at]
    found: list[tuple[int, BodyReport]] = []
    for each in reversed(lately):
        report = each.as_pain()
        told = each.local_on == question.local_on and report.felt is Felt.MORNING
        known_already = any(same_place(report, other.as_pain()) for _, other in found)
        if known_already or not (told or _is_asked(report, known, client.id, unit)):
            continue
        found.append((-1 if told else _weight(report), each))
    asked_about = sorted((each for each in found if each[0] >= 0), key=lambda each: -each[0])
    return [each for _, each in asked_about][:MOST_PLACES]


def _weight(report: PainReport) -> int:
    return 5 if report.score is None else report.score


def _asked(
    report_ids: list[int],
    question_id: int,
    on: date,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    unasked: bool = False,
) -> Effect:
    report = unit.body.get(report_ids[0])
    facts: dict[str, Any] = {
        "site": SITES.index(report.as_pain().site),
        "side": side_of(report.side),
        "item": 0,
        "felt": FELT.index(Felt.MORNING),
        "answers": report.id,
        "exercise": report.exercise,
        "on": on.isoformat(),
        "before": report.local_on.isoformat(),
        "question": question_id,
        "next": report_ids[1:],
    }
    return asked(facts, "morning", None, person, unit, now, unasked=unasked)


def next_place(facts: dict[str, Any], person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask about the next place of a morning, or note that all of it is answered."""
    question = unit.due_questions.get(facts["question"])
    if facts["next"]:
        return [_asked(facts["next"], question.id, date.fromisoformat(facts["on"]), person, unit, now)]
    unit.due_questions.answered(question.id, question.answers or {}, now)
    return []
