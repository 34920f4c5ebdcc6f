"""Pain: asked in three taps or said in one line, kept, answered."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import pain as say
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.pain_consequences import consequences, stop_words
from bot.usecases.pain_reports import SIDES, SITES, UNSIDED, Hurt, asks_feel, is_training, keep
from core.checkin.cues import cue_at
from core.checkin.reading import BodyRead, Context
from core.checkin.replies import read_reply
from core.checkin.training_log import Item, Session

__all__ = ["Hurt", "begin", "refreshed", "said", "tapped", "told", "typed_score"]


def begin(
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    session_id: int | None,
    item: Item | None,
    score: int | None = None,
) -> list[Effect]:
    """Ask where it hurts. The question is a message of its own, so that the session card stays.

    Args:
        person: Whom.
        unit: Open transaction.
        now: Instant.
        session_id: Session it is about, if any.
        item: Exercise that is open, if any; the sites that it loads are offered first.
        score: A number that was said already; it is not asked again.
    """
    facts: dict[str, Any] = {"item": item.id if item else 0}
    if score is not None:
        facts["given"] = score
    return [_asked(facts, "site", session_id, person, unit, now)]


def _asked(
    facts: dict[str, Any], step: str, session_id: int | None, person: Person, unit: Unit, now: datetime
) -> Effect:
    """Open a question about pain."""
    prompt = unit.prompts.open(
        "pain",
        person.user_id,
        person.chat_id,
        now,
        client_id=person.client_id,
        subject=session_id,
        facts={**facts, "step": step},
        expects_text=step == "score",
    )
    key = f"pain:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    return Send(
        person.chat_id, _question(prompt, unit), key=f"{key}:ask", card=key, client_id=person.client_id
    )


def _question(prompt: Prompt, unit: Unit) -> Message:
    """Return the open question as it stands."""
    facts = prompt.facts
    match facts.get("step"):
        case "side":
            return say.ask_side(prompt, SITES[facts["site"]])
        case "score":
            return say.ask_score(prompt, _named(facts))
        case "feel":
            return say.ask_feel(prompt, _named(facts))
        case "wide":
            return say.ask_any_site(prompt, SITES)
        case _:
            item = unit.sessions.item(facts["item"]) if facts.get("item") else None
            likely = unit.exercises.get(item.exercise).loads_sites if item else frozenset()
            return say.ask_site(prompt, SITES, likely, UNSIDED)


def _named(facts: dict[str, Any]) -> str:
    return say.place_words(SITES[facts["site"]], SIDES[facts.get("side", 3)])


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the next answer: site, side, score, and what it feels like."""
    facts = dict(prompt.facts)
    code, site = divmod(tap.argument, say.SITE_CODES)
    match tap.action:
        case Action.PICK:
            return _next("wide", facts, prompt, unit)
        case Action.SITE if site < len(SITES) and code in (0, 1, 2) and "report" not in facts:
            sided = {"side": code} if code else {}
            facts = {**facts, "site": site, **sided}
            if not code and SITES[site] not in UNSIDED:
                return _next("side", facts, prompt, unit)
        case Action.SIDE if "site" in facts and "report" not in facts and tap.argument in SIDES:
            facts["side"] = tap.argument
        case Action.SCORE if "site" in facts and tap.argument <= 10:
            return _scored(tap.argument, facts, prompt, person, unit, now)
        case Action.FEEL if "report" in facts and tap.argument <= 2:
            return _felt(tap.argument, facts, prompt, person, unit, now)
        case Action.CANCEL if "report" not in facts:
            unit.prompts.close(prompt.id, now)
            return [_edit(prompt, say.never_mind())]
        case _:
            return refreshed(prompt, person, unit, now)
    if "given" in facts:
        return _scored(facts["given"], facts, prompt, person, unit, now)
    return _next("score", facts, prompt, unit)


