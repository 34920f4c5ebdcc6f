"""Pain: asked in three taps or said in one line, kept, answered, and told to the coach."""

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from bot.messages import Action, Cancel, EditCard, Effect, Lane, Level, Message, Person, Send, Tap, Tell
from bot.render import pain as say
from bot.store.body import NewReport
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.closing import after_feel, close, onward
from bot.usecases.stop_signs import release_button
from core.checkin.pain import (
    Band,
    Felt,
    PainAction,
    PainReport,
    alert_level,
    band,
    flares,
    in_session_action,
)
from core.checkin.training_log import Item
from core.local_time import local_date
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Side, Site

SITES = tuple(Site)
UNSIDED = frozenset({Site.NECK, Site.UPPER_BACK, Site.LOW_BACK, Site.CHEST, Site.ABDOMEN})
NERVE_SITES = frozenset({Site.NECK, Site.UPPER_BACK, Site.LOW_BACK})
SIDES: dict[int, str | None] = {1: "L", 2: "R", 3: None}
OPEN = ("sent", "started", "asking")


@dataclass(frozen=True, slots=True)
class Hurt:
    """What is said to hurt; `score` None while no number was given."""

    site: Site
    side: str | None
    score: int | None
    session_id: int | None = None
    item_id: int | None = None
    sudden: bool = False
    spreading: bool = False


def begin(
    person: Person, unit: Unit, now: datetime, *, session_id: int | None, item: Item | None
) -> list[Effect]:
    """Ask where it hurts. The question is a message of its own, so that the session card stays."""
    prompt = unit.prompts.open(
        "pain",
        person.user_id,
        person.chat_id,
        now,
        client_id=person.client_id,
        subject=session_id,
        facts={"item": item.id if item else 0},
    )
    key = f"pain:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    likely = CATALOGUE[item.exercise].loads_sites if item else frozenset()
    return [
        Send(
            person.chat_id,
            say.ask_site(prompt, SITES, likely),
            key=f"{key}:ask",
            card=key,
            client_id=person.client_id,
        )
    ]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the next answer: site, side, score, and what it feels like."""
    facts = dict(prompt.facts)
    match tap.action:
        case Action.SITE if tap.argument < len(SITES):
            facts["site"] = tap.argument
            step = "score" if SITES[tap.argument] in UNSIDED else "side"
        case Action.SIDE if "site" in facts and tap.argument in SIDES:
            facts["side"] = tap.argument
            step = "score"
        case Action.SCORE if "site" in facts and tap.argument <= 10:
            return _scored(tap.argument, facts, prompt, person, unit, now)
        case Action.FEEL if "report" in facts and tap.argument <= 2:
            return _felt(tap.argument, facts, prompt, person, unit, now)
        case Action.CANCEL if "report" not in facts:
            unit.prompts.close(prompt.id, now)
            return [_edit(prompt, say.never_mind())]
        case _:
            return refreshed(prompt, person, unit, now)
    prompt = unit.prompts.revise(prompt.id, facts={**facts, "step": step})
    site = SITES[facts["site"]]
    shown = say.ask_side(prompt, site) if step == "side" else say.ask_score(prompt, _named(facts))
    return [_edit(prompt, shown)]


def _named(facts: dict[str, Any]) -> str:
    return say.place_words(SITES[facts["site"]], SIDES.get(facts.get("side", 3)))


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the open question again; an answered one stays as it is."""
    if prompt.closed_at is not None:
        return []
    facts = prompt.facts
    match facts.get("step"):
        case "side":
            shown = say.ask_side(prompt, SITES[facts["site"]])
        case "score":
            shown = say.ask_score(prompt, _named(facts))
        case "feel":
            shown = say.ask_feel(prompt, _named(facts))
        case _:
            shown = say.ask_site(prompt, SITES, frozenset())
    return [_edit(prompt, shown)]


