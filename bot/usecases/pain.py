"""Pain: asked in three taps or said in one line, kept, answered."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Person, Tap
from bot.render import pain as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import pain_answers as answers
from bot.usecases.pain_consequences import consequences
from bot.usecases.pain_questions import (
    END,
    FEVER,
    KIND,
    TOOK,
    WHEN,
    asked,
    edited,
    shown,
    side_of,
)
from bot.usecases.pain_reports import (
    FELT,
    NERVE_SITES,
    SIDES,
    SITES,
    UNSIDED,
    Hurt,
    asks_after_birth,
    asks_feel,
    asks_took,
    keep,
)
from bot.usecases.pain_words import names_signs, spoken
from bot.usecases.reply_context import at_cursor
from bot.usecases.typed_words import is_bare_number
from core.checkin.reading import BodyRead
from core.checkin.training_log import Item, Session
from core.local_time import local_date
from core.programme.exercises import Site

__all__ = ["Hurt", "begin", "refreshed", "said", "signs_said", "tapped", "told", "typed_score"]


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
    return [asked(facts, "site", session_id, person, unit, now)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the next answer: site, side, score, what it feels like, what was taken, when."""
    facts = dict(prompt.facts)
    if "report" in facts:
        return _more(tap, facts, prompt, person, unit, now)
    code, site = divmod(tap.argument, say.SITE_CODES)
    match tap.action:
        case Action.PICK if facts.get("step") != "morning":
            return _next("wide", facts, prompt, unit, now)
        case Action.FEEL if tap.argument == say.AFTER_BIRTH and facts.get("step") in ("site", "wide"):
            facts |= {"site": SITES.index(Site.ABDOMEN), "birth": True}
            return answers.signs(facts, prompt, person, unit, now)
        case Action.SITE if site < len(SITES) and code in (0, 1, 2):
            sided = {"side": code} if code else {}
            facts = {**facts, "site": site, **sided}
            if not code and SITES[site] not in UNSIDED:
                return _next("side", facts, prompt, unit, now)
        case Action.SIDE if "site" in facts and tap.argument in SIDES:
            facts["side"] = tap.argument
        case Action.SCORE if "site" in facts and tap.argument <= 10:
            return answers.scored(tap.argument, facts, prompt, person, unit, now)
        case Action.CANCEL if facts.get("step") != "morning":
            unit.prompts.close(prompt.id, now)
            return [edited(prompt, say.never_mind())]
        case _:
            return refreshed(prompt, person, unit, now)
    if "given" in facts:
        return answers.scored(facts["given"], facts, prompt, person, unit, now)
    return _next("score", facts, prompt, unit, now)