def _next(step: str, facts: dict[str, Any], prompt: Prompt, unit: Unit) -> list[Effect]:
    prompt = unit.prompts.revise(prompt.id, facts={**facts, "step": step})
    if step == "score":
        unit.prompts.expect_text(prompt)
    return [_edit(prompt, _question(prompt, unit))]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the open question again; an answered one stays as it is."""
    return [] if prompt.closed_at is not None else [_edit(prompt, _question(prompt, unit))]


def _edit(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(
        prompt.card_key or f"pain:{prompt.id}", prompt.chat_id, message, client_id=prompt.client_id
    )


def _hurt(facts: dict[str, Any], prompt: Prompt, score: int, kind: int = 0) -> Hurt:
    side = SIDES[facts.get("side", 3)]
    item_id = facts.get("item") or None
    return Hurt(
        SITES[facts["site"]], side, score, prompt.subject, item_id, sudden=kind == 2, spreading=kind == 1
    )


def _scored(
    score: int,
    facts: dict[str, Any],
    prompt: Prompt,
    person: Person,
    unit: Unit,
    now: datetime,
    message_id: int | None = None,
) -> list[Effect]:
    hurt = _hurt(facts, prompt, score)
    training = is_training(prompt.subject, unit)
    if "report" in facts:
        unit.body.void(facts["report"], "answered", now)
    report_id = keep(hurt, person, unit, now, message_id)
    asks = asks_feel(hurt)
    facts = {**facts, "report": report_id, "score": score, "step": "feel" if asks else "end"}
    prompt = unit.prompts.revise(prompt.id, facts=facts, expects_text=False)
    if not asks:
        unit.prompts.close(prompt.id, now)
    answer = _question(prompt, unit) if asks else _noted(report_id, training, unit)
    return [*consequences(report_id, person, unit, now), _edit(prompt, answer)]


def _felt(
    kind: int, facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    unit.prompts.close(prompt.id, now)
    before = unit.body.get(facts["report"])
    training = is_training(prompt.subject, unit)
    if kind == 0:
        return [_edit(prompt, _noted(before.id, training, unit))]
    unit.body.void(before.id, "answered", now)
    report_id = keep(_hurt(facts, prompt, facts["score"], kind), person, unit, now)
    told_already = stop_words(before.as_pain())
    return [
        *consequences(report_id, person, unit, now, told_already=told_already),
        _edit(prompt, _noted(report_id, training, unit)),
    ]


def _noted(report_id: int, training: bool, unit: Unit) -> Message:
    kept = unit.body.get(report_id)
    report = kept.as_pain()
    return say.noted(report, training=training, cue=cue_at(unit.cues.for_client(kept.client_id), report))


def typed_score(text: str, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a typed number for the open question of a score: `4`, `4/10`, `about 4`; None for anything else."""
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is None or prompt.kind != "pain" or prompt.facts.get("step") != "score":
        return None
    reading = read_reply(text, Context(open_question="pain score"))
    scores = [each.score for each in reading.pain if each.site is None and each.score is not None]
    if reading.ask or reading.stop_sign or not scores:
        return None
    message_id = person.arrival.message_id if person.arrival else None
    effects = _scored(scores[0], dict(prompt.facts), prompt, person, unit, now, message_id)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]


def told(
    reports: Sequence[BodyRead],
    session: Session | None,
    item: Item | None,
    person: Person,
    unit: Unit,
    now: datetime,
    message_id: int | None,
) -> list[Effect]:
    """Take what a reply says of pain, site by site."""
    begun = session is not None and session.state != "sent"
    effects: list[Effect] = []
    for each in reports:
        if each.site is not None:
            hurt = Hurt(
                each.site,
                each.side.value if each.side else None,
                each.score,
                session.id if session else None,
                item.id if item is not None and begun else None,
            )
            effects += said(hurt, person, unit, now, message_id)
    return effects


def said(hurt: Hurt, person: Person, unit: Unit, now: datetime, message_id: int | None) -> list[Effect]:
    """Take a report that was typed in one line; without a number it counts as 4-6 and the number is asked."""
    training = is_training(hurt.session_id, unit)
    report_id = keep(hurt, person, unit, now, message_id)
    effects = consequences(report_id, person, unit, now)
    if hurt.score is not None and not asks_feel(hurt):
        answer = _noted(report_id, training, unit)
        return [*effects, Send(person.chat_id, answer, key=f"pain-noted:{report_id}")]
    facts: dict[str, Any] = {
        "item": hurt.item_id or 0,
        "site": SITES.index(hurt.site),
        "side": next(number for number, side in SIDES.items() if side == hurt.side),
        "report": report_id,
        "score": hurt.score or 0,
    }
    step = "score" if hurt.score is None else "feel"
    return [*effects, _asked(facts, step, hurt.session_id, person, unit, now)]