def _edit(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(
        prompt.card_key or f"pain:{prompt.id}", prompt.chat_id, message, client_id=prompt.client_id
    )


def _scored(
    score: int, facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    site = SITES[facts["site"]]
    hurt = Hurt(site, SIDES.get(facts.get("side", 3)), score, prompt.subject, facts.get("item") or None)
    if "report" in facts:
        unit.body.void(facts["report"], "answered", now)
    report_id = keep(hurt, person, unit, now)
    asks = score > 0 and (site in NERVE_SITES or score >= 7)
    facts = {**facts, "report": report_id, "score": score, "step": "feel" if asks else "end"}
    prompt = unit.prompts.revise(prompt.id, facts=facts)
    if not asks:
        unit.prompts.close(prompt.id, now)
    answer = say.ask_feel(prompt, _named(facts)) if asks else _noted(report_id, unit)
    return [*consequences(report_id, person, unit, now), _edit(prompt, answer)]


def _felt(
    kind: int, facts: dict[str, Any], prompt: Prompt, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    unit.prompts.close(prompt.id, now)
    site, side, score = SITES[facts["site"]], SIDES.get(facts.get("side", 3)), facts["score"]
    if kind == 0:
        return [_edit(prompt, _noted(facts["report"], unit))]
    hurt = Hurt(
        site,
        side,
        score,
        prompt.subject,
        facts.get("item") or None,
        sudden=kind == 2,
        spreading=kind == 1,
    )
    unit.body.void(facts["report"], "answered", now)
    report_id = keep(hurt, person, unit, now)
    return [
        *consequences(report_id, person, unit, now),
        _edit(prompt, _noted(report_id, unit)),
    ]


def keep(hurt: Hurt, person: Person, unit: Unit, now: datetime, message_id: int | None = None) -> int:
    """Keep a report of pain."""
    client = unit.clients.get(person.client_id or 0)
    item = unit.sessions.item(hurt.item_id) if hurt.item_id else None
    return unit.body.add(
        client.id,
        NewReport(
            kind="pain",
            local_on=local_date(now, client.zone or "UTC"),
            at=now,
            session_id=hurt.session_id,
            item_id=hurt.item_id,
            exercise=item.exercise if item else None,
            site=hurt.site.value,
            side=hurt.side,
            score=hurt.score,
            when_felt=Felt.DURING.value if hurt.session_id else Felt.AFTER.value,
            sudden=hurt.sudden,
            spreading=hurt.spreading,
            message_id=message_id,
        ),
    )


def _noted(report_id: int, unit: Unit) -> Message:
    return say.noted(unit.body.get(report_id).as_pain())


GROWTH = {Band.NONE: 0, Band.LOW: 1, Band.MIDDLE: 2, Band.HIGH: 3}


def consequences(report_id: int, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Return what a report changes at once: the session, what is queued, and the coach's knowing."""
    kept = unit.body.get(report_id)
    report = kept.as_pain()
    if band(report) is Band.NONE:
        return []
    client = unit.clients.get(kept.client_id)
    action = in_session_action(report)
    level = Level(int(alert_level(report)))
    stops = action is PainAction.STOP_SESSION
    effects: list[Effect] = []
    if flares(report):
        effects.append(Cancel(client.id))
    if level is Level.NOW:
        words = say.stop_here(spreading=report.spreading and not stops)
        effects.append(Send(person.chat_id, words, key=f"pain-stop:{report_id}", lane=Lane.SAFETY))
    side = report.side.value if report.side else None
    effects.append(
        Tell(
            client.id,
            key=f"pain:{client.id}:{report.site.value}:{side or ''}",
            grown=GROWTH[band(report)] + (1 if report.spreading else 0),
            level=level,
            message=say.alert(
                client.name,
                report,
                exercise=_exercise_name(report),
                rows=release_button(client.id, unit, now) if level is Level.NOW else (),
            ),
        )
    )
    return [*effects, *_session_effects(kept.session_id, action, person, unit, now)]


def _exercise_name(report: PainReport) -> str | None:
    return CATALOGUE[report.exercise].name if report.exercise else None


def _session_effects(
    session_id: int | None, action: PainAction, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    session = unit.sessions.get(session_id) if session_id is not None else None
    if session is None or session.state not in OPEN:
        return []
    if action is PainAction.STOP_SESSION:
        for item in unit.sessions.items(session.id):
            if item.state == "open":
                unit.sessions.change_item(item.id, state="skipped", cause="pain")
        return close(session.id, person, unit, now)
    if action is PainAction.STOP_EXERCISE and session.cursor_item_id is not None:
        unit.sessions.change_item(session.cursor_item_id, state="skipped", cause="pain")
        return onward(session.id, person=person, unit=unit, now=now)
    return after_feel(session.id, person, unit, now) if session.state == "asking" else []


def answer_score(score: int, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take a typed number for the open question of a score."""
    tap = Tap(prompt.id, prompt.revision, Action.SCORE, score)
    effects = tapped(tap, prompt, person, unit, now)
    return [replace(each, moved=True) if isinstance(each, EditCard) else each for each in effects]


def said(hurt: Hurt, person: Person, unit: Unit, now: datetime, message_id: int | None) -> list[Effect]:
    """Take a report that was typed in one line; without a number it counts as 4-6 and the number is asked."""
    report_id = keep(hurt, person, unit, now, message_id)
    effects = consequences(report_id, person, unit, now)
    asks = hurt.score is None or (hurt.score > 0 and (hurt.site in NERVE_SITES or hurt.score >= 7))
    if not asks:
        answer = _noted(report_id, unit)
        return [*effects, Send(person.chat_id, answer, key=f"pain-noted:{report_id}")]
    code = next(number for number, side in SIDES.items() if side == hurt.side)
    facts: dict[str, Any] = {
        "item": hurt.item_id or 0,
        "site": SITES.index(hurt.site),
        "side": code,
        "report": report_id,
        "step": "score" if hurt.score is None else "feel",
        "score": hurt.score or 0,
    }
    prompt = unit.prompts.open(
        "pain",
        person.user_id,
        person.chat_id,
        now,
        client_id=person.client_id,
        subject=hurt.session_id,
        facts=facts,
        expects_text=hurt.score is None,
    )
    key = f"pain:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    place = say.place_words(hurt.site, hurt.side)
    question = say.ask_score(prompt, place) if hurt.score is None else say.ask_feel(prompt, place)
    return [*effects, Send(person.chat_id, question, key=f"{key}:ask", card=key, client_id=person.client_id)]


def side_of(side: Side | None) -> str | None:
    """Return how a side is kept."""
    return side.value if side else None
