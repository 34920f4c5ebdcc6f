"""Answers about pain: a score, what it feels like, whether something was taken, when it was felt.

A report is kept with the first number, and told. Each further answer takes its place with a new one, and only what is
graver than before is told again.
"""

from datetime import datetime
from typing import Any

from bot.messages import Effect, Person
from bot.store.body import BodyReport
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import morning, way_out
from bot.usecases.pain_consequences import consequences, gravity, stop_words
from bot.usecases.pain_questions import END, TOOK, WHEN, expect_words, hurt_of, shown
from bot.usecases.pain_reports import (
    FELT,
    NOT_TAKEN,
    TAKEN,
    UNSAID,
    asks_feel,
    asks_took,
    keep,
    known_until,
    took_answered,
)
from core.checkin.pain import Felt, grave
from core.local_time import local_date

ANSWERS = (NOT_TAKEN, TAKEN, UNSAID)
"""Whether something was taken, as it stands on buttons."""


def scored(
    score: int,
    facts: dict[str, Any],
    prompt: Prompt,
    person: Person,
    unit: Unit,
    now: datetime,
    message_id: int | None = None,
) -> list[Effect]:
    """Keep a score."""
    facts = {**_as_of_today(facts, person, unit, now), "score": score}
    if "report" in facts:
        before = unit.body.get(facts["report"])
        facts = _as_it_was(facts, before)
        message_id = message_id or before.message_id
        unit.body.void(before.id, "answered", now)
    hurt = hurt_of(facts, prompt)
    report_id = keep(hurt, person, unit, now, message_id)
    effects = consequences(report_id, person, unit, now)
    facts["report"] = report_id
    if asks_feel(hurt):
        prompt = unit.prompts.revise(prompt.id, facts={**facts, "step": "feel"}, expects_text=False)
        expect_words(prompt, unit)
        return [*effects, shown(prompt, unit, now)]
    return [*effects, *kept(facts, prompt, person, unit, now)]


def kept(facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Say back what was kept; ask whether something was taken where that matters. A morning goes on to the next place.

    Args:
        facts: Of the question; `report` is the row.
        prompt: The question.
        person: Who answers.
        unit: Open transaction.
        now: Instant.
    """
    prompt = unit.prompts.revise(prompt.id, facts={**facts, "step": END}, expects_text=False)
    report = unit.body.get(facts["report"])
    client = unit.clients.get(report.client_id)
    if asks_took(report, client, unit, now):
        prompt = unit.prompts.revise(prompt.id, facts={**facts, "step": TOOK})
        expect_words(prompt, unit)
    effects: list[Effect] = [shown(prompt, unit, now)]
    if facts.get("answers") and not facts.get("over"):
        unit.prompts.note(prompt.id, {**prompt.facts, "over": True})
        effects += way_out.coach_asked(report, unit, now)
        effects += morning.next_place(facts, person, unit, now)
    return effects


def felt_as(
    kind: int, facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Take what it feels like."""
    if not kind:
        return kept(facts, prompt, person, unit, now)
    effects, facts = changed({**facts, "kind": kind}, prompt, person, unit, now)
    return [*effects, *kept(facts, prompt, person, unit, now)]


def took(
    answer: int, facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Take whether something was taken for it: yes is read one band higher, and the coach is told."""
    report = unit.body.get(facts["report"])
    took_answered(report.client_id, report.local_on, ANSWERS[answer], unit, now)
    effects: list[Effect] = []
    if ANSWERS[answer] == TAKEN:
        effects, facts = changed({**facts, "painkiller": True}, prompt, person, unit, now)
    prompt = unit.prompts.revise(prompt.id, facts={**facts, "step": END}, expects_text=False)
    return [*effects, shown(prompt, unit, now)]


def when(
    felt: int | None, facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Ask when it was felt, or take the answer."""
    if felt is None:
        prompt = unit.prompts.revise(prompt.id, facts={**facts, "step": WHEN, "then": facts["step"]})
        expect_words(prompt, unit)
        return [shown(prompt, unit, now)]
    step = facts.pop("then", facts["step"])
    effects, facts = changed({**facts, "felt": felt, "step": step}, prompt, person, unit, now)
    prompt = unit.prompts.revise(prompt.id, facts=facts)
    return [*effects, shown(prompt, unit, now)]


def changed(
    facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> tuple[list[Effect], dict[str, Any]]:
    """Keep a report anew with one answer more; return what follows where it is graver now, and the facts."""
    before = unit.body.get(facts["report"])
    was, _ = known_until(before, unit)
    unit.body.void(before.id, "answered", now)
    facts = _as_it_was(facts, before)
    report_id = keep(hurt_of(facts, prompt), person, unit, now, before.message_id)
    facts = {**facts, "report": report_id}
    report, _ = known_until(unit.body.get(report_id), unit)
    if gravity(report) <= gravity(was) and grave(report) == grave(was):
        morning.planned(report_id, unit, now)
        return [], facts
    told_already = stop_words(was)
    return consequences(report_id, person, unit, now, told_already=told_already), facts


def _as_of_today(facts: dict[str, Any], person: Person, unit: Unit, now: datetime) -> dict[str, Any]:
    """Return the facts of a morning as they are; one that is answered on a later day says how it is then."""
    today = local_date(now, unit.clients.get(person.client_id or 0).zone or "UTC").isoformat()
    if not facts.get("answers") or facts["on"] == today:
        return facts
    return {**facts, "on": today, "felt": FELT.index(Felt.AFTER)}


def _as_it_was(facts: dict[str, Any], before: BodyReport) -> dict[str, Any]:
    """Return facts that say when it was felt and in what, as it was kept first: a later answer changes neither."""
    felt = FELT.index(Felt(before.when_felt)) if before.when_felt else None
    known = {"felt": felt, "on": before.local_on.isoformat(), "exercise": before.exercise}
    return {**known, **facts}


def signs(facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Keep a sign of the year after a birth: it stops the exercise, and the coach is told."""
    facts = {**facts, "score": None}
    report_id = keep(hurt_of(facts, prompt), person, unit, now)
    prompt = unit.prompts.revise(
        prompt.id, facts={**facts, "report": report_id, "step": END}, expects_text=False
    )
    return [*consequences(report_id, person, unit, now), shown(prompt, unit, now)]