def _more(
    tap: Tap, facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Take an answer about a report that is kept already; about one that was taken back there is none."""
    if not unit.body.stands(facts["report"]):
        unit.prompts.close(prompt.id, now)
        return [edited(prompt, say.taken_back())]
    step = facts.get("step")
    most = FEVER if SITES[facts["site"]] in NERVE_SITES else FEVER - 1
    match tap.action:
        case Action.SCORE if step == "score" and tap.argument <= 10:
            return answers.scored(tap.argument, facts, prompt, person, unit, now)
        case Action.FEEL if step == "feel" and tap.argument <= most:
            return answers.felt_as(tap.argument, facts, prompt, person, unit, now)
        case Action.TOOK if step == TOOK and tap.argument < len(answers.ANSWERS):
            return answers.took(tap.argument, facts, prompt, person, unit, now)
        case Action.WHEN if step in (TOOK, END) and tap.argument == len(FELT):
            return answers.when(None, facts, prompt, person, unit, now)
        case Action.WHEN if step == WHEN and tap.argument < len(FELT):
            return answers.when(tap.argument, facts, prompt, person, unit, now)
        case _:
            return refreshed(prompt, person, unit, now)


def _next(step: str, facts: dict[str, Any], prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    prompt = unit.prompts.revise(prompt.id, facts={**facts, "step": step})
    if step == "score":
        unit.prompts.expect_text(prompt)
    return [shown(prompt, unit, now)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the open question again; an answered one stays as it is."""
    if prompt.closed_at is not None or prompt.facts.get("step") == END:
        return []
    return [shown(prompt, unit, now)]


def typed_score(text: str, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take a typed answer to the open question about pain; None for anything else.

    A score is `4`, `4/10`, `about 4`; the other steps take the words of their buttons. A morning is answered by a reply
    to its message at any time, and by a bare number only while no session of the day is going on.
    """
    prompt = _open_for(person, unit, now)
    if prompt is None:
        return None
    heard = spoken(text, prompt, unit)
    if heard is None:
        in_session = unit.sessions.open_one(prompt.client_id or 0) is not None
        asks_again = (
            prompt.facts.get("step") in ("score", "morning") and is_bare_number(text) and not in_session
        )
        return [replace(shown(prompt, unit, now), moved=True)] if asks_again else None
    message_id = person.arrival.message_id if person.arrival else None
    facts = dict(prompt.facts)
    match heard:
        case ("score", score):
            effects = answers.scored(score, facts, prompt, person, unit, now, message_id)
        case ("feel", kind):
            effects = answers.felt_as(kind, facts, prompt, person, unit, now)
        case ("took", answer):
            effects = answers.took(answer, facts, prompt, person, unit, now)
        case (_, felt):
            effects = answers.when(felt, facts, prompt, person, unit, now)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]


def signs_said(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take the signs of the year after a birth as words, as their button takes them; None for other words."""
    if not names_signs(text) or not asks_after_birth(client, unit, local_date(now, client.zone or "UTC")):
        return None
    found = unit.prompts.newest_of(person.user_id, KIND)
    is_asked = found is not None and found.closed_at is None and found.facts.get("step") in ("site", "wide")
    session = unit.sessions.open_one(client.id)
    item = at_cursor(session, unit)
    begun = session is not None and session.state != "sent"
    facts: dict[str, Any] = {
        "item": item.id if item is not None and begun else 0,
        "site": SITES.index(Site.ABDOMEN),
        "birth": True,
        "score": None,
    }
    if found is not None and is_asked:
        effects = answers.signs({**found.facts, **facts}, found, person, unit, now)
        return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]
    session_id, item_id = (session.id if session is not None else None), facts["item"] or None
    hurt = Hurt(Site.ABDOMEN, None, None, session_id, item_id, after_birth=True)
    report_id = keep(hurt, person, unit, now, person.arrival.message_id if person.arrival else None)
    effects = consequences(report_id, person, unit, now)
    return [*effects, asked({**facts, "report": report_id}, END, session_id, person, unit, now)]


def _open_for(person: Person, unit: Unit, now: datetime) -> Prompt | None:
    """Return the question that typed words answer: the one that they reply to, or else the one that waits for some."""
    arrival = person.arrival
    card = unit.cards.card_at(person.chat_id, arrival.reply_to) if arrival and arrival.reply_to else None
    if card is not None and card.key.startswith("pain:"):
        replied = unit.prompts.get(int(card.key.removeprefix("pain:")))
        if replied is not None and replied.user_id == person.user_id and replied.closed_at is None:
            return replied if _stands(replied, unit) else None
    found = unit.prompts.expecting_text(person.user_id)
    if found is None or found.kind != KIND or not _stands(found, unit):
        return None
    if found.facts.get("step") != "morning":
        return found
    today = local_date(now, unit.clients.get(person.client_id or 0).zone or "UTC")
    begun = unit.sessions.of_client(person.client_id or 0, ("started", "asking"))
    return None if any(each.local_on == today for each in begun) else found


def _stands(prompt: Prompt, unit: Unit) -> bool:
    report = prompt.facts.get("report")
    return report is None or unit.body.stands(report)


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
    report_id = keep(hurt, person, unit, now, message_id)
    effects = consequences(report_id, person, unit, now)
    facts: dict[str, Any] = {
        "item": hurt.item_id or 0,
        "site": SITES.index(hurt.site),
        "side": side_of(hurt.side),
        "report": report_id,
        "score": hurt.score or 0,
    }
    if hurt.score is None:
        step = "score"
    elif asks_feel(hurt):
        step = "feel"
    else:
        client = unit.clients.get(person.client_id or 0)
        step = TOOK if asks_took(unit.body.get(report_id), client, unit, now) else END
    return [*effects, asked(facts, step, hurt.session_id, person, unit, now)]
