"""The question about pain as it stands on its card: what is asked next, and what was kept."""

from datetime import date, datetime
from typing import Any

from bot.messages import EditCard, Message, Person, Send
from bot.render import morning as say_morning
from bot.render import pain as say
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.pain_reports import (
    FELT,
    NERVE_SITES,
    SIDES,
    SITES,
    UNSIDED,
    Hurt,
    asks_after_birth,
    is_training,
    known_until,
)
from core.checkin.cues import cue_at
from core.checkin.pain import Band, band
from core.loads.go_ahead import goes_on
from core.local_time import local_date
from core.programme.exercises import Side

KIND = "pain"
NONE, SPREADING, SUDDEN, WEAK, FEVER = range(5)
"""What it feels like, as it stands on buttons."""
END, TOOK, WHEN = "end", "took", "when"
"""Steps after the report is kept: nothing more to ask; whether something was taken; when it was felt."""


def asked(
    facts: dict[str, Any],
    step: str,
    session_id: int | None,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    unasked: bool = False,
) -> Send:
    """Open a question about pain, as a message of its own."""
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=person.client_id,
        subject=session_id,
        facts={**facts, "step": step},
        expects_text=step in ("score", "morning"),
    )
    key = f"pain:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    if step in (TOOK, "feel"):
        expect_words(prompt, unit)
    return Send(
        person.chat_id,
        question(prompt, unit, now),
        key=f"{key}:ask",
        card=key,
        client_id=person.client_id,
        unasked=unasked,
    )


def expect_words(prompt: Prompt, unit: Unit) -> None:
    """Have typed words answer this question, where no other waits for some."""
    other = unit.prompts.expecting_text(prompt.user_id)
    if other is None or other.kind == KIND:
        unit.prompts.expect_text(prompt)


def shown(prompt: Prompt, unit: Unit, now: datetime) -> EditCard:
    """Show the question as it stands."""
    return edited(prompt, question(prompt, unit, now))


def edited(prompt: Prompt, message: Message) -> EditCard:
    """Show something on the card of a question."""
    return EditCard(
        prompt.card_key or f"pain:{prompt.id}", prompt.chat_id, message, client_id=prompt.client_id
    )


def question(prompt: Prompt, unit: Unit, now: datetime) -> Message:
    """Return the open question as it stands."""
    facts = prompt.facts
    match facts.get("step"):
        case "side":
            return say.ask_side(prompt, SITES[facts["site"]])
        case "score":
            return say.ask_score(prompt, named(facts))
        case "morning":
            return say_morning.ask(prompt, named(facts), date.fromisoformat(facts["before"]))
        case "feel":
            return say.ask_feel(prompt, named(facts), spine=SITES[facts["site"]] in NERVE_SITES)
        case "when":
            return say.ask_when(prompt, named(facts))
        case "wide":
            return say.ask_any_site(prompt, SITES)
        case "took" | "end":
            return noted(prompt, unit)
        case _:
            return _where(prompt, unit, now)


def _where(prompt: Prompt, unit: Unit, now: datetime) -> Message:
    item = unit.sessions.item(prompt.facts["item"]) if prompt.facts.get("item") else None
    likely = unit.exercises.get(item.exercise).loads_sites if item else frozenset()
    client = unit.clients.get(prompt.client_id or 0)
    signs = asks_after_birth(client, unit, local_date(now, client.zone or "UTC"))
    return say.ask_site(prompt, SITES, likely, UNSIDED, after_birth=signs)


def named(facts: dict[str, Any]) -> str:
    """Return the place that a question is about, in words."""
    return say.place_words(SITES[facts["site"]], SIDES[facts.get("side", 3)])


def hurt_of(facts: dict[str, Any], prompt: Prompt) -> Hurt:
    """Return what the answers so far say."""
    kind = facts.get("kind", NONE)
    felt = facts.get("felt")
    return Hurt(
        SITES[facts["site"]],
        SIDES[facts.get("side", 3)],
        facts["score"],
        prompt.subject,
        facts.get("item") or None,
        sudden=kind == SUDDEN,
        spreading=kind == SPREADING,
        weak=kind == WEAK,
        fever=kind == FEVER,
        after_birth=bool(facts.get("birth")),
        painkiller=bool(facts.get("painkiller")),
        felt=FELT[felt] if felt is not None else None,
        answers_to=facts.get("answers"),
        exercise=facts.get("exercise"),
        on=date.fromisoformat(facts["on"]) if facts.get("on") else None,
    )


def noted(prompt: Prompt, unit: Unit) -> Message:
    """Say what was kept, with what is still asked under it."""
    kept = unit.body.get(prompt.facts["report"])
    report, known = known_until(kept, unit)
    cue = cue_at(unit.cues.for_client(kept.client_id), report)
    said_before = any(
        (each.local_on, each.site, each.side, each.exercise)
        == (kept.local_on, kept.site, kept.side, kept.exercise)
        and each.id < kept.id
        and band(each.as_pain()) is Band.LOW
        for each in unit.body.since(kept.client_id, kept.local_on)
    )
    message = say.noted(
        report,
        training=is_training(prompt.subject, unit),
        cue=None if said_before else cue,
        goes_on=goes_on(report, unit.go_aheads.allowed(kept.client_id), known),
    )
    if report.score == 0 or report.after_birth:
        return message
    return say.with_more(message, prompt, took=prompt.facts.get("step") == TOOK)


def side_of(side: Side | str | None) -> int:
    """Return the number of a side on a button."""
    return next(number for number, known in SIDES.items() if known == side)
